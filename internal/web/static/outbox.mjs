// What is typed while the server does not answer stays in this browser. A form
// that was kept waits, with the revision it was typed on, and is sent when the
// server answers again; what was not kept is offered again after a reload.
const said = document.getElementById("said"), store = localStorage;
const form = document.querySelector("[data-live-form],[data-both]");
const action = form && new URL(form.getAttribute("action"), location).href;
const base = form?.elements[":base"], key = "draft " + action;
let busy, bare, kept, sending;

const make = (tag, props, ...inside) => {
  const el = Object.assign(document.createElement(tag), props);
  el.append(...inside);
  return el;
};
const asks = make("div"), count = make("p", { role: "status" });
said.append(asks, count);

const waiting = () => Object.keys(store).filter((k) => k.startsWith("unsent ")).sort().map((k) => JSON.parse(store[k]));
const put = (e) => { store[e.key] = JSON.stringify(e); };
const post = (e) => fetch(e.action, { method: "POST", headers: { "X-Sent": "1" }, body: new URLSearchParams(e.body), signal: AbortSignal.timeout(15000) });

// The boxes in which something else stands than the page came with.
const changed = () => [...form.elements].filter((el) => el.name && !/hidden|submit/.test(el.type) && (el.options ?
  (el.querySelector("[selected]") ?? el[0]) !== el[el.selectedIndex] : el.type === "radio" ? el.checked && !el.defaultChecked : el.value !== el.defaultValue));
const words = (list) => list.map(([el, v]) => [el.closest("fieldset")?.querySelector("legend")?.firstChild.data.trim(), el.ariaLabel ?? el.labels?.[0]?.innerText.trim(), v].filter(Boolean).join(" ")).join("; ");

function show(done) {
  const all = waiting(), n = all.reduce((sum, e) => sum + e.names.length, 0);
  count.textContent = n ? `Not sent yet, on this tablet: ${n}.` : done ? "All is sent." : "";
  asks.replaceChildren(...all.filter((e) => e.asks).map((e) => make("form", { method: "post", action: e.action }, `The server asks about what was typed here: ${e.words}.`,
    ...[...new URLSearchParams(e.body)].map(([name, value]) => make("input", { type: "hidden", name, value })), make("button", { className: "act small", textContent: "Look at it" }))));
  for (const el of document.querySelectorAll(".unsent")) el.remove();
  for (const el of form?.elements ?? []) {
    const on = all.some((e) => e.action === action && e.names.includes(el.name));
    if (el.classList.toggle("waits", on)) (el.closest(".unit") ?? el).after(make("span", { className: "unsent", textContent: "not sent yet, on this tablet" }));
  }
}

// After a form was sent late the page goes on; where more was typed since, its
// boxes go on from what is saved now.
async function landed(e, next) {
  const sent = new URLSearchParams(e.body);
  if ([...new FormData(form)].every(([name, v]) => sent.get(name) === v)) return location.assign(next);
  const fresh = new DOMParser().parseFromString(await (await fetch(action)).text(), "text/html");
  for (const el of form.elements) {
    const now = el.name && fresh.querySelector(`input[name="${CSS.escape(el.name)}"]`)?.value;
    if (now === undefined || el.type === "radio") continue;
    if (el.value === sent.get(el.name)) el.value = now;
    el.defaultValue = now;
  }
}

async function send() {
  if (sending) return;
  sending = true;
  let n = 0;
  try {
    for (const e of waiting()) {
      if (e.asks) continue;
      const answer = await post(e), next = answer.headers.get("X-Next");
      if (!next && answer.status > 499) break;
      if (!next) { put({ ...e, asks: answer.status }); continue; }
      delete store[e.key];
      n++;
      if (e.action === action && e.base === base?.value) await landed(e, next);
    }
  } catch {
    // later
  }
  sending = false;
  show(n);
}

function draft() {
  const values = kept ? [] : changed().map((el) => [el.name, el.value]);
  if (values.length) store[key] = JSON.stringify({ at: Date.now(), base: base.value, values });
  else delete store[key];
}

function offer() {
  const d = JSON.parse(store[key] ?? '{"values":[]}');
  const list = d.values.map(([name, v]) => [form.elements[name], v]).filter(([el, v]) => el?.name && el.value !== v);
  if (!list.length) return delete store[key];
  const act = (textContent, onclick) => make("button", { type: "button", className: "act", textContent, onclick: () => { bar.remove(); onclick(); } });
  const bar = make("section", { className: "block draft" }, `Typed here at ${new Date(d.at).toTimeString().slice(0, 5)} and not kept: ${words(list)}.`, make("p", { className: "row" }, act("Take it again", () => {
    // what was saved since is merged
    base.value = d.base;
    for (const [el, v] of list) el.value = v;
    form.dispatchEvent(new Event("input"));
  }), act("Drop it", () => delete store[key])));
  form.before(bar);
}

form?.addEventListener("submit", async (ev) => {
  if (bare) return;
  ev.preventDefault();
  if (busy) return;
  busy = true;
  const by = ev.submitter, body = new URLSearchParams(new FormData(form, by)), list = changed(), at = new Date().toISOString();
  const id = body.get(":sent") ?? crypto.getRandomValues(new Uint32Array(3)).join("-");
  body.set(":sent", id);
  const e = { key: "unsent " + at, action, base: base.value, names: list.map((el) => el.name), words: words(list.map((el) => [el, el.value])), body: String(body) };
  try {
    const next = (await post(e)).headers.get("X-Next");
    kept = Boolean(next);
    draft();
    // the page that answers is wanted
    bare = true;
    if (!next) return form.requestSubmit(by);
    for (const o of waiting()) if (o.body.includes(id)) delete store[o.key];
    location.assign(next);
  } catch {
    busy = false;
    if (by?.name === ":add") { count.textContent = "The server does not answer; what is typed stays here."; return; }
    if (by?.name === ":notread") e.names.push(by.value);
    body.set(":at", at);
    if (said.dataset.by) body.set(":signer", said.dataset.by);
    const old = waiting().filter((o) => o.action === action && o.base === e.base && !o.asks);
    try {
      put({ ...e, body: String(body) });
    } catch {
      count.textContent = "Not sent, and this browser cannot keep it: leave this page open.";
      return;
    }
    // the new one holds what they held
    for (const o of old) delete store[o.key];
    kept = true;
    draft();
    show();
  }
});
if (form?.matches("[data-live-form]")) {
  offer();
  form.addEventListener("input", () => { kept = false; draft(); });
}
addEventListener("online", send);
document.addEventListener("reached", send);
setInterval(send, 15000);
send();
