// The panels that open over the pad: how it ended, and a number changed; filled from what stands. So are the measures of
// the pad when another cord is under test.

import { marksHung } from "./bench_sums.js";
import { named } from "./bench_words.js";
import { $ } from "./dom.js";
import { grams } from "./numbers.js";
import { stepRead } from "./overlay.js";

export function fillEnding({ view, words, wait }) {
  const { bench } = view();
  const form = $("ending-form");
  const before = bench.own.endings.slice(-1)[0];
  const marks = marksHung(bench.own.events, bench.ladder.length);
  const mass = (mark) => (bench.ladder.find((rung) => rung.mark === mark) || {}).mass_g;
  const options = [[0, named(words, 0)], ...marks.map((mark, place) => [place + 1, `${named(words, mark)}${mass(mark) ? `: ${grams(mass(mark))}` : ""}`])];
  form.elements.fail_step.replaceChildren(...options.map(([step, line]) => new Option(line, step)));
  form.elements.fail_step.value = String(before && before.fail_step !== null ? before.fail_step : onNow(bench, wait));
  for (const name of ["kind", "place", "look"]) {
    for (const one of form.elements[name]) one.checked = Boolean(before) && before[name] === one.value;
  }
  form.elements.remark.value = (before && before.remark) || "";
  form.elements.from_top_knot_mm.value = before && before.from_top_knot_mm !== null ? before.from_top_knot_mm : "";
  sayGoing(form);
}

// The step that is on or going on: the one that comes next, or the last when none is left.
function onNow(bench) {
  const next = bench.next.step === undefined || bench.next.step === null ? stepRead(bench) + 1 : bench.next.step;
  return Math.min(next, bench.ladder.length);
}

function sayGoing(form) {
  const chosen = form.elements.fail_step.selectedOptions[0];
  $("going-words").textContent = chosen ? `You were hanging ${chosen.textContent}.` : "";
}

// What the form says so far, so that its sentence stands beside it.
export function draftEnding(form) {
  sayGoing(form);
  const said = new FormData(form);
  if (!said.get("kind")) return null;
  return { kind: said.get("kind"), fail_step: Number(said.get("fail_step")), place: said.get("place"), look: said.get("look") };
}

export function fillChange({ view }, about) {
  const one = view().bench.own.readings.find((reading) => reading.entry_id === about);
  if (!one) return;
  $("change-was").textContent = `You typed ${one.pointer_typed}\u00a0${one.pointer_unit}. It stays, struck through.`;
  $("change-form").elements.pointer_typed.value = "";
  const out = Boolean(one.left_out);
  $("out-form").elements.kind.value = out ? "put_back" : "left_out";
  $("out-head").textContent = out ? "Put it back" : "Or leave it out of the sums";
  $("out-button").textContent = out ? "Put it back" : "Leave it out";
}

// The fields hold what was measured of the cord under test, not of the one before.
export function fillMeasures({ bench }, { planned }) {
  const { elements } = $("pad");
  if (elements.specimen_id.value === bench.cord.specimen_id) return;
  elements.specimen_id.value = bench.cord.specimen_id;
  for (const field of $("pad").querySelectorAll("input[name^='typed.']")) {
    const quantity = field.name.slice("typed.".length);
    const [last] = bench.cord.measures.filter((one) => one.quantity === quantity).slice(-1);
    field.value = last ? last.typed : planned[quantity] || "";
    elements[`shown.${quantity}`].value = field.value;
  }
}
