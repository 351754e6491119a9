// Entries wait here until the server has them: each is kept on the tablet under a key of its own, of this bench alone,
// and dropped only when an answer says that it is stored. What is refused stays, with its sentence.

import { post } from "./posting.js";
import { problem, sentence } from "./problems.js";

const WAITS_MS = [1000, 2000, 4000, 8000];
const REFUSED = [400, 409, 413, 415, 422];
const AGE_MOST_S = 2592000;

export class Unsent {
  // `token` gives the page's CSRF token, `renew` fetches a new one; `changed` hears of every change, `stored` of sent ones.
  constructor({ lessonId, bench, token, renew, changed, stored }) {
    Object.assign(this, { token, renew, changed, stored });
    this.base = `/api/v1/lessons/${lessonId}/benches/${bench}/`;
    this.prefix = `ropewalk.unsent.${lessonId}.${bench}.`;
    this.entries = new Map();
    this.notKept = false;
    this.stopped = "";
    this.failed = 0;
    this.read();
    window.addEventListener("storage", (news) => (news.key || this.prefix).startsWith(this.prefix) && this.readAgain());
    window.addEventListener("online", () => this.send());
    window.addEventListener("beforeunload", (leaving) => {
      if (!this.entries.size) return;
      leaving.preventDefault();
      leaving.returnValue = "";
    });
  }

  read() {
    try {
      for (const key of Object.keys(localStorage).filter((one) => one.startsWith(this.prefix))) {
        this.entries.set(key, JSON.parse(localStorage.getItem(key)));
      }
    } catch { /* no storage, or not ours: what is in memory stands */ }
  }

  // Another tab of this bench kept or sent something.
  readAgain() {
    if (!this.notKept) this.entries.clear();
    this.read();
    this.changed();
  }

  list() {
    return [...this.entries].sort(([one], [other]) => (one < other ? -1 : 1)).map(([key, entry]) => ({ key, ...entry }));
  }

  get count() { return this.entries.size; }

  // The entry is kept here and on its way; `own` names what a newer one of the same name takes the place of.
  keep(noun, body, own = "") {
    const typedAt = Date.now();
    if (own) for (const { key, own: other } of this.list()) if (other === own) this.drop(key);
    this.last = Math.max(typedAt, (this.last || 0) + 1);
    this.write(`${this.prefix}${this.last}.${body.entry_id || own}`, { noun, body, own, typedAt });
    this.changed();
    this.send();
  }

  write(key, entry) {
    this.entries.set(key, entry);
    try {
      localStorage.setItem(key, JSON.stringify(entry));
    } catch {
      this.notKept = true;      // full, or a private window: it is in memory only, and the page says so
    }
  }

  drop(key) {
    this.entries.delete(key);
    try { localStorage.removeItem(key); } catch { /* it was never there */ }
    this.notKept = this.notKept && this.entries.size > 0;
  }

  // Forgets one; what was typed of a cord that is forgotten can't be sent, and says so.
  withdraw(key) {
    const gone = this.entries.get(key);
    this.drop(key);
    for (const { key: other, ...entry } of gone && gone.noun === "specimens" ? this.list() : []) {
      if (entry.body.specimen_id === gone.body.entry_id) this.write(other, { ...entry, refused: { words: "Its cord was withdrawn." } });
    }
    this.changed();
  }

  // One after the other, in the order of typing; a second call while one runs does nothing.
  async send() {
    if (this.sending || this.stopped === "bench" || !this.entries.size) return;
    clearTimeout(this.timer);
    this.sending = true;
    let again = null;
    try {
      for (const { key, ...entry } of this.list()) {
        if (entry.refused || !this.entries.has(key)) continue;
        const wait = await this.sendOne(key, entry);
        if (wait === "stop") return;
        if (wait) again = wait;
        if (wait === "later") break;
      }
      if (!again) this.failed = 0;
    } finally {
      this.sending = false;
      if (again) this.comeBack();
      this.changed();
    }
    if (!again && this.list().some((entry) => !entry.refused)) this.send();
  }

  comeBack() {
    const wait = WAITS_MS[Math.min(this.failed, WAITS_MS.length - 1)];
    this.failed += 1;
    this.timer = setTimeout(() => this.send(), wait * (0.8 + 0.4 * Math.random()));
  }

  // Nothing when it is done with; "later" to wait with all; "missing" to go on with the rest; "stop" to send no more.
  async sendOne(key, entry) {
    let answer;
    try {
      answer = await this.post(entry);
      if (answer.status === 403 && (await problem(answer)).type.endsWith("/csrf") && (await this.renew())) {
        answer = await this.post(entry);
      }
    } catch {
      return "later";
    }
    if (answer.ok) {
      this.stopped = "";
      this.drop(key);
      this.stored(entry, await answer.json().catch(() => ({})));
      return null;
    }
    if (answer.status === 401 || answer.status === 403) {
      this.stopped = answer.status === 401 ? "signed-out" : "bench";
      return "stop";
    }
    if (!REFUSED.includes(answer.status)) return answer.status === 404 ? "missing" : "later";
    const told = await problem(answer);
    this.write(key, { ...entry, refused: { status: answer.status, words: sentence(told) } });
    return null;
  }

  post({ noun, body, typedAt }) {
    const age = Math.min(Math.max((Date.now() - typedAt) / 1000, 0), AGE_MOST_S);
    const aged = body.entry_id ? { ...body, tablet_time: new Date(typedAt).toISOString(), age_s: age } : body;
    return post(this.base + noun, aged, this.token());
  }
}
