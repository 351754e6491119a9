// The bench as it stands with what this tablet has typed: what the server told, and on it the entries on their way.
// Pure: the same two things in, the same bench out.

import { loadAt, extensionOf, sectionsOf } from "./bench_sums.js";

const SCALE_MM = { mm: 1, cm: 10 };

export function overlaid(told, entries) {
  const bench = JSON.parse(JSON.stringify(told));
  bench.local = entries.length > 0;
  for (const entry of entries) {
    const add = ADDED[entry.noun];
    if (add && !entry.refused && !known(bench, entry.body.entry_id)) add(bench, entry.body);
  }
  bench.cord = bench.specimens[bench.specimens.length - 1];
  bench.own = ofCord(bench);
  workOut(bench);
  if (bench.local) bench.next = nextOf(bench);
  return bench;
}

const known = (bench, id) => [...bench.readings, ...bench.events, ...bench.endings, ...bench.specimens]
  .some((one) => id && (one.entry_id === id || one.specimen_id === id));

const number = (typed) => Number(String(typed).trim().replace(/\u2212/g, "-").replace(",", "."));

const ADDED = {
  readings(bench, body) {
    const unit = body.pointer_unit || bench.bench.scale.unit;
    replace(bench.readings, body);
    bench.readings.push({ ...fresh(body), pointer_mm: number(body.pointer_typed) * SCALE_MM[unit], pointer_unit: unit });
  },
  events(bench, body) {
    replace(bench.events, body);
    bench.events.push(fresh(body));
  },
  endings(bench, body) {
    replace(bench.endings, body);
    bench.endings.push(fresh(body));
  },
  measures(bench, body) {
    const cord = bench.specimens.find((one) => one.specimen_id === body.specimen_id) || bench.specimens[bench.specimens.length - 1];
    cord.measures.push({ ...fresh(body), value: number(body.typed) });
  },
  specimens(bench, body) {
    const last = bench.specimens[bench.specimens.length - 1];
    bench.specimens.push({
      specimen_id: body.entry_id, specimen_no: last.specimen_no + 1, design: last.design, measures: [], left_out: null, unsent: true,
    });
  },
  rulings(bench, body) {
    const about = [...bench.readings, ...bench.events, ...bench.endings].find((one) => one.entry_id === body.about);
    if (about && body.kind === "left_out") about.left_out = body.reason;
    if (about && body.kind === "put_back") about.left_out = null;
  },
  ticks(bench, body) {
    bench.ticks[body.what] = body.on;
  },
};

const fresh = (body) => ({ ...body, state: "stands", left_out: null, by: "bench", unsent: true });

function replace(entries, body) {
  const before = body.replaces && entries.find((one) => one.entry_id === body.replaces);
  if (before) before.state = "replaced";
}

// The entries of the cord under test that stand, and those they replaced beside them.
function ofCord(bench) {
  const mine = (one) => one.specimen_id === bench.cord.specimen_id;
  const stands = (one) => mine(one) && one.state !== "replaced";
  return {
    readings: bench.readings.filter(stands),
    events: bench.events.filter((one) => stands(one) && !one.left_out),
    endings: bench.endings.filter((one) => stands(one) && !one.left_out),
    all: bench.readings.filter(mine),
  };
}

function workOut(bench) {
  const { readings, events } = bench.own;
  readings.sort((one, other) => one.step - other.step || PLACE[one.phase] - PLACE[other.phase] || one.turn - other.turn);
  for (const reading of readings) {
    if (bench.local) {
      const load = loadAt(bench, reading.phase === "return" ? 0 : reading.step, events);
      reading.total_mass_g = load.total_mass_g;
      reading.force_N = load.force_N;
      if (reading.unsent) reading.extension_mm = extensionOf(bench, reading);
    }
    reading.counts = reading.state === "stands" && !reading.left_out && !bench.cord.left_out;
    reading.first_typed = firstOf(reading, bench.own.all).pointer_typed;
  }
  sectionsOf(readings, events);
}

const TELL_WHAT_HANGS = ["other_mass", "still_moving"];      // a knot may slip at any time
const PLACE = { zero: 1, load: 1, later: 2, pointer_put_back: 4, return: 5, hung_again: 6, unload: 7 };

function firstOf(entry, all) {
  const before = entry.replaces && all.find((one) => one.entry_id === entry.replaces && one !== entry);
  return before ? firstOf(before, all) : entry;
}

export const stepRead = (bench) => Math.max(0, ...bench.own.readings.filter((one) => one.phase === "load" || one.phase === "unload").map((one) => one.step));

export const isDown = (bench) => bench.lesson.masses_down_at !== null && !bench.bench.open_again;

function nextOf(bench) {
  const { readings, events, endings } = bench.own;
  if (bench.lesson.over || endings.length) return { do: "nothing" };
  if (isDown(bench)) return { do: "end" };
  const zeroed = readings.some((one) => one.phase === "zero");
  const step = zeroed ? stepRead(bench) + 1 : 0;
  if (step > bench.ladder.length) return { do: "end" };
  const told = step > 0 && events.some((one) => one.step === step && TELL_WHAT_HANGS.includes(one.kind));
  return { do: step === 0 ? "zero" : told ? "read" : "hang", step, phase: step ? "load" : "zero", ...loadAt(bench, step, events) };
}
