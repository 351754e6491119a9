// What the forms of the bench page say, as entries: each gets its id here and goes to `keep`. What is no number stays
// in its field, with a sentence beside it.

import { $ } from "./dom.js";
import { newId } from "./entry_ids.js";
import { numberTyped } from "./numbers.js";

const POINTER_MM = 10000;
const DOUBLE_TAP_MS = 700;

export class ReadingPad {
  // `view` gives the page's view, `keep` takes an entry, `wait` is the wait before a reading.
  constructor({ view, keep, wait }) {
    Object.assign(this, { view, keep, wait });
    this.savedAt = {};          // by form: two presses in a moment are one
  }

  // The whole pad: measures with the zero, what happened, the reading. Says whether it was taken.
  save(form) {
    if (Date.now() - this.savedAt[form.id] < DOUBLE_TAP_MS) return false;
    const { bench, mode } = this.view();
    const measures = mode === "zero" ? this.measures(form) : [];
    const typed = form.elements.pointer_typed.value;
    const fine = this.fits(form.elements.pointer_typed, "pointer-why", typed);
    if (!measures || !fine || !this.tell(form)) return false;
    for (const one of measures) this.keepMeasure(one);
    const { cord, next } = bench;
    this.keep("readings", {
      entry_id: newId(), specimen_id: cord.specimen_id, step: next.step, phase: next.phase, turn: 1, pointer_typed: typed.trim(),
      pointer_unit: bench.bench.scale.unit, waited_s: next.step ? this.wait.waited(cord.specimen_id, next.step) : null,
    });
    this.savedAt[form.id] = Date.now();
    form.elements.pointer_typed.value = "";
    return true;
  }

  // The measures that say something new; null when one of them is no number.
  measures(form) {
    const said = [];
    let fine = true;
    for (const field of form.querySelectorAll("input[name^='typed.']")) {
      const quantity = field.name.slice("typed.".length);
      const before = form.elements[`shown.${quantity}`].value;
      const why = $(field.getAttribute("aria-describedby"));
      if (!field.value.trim() || field.value.trim() === before) { say(field, why, ""); continue; }
      const told = numberTyped(field.value, [0, 1e8]);
      say(field, why, told.why || "");
      if (told.why) fine = false;
      else said.push({ quantity, typed: field.value.trim(), field: form.elements[`shown.${quantity}`] });
    }
    if (!fine) form.querySelector(".cord details").open = true;
    return fine ? said : null;
  }

  keepMeasure({ quantity, typed, field }) {
    const unit = quantity.endsWith("_mm") && !quantity.includes("per_100") ? "mm" : quantity.endsWith("_g") ? "g" : "";
    this.keep("measures", { entry_id: newId(), specimen_id: this.view().bench.cord.specimen_id, quantity, place: 1, typed, unit });
    field.value = typed;
  }

  saveMeasures(form) {
    for (const one of this.measures(form) || []) this.keepMeasure(one);
  }

  // What is ticked under "Something happened?" is told; false when a mark is missing.
  tell(form) {
    const ticked = [...form.querySelectorAll("#something-happened input:checked")];
    const mark = Number(form.elements.mark.value) || null;
    const why = $("mark-why");
    const lacks = ticked.some((one) => one.value === "other_mass") && !mark;
    say(form.elements.mark, why, lacks ? "Say which one hangs." : "");
    if (lacks) return false;
    const { bench } = this.view();
    for (const one of ticked) {
      this.keep("events", {
        entry_id: newId(), specimen_id: bench.cord.specimen_id, step: bench.next.step === undefined ? bench.ladder.length : bench.next.step,
        after_reading: bench.next.do === "end", kind: one.value, mark: one.value === "other_mass" ? mark : null,
      });
      one.checked = false;
    }
    form.elements.mark.value = "";
    return true;
  }

  // Another number for a reading, or a further reading of a step.
  saveOther(form, more, why) {
    if (Date.now() - this.savedAt[form.id] < DOUBLE_TAP_MS) return false;
    const typed = form.elements.pointer_typed.value;
    if (!this.fits(form.elements.pointer_typed, why, typed)) return false;
    const { bench } = this.view();
    this.keep("readings", {
      entry_id: newId(), specimen_id: bench.cord.specimen_id, pointer_typed: typed.trim(), pointer_unit: bench.bench.scale.unit, ...more,
    });
    this.savedAt[form.id] = Date.now();
    form.reset();
    return true;
  }

  ending(form, why) {
    const said = new FormData(form);
    const kind = said.get("kind");
    if (!kind) return this.missing(why, "Say how it ended.");
    const from = (said.get("from_top_knot_mm") || "").trim();
    const told = from ? numberTyped(from, [0, POINTER_MM], "mm") : { value: null };
    if (form.elements.from_top_knot_mm) say(form.elements.from_top_knot_mm, $("from-top-why"), told.why || "");
    if (told.why) return null;
    const steps = ["broke_adding", "broke_waiting", "knot_undone", "touched_tray"];
    const broke = kind.startsWith("broke_");
    return {
      kind, fail_step: steps.includes(kind) && said.has("fail_step") ? Number(said.get("fail_step")) : null,
      place: (broke && said.get("place")) || null, look: (broke && said.get("look")) || null,
      from_top_knot_mm: told.value, remark: (said.get("remark") || "").trim() || null,
    };
  }

  missing(why, words) {
    const place = $(why);
    if (place) say(null, place, words);
    return null;
  }

  fits(field, why, typed) {
    const unit = this.view().bench.bench.scale.unit;
    const most = unit === "cm" ? POINTER_MM / 10 : POINTER_MM;
    const told = numberTyped(typed, [-most, most], unit);
    say(field, $(why), told.why || "");
    if (told.why) field.focus();
    return !told.why;
  }
}

// The sentence beside a field, or none.
export function say(field, why, words) {
  why.textContent = words;
  why.hidden = !words;
  if (!field) return;
  if (words) field.setAttribute("aria-invalid", "true");
  else field.removeAttribute("aria-invalid");
}

// The reason of a change as it is sent, or null when none is chosen.
export function reasonOf(form) {
  const reason = form.elements.reason.value;
  const words = form.elements.reason_words.value.trim();
  if (reason === "other" && words) return `other: ${words}`;
  return reason || null;
}
