// Figures by design: a figure is a link that shows below how it was worked out, without leaving the page.
import { startLive } from "./live.js";
import { Parts } from "./parts.js";

const parts = new Parts();
startLive();
let asking = null;           // the link that was pressed, until its answer is there

document.addEventListener("click", (event) => {
  const figure = event.target.closest("a[data-ask]");
  if (!figure || event.ctrlKey || event.metaKey || event.shiftKey) return;
  event.preventDefault();
  const closing = figure.dataset.ask === "";
  asking = closing ? asking : figure.dataset.ask;
  window.history.replaceState(null, "", figure.href);
  parts.remake("worked-out").then(() => toFocus(closing));
});

// The answer is read next; when it is put away, reading goes on where it was asked for.
function toFocus(closing) {
  const place = closing ? document.querySelector(`a[data-ask="${CSS.escape(asking || "")}"]`) : document.getElementById("worked-out");
  if (place) place.focus({ preventScroll: true });
}
