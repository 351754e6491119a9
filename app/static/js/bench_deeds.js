// What a press or a form of the bench page does.

import { $ } from "./dom.js";
import { newId } from "./entry_ids.js";
import { stepRead } from "./overlay.js";
import { draftEnding, fillChange, fillEnding } from "./panels.js";
import { reasonOf, say } from "./reading_pad.js";

export function listen(page) {
  const { asked, unsent, wait, pad, show, view } = page;

  function open(panel, about = "") {
    Object.assign(asked, { panel, about, draft: null });
    if (panel === "ending") fillEnding(page);
    if (panel === "change") fillChange(page, about);
    show();
    $("desk").focus({ preventScroll: true });
    window.scrollTo(0, 0);
  }

  const press = {
    "it-is-hanging": () => {
      const { bench } = view();
      wait.begin(bench.cord.specimen_id, bench.next.step);
      show();
      $("pointer").focus();
    },
    "it-ended": () => open("ending"),
    "not-ended": () => open(""),
    "all-readings": () => { asked.opened = !asked.opened; show(); },
    "read-again": () => open("again"),
  };

  const sent = {
    pad: (form, button) => {
      if (button === "tell") return pad.tell(form);
      if (button === "save-measures") return pad.saveMeasures(form);
      if (pad.save(form)) window.scrollTo(0, 0);
      return null;
    },
    hanging: () => press["it-is-hanging"](),
    "change-form": (form) => {
      const reason = reasonOf(form);
      say(null, $("change-reason-why"), reason ? "" : "Say why it is changed.");
      const one = view().bench.own.readings.find((reading) => reading.entry_id === asked.about);
      if (one && reason && pad.saveOther(form, { replaces: one.entry_id, reason, step: one.step, phase: one.phase, turn: one.turn }, "change-why")) open("");
    },
    "out-form": (form) => {
      const reason = form.elements.reason.value.trim();
      say(form.elements.reason, $("out-why"), reason ? "" : "Say why.");
      if (!reason) return;
      unsent.keep("rulings", { entry_id: newId(), kind: form.elements.kind.value, about: asked.about, reason });
      form.reset();
      open("");
    },
    "again-form": (form) => {
      const { bench } = view();
      const [step, phase] = [stepRead(bench), form.elements.phase.value];
      const turn = 1 + bench.own.readings.filter((one) => one.step === step && one.phase === phase).length;
      if (pad.saveOther(form, { step, phase, turn }, "again-why")) open("");
    },
    "ending-form": (form) => saveEnding(form, pad.ending(form, "ending-why")),
    "down-form": (form) => saveEnding(form, pad.ending(form, "kind-why")),
    "undo-ending": () => takeBack(standing(), "it had not ended"),
    "fresh-form": (form) => {
      const same = form.elements.same_maker.value;
      unsent.keep("specimens", { entry_id: newId(), reason: form.elements.reason.value || null, same_maker: same ? same === "true" : null });
      open("");
    },
    "carry-on": async () => {
      const headers = { "X-CSRFToken": page.token(), "Content-Type": "application/json" };
      await fetch(`${page.address}/benches/${view().bench.bench.bench}/carry-on`, { method: "POST", credentials: "same-origin", headers, body: "{}" });
      page.fetchState();
    },
    "back-in-tray": () => null,
    "straight-form": (form) => {
      const [first, last] = ["first_step", "last_step"].map((name) => choice(form, name));
      if (first === null || last === null) return;
      const wrong = first < last ? "" : "The last step comes after the first one.";
      say(form.elements.last_step, $("straight-last_step-why"), wrong);
      if (!wrong) sayStraight(form, { first_step: first, last_step: last });
    },
    "straight-back": (form) => sayStraight(form, null),
  };

  // A step that was chosen, as a number; null, with a sentence, while none is.
  function choice(form, name) {
    const field = form.elements[name];
    say(field, $(`straight-${name}-why`), field.value ? "" : "Choose a step.");
    return field.value ? Number(field.value) : null;
  }

  function sayStraight(form, detail) {
    unsent.keep("rulings", { entry_id: newId(), kind: "straight_part", about: form.elements.about.value, detail });
  }

  const standing = () => view().bench.own.endings.slice(-1)[0];

  function saveEnding(form, said) {
    if (!said) return;
    const before = form.id === "ending-form" ? standing() : null;
    const reason = before ? reasonOf(form) : null;
    if (before) say(null, $("ending-reason-why"), reason ? "" : "Say why it is changed.");
    if (before && !reason) return;
    pad.tell($("pad"));
    unsent.keep("endings", { entry_id: newId(), specimen_id: view().bench.cord.specimen_id, ...said, ...(before ? { replaces: before.entry_id, reason } : {}) });
    open("");
  }

  function takeBack(entry, reason) {
    if (entry) unsent.keep("rulings", { entry_id: newId(), kind: "left_out", about: entry.entry_id, reason });
    open("");
  }

  let pressedLast = "";          // older browsers don't say which button sent a form
  document.addEventListener("submit", (leaving) => {
    const deed = sent[leaving.target.id];
    if (!deed) return;
    leaving.preventDefault();
    deed(leaving.target, pressedLast);
    pressedLast = "";
  });
  document.addEventListener("click", (pressed) => {
    const button = pressed.target.closest("button");
    pressedLast = button ? button.id : "";
    const on = pressed.target.closest("[id], [data-change], [data-take-back], [data-back]");
    if (!on) return;
    const { change, takeBack: event } = on.dataset;
    const deed = on.tagName === "A" && press[on.id];
    if (!change && !event && !deed && !("back" in on.dataset)) return;
    pressed.preventDefault();
    if (deed) deed();
    else if (change) open("change", change);
    else if (event) takeBack(view().bench.own.events.find((one) => one.entry_id === event), "told by mistake");
    else open("");
  });
  document.addEventListener("change", ({ target }) => {
    if (target.name === "what") unsent.keep("ticks", { what: target.value, on: target.checked }, `tick-${target.value}`);
    if (target.name === "what") openTicks();
    if (target.form && target.form.id === "ending-form") { asked.draft = draftEnding(target.form); show(); }
  });
}

function openTicks() {
  const still = [...document.querySelectorAll(".set input[name='what']")].filter((one) => !one.checked).length;
  $("open-ticks").textContent = !still ? "Every line is ticked."
    : still === 1 ? "One tick is open. Your teacher sees it." : `${still} ticks are open. Your teacher sees them.`;
}
