// The height rule: moves the body over its wheels and lights up what touches.
// Every number comes out of the steps that the server worked out, one a
// millimetre; between two of them it is on the straight line.
const doc = document;
const calm = matchMedia("(prefers-reduced-motion: reduce)");
let T, input, head, last, at = 0, frame = 0, bodies = [], cells = [], rows = [], balloons = [], presets = [], lit = [];

const one = (list, x) => {
  const i = Math.min(Math.max(Math.floor(x), 0), list.length - 1), j = Math.min(i + 1, list.length - 1);
  const a = list[i], b = list[j];
  return a == null || b == null ? a : a + (b - a) * (x - i);
};

function words(v, digits, plus) {
  if (v == null) return "not known";
  const t = Math.abs(v).toFixed(digits);
  return Number(t) === 0 ? t : v < 0 ? "−\u202f" + t : plus ? "+\u202f" + t : t;
}

// put changes a text where it is another: every change makes the browser lay out again.
const put = (el, text) => { const n = el.firstChild; if (!n) el.textContent = text; else if (n.data !== text) n.data = text; };

const col = (key, x) => T.c[key] && words(one(T.c[key].v, x), T.c[key].d, T.c[key].s);

// While the body moves, only what is on the screen follows; the rest when it rests.
const onScreen = new Set();
const watch = new IntersectionObserver((list) => {
  for (const e of list) onScreen[e.isIntersecting ? "add" : "delete"](e.target);
  if (T) { all = true; last = undefined; show(at); }
});
let rest, all = true;

function find() {
  const data = doc.getElementById("steps");
  input = doc.getElementById("below");
  if (!data || !input) { T = null; return; }
  T = JSON.parse(data.textContent);
  bodies = [...doc.querySelectorAll("main svg [data-mm]")];
  cells = [...doc.querySelectorAll("[data-c]")];
  rows = [...doc.querySelectorAll("#order li[data-t]")];
  balloons = [...doc.querySelectorAll(".rule [data-t]")];
  presets = [...doc.querySelectorAll("#height [data-below]")];
  lit = [...doc.querySelectorAll("#draw [data-touch]")];
  input.addEventListener("input", () => { stop(); show(Number(input.value)); });
  input.addEventListener("keydown", keys);
  input.addEventListener("wheel", (e) => { e.preventDefault(); step(e.deltaY > 0 ? 1 : -1); }, { passive: false });
  for (const a of presets) a.addEventListener("click", (e) => { e.preventDefault(); go(Number(a.dataset.below)); });
  head = doc.querySelector('#height [data-o="head"]');
  drags();
  watch.disconnect();
  for (const el of new Set([...bodies.map((g) => g.ownerSVGElement), ...cells.slice(0, 1), ...rows])) watch.observe(el);
  at = Number(input.value);
}

// still writes the height itself, and all else that changes from one whole
// millimetre to the next, at most every 90 ms while the body moves.
let told = 0;
function still(mm, x) {
  if (mm === last) return;
  put(head, words(-mm, 0, true));
  const now = performance.now();
  if (!all && now - told < 100) return;
  told = now;
  last = mm;
  doc.getElementById("draw").classList.toggle("moved", mm !== 0);
  const sill = col("sill", x);
  const where = sill ? "sill " + sill + "\u00a0" + T.u + " above the floor" : "sill not read";
  put(doc.querySelector('#height [data-o="where"]'), where);
  input.setAttribute("aria-valuetext", (mm ? Math.abs(mm) + " mm " + (mm > 0 ? "below" : "above") + " ROAD, " : "At ROAD, ") + where);
  if (all || onScreen.has(cells[0])) for (const el of cells) { const t = col(el.dataset.c, x); if (t !== undefined) put(el, t); }
  const on = {};
  for (const li of rows) {
    const key = "t" + li.dataset.t, c = T.c[key];
    if (!c) continue;
    const v = one(c.v, x), spans = T.m[key] || [];
    let mark = "unknown";
    for (const s of spans) if (s.at <= x) mark = s.k;
    if (v == null) mark = "unknown";
    on[li.dataset.t] = mark === "fail" || mark === "close";
    if (!all && !onScreen.has(li)) continue;
    li.classList.toggle("on", on[li.dataset.t]);
    put(li.querySelector("b"), v == null ? "?" : words(v, 0));
    li.querySelector(".bar").style.setProperty("--l", Math.max(0, Math.min(1, (v || 0) / T.b)).toFixed(4));
    const ov = li.querySelector(".ov");
    if (ov.dataset.k !== mark) {
      ov.dataset.k = mark;
      const svg = ov.querySelector("svg");
      svg.setAttribute("class", "vm " + mark);
      svg.setAttribute("aria-label", { pass: "Pass", fail: "Fail", close: "Too close to call", unknown: "Not enough known" }[mark]);
      svg.querySelector("use").setAttribute("href", "#v-" + mark);
    }
  }
  for (const el of [...balloons, ...lit]) el.classList.toggle("on", Boolean(on[el.dataset.t ?? el.dataset.touch]));
  for (const a of presets) if (Number(a.dataset.below) === mm) a.setAttribute("aria-current", "true"); else a.removeAttribute("aria-current");
}

function show(mm) {
  at = mm;
  const x = mm - T.from, f = one(T.f, x), r = one(T.r, x);
  for (const g of bodies) {
    if (!all && !onScreen.has(g.ownerSVGElement)) continue;
    const d = g.dataset, k = d.mm, turn = (Math.atan2(r - f, d.x1 - d.x0 ? (d.x1 - d.x0) / k : 1) * 180) / Math.PI;
    g.style.transform = d.lift ? `translateY(${(-k * (f + (r - f) * d.lift)).toFixed(2)}px)` : `translateY(${(-k * f).toFixed(2)}px) translate(${d.x0}px,${d.y}px) rotate(${(-turn).toFixed(4)}deg) translate(${-d.x0}px,${-d.y}px)`;
  }
  still(Math.round(mm), x);
  clearTimeout(rest);
  if (!all) rest = setTimeout(() => { all = true; last = undefined; show(at); }, 150);
  all = false;
}

function stop() { cancelAnimationFrame(frame); frame = 0; }

// go moves to a preset in 180 ms, easing out; at once where motion is not wanted.
function go(to) {
  stop();
  input.value = to;
  const from = at, t0 = performance.now();
  if (calm.matches) return show(to);
  const tick = (t) => {
    const p = Math.min(1, (t - t0) / 180), e = 1 - (1 - p) ** 3;
    show(p < 1 ? from + (to - from) * e : to);
    frame = p < 1 ? requestAnimationFrame(tick) : 0;
  };
  frame = requestAnimationFrame(tick);
}

function step(d) {
  stop();
  input.value = Number(input.value) + d;
  show(Number(input.value));
}

function keys(e) {
  const d = { ArrowUp: -1, ArrowDown: 1, ArrowLeft: -1, ArrowRight: 1 }[e.key];
  const page = { PageUp: -1, PageDown: 1 }[e.key];
  if (d) step(d);
  else if (page) {
    const list = presets.map((a) => Number(a.dataset.below)).sort((a, b) => a - b), now = Number(input.value);
    const to = page > 0 ? list.find((v) => v > now) : list.reverse().find((v) => v < now);
    if (to !== undefined) go(to);
  } else return;
  e.preventDefault();
}

// drags: the body itself is taken by mouse or finger and moved, millimetre for
// millimetre of the drawing.
function drags() {
  for (const svg of doc.querySelectorAll("#draw svg")) {
    const body = svg.querySelector("[data-mm]");
    if (!body || svg.dataset.drag) continue;
    svg.dataset.drag = "1";
    let y0 = null, v0;
    svg.addEventListener("pointerdown", (e) => {
      if (e.button || !e.target.closest("[data-mm]")) return;
      stop();
      y0 = e.clientY;
      v0 = at;
      svg.setPointerCapture(e.pointerId);
    });
    svg.addEventListener("pointermove", (e) => {
      if (y0 === null) return;
      const px = svg.getBoundingClientRect().height / svg.viewBox.baseVal.height * body.dataset.mm;
      const v = Math.min(Math.max(Math.round(v0 + (e.clientY - y0) / px), input.min), input.max);
      input.value = v;
      show(v);
    });
    for (const end of ["pointerup", "pointercancel"]) svg.addEventListener(end, () => { y0 = null; });
  }
}

find();
if (T) { doc.documentElement.classList.add("moves"); show(at); }
doc.addEventListener("swapped", () => { const was = at; find(); if (T) { all = true; last = undefined; input.value = was; show(Number(input.value)); } });
