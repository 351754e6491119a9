// Figures by design: a figure is a link that shows below how it was worked out, without leaving the page.
import { startLive } from "./live.js";
import { Parts } from "./parts.js";

const parts = new Parts();
startLive();
let asked = { key: new URLSearchParams(window.location.search).get("ask") };     // what was pressed last, and where

document.addEventListener("click", (event) => {
  const figure = event.target.closest("a[data-ask]");
  if (!figure || event.ctrlKey || event.metaKey || event.shiftKey) return;
  event.preventDefault();
  const closing = figure.dataset.ask === "";
  if (!closing) asked = { key: figure.dataset.ask, link: figure };
  window.history.replaceState(null, "", figure.href);
  parts.remake("worked-out").then(() => toFocus(closing));
});

document.addEventListener("keydown", (event) => {
  if (event.key === "Escape") document.getElementById("asked-close")?.click();
});

// The answer is read next, with what was pressed in sight above it; when it is put away, reading goes on where it was
// asked for.
function toFocus(closing) {
  const answer = document.getElementById("worked-out");
  const pressed = asked.link?.isConnected ? asked.link : asked.key && document.querySelector(`a[data-ask="${CSS.escape(asked.key)}"]`);
  const place = closing ? pressed : answer;
  if (place) place.focus({ preventScroll: true });
  if (closing || !pressed) return;
  const covered = pressed.getBoundingClientRect().bottom - answer.getBoundingClientRect().top;
  if (covered > 0) window.scrollBy(0, covered + 12);
}
