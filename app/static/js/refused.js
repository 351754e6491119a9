// Entries that the server would not take: each with its sentence; it can be typed again, sent again, or withdrawn.

import { newId } from "./entry_ids.js";
import { element } from "./dom.js";
import { numberTyped } from "./numbers.js";

const NOUNS = { readings: "Reading", events: "Event", endings: "How it ended", measures: "Measure", specimens: "Fresh cord", rulings: "Ruling", ticks: "Tick" };

// `keep` takes an entry anew after `drop` has let it go, `withdraw` forgets one by its key.
export function showRefused(place, entries, { keep, drop, withdraw }) {
  const wanted = entries.filter((entry) => entry.refused);
  place.hidden = !wanted.length;
  if (place.dataset.shows === JSON.stringify(wanted)) return;      // a field in use is not taken away
  place.dataset.shows = JSON.stringify(wanted);
  place.replaceChildren(...wanted.map((entry) => line(entry, { keep, drop, withdraw })));
}

function line(entry, { keep, drop, withdraw }) {
  const row = element("div");
  const typed = entry.body.pointer_typed || entry.body.typed;
  row.append(element("p", "", `${title(entry)}: ${entry.refused.words}`));
  const field = typed === undefined ? null : input(typed, title(entry));
  if (field) row.append(field);
  const again = button("Send again", () => {
    if (field && numberTyped(field.value).why) return field.focus();
    drop(entry.key);
    keep(entry.noun, { ...entry.body, ...freshId(entry), ...changed(entry, field) }, entry.own);
  });
  row.append(again, button("Withdraw it", () => withdraw(entry.key)));
  return row;
}

// A cord keeps its id: what was typed of it names it.
const freshId = ({ noun, body }) => (body.entry_id && noun !== "specimens" ? { entry_id: newId() } : {});
const changed = (entry, field) => (field ? { [entry.body.pointer_typed ? "pointer_typed" : "typed"]: field.value.trim() } : {});

function title({ noun, body }) {
  const step = body.step === undefined || body.step === null ? "" : body.step ? `, step ${body.step}` : ", zero";
  const typed = body.pointer_typed || body.typed;
  return `${NOUNS[noun]}${step}${typed ? `, ${typed}` : ""}`;
}

function input(value, label) {
  const field = element("input");
  Object.assign(field, { value, inputMode: "decimal", autocomplete: "off" });
  field.setAttribute("aria-label", `${label}: type it again`);
  return field;
}

function button(words, press) {
  const made = element("button", "btn", words);
  made.type = "button";
  made.addEventListener("click", press);
  return made;
}
