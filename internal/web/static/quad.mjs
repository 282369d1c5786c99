// Read-back: what was typed at a corner is said aloud when its box is left, by
// the browser's own voice. It is off until somebody turns it on, and the browser
// remembers that. Without a voice the button is not there.
const button = document.querySelector("[data-aloud]");
const voice = globalThis.speechSynthesis;
const key = "jounce.aloud";

const remembered = () => { try { return localStorage.getItem(key) === "1"; } catch { return false; } };
const remember = (on) => { try { localStorage.setItem(key, on ? "1" : "0"); } catch { /* not kept */ } };

function say(text) {
  const words = new SpeechSynthesisUtterance(text);
  words.lang = "en-GB";
  voice.cancel();
  voice.speak(words);
}

// What is said of a box: "FL 276 kilograms". A unit that was typed is left to the
// voice; the one that the box shows is said in full.
function spoken(box, unit) {
  const corner = document.querySelector(`label[for="${CSS.escape(box.id)}"]`).textContent.trim();
  const shown = box.parentElement.querySelector(".u")?.textContent ?? "";
  let text = box.value.trim();
  if (!text) return `${corner} empty`;
  if (shown && text.endsWith(shown)) text = text.slice(0, -shown.length).trim();
  if (/^[\d\s.,−±-]+$/u.test(text)) text = `${text} ${unit}`;
  return `${corner} ${text.replace("−", "minus ").replace("±", "give or take")}`;
}

if (button && voice && globalThis.SpeechSynthesisUtterance) {
  let on = remembered();
  const show = () => button.setAttribute("aria-pressed", String(on));
  button.hidden = false;
  show();
  button.addEventListener("click", () => {
    on = !on;
    remember(on);
    show();
    if (on) say("Read back aloud"); else voice.cancel();
  });
  for (const set of document.querySelectorAll("[data-say]")) {
    set.addEventListener("change", (e) => { if (on && e.target.matches("input[type=text]")) say(spoken(e.target, set.dataset.say)); });
  }
}
