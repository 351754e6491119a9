// Parts of a page, made again by the server with the templates of the first view: `data-part` names one, `data-every`
// has it made again each so many seconds. What someone is typing in, or holds the focus of, is not taken away.

export class Parts {
  constructor() {
    this.known = new Map();
    this.late = new Set();
    document.addEventListener("ropewalk:news", () => this.remakeAll());
    document.addEventListener("focusout", () => setTimeout(() => this.remakeLate(), 0));
    document.addEventListener("submit", (event) => this.sendQuietly(event));
    for (const part of document.querySelectorAll("[data-part][data-every]")) {
      setInterval(() => { if (!document.hidden) this.remake(part.dataset.part); }, 1000 * Number(part.dataset.every));
    }
  }

  remakeAll() {
    const names = [...document.querySelectorAll("[data-part]")].map((part) => part.dataset.part);
    return Promise.all(names.map((name) => this.remake(name)));
  }

  remakeLate() {
    const names = [...this.late];
    this.late.clear();
    names.forEach((name) => this.remake(name));
  }

  async remake(name) {
    const turn = (this.known.get(name)?.turn || 0) + 1;
    this.known.set(name, { ...this.known.get(name), turn });
    const address = new URL(window.location.href);
    address.searchParams.set("part", name);
    try {
      const answer = await fetch(address, { cache: "no-store", credentials: "same-origin" });
      if (!answer.ok || answer.redirected) return;
      const text = await answer.text();
      if (this.known.get(name).turn === turn) this.swap(name, text);
    } catch {
      // the part that is there stays; the next news asks for it again
    }
  }

  swap(name, text) {
    const part = document.querySelector(`[data-part="${name}"]`);
    if (!part || this.known.get(name).text === bare(text)) return;
    if (isTypedIn(part)) {
      this.late.add(name);
      return;
    }
    const held = part.contains(document.activeElement) ? wayTo(part, document.activeElement) : null;
    const scrolled = { left: part.scrollLeft, top: part.scrollTop };
    const fresh = new DOMParser().parseFromString(text, "text/html").querySelector(`[data-part="${name}"]`);
    if (!fresh) return;
    this.known.set(name, { ...this.known.get(name), text: bare(text) });
    for (const open of part.querySelectorAll("details[open][id]")) fresh.querySelector(`#${CSS.escape(open.id)}`)?.setAttribute("open", "");
    part.replaceWith(fresh);
    fresh.scrollLeft = scrolled.left;
    fresh.scrollTop = scrolled.top;
    if (held) fresh.querySelector(held)?.focus({ preventScroll: true });
    document.dispatchEvent(new CustomEvent("ropewalk:part", { detail: { name, part: fresh } }));
  }

  // A form with data-quiet is sent without leaving the page; if that fails, it is sent the ordinary way.
  async sendQuietly(event) {
    const form = event.target;
    if (!form.matches("[data-quiet]") || event.defaultPrevented) return;
    event.preventDefault();
    const body = new FormData(form);
    if (event.submitter && event.submitter.name) body.append(event.submitter.name, event.submitter.value);
    try {
      const answer = await fetch(form.action, { method: "POST", body: new URLSearchParams(body), credentials: "same-origin" });
      if (!answer.ok) throw new Error(String(answer.status));
      await this.remakeAll();
    } catch {
      if (event.submitter && event.submitter.name) form.append(hidden(event.submitter));
      form.submit();
    }
  }
}

// Ids of forms and tokens are fresh each time: they don't make a part new.
function bare(text) {
  return text.replace(/name="(csrf_token|entry_id)" value="[^"]*"/g, "");
}

export function isTypedIn(part) {
  const here = document.activeElement;
  if (!part.contains(here)) return false;
  if (here.matches("select")) return true;
  return here.matches("textarea, input:not([type=hidden], [type=checkbox], [type=radio])");
}

function wayTo(part, element) {
  if (element.id) return `#${CSS.escape(element.id)}`;
  if (element.dataset.ask) return `[data-ask="${CSS.escape(element.dataset.ask)}"]`;
  if (element.name) return `[name="${element.name}"][value="${CSS.escape(element.value)}"]`;
  return null;
}

function hidden({ name, value }) {
  return Object.assign(document.createElement("input"), { type: "hidden", name, value });
}
