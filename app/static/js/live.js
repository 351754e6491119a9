// Ask and wait: one question a page, "anything after n?". What is new is told to the page as `ropewalk:news`.
// Lives through every error and every status; a hidden page asks nothing and asks at once when it is seen again.

const HOLD_S = 20;
const GRACE_MS = 10000;
const WAITS_MS = [1000, 2000, 4000, 8000];
const HASTE_MS = 1000;         // an answer that came sooner and brought nothing was not held
const LOST_AFTER = 2;          // questions in a row without an answer before the page says so

export class Live {
  // `more` gives what a page adds to each question; `hold` 0 is for tablets, which are answered at once.
  constructor(address, { after = 0, hold = HOLD_S, more = () => ({}) } = {}) {
    this.address = address;
    this.head = after;
    this.hold = hold;
    this.more = more;
    this.failed = 0;
    this.heardAt = new Date();
    document.addEventListener("visibilitychange", () => (document.hidden ? this.stop() : this.askNow()));
    for (const change of ["online", "offline"]) window.addEventListener(change, () => this.askNow());
    this.askNow();
  }

  // Forgets any wait and asks; for those who know that something happened.
  askNow() {
    this.stop();
    this.turn = (this.turn || 0) + 1;
    this.round(this.turn);
  }

  stop() {
    clearTimeout(this.timer);
    if (this.asking) this.asking.abort();
    this.turn = (this.turn || 0) + 1;
  }

  async round(turn) {
    const asked = Date.now();
    let wait = 0;
    try {
      const told = await this.question();
      if (turn !== this.turn) return;
      this.failed = 0;
      this.heardAt = new Date();
      const least = this.hear(told) || Date.now() - asked > HASTE_MS ? 0 : HASTE_MS;
      wait = Math.max(least, 1000 * (told.ask_again_s || 0));
    } catch {
      if (turn !== this.turn) return;      // stopped on purpose
      this.failed += 1;
      wait = WAITS_MS[Math.min(this.failed, WAITS_MS.length) - 1];
    }
    this.tellLost();
    this.timer = setTimeout(() => this.round(turn), wait * (0.8 + 0.4 * Math.random()));
  }

  async question() {
    const address = new URL(this.address, window.location.href);
    const asked = { after: this.head, ...(this.hold ? { wait_s: this.hold } : {}), ...this.more() };
    for (const [name, value] of Object.entries(asked)) address.searchParams.set(name, value);
    const asking = new AbortController();
    this.asking = asking;
    const late = setTimeout(() => asking.abort(), this.hold * 1000 + GRACE_MS);
    try {
      const answer = await fetch(address, {
        signal: asking.signal, cache: "no-store", credentials: "same-origin", headers: { Accept: "application/json" },
      });
      if (!answer.ok) throw new Error(String(answer.status));
      return await answer.json();
    } finally {
      clearTimeout(late);
    }
  }

  hear(told) {
    const news = told.head > this.head;
    this.head = Math.max(this.head, told.head);
    if (news) document.dispatchEvent(new CustomEvent("ropewalk:news", { detail: told }));
    return news;
  }

  tellLost() {
    const place = document.getElementById("last-heard");
    if (!place) return;
    const lost = this.failed >= LOST_AFTER;
    place.hidden = !lost;
    const time = this.heardAt.toLocaleTimeString([], { hour: "2-digit", minute: "2-digit", second: "2-digit" });
    const words = lost ? `The server was last heard at ${time}. This page asks again and again; what you see may be old.` : "";
    if (place.textContent !== words) place.textContent = words;
  }
}

// The page's own loop, from what its body says; null on a page without one.
export function startLive(options = {}) {
  const { changes, head } = document.body.dataset;
  return changes ? new Live(changes, { after: Number(head), ...options }) : null;
}
