// The wait before a reading: it begins when the bench says that the rung hangs, and it counts; it never blocks.
// It outlives a reload: when it began is kept on the tablet.

const TICK_MS = 500;

export class Wait {
  constructor({ name, wait_s: waitS }) {
    this.name = name;
    this.waitS = waitS;
    this.hung = this.kept();
    setInterval(() => this.show(), TICK_MS);
  }

  kept() {
    try {
      return JSON.parse(localStorage.getItem(this.name)) || {};
    } catch {
      return {};
    }
  }

  // The rung of that step of that cord hangs from now on.
  begin(cord, step) {
    this.hung = { cord, step, at: Date.now() };
    try { localStorage.setItem(this.name, JSON.stringify(this.hung)); } catch { /* then it ends with the page */ }
  }

  runs(cord, step) {
    return this.hung.cord === cord && this.hung.step === step;
  }

  // How long that step has hung, in seconds; null when nobody said so.
  waited(cord, step) {
    return this.runs(cord, step) ? Math.min(Math.max(Math.round((Date.now() - this.hung.at) / 100) / 10, 0), 3600) : null;
  }

  // The bar and its words, or the button in the same place.
  show(view = this.view, waitS = this.waitS) {
    this.view = view;
    this.waitS = waitS;
    if (!view || view.mode !== "step") return;
    const { cord, next } = view.bench;
    const running = this.runs(cord.specimen_id, next.step);
    document.getElementById("hung").classList.toggle("running", running);
    document.getElementById("it-is-hanging").hidden = running;
    const bar = document.getElementById("wait-bar");
    bar.hidden = !running;
    const words = document.getElementById("wait-words");
    if (!running) return write(words, `Then wait ${waitS}\u00a0s, then read.`);
    const waited = this.waited(cord.specimen_id, next.step);
    bar.max = waitS || 1;
    bar.value = Math.min(waited, waitS);
    if (waited < waitS) return write(words, `${Math.floor(waited)} of ${waitS}\u00a0s. Type when you like.`);
    write(words, `${waitS}\u00a0s are up. `, "Read it now.");
  }
}

function write(place, words, bold = "") {
  if (place.textContent === words + bold) return;
  place.replaceChildren(words);
  if (!bold) return;
  place.append(document.createElement("b"));
  place.lastChild.textContent = bold;
}
