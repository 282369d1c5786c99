// Recalculation while typing: the form is posted to its own address with the
// header X-Live, which saves nothing; the elements with data-live are taken out
// of the answer by their id. Inputs are never touched. An answer that comes late
// is dropped; when none comes the last good one stays and is marked.
const form = document.querySelector("form[data-live-form]");
let timer, running, sent = 0, seen = 0;

function stale(on) {
  for (const el of document.querySelectorAll("[data-live]")) el.classList.toggle("stale", on);
}

// The place of an element that comes again in the next answer.
function place(el) {
  const up = el.parentElement.closest("[id]");
  return { id: up.id, tag: el.tagName, n: [...up.querySelectorAll(el.tagName)].indexOf(el) };
}
const at = (p) => document.getElementById(p.id)?.querySelectorAll(p.tag)[p.n];

// swap takes the live elements of a page, but for one in which somebody types.
// Drawers stay as they are, and the focus where it is.
export function swap(text) {
  const fresh = new DOMParser().parseFromString(text, "text/html");
  for (const el of document.querySelectorAll("[data-live][id]")) {
    const other = fresh.getElementById(el.id), on = document.activeElement;
    const inside = el.contains(on) && on !== el;
    if (!other || inside && on.matches("input,select,textarea") || el.innerHTML === other.innerHTML) continue;
    const drawers = [...el.querySelectorAll("details")].map((d) => [place(d), d.open]);
    const focus = inside && place(on);
    el.replaceChildren(...document.importNode(other, true).childNodes);
    for (const [p, open] of drawers) { const d = at(p); if (d) d.open = open; }
    if (focus) at(focus)?.focus({ preventScroll: true });
  }
  for (const el of form?.querySelectorAll("[aria-describedby]") ?? []) {
    const bad = !!document.getElementById(el.getAttribute("aria-describedby"))?.querySelector(".err");
    el.classList.toggle("bad", bad);
    if (bad) el.setAttribute("aria-invalid", "true"); else el.removeAttribute("aria-invalid");
  }
  document.dispatchEvent(new Event("swapped"));
}

// ask fetches the page as it would be with what is typed; where nothing is, as it is.
export async function ask() {
  running?.abort();
  running = new AbortController();
  const mine = ++sent;
  const how = { signal: running.signal };
  if (form) Object.assign(how, { method: "POST", headers: { "X-Live": "1" }, body: new URLSearchParams(new FormData(form)) });
  try {
    const answer = await fetch(form?.getAttribute("action") ?? location.href, how);
    const text = await answer.text();
    if (mine < seen) return;
    if (!answer.ok) throw new Error(answer.status);
    seen = mine;
    swap(text);
    stale(false);
  } catch (err) {
    if (err.name !== "AbortError" && mine === sent) stale(true);
  }
}

if (form) {
  form.addEventListener("input", () => { clearTimeout(timer); timer = setTimeout(ask, 120); });
  form.addEventListener("submit", () => { clearTimeout(timer); running?.abort(); });
}
