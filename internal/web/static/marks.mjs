// Marks in a picture: a tap writes the place of the chosen mark into its box,
// "412, 613", in pixels of the picture as it is kept; arrow keys and buttons move
// it by one pixel. The boxes are the truth: what is typed there moves the cross.
const view = document.getElementById("ph");
const boxes = [...document.querySelectorAll("[data-mark]")];
const picks = boxes.map((b) => b.closest("li").querySelector("input[type=radio]"));
const [w, h] = view ? [Number(view.dataset.w), Number(view.dataset.h)] : [0, 0];

const read = (box) => {
  const m = box.value.trim().match(/^(\d+(?:\.\d+)?)\s*[,;\s]\s*(\d+(?:\.\d+)?)$/);
  return m && [Number(m[1]), Number(m[2])];
};

function draw() {
  boxes.forEach((box, i) => {
    const at = read(box);
    for (const el of view.querySelectorAll(`[data-at="${i + 1}"]`)) {
      el.hidden = !at;
      el.classList.toggle("here", picks[i].checked);
      if (!at) continue;
      el.style.setProperty("--x", at[0] / w);
      el.style.setProperty("--y", at[1] / h);
    }
  });
}

const chosen = () => Math.max(0, picks.findIndex((p) => p.checked));

function choose(i) {
  picks[i].checked = true;
  draw();
}

function set(i, x, y) {
  const keep = (v, most) => Math.min(Math.max(Math.round(v), 0), most);
  boxes[i].value = `${keep(x, w)}, ${keep(y, h)}`;
  boxes[i].dispatchEvent(new Event("input", { bubbles: true }));
}

function nudge(dx, dy) {
  const at = read(boxes[chosen()]);
  if (at) set(chosen(), at[0] + dx, at[1] + dy);
}

if (view) {
  view.dataset.taps = "";
  view.tabIndex = 0;
  view.setAttribute("role", "application");
  view.setAttribute("aria-label", "The picture with its marks");
  view.setAttribute("aria-describedby", "ph-how");
  document.getElementById("nudge").hidden = false;
  for (const p of picks) p.closest("label").hidden = false;
  choose(Math.max(0, boxes.findIndex((b) => !read(b))));
  view.addEventListener("click", (ev) => {
    const r = view.querySelector("img").getBoundingClientRect();
    const i = chosen(), first = !read(boxes[i]);
    set(i, ((ev.clientX - r.left) / r.width) * w, ((ev.clientY - r.top) / r.height) * h);
    const next = boxes.findIndex((b) => !read(b));
    if (first && next >= 0) choose(next); else draw();
    view.focus({ preventScroll: true });
  });
  view.addEventListener("keydown", (ev) => {
    const by = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] }[ev.key];
    if (!by) return;
    ev.preventDefault();
    nudge(...by);
  });
  for (const b of document.querySelectorAll("#nudge button")) b.addEventListener("click", () => nudge(...b.value.split(",").map(Number)));
  boxes.forEach((box, i) => {
    box.addEventListener("input", draw);
    box.addEventListener("focus", () => choose(i));
    picks[i].addEventListener("change", draw);
  });
}
