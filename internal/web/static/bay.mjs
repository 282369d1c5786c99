// The number pad of the bay screens: it types into the box that was touched
// last. Without a script the boxes take the device's own keys.
const pad = document.querySelector("[data-pad]");
const boxes = [...document.querySelectorAll(".lk-big input[type=text]")];
const keep = document.querySelector("[data-says]");
const plain = keep?.textContent;
let at = boxes.find((b) => !b.value) ?? boxes[0];

function say() {
  if (!keep) return;
  const first = boxes[0]?.value.trim();
  const unit = boxes[0]?.parentElement.querySelector(".u")?.textContent ?? "";
  keep.textContent = first ? `${keep.dataset.says} ${/[a-z°%]/i.test(first) ? first : `${first} ${unit}`.trim()}` : plain;
}

// The two keys that depend on the box: units of a pressure, signs of the rest.
let unitKeys = [];

function choose(box) {
  at = box;
  for (const b of boxes) b.classList.toggle("on", b === box);
  const words = box.name.endsWith(".pressure") ? ["bar", "psi"] : ["−", "±"];
  unitKeys.forEach((k, i) => { k.textContent = words[i]; });
}

function press(key) {
  if (!at) return;
  if (key === "rub out") at.value = at.value.replace(/(\s*[a-zA-Z°]+|.)$/u, "");
  else if (key === "bar" || key === "psi") at.value = `${at.value.replace(/\s*[a-zA-Z°]+$/u, "")} ${key}`.trimStart();
  else if (key === "next box") {
    at.dispatchEvent(new Event("change", { bubbles: true }));
    choose(boxes[(boxes.indexOf(at) + 1) % boxes.length]);
    return;
  }
  else if (key === "−") at.value = at.value.startsWith("−") ? at.value.slice(1) : `−${at.value}`;
  else if (key === "±") at.value = `${at.value.trimEnd()} ± `;
  else at.value += key;
  at.dispatchEvent(new Event("input", { bubbles: true }));
}

if (pad && boxes.length) {
  const keys = ["7", "8", "9", "4", "5", "6", "1", "2", "3", ".", "0", "rub out", "bar", "psi", "next box"];
  for (const k of keys) {
    const b = document.createElement("button");
    b.type = "button";
    b.textContent = k;
    if (k.length > 1) b.className = "w";
    b.addEventListener("click", () => press(b.textContent));
    pad.append(b);
  }
  unitKeys = [...pad.children].slice(12, 14);
  pad.hidden = false;
  for (const b of boxes) b.addEventListener("focus", () => choose(b));
  choose(at);
  for (const b of boxes) b.addEventListener("input", say);
  say();
}

// The wait is told in whole minutes: the page is fetched again each minute and
// its numbers changed, without touching what somebody types.
const large = document.querySelector(".lk-t");
if (large) setInterval(async () => {
  const answer = await fetch(location.href).catch(() => null);
  if (!answer?.ok) return;
  const fresh = new DOMParser().parseFromString(await answer.text(), "text/html").querySelector(".lk-t");
  if (fresh) large.replaceChildren(...document.importNode(fresh, true).childNodes);
}, 60000);
