// The bench's own curve as an SVG: the same rules as app/figures/cord_curve.py, so that it grows without a network.

import { bracketOf } from "./bench_sums.js";
import { shown } from "./numbers.js";

const ROW = [10, 12, 16, 20, 25, 30, 35, 40, 50, 60, 80, 100];
const STEPS = [1, 2, 4, 5, 10, 20, 40, 50];
const PARTS = 5;
const PARTS_MOST = 7;
const RINGED = ["knot_slipped", "pointer_moved", "strand_went", "support_moved", "necking_seen"];
const PAGE = { width: 500, height: 330, left: 46, right: 24, top: 14, bottom: 62, text: 18 };
const WIDE = { ...PAGE, width: 720 };
const NARROW = { ...PAGE, left: 62, right: 30, top: 18, bottom: 86, text: 25 };
const MARKS = {
  a: "M5 0A5 5 0 1 1-5 0A5 5 0 1 1 5 0Z", b: "M-4.6-4.6h9.2v9.2h-9.2z", c: "M-5.6-6.4h11.2L1 0l4.6 6.4h-11.2L-1 0Z",
  d: "M0-7.1 1.9-2.1 7.2-1.8 3 1.5 4.5 6.6 0 3.7-4.5 6.6-3 1.5-7.2-1.8-1.9-2.1Z", e: "M0 6.6 6.4-4.8H-6.4Z", f: "M-6-2h12v4h-12z",
};
const SPACE = "http://www.w3.org/2000/svg";

const fits = (query) => window.matchMedia(query).matches;
export const pageShape = () => pageNow().width + pageNow().text;
const pageNow = () => (fits("(max-width: 599px)") ? NARROW : fits("(min-width: 1200px)") ? WIDE : PAGE);

function axisEnd(need, least) {
  const wanted = Math.max(need, least);
  const power = Math.floor(Math.log10(wanted)) - 1;
  return times(ROW.find((one) => times(one, power) >= wanted * (1 - 1e-9)) || 100, power);
}

function ticks(end) {
  const power = Math.floor(Math.log10(end)) - 1;
  const whole = Math.round(end / 10 ** power);
  const fit = (most) => STEPS.find((one) => whole % one === 0 && whole / one <= most);
  const step = fit(PARTS) || fit(PARTS_MOST) || whole;
  return Array.from({ length: whole / step + 1 }, (_, turn) => times(step * turn, power));
}

const times = (whole, power) => (power >= 0 ? whole * 10 ** power : whole / 10 ** -power);
const round = (value) => Math.round(value * 10) / 10;
const numberWords = (value) => String(value).replace("-", "\u2212").replace(/\B(?=(\d{3})+$)/g, "\u202f");

function mostNear(values) {
  let most = Math.max(...values.filter((one) => one <= 600));
  for (const value of values.filter((one) => one > 600).sort((one, other) => one - other)) {
    if (value > 3 * most) break;
    most = value;
  }
  return most;
}

const drawn = (readings) => readings.filter((one) => ["zero", "load"].includes(one.phase) && one.extension_mm !== null && one.force_N !== null);

// The drawing of the cord under test; null with fewer than `least` counted readings.
export function curve(bench, { ending = null, nextWords = "", id, least = 3 }) {
  const line = drawn(bench.own.readings.filter((one) => one.counts));
  if (line.length < 1 || bench.own.readings.filter((one) => one.counts).length < least) return null;
  const page = id === "bench-graph" ? pageNow() : { ...pageNow(), width: PAGE.width };
  const bracket = ending ? bracketOf(bench, ending) : { low: null, high: null };
  const nextForce = ending || !nextWords ? 0 : bench.next.force_N || 0;
  const ends = [bracket.low, bracket.high].filter((one) => one !== null).map((one) => one * 1.06);
  const xTo = axisEnd(mostNear([0, ...line.map((one) => one.extension_mm)]) * 1.1, 20);
  const yTo = axisEnd(Math.max(nextForce, ...line.map((one) => one.force_N), ...ends), 5);
  const [right, bottom] = [page.width - page.right, page.height - page.bottom];
  const frame = {
    ...page, right, bottom, xTo, key: "abcdef"[(bench.cord.design.charCodeAt(0) - 65) % 6],
    x: (value) => round(page.left + (value / xTo) * (right - page.left)),
    y: (value) => round(bottom - (value / yTo) * (bottom - page.top)),
  };
  const svg = make("svg", { class: "graph", id, viewBox: `0 0 ${page.width} ${page.height}`, role: "img", "aria-labelledby": `${id}-words`, "font-size": page.text });
  svg.append(make("title", { id: `${id}-words` }, `${bench.bench.word}: force against extension, ${line.length === 1 ? "1 reading" : `${line.length} readings`}`));
  svg.append(...axes(frame, xTo, yTo));
  if (nextForce) svg.append(make("path", { class: "next", d: `M${frame.left} ${frame.y(nextForce)}H${right}` }), word(right, frame.y(nextForce) - 8, nextWords, "end", "next-word"));
  svg.append(...sections(bench, frame, line), ...marked(bench, frame, line));
  if (bracket.low !== null) svg.append(...endSign(frame, line[line.length - 1], bracket));
  return svg;
}

function* axes(frame, xTo, yTo) {
  for (const tick of ticks(yTo)) {
    if (tick) yield make("path", { class: "grid", d: `M${frame.left} ${frame.y(tick)}H${frame.right}` });
    yield word(frame.left - 8, frame.y(tick) + 6, numberWords(tick), "end", "tick");
  }
  for (const tick of ticks(xTo)) {
    yield make("path", { class: "axis", d: `M${frame.x(tick)} ${frame.bottom}v6` });
    yield word(frame.x(tick), frame.bottom + frame.text + 7, numberWords(tick), "middle", "tick");
  }
  yield make("path", { class: "axis", d: `M${frame.left} ${frame.top}V${frame.bottom}H${frame.right}` });
  yield word(frame.left + 10, frame.top + frame.text, "Force, N", "start", "word");
  yield word(frame.right, frame.height - 8, "Extension, mm", "end", "word");
}

function* sections(bench, frame, line) {
  for (const section of new Set(line.map((one) => one.section))) {
    const spots = line.filter((one) => one.section === section && one.extension_mm >= -0.04 * frame.xTo && one.extension_mm <= frame.xTo);
    const points = spots.map((one) => `${frame.x(one.extension_mm)},${frame.y(one.force_N)}`).join(" ");
    yield make("polyline", { class: `curve d-${frame.key}${section > line[0].section ? " after-slip" : ""}`, points });
    for (const one of spots) {
      const moving = bench.own.events.some((event) => event.kind === "still_moving" && event.step === one.step);
      yield make("path", { class: `pt ${frame.key}${moving ? ` open d-${frame.key}` : ""}`, d: MARKS[frame.key], transform: `translate(${frame.x(one.extension_mm)} ${frame.y(one.force_N)})` });
    }
  }
}

function* marked(bench, frame, line) {
  const steps = bench.own.events.filter((one) => RINGED.includes(one.kind)).map((one) => one.step);
  for (const one of line.filter((spot) => steps.includes(spot.step))) {
    yield make("circle", { class: "ring", cx: frame.x(one.extension_mm), cy: frame.y(one.force_N), r: 11 });
  }
  for (const one of drawn(bench.own.readings.filter((spot) => !spot.counts && spot.state !== "matched"))) {
    yield make("path", { class: "cross", d: `M${frame.x(one.extension_mm) - 5} ${frame.y(one.force_N) - 5}l10 10m0-10l-10 10` });
  }
}

function endSign(frame, last, { low, high }) {
  const x = frame.x(Math.min(last.extension_mm, frame.xTo));
  const foot = frame.y(low);
  const top = high === null ? foot - 24 : frame.y(high);
  const tip = high === null ? `M${x - 8.5} ${top + 8.5}L${x} ${top}L${x + 8.5} ${top + 8.5}` : `M${x - 8.5} ${top - 8.5}l17 17m0-17l-17 17`;
  const left = x > frame.width * 0.3;
  return [
    make("path", { class: `end-bar d-${frame.key}`, d: `M${x} ${foot}L${x} ${top}M${x - 8.5} ${foot}h17${tip}` }),
    word(left ? x - 18 : x + 18, top + 6, high === null ? `more than ${shown(low, 1)}` : "broke", left ? "end" : "start", "word"),
  ];
}

const word = (x, y, text, anchor, kind) => make("text", { class: kind, x: round(x), y: round(y), "text-anchor": anchor }, text);

function make(name, attributes, text = "") {
  const element = document.createElementNS(SPACE, name);
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, value);
  element.textContent = text;
  return element;
}
