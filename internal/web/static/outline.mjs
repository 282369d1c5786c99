// Control points of the outline are taken and moved: the place goes into the two
// boxes of the point, and the page works the outline out again as it does for
// anything typed. Arrow keys move a point by 5 mm, with Shift by 1 mm.
let taken = null;

const box = (id, dir) => document.querySelector(`[name="outline.stations[${id}].${dir}"]`);

function place(grip, x, z) {
  for (const [dir, v] of [["x", x], ["z", z]]) {
    if (v === null) continue;
    const b = box(grip.dataset.point, dir);
    b.value = Math.round(v) + " mm";
    b.dispatchEvent(new Event("input", { bubbles: true }));
  }
}

const at = (grip) => [Number(grip.dataset.x), Number(grip.dataset.z)];

function moved(e) {
  const svg = taken.grip.ownerSVGElement, k = svg.getBoundingClientRect().width / svg.viewBox.baseVal.width * taken.grip.parentNode.dataset.mm;
  return [(e.clientX - taken.px) / k, (taken.py - e.clientY) / k];
}

// Room for a finger makes points lie over one another: the nearest is taken.
function nearest(hit, e) {
  const far = (g) => { const r = g.getBoundingClientRect(); return Math.hypot(r.x + r.width / 2 - e.clientX, r.y + r.height / 2 - e.clientY); };
  return [...hit.parentNode.children].reduce((a, b) => (far(b) < far(a) ? b : a));
}

document.addEventListener("pointerdown", (e) => {
  const hit = e.target.closest?.("[data-point][data-x]");
  if (!hit || e.button) return;
  const grip = nearest(hit, e);
  e.preventDefault();
  taken = { grip, px: e.clientX, py: e.clientY };
  grip.ownerSVGElement.setPointerCapture(e.pointerId);
});

document.addEventListener("pointermove", (e) => {
  if (!taken) return;
  const [dx, dz] = moved(e), k = taken.grip.parentNode.dataset.mm;
  taken.grip.setAttribute("transform", `translate(${(dx * k).toFixed(1)} ${(-dz * k).toFixed(1)})`);
});

document.addEventListener("pointerup", (e) => {
  if (!taken) return;
  const grip = taken.grip, [dx, dz] = moved(e), [x, z] = at(grip);
  taken = null;
  if (Math.abs(dx) + Math.abs(dz) < 4) { grip.removeAttribute("transform"); box(grip.dataset.point, "z").focus(); return; }
  place(grip, Math.abs(dx) < 4 ? null : x + dx, Math.abs(dz) < 4 ? null : z + dz);
});
document.addEventListener("click", (e) => { if (e.detail && e.target.closest?.("[data-point][data-x]")) e.preventDefault(); });
document.addEventListener("pointercancel", () => { taken?.grip.removeAttribute("transform"); taken = null; });

document.addEventListener("keydown", (e) => {
  const grip = e.target.closest?.("[data-point][data-x]");
  const d = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] }[e.key];
  if (!grip || !d) return;
  e.preventDefault();
  const n = e.shiftKey ? 1 : 5, [x, z] = at(grip);
  grip.dataset.x = x + d[0] * n;
  grip.dataset.z = z + d[1] * n;
  place(grip, d[0] ? x + d[0] * n : null, d[1] ? z + d[1] * n : null);
});
