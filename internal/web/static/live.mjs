// Recalculation while typing: the form is posted to its own address with the
// header X-Live, which saves nothing; the elements with data-live are taken out
// of the answer by their id. Inputs are never touched. An answer that comes late
// is dropped; when none comes the last good one stays and is marked.
const form = document.querySelector("form[data-live-form]");
let timer, running, sent = 0, seen = 0;

function stale(on) {
  for (const el of document.querySelectorAll("[data-live]")) el.classList.toggle("stale", on);
}

function swap(text) {
  const fresh = new DOMParser().parseFromString(text, "text/html");
  for (const el of document.querySelectorAll("[data-live][id]")) {
    const other = fresh.getElementById(el.id);
    if (!other || el.contains(document.activeElement) || el.innerHTML === other.innerHTML) continue;
    const open = [...el.querySelectorAll("li[id] > details[open]")].map((d) => d.parentElement.id);
    el.replaceChildren(...document.importNode(other, true).childNodes);
    for (const id of open) {
      const d = document.getElementById(id)?.querySelector("details");
      if (d) d.open = true;
    }
  }
  for (const el of form.querySelectorAll("[aria-describedby]")) {
    const bad = Boolean(document.getElementById(el.getAttribute("aria-describedby"))?.querySelector(".err"));
    el.classList.toggle("bad", bad);
    if (bad) el.setAttribute("aria-invalid", "true"); else el.removeAttribute("aria-invalid");
  }
}

async function ask() {
  running?.abort();
  running = new AbortController();
  const mine = ++sent;
  try {
    const answer = await fetch(form.getAttribute("action"), { method: "POST", headers: { "X-Live": "1" }, signal: running.signal, body: new URLSearchParams(new FormData(form)) });
    const text = await answer.text();
    if (mine < seen) return;
    if (!answer.ok) throw new Error(String(answer.status));
    seen = mine;
    swap(text);
    stale(false);
  } catch (err) {
    if (err.name !== "AbortError" && mine === sent) stale(true);
  }
}

if (form) {
  form.addEventListener("input", () => { clearTimeout(timer); timer = setTimeout(ask, 120); });
  form.addEventListener("change", () => { clearTimeout(timer); timer = setTimeout(ask, 120); });
  form.addEventListener("submit", () => { clearTimeout(timer); running?.abort(); });
}
