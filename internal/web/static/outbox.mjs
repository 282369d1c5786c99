// What is typed while the server does not answer stays in this browser. A form
// that was kept waits, with the revision it was typed on, and is sent when the
// server answers again; what was not kept is offered again after a reload.
const doc = document, said = doc.getElementById("said"), store = localStorage, tab = sessionStorage;
const form = doc.querySelector("[data-live-form],[data-both]");
const action = form?.action, base = form?.elements[":base"], mine = "draft " + action, typing = form?.matches("[data-live-form]");
let busy, bare, kept, sending;

// The entry whose question this page answers.
const looked = tab.look;
delete tab.look;

const make = (tag, props, ...inside) => {
  const el = Object.assign(doc.createElement(tag), props);
  el.append(...inside);
  return el;
};
const key = (textContent, onclick) => make("button", { className: "act small", textContent, onclick });
const asks = make("div"), count = make("p", { role: "status" });
said.append(asks, count);

const waiting = () => Object.keys(store).filter((k) => k.startsWith("unsent ")).sort().map((k) => JSON.parse(store[k]));
const pairs = (from) => new URLSearchParams(from);
const put = (e) => { store[e.key] = JSON.stringify(e); };
const post = (e) => fetch(e.action, { method: "POST", headers: { "X-Sent": "1" }, body: pairs(e.body), signal: AbortSignal.timeout(15e3) });

// The boxes in which something else stands than the page came with.
const changed = () => [...form.elements].filter((el) => el.name && !/hidden|submit/.test(el.type) && (el.options ?
  (el.querySelector("[selected]") ?? el[0]) !== el[el.selectedIndex] : el.type === "radio" ? el.checked && !el.defaultChecked : el.value !== el.defaultValue));
const words = (list) => list.map(([el, v]) => [el.closest("fieldset")?.querySelector("legend")?.firstChild.data, el.ariaLabel ?? el.labels?.[0]?.innerText, v].filter(Boolean).join(" ")).join("; ");

function show(done) {
  const all = waiting(), n = all.reduce((sum, e) => sum + e.names.length, 0);
  count.textContent = n ? `Not sent yet, on this tablet: ${n}.` : done ? "All is sent." : "";
  asks.replaceChildren(...all.filter((e) => e.asks && e.key !== looked).map((e) => make("form", { method: "post", action: e.action }, `Typed here, and the server asks: ${e.words}.`,
    ...[...pairs(e.body)].map(([name, value]) => make("input", { type: "hidden", name, value })), key("Look at it", () => { tab.look = e.key; }), ...e.asks < 409 ? [key("Drop it", (ev) => { ev.preventDefault(); delete store[e.key]; show(); })] : [])));
  for (const el of doc.querySelectorAll(".unsent")) el.remove();
  for (const el of typing ? form.elements : []) {
    if (el.classList.toggle("waits", all.some((e) => e.action === action && e.names.includes(el.name)))) (el.closest(".unit") ?? el).after(make("span", { className: "unsent", textContent: "not sent yet, on this tablet" }));
  }
}

// After a form was sent late the page goes on; where more was typed since, its
// boxes go on from what is saved now.
async function landed(e, next) {
  const sent = pairs(e.body);
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
      if (!next) put({ ...e, asks: answer.status });
      else delete store[e.key], n++;
      if (next && e.action === action && e.base === base?.value) await landed(e, next);
    }
  } catch {
    // later
  }
  sending = false;
  show(n);
}

function draft() {
  const values = kept ? [] : changed().map((el) => [el.name, el.value]);
  if (values.length) store[mine] = JSON.stringify({ at: Date.now(), base: base.value, values });
  else delete store[mine];
}

function offer() {
  const d = JSON.parse(store[mine] ?? '{"values":[]}');
  const list = d.values.map(([name, v]) => [form.elements[name], v]).filter(([el, v]) => el?.name && el.value !== v);
  if (!list.length) return delete store[mine];
  const bar = make("section", { className: "block draft" }, `Typed here at ${new Date(d.at).toTimeString().slice(0, 5)} and not kept: ${words(list)}.`, make("p", { className: "row" }, key("Take it again", () => {
    // what was saved since is merged
    base.value = d.base;
    for (const [el, v] of list) el.value = v;
    form.dispatchEvent(new Event("input"));
    bar.remove();
  }), key("Drop it", () => { delete store[mine]; bar.remove(); })));
  form.before(bar);
}

form?.addEventListener("submit", async (ev) => {
  if (bare) return;
  ev.preventDefault();
  if (busy) return;
  busy = true;
  const by = ev.submitter, body = pairs(new FormData(form, by)), list = changed(), at = new Date().toISOString();
  if (!body.has(":sent")) body.set(":sent", crypto.getRandomValues(new Uint32Array(3)).join("-"));
  const e = { key: "unsent " + at, action, base: base.value, names: list.map((el) => el.name), words: words(list.map((el) => [el, el.value])), body: String(body) };
  try {
    const next = (await post(e)).headers.get("X-Next");
    kept = Boolean(next);
    draft();
    if (!next) {
      // the page that answers is wanted
      bare = true;
      if (looked) tab.look = looked;
      return form.requestSubmit(by);
    }
    delete store[looked];
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
    delete store[looked];
    kept = true;
    draft();
    show();
  }
});
if (typing) {
  offer();
  form.addEventListener("input", () => { kept = false; draft(); });
}
addEventListener("online", send);
doc.addEventListener("reached", send);
setInterval(send, 15e3);
send();
