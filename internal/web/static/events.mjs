// What others save on this job is told in words and shown at once. Nothing that
// somebody types is touched: the form keeps the revision that it began with. The
// stream is closed while the page is hidden, since a browser has six connections
// to one server, and begins with the newest revision when it is opened again.
import { ask } from "./live.mjs";

const said = document.getElementById("said");
let known = Number(said.dataset.revision), stream;

function close() { stream?.close(); stream = undefined; }

function open() {
  if (stream || document.hidden) return;
  stream = new EventSource(`/jobs/${said.dataset.job}/events`);
  stream.onopen = () => document.dispatchEvent(new Event("reached"));
  stream.onmessage = (e) => {
    const { revision, author } = JSON.parse(e.data);
    if (revision <= known) return;
    known = revision;
    said.querySelector("[role=status]").textContent = `${author} saved revision ${revision}.`;
    ask();
  };
  stream.onerror = () => { if (stream?.readyState === 2) { close(); setTimeout(open, 5000); } };
}

document.addEventListener("visibilitychange", () => { document.hidden ? close() : open(); });
addEventListener("pagehide", close);
addEventListener("pageshow", open);
open();
