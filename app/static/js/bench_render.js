// The bench page from one view: parts that belong to its mode are in sight, and their words are the view's.

import { curve } from "./curve.js";
import { $, element, fill, showPanels, text } from "./dom.js";
import { newtons, shown, trimmed } from "./numbers.js";
import { heading, lastTime, makes, moment, named, pointer, result, upperFirst } from "./bench_words.js";
import { ladder } from "./ladder.js";
import { fillMeasures } from "./panels.js";
import { stepRead } from "./overlay.js";

const SHORT = 3;
const POINTS_LEAST = 3;
const STATES = { differs: "two numbers for this step", matched: "typed twice", ruled_out: "the other number counts" };

export function render(view, words) {
  showPanels(view.mode);
  $("save-ending").setAttribute("form", view.mode === "down" ? "down-form" : "ending-form");
  for (const part of document.querySelectorAll("[data-when]")) {
    part.hidden = !part.dataset.when.split(" ").includes(view.mode);
    if (part.tagName === "FIELDSET") part.disabled = part.hidden;
  }
  document.querySelector(".desk").dataset.mode = view.mode;
  fillMeasures(view, words);
  renderEntry(view, words);
  renderReadings(view, words);
  renderTold(view, words);
  renderCurves(view);
  renderEnds(view, words);
}

function renderEntry(view, words) {
  const { bench, mode } = view;
  const zero = mode === "zero";
  const [before, hang, after] = heading(view, words);
  fill($("next-step"), before, element("span", "hang", hang), after);
  if (zero || mode === "step") fill($("makes"), ...makes(view, words).map(([text, bold]) => (bold ? element("b", "nowrap", text) : text)));
  const read = stepRead(bench);
  const going = ["hang", "read"].includes(bench.next.do);
  fill($("step-words"), going && mode !== "down" ? `Step ${bench.next.step} ` : `Step ${read} `, element("span", "", `of ${bench.ladder.length}${going && mode !== "down" ? "" : ", saved"}`));
  $("ladder").replaceChildren(ladder(words.printed_g, read, going ? bench.next.step : null));
  text($("pointer-label"), zero ? "Pointer at zero" : "Pointer now at");
  text($("save-reading"), zero ? "Save the zero" : "Save");
  $("pointer-field").classList.toggle("first", zero);
  if (!zero) text($("last"), lastTime(view));
  text($("it-ended"), mode === "down" || mode === "ended" ? "It ended another way" : "It ended");
  text($("not-ended"), bench.own.endings.length ? "Leave it as it is" : "It has not ended");
  $("paused").hidden = !bench.lesson.paused;
  $("class-now").textContent = words.stages[bench.lesson.stage] || "";
  $("class-now").hidden = !words.stages[bench.lesson.stage];
  $("to-class-graph").hidden = !bench.lesson.graph_open;
}

function renderReadings(view, words) {
  const { bench } = view;
  const rows = [...bench.own.readings].reverse();
  $("readings").hidden = !rows.length && !bench.own.events.length;
  $("readings").classList.toggle("opened", view.opened);
  $("reading-rows").replaceChildren(...rows.map((one, place) => row(view, words, one, place)));
  const all = $("all-readings");
  all.hidden = rows.length <= SHORT;
  text(all, view.opened ? "Fewer readings" : `All ${rows.length} readings`);
  $("read-again").hidden = !stepRead(bench);
}

function row(view, words, one, place) {
  const line = element("tr", [place >= SHORT && "older", one.left_out && "out", one.unsent && "unsent"].filter(Boolean).join(" "));
  const head = element("th", "", one.phase === "zero" ? "zero" : String(one.step));
  head.scope = "row";
  for (const note of notes(one, words)) head.append(" ", element("span", "told", note));
  if (one.unsent) head.append(" \u2191", element("span", "unseen", " still to send"));
  const now = pointer(view.bench, one);
  const first = trimmed(Number(one.first_typed.replace(",", ".").replace("\u2212", "-")), 4);
  const typed = element("td", "num");
  fill(typed, ...(one.replaces && first !== now ? [element("del", "", first), " "] : []), now);
  const mend = element("td", "mend");
  if (one.by === "bench" && view.mayChange) {
    const change = element("a", "", "Change");
    change.href = `/bench?show=change&about=${one.entry_id}`;
    change.dataset.change = one.entry_id;
    change.setAttribute("aria-label", `Change ${moment(one, words)}`);
    mend.append(change);
  }
  line.append(head, element("td", "num force", one.force_N === null ? "" : shown(one.force_N, 2)), typed,
    element("td", "num", one.extension_mm === null ? "" : trimmed(one.extension_mm, 1)), mend);
  return line;
}

function notes(one, words) {
  const phase = ["zero", "load"].includes(one.phase) ? (one.turn > 1 ? `again, ${one.turn}` : "") : words.phases[one.phase];
  return [phase, STATES[one.state], one.left_out && `left out: ${one.left_out}`].filter(Boolean);
}

function renderTold(view, words) {
  $("told").replaceChildren(...[...view.bench.own.events].reverse().map((event) => {
    const line = element("li");
    const said = event.kind === "other_mass" && event.mark ? `${upperFirst(named(words, event.mark))} hung instead` : words.events[event.kind];
    const when = event.step === null || event.step === undefined ? "Before" : `Step ${event.step}`;
    line.append(element("span", "", `${when}: ${said}`));
    if (view.mayChange) {
      const back = element("button", "btn plain", "Take back");
      back.type = "button";
      back.dataset.takeBack = event.entry_id;
      back.setAttribute("aria-label", `Take back: ${said}, ${when.toLowerCase()}`);
      line.append(back);
    }
    return line;
  }));
}

function renderCurves(view) {
  const { bench, mode } = view;
  const going = ["hang", "read"].includes(bench.next.do) && bench.next.force_N !== null;
  const ending = bench.own.endings.length === 1 ? bench.own.endings[0] : null;
  const nextWords = going && bench.next.step ? `step ${bench.next.step}: ${newtons(bench.next.force_N)}` : "";
  const drawn = bench.lesson.own_graph ? curve(bench, { ending, nextWords, id: "bench-graph", least: POINTS_LEAST }) : null;
  $("own").hidden = !drawn;
  $("own-curve").replaceChildren(...(drawn ? [drawn] : []));
  const said = bench.lesson.own_graph && mode === "ending" ? curve(bench, { ending: view.draft || ending, id: "said-graph", least: POINTS_LEAST }) : null;
  $("said-curve").replaceChildren(...(said ? [said] : []));
}

function renderEnds(view, words) {
  const { bench } = view;
  const { endings } = bench.own;
  const ending = endings.length ? endings[endings.length - 1] : null;
  const two = endings.length > 1 && endings.some((one) => one.kind !== ending.kind || one.fail_step !== ending.fail_step);
  const said = two ? [["Two tablets told different ends."], ["Your teacher says which one counts."]] : result(bench, ending, words);
  fillResult($("result"), said);
  fillResult($("said-result"), view.draft ? result(bench, view.draft, words) : said);
  text($("so-far"), result(bench, { kind: "did_not_break" }, words)[0][0]);
  const broke = !view.draft || view.draft.kind.startsWith("broke_");
  $("place-part").hidden = !broke;
  $("look-part").hidden = !broke;
  $("going").hidden = Boolean(view.draft) && !["broke_adding", "broke_waiting", "knot_undone", "touched_tray"].includes(view.draft.kind);
  $("ending-reasons").hidden = !ending;
}

function fillResult(place, [first, more]) {
  const large = element("p", "first");
  first.forEach((line, at) => large.append(...(at ? [document.createElement("br"), " "] : []), line));
  place.replaceChildren(large, ...more.map((line) => element("p", "", line)));
}
