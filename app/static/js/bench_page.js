// The bench page with a script: nothing reloads, and what is typed is safe before the network is asked.

import { Live } from "./live.js";
import { overlaid, isDown } from "./overlay.js";
import { pageShape } from "./curve.js";
import { ReadingPad } from "./reading_pad.js";
import { showRefused } from "./refused.js";
import { render } from "./bench_render.js";
import { Unsent } from "./unsent.js";
import { Wait } from "./wait.js";
import { Worked } from "./bench_worked.js";
import { listen } from "./bench_deeds.js";

const words = JSON.parse(document.getElementById("bench-words").textContent);
let told = JSON.parse(document.getElementById("bench-state").textContent);
let settled = [];            // on the server, but newer than what it last told
let view = null;
let shown = "";
let token = document.querySelector("input[name='csrf_token']").value;
const asked = { panel: "", about: "", draft: null, opened: false };
const ADDRESS = `/api/v1/lessons/${told.lesson_id}`;

const unsent = new Unsent({
  lessonId: told.lesson_id,
  bench: told.bench.bench,
  token: () => token,
  renew: renewToken,
  changed: () => show(),
  stored: (entry, answer) => {
    settled.push({ ...entry, n: answer.n || answer.head || Infinity });
    if (entry.noun !== "ticks") worked.stale = true;
    fetchState();
  },
});
const worked = new Worked(() => show());
const wait = new Wait({ name: `ropewalk.hung.${told.lesson_id}.${told.bench.bench}`, wait_s: told.lesson.wait_s });
const pad = new ReadingPad({ view: () => view, keep: (...entry) => unsent.keep(...entry), wait });

function show() {
  const bench = overlaid(told, [...settled, ...unsent.list()].sort((one, other) => one.typedAt - other.typedAt));
  bench.plannedLength = words.planned_length_mm;
  view = { bench, ...asked, mode: modeOf(bench) };
  view.hanging = bench.next.do === "read" || wait.runs(bench.cord.specimen_id, bench.next.step);
  view.mayChange = !["looking", "closed"].includes(view.mode) && !isDown(bench);
  const drawn = JSON.stringify([view, pageShape()]);
  if (drawn !== shown) render(view, words);      // a page that is the same is left alone: someone may be in the middle of it
  shown = drawn;
  wait.show(view, bench.lesson.wait_s);
  showRefused(document.getElementById("refused"), unsent.list(), { keep: unsent.keep.bind(unsent), drop: unsent.drop.bind(unsent), withdraw: unsent.withdraw.bind(unsent) });
  showUnsent();
  worked.show(view, unsent.list().some((entry) => entry.noun !== "ticks"));
}

function modeOf(bench) {
  if (bench.lesson.over) return "closed";
  const ended = bench.own.endings.length > 0;
  if (!bench.writes) return "looking";
  if (asked.panel === "ending") return "ending";
  if (asked.panel === "change" && bench.own.readings.some((one) => one.entry_id === asked.about)) return "change";
  if (ended) return "ended";
  if (isDown(bench)) return "down";
  if (asked.panel === "again") return "again";
  return { measure: "zero", zero: "zero", hang: "step", read: "step", end: "top" }[bench.next.do] || "ended";
}

function showUnsent() {
  const count = unsent.count;
  document.getElementById("still-to-send").classList.toggle("waits", count > 0);
  const place = document.getElementById("unsent-words");
  const said = count ? `Still to send: ${count}` : "All sent";
  if (place.textContent !== said) place.textContent = said;
  const hint = document.getElementById("unsent-hint");
  hint.textContent = hintWords(count);
  hint.hidden = !hint.textContent;
}

function hintWords(count) {
  if (unsent.stopped === "signed-out" && count) return "This tablet no longer holds the bench. What you typed waits here: type the code of the slip again, and it is sent.";
  if (unsent.stopped === "bench" && count) return "This tablet holds another bench now. What you typed here waits: take this bench again, and it is sent.";
  if (unsent.notKept && count) return "Not kept on this tablet, which is full or private: leave this page open until all is sent.";
  return count > 1 ? "They wait on this tablet. Leave this page open." : "";
}

let asking = false;
let again = false;
async function fetchState() {
  if (asking) { again = true; return; }
  asking = true;
  try {
    const answer = await fetch(`${ADDRESS}/benches/${told.bench.bench}`, { cache: "no-store", credentials: "same-origin" });
    if (answer.ok) {
      told = await answer.json();
      settled = settled.filter((entry) => entry.n > told.head && entry.n !== Infinity);
      show();
    }
  } catch { /* the next question tries again */ } finally {
    asking = false;
    if (again) { again = false; fetchState(); }
  }
}

// A page that was open too long has a stale token; a fresh one stands on any page with a form.
async function renewToken() {
  const page = await fetch("/join", { cache: "no-store", credentials: "same-origin" });
  const found = new DOMParser().parseFromString(await page.text(), "text/html").querySelector("input[name='csrf_token']");
  if (!found) return false;
  token = found.value;
  for (const field of document.querySelectorAll("input[name='csrf_token']")) field.value = token;
  return true;
}

document.documentElement.classList.add("scripted");
const start = new URLSearchParams(window.location.search);
asked.panel = start.get("show") || "";
asked.about = start.get("about") || "";
listen({ view: () => view, asked, unsent, wait, pad, words, show, fetchState, token: () => token, address: ADDRESS });
document.addEventListener("ropewalk:news", ({ detail }) => {
  if (detail.changes.length) worked.stale = true;      // those of other benches are not told to this one
  fetchState();
});
window.addEventListener("pageshow", (seen) => seen.persisted && fetchState());
window.addEventListener("resize", show);
new Live(`${ADDRESS}/changes`, {
  after: told.head, hold: 0,
  more: () => {
    unsent.send();
    return { unsent: unsent.count };
  },
});
show();
