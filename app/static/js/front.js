// The front screen: follows what the teacher chose, draws the class graph, and takes the teacher's keys.
import { ClassGraph } from "./graph.js";
import { listenForKeys } from "./keys.js";
import { startLive } from "./live.js";
import { Parts } from "./parts.js";

const CHOOSER_MS = 6000;

const frame = document.getElementById("class-graph");
let graph = null;
let hide = null;

function show(screen) {
  const { figure } = screen.dataset;
  frame.hidden = !figure;
  if (!figure || !window.Plotly) return;
  if (!graph) {
    frame.dataset.figure = figure;
    graph = new ClassGraph(frame);
  } else if (graph.figure) {
    graph.tell(graph.figure.layout.meta.words);   // the line of words was made again with the screen
  }
  graph.look(figure);
}

function toggleTable() {
  if (!frame.hidden) document.body.classList.toggle("shows-table");
}

// A tap or a moved pointer shows the buttons for a while; they are always there for keys and for readers.
function offer() {
  document.body.classList.add("choosing");
  clearTimeout(hide);
  hide = setTimeout(() => document.body.classList.remove("choosing"), CHOOSER_MS);
}

document.body.classList.add("scripted");
document.addEventListener("ropewalk:part", ({ detail }) => {
  if (detail.name === "front") show(detail.part);
});
document.addEventListener("pointermove", offer);
document.addEventListener("pointerdown", offer);
document.addEventListener("click", (event) => {
  if (event.target.closest('[data-key="T"]')) toggleTable();
});
new ResizeObserver(() => { if (graph && !frame.hidden) graph.fit(); }).observe(frame);   // the foot comes and goes
new Parts();
startLive();
listenForKeys({ T: toggleTable });
show(document.querySelector('[data-part="front"]'));
