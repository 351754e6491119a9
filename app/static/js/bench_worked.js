// What was worked out of a cord that ended: made by the server with the page's own template, and asked for again when
// the bench has news. Without a network the page stays as it is, and says that the figures are older than what waits.

import { $ } from "./dom.js";
import { isTypedIn } from "./parts.js";

const MODES = ["ended", "looking", "closed"];

export class Worked {
  // `shown` has the page shown again, once there is something new in it.
  constructor(shown) {
    this.shown = shown;
    this.turn = 0;
    this.stale = false;
    document.addEventListener("focusout", () => setTimeout(() => this.stale && this.shown(), 0));
  }

  // In sight with a cord that ended, and only the figures of the cord under test.
  show({ mode, bench }, waiting) {
    const here = $("worked");
    const wanted = MODES.includes(mode);
    here.hidden = !wanted || here.dataset.cord !== bench.cord.specimen_id;
    const waits = $("worked-waits");
    if (waits) waits.hidden = !waiting;
    if (!wanted || !this.stale || isTypedIn(here)) return;
    this.stale = false;
    this.ask();
  }

  async ask() {
    this.turn += 1;
    const { turn } = this;
    try {
      const answer = await fetch("/bench?part=worked", { cache: "no-store", credentials: "same-origin" });
      if (!answer.ok || answer.redirected) return;
      const text = await answer.text();
      if (turn === this.turn) this.swap(text);
    } catch { this.stale = true; }
  }

  swap(text) {
    const here = $("worked");
    const fresh = new DOMParser().parseFromString(text, "text/html").getElementById("worked");
    this.stale = !fresh || isTypedIn(here);
    if (this.stale) return;
    for (const open of here.querySelectorAll("details[open]")) fresh.querySelector(`#${open.id}`)?.setAttribute("open", "");
    const held = here.contains(document.activeElement) ? document.activeElement.id : "";
    here.replaceWith(fresh);
    if (held) fresh.querySelector(`#${held}`)?.focus({ preventScroll: true });
    this.shown();
  }
}
