// The few sums that a bench needs at once, also without a network: which mass hangs, its force, the extension.
// The same rules as app/mechanics (loading, extension, breaking); what the server worked out goes before them.

const SIGN = { down: 1, up: -1 };
const NEW_SECTION = ["knot_slipped", "support_moved"];
const WITH_BREAK = ["broke_adding", "broke_waiting"];

// The marks that hang below the hanger at a step: the ladder's, unless an event names another.
export function marksHung(events, step) {
  const others = {};
  for (const event of events) if (event.kind === "other_mass" && event.step !== null && event.mark) others[event.step] = event.mark;
  return Array.from({ length: step }, (_, place) => others[place + 1] || place + 1);
}

export function loadAt(bench, step, events) {
  const marks = marksHung(events, step);
  const masses = marks.map((mark) => (bench.ladder.find((rung) => rung.mark === mark) || { mass_g: null }).mass_g);
  const mark = marks.length ? marks[marks.length - 1] : 0;
  const one = mark ? masses[masses.length - 1] : bench.hanger.mass_g;
  if (masses.includes(null)) return { mark, mass_g: one, total_mass_g: null, force_N: null };
  const total = masses.reduce((sum, mass) => sum + mass, bench.hanger.mass_g || 0);
  return { mark, mass_g: one, total_mass_g: total, force_N: (total * bench.lesson.gravity_m_per_s2) / 1000 };
}

// From the mean of the zeros that count; null while there is none, or where a moved pointer was not read again.
export function extensionOf(bench, reading) {
  const zeros = bench.own.readings.filter((one) => one.phase === "zero" && one.state === "stands" && !one.left_out);
  const moved = bench.own.events.some((one) => one.kind === "pointer_moved" && comesBefore(one, reading));
  if (!zeros.length || moved) return null;
  const zero = zeros.reduce((sum, one) => sum + one.pointer_mm, 0) / zeros.length;
  return SIGN[bench.bench.scale.way] * (reading.pointer_mm - zero);
}

const comesBefore = (event, reading) => event.step !== null
  && (event.step < reading.step || (event.step === reading.step && !event.after_reading && reading.phase !== "zero"));

// Each reading's section: a slipped knot or a moved support begins a new one, a pointer moved for good too.
export function sectionsOf(readings, events) {
  const joined = readings.filter((one) => one.phase === "pointer_put_back").map((one) => one.step);
  const breaks = events.filter((one) => NEW_SECTION.includes(one.kind) || (one.kind === "pointer_moved" && !joined.includes(one.step)));
  for (const reading of readings) reading.section = 1 + breaks.filter((one) => comesBefore(one, reading)).length;
}

// Between which forces the cord broke; `high` null is "more than", `low` null that nothing is known.
export function bracketOf(bench, ending) {
  const counted = bench.own.readings.filter((one) => one.counts && one.force_N !== null);
  const lastRead = Math.max(0, ...counted.filter((one) => ["load", "later"].includes(one.phase)).map((one) => one.step));
  if (!WITH_BREAK.includes(ending.kind)) {
    const held = counted.map((one) => one.force_N);
    return { low: held.length ? Math.max(...held) : null, high: null };
  }
  const step = ending.fail_step === null || ending.fail_step === undefined ? lastRead + 1 : ending.fail_step;
  const low = step > 0 ? loadAt(bench, step - 1, bench.own.events).force_N : 0;
  const high = loadAt(bench, step, bench.own.events).force_N;
  return { low, high: low !== null && high !== null && high > low ? high : null };
}
