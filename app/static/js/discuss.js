// Discuss: the class graph with its views; a view is a link that changes the graph without leaving the page.
import { ClassGraph } from "./graph.js";
import { listenForKeys } from "./keys.js";
import { startLive } from "./live.js";
import { Parts } from "./parts.js";

const parts = new Parts();
startLive();
listenForKeys();

const frame = document.getElementById("class-graph");
const graph = window.Plotly ? new ClassGraph(frame) : null;
if (graph) graph.ask();

document.addEventListener("click", (event) => {
  const view = event.target.closest("a[data-view]");
  if (!view || !graph || event.ctrlKey || event.metaKey || event.shiftKey) return;
  event.preventDefault();
  window.history.replaceState(null, "", view.href);
  parts.remake("views");
});
document.addEventListener("ropewalk:part", ({ detail }) => {
  if (detail.name === "views" && detail.part.dataset.figure !== graph.address) graph.look(detail.part.dataset.figure);
});
