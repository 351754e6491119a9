// The sentences of the bench page, as app/web/bench/words.py and result.py say them: for what a tablet knows first.

import { bracketOf } from "./bench_sums.js";
import { stepRead } from "./overlay.js";
import { grams, newtons, shown, trimmed, withUnit } from "./numbers.js";

const OUTCOME_BROKE = ["broke_adding", "broke_waiting"];
const AFTER_HELD = {
  did_not_break: "and didn't break",
  out_of_time: "and didn't break before the clock stopped it",
  stopped_for_safety: "and was stopped for safety",
  touched_tray: "and reached the tray",
  knot_undone: "until the knot came undone",
  broke_returning: "and broke later, on the way back",
};
const KNOT = "A knot makes a weak place, so the plain cord may hold more.";
const PLACES = {
  free_length: "It broke between the knots, in the cord itself.",
  at_knot: `It broke just at a knot. ${KNOT}`,
  in_knot: `It broke inside a knot. ${KNOT}`,
  at_support: "It broke at the support or the hook. An edge there may have cut it: the plain cord may hold more.",
};

export const upperFirst = (words) => words.slice(0, 1).toUpperCase() + words.slice(1);

export const named = (words, mark) => (mark ? words.marks[mark] || `${words.rung} ${mark}` : `the ${words.hanger}`);

// What stands largest, in three parts: the middle one is underlined.
export function heading(view, words) {
  const { bench, mode } = view;
  const mass = bench.next.mass_g === null || bench.next.mass_g === undefined ? "" : `: ${grams(bench.next.mass_g)}`;
  const what = mode === "zero" || mode === "step" ? named(words, bench.next.mark) : "";
  if (mode === "step" && view.hanging) return ["", upperFirst(what), ` is hanging${mass}.`];
  if (what) return ["Hang ", what, `${bench.next.step ? " next" : ""}${mass}.`];
  const changed = bench.own.readings.find((one) => one.entry_id === view.about);
  const cord = `Cord ${bench.cord.specimen_no}: `;
  return {
    top: [`All ${bench.ladder.length} ${words.rungs} hang. `, "How did it end?", ""],
    down: ["", "Masses down", ""],
    looking: ["Another tablet writes for ", bench.bench.word, "."],
    closed: ["This lesson ", bench.lesson.stage === "over" ? "is over" : "is on the shelf", "."],
    change: ["Change ", changed ? moment(changed, words) : "", "."],
    again: ["Read ", `step ${stepRead(bench)}`, " once more."],
  }[mode] || [cord, "it ended", "."];
}

// What the load comes to, as parts: [words, bold?] each.
export function makes(view, words) {
  const { next, ladder } = view.bench;
  if (view.mode === "zero") {
    if (!next.total_mass_g) return [[`The ${words.hanger} was not weighed: it counts as ${withUnit("0", "g")}.`]];
    return [["That makes "], [newtons(next.force_N), true], [", the settling load."]];
  }
  if (!ladder.length || next.force_N === null) return [[`Nobody has said the mass of ${named(words, next.mark)} yet.`]];
  return [["That makes "], [grams(next.total_mass_g), true], [", "], [newtons(next.force_N), true], ["."]];
}

export function moment(reading, words) {
  if (reading.phase === "zero") return "the zero";
  return `step ${reading.step}` + (reading.phase === "load" ? "" : `, ${words.phases[reading.phase]}`);
}

export function lastTime(view) {
  const { readings } = view.bench.own;
  if (!readings.length) return "";
  const last = readings[readings.length - 1];
  const where = last.phase === "zero" ? "at the zero" : `at step ${last.step}`;
  return `Last time: ${withUnit(pointer(view.bench, last), view.bench.bench.scale.unit)}, ${where}.`;
}

export const pointer = (bench, reading) => trimmed(reading.pointer_mm / (bench.bench.scale.unit === "cm" ? 10 : 1), 2);

// What a cord did under that ending: lines that stand large, then sentences; without one, what it has held so far.
export function result(bench, ending, words) {
  const held = bench.own.readings.filter((one) => one.counts && one.force_N !== null).map((one) => one.force_N);
  if (!ending) {
    const so = held.length ? `It has held ${newtons(Math.max(...held))}.` : "Nothing is held yet.";
    return [[so], [stretch(bench, null)].filter(Boolean)];
  }
  const { low, high } = bracketOf(bench, ending);
  const broke = OUTCOME_BROKE.includes(ending.kind);
  const place = broke ? PLACES[ending.place] : "";
  if (low === null) return [[`${upperFirst(words.endings[ending.kind])}.`], ["No reading of this cord counts, so no force is known to have been held.", place].filter(Boolean)];
  if (high !== null) {
    const between = "So it breaks somewhere between the two. The steps between your masses can't say it closer.";
    const first = low ? `It held ${newtons(low)}.` : "It held nothing yet.";
    return [[first, `It broke on ${newtons(high)}.`], [between, stretch(bench, ending), place].filter(Boolean)];
  }
  const more = `It held ${newtons(low)} ${AFTER_HELD[ending.kind] || "and broke after it"}: more than ${newtons(low)}.`;
  return [[more], ["How much more it would hold, this test can't say.", stretch(bench, ending), place].filter(Boolean)];
}

function stretch(bench, ending) {
  const reached = bench.own.readings.filter((one) => one.counts && one.extension_mm !== null && one.step > 0);
  if (!reached.length) return "";
  const { extension_mm: longer } = reached[reached.length - 1];
  const length = freeLength(bench);
  const share = length ? `: ${withUnit(shown((100 * longer) / length), "%")} of its free length` : "";
  const when = ending && OUTCOME_BROKE.includes(ending.kind) ? "Before it broke" : "At the last reading";
  return `${when} it was ${withUnit(shown(longer), "mm")} longer${share}.`;
}

function freeLength(bench) {
  const told = bench.cord.measures.filter((one) => one.quantity === "free_length_mm" && one.state !== "replaced" && !one.left_out);
  return told.length ? told[told.length - 1].value : bench.plannedLength || null;
}
