// The class graph on a page: asks the server for the figure, draws it, and asks again when there is news.
// The element says what to ask: data-figure (address), data-words (id of the line of words, may be left away).
// window.Plotly comes from its own script tag.

const WIDE_FROM = 1.67;        // width over height, between the shapes of the two drawings
const LEAST_SCALE = 0.55;      // under this the letters are too small: the frame scrolls instead
const WAITS_MS = [1000, 2000, 4000, 8000];
const BEHIND_MS = 250;         // before asking again when the answer was older than the news

export function graphConfig() {
  return { displayModeBar: false, showSendToCloud: false, displaylogo: false, plotlyServerURL: "", responsive: false };
}

export function drawClassGraph(element, figure) {
  const graph = new ClassGraph(element);
  if (figure) graph.show(figure);
  else graph.ask();
  return graph;
}

export class ClassGraph {
  constructor(element) {
    this.element = element;
    this.address = element.dataset.figure;
    this.drawing = Object.assign(document.createElement("div"), { className: "drawing" });
    for (const [name, said] of [["role", "img"], ["aria-label", "Class graph"]]) this.drawing.setAttribute(name, said);
    element.replaceChildren(this.drawing);
    this.head = -1;              // of the figure that is shown
    this.wanted = -1;            // the newest that we heard of
    this.failed = 0;
    this.waiting = null;         // a figure that came while another was being drawn
    this.busy = false;
    document.addEventListener("ropewalk:news", (event) => this.hear(event.detail.head));
    window.addEventListener("resize", () => this.fit());
    this.dark = window.matchMedia("(prefers-color-scheme: dark)");
    this.dark.addEventListener("change", () => this.ask());
  }

  // Another view, measure or bench: the page gives its whole address.
  look(address) {
    this.address = address;
    this.ask();
  }

  hear(head) {
    this.wanted = Math.max(this.wanted, head);
    if (this.wanted > this.head && !this.asking && !this.element.hidden) this.ask();
  }

  // Asks now; when a question is under way, asks once more after it.
  async ask() {
    if (!this.address) return;
    this.asked = (this.asked || 0) + 1;
    if (this.asking) return;
    this.asking = true;
    let seen, behind;
    do {
      seen = this.asked;
      await this.fetchOnce();
      behind = this.wanted > this.head && !this.failed;
      if (behind) await new Promise((go) => setTimeout(go, BEHIND_MS));
    } while (behind || seen !== this.asked);
    this.asking = false;
    if (this.failed) setTimeout(() => this.ask(), WAITS_MS[Math.min(this.failed, WAITS_MS.length) - 1]);
  }

  async fetchOnce() {
    const address = this.fullAddress();
    try {
      const answer = await fetch(address, { headers: { Accept: "application/json" }, cache: "no-store" });
      if (!answer.ok) throw new Error(String(answer.status));
      const { head, figure } = await answer.json();
      this.failed = 0;
      if (head < this.head && address === this.shownAddress) return;
      this.wanted = Math.max(this.wanted, head);
      this.head = head;
      this.shownAddress = address;
      this.show(figure);
    } catch {
      this.failed += 1;          // the graph that is there stays; it is asked for again
    }
  }

  fullAddress() {
    const address = new URL(this.address, window.location.href);
    const { x = "extension", y = "load" } = Object.fromEntries(address.searchParams);
    this.shape = this.shapeNow();
    address.searchParams.set("drawing", this.shape);
    address.searchParams.set("theme", this.theme());
    if (this.ends && this.ends.x === x && this.ends.y === y) {   // axes never shrink while the page is open
      address.searchParams.set("x_to", this.ends.x_to);
      address.searchParams.set("y_to", this.ends.y_to);
    }
    return address.href;
  }

  theme() {
    return document.documentElement.dataset.theme || (this.dark.matches ? "dark" : "light");
  }

  shapeNow() {
    const { clientWidth, clientHeight } = this.element;
    return clientWidth > clientHeight * WIDE_FROM ? "wide" : "squarish";
  }

  // Draws at the next frame; of figures that come meanwhile only the last is drawn.
  show(figure) {
    this.waiting = figure;
    if (this.busy) return;
    this.busy = true;
    requestAnimationFrame(() => this.drawWaiting());
  }

  async drawWaiting() {
    const figure = this.waiting;
    this.waiting = null;
    this.figure = figure;
    this.ends = figure.layout.meta;
    try {
      await window.Plotly.react(this.drawing, figure.data, figure.layout, graphConfig());
      this.tell(figure.layout.meta.words);
      this.fit();
    } finally {
      this.busy = false;
      if (this.waiting) this.show(this.waiting);
    }
  }

  tell(words) {
    this.drawing.setAttribute("aria-label", `${words.lead} ${words.rest}`);
    const line = document.getElementById(this.element.dataset.words || "");
    if (!line) return;
    const lead = document.createElement("b");
    lead.textContent = words.lead;
    line.replaceChildren(lead, ` ${words.rest}`);
  }

  // The drawing has its own px; the frame shows it whole, and another drawing when the window's shape changes.
  fit() {
    if (!this.figure) return;
    const { width, height } = this.figure.layout;
    const { clientWidth, clientHeight } = this.element;
    const scale = Math.max(LEAST_SCALE, Math.min(clientWidth / width, clientHeight / height));
    const left = Math.max(0, (clientWidth - width * scale) / 2);
    this.drawing.style.width = `${width}px`;
    this.drawing.style.height = `${height}px`;
    this.drawing.style.transform = `translate(${left}px, 0) scale(${scale})`;
    if (this.address && this.shapeNow() !== this.shape) this.ask();
  }
}
