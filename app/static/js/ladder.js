// The ladder strip, drawn as app/figures/ladder_strip.py draws it.

const [PITCH, WIDTH, FOOT, TALLEST, LEAST, HEIGHT, RAIL] = [26, 22, 21, 20, 4, 24, 23];
const SPACE = "http://www.w3.org/2000/svg";

// `read` rungs were hung and read; rung `now` comes next or hangs (null: none).
export function ladder(masses, read, now) {
  const svg = make("svg", {
    class: "ladder", viewBox: `0 0 ${PITCH * masses.length || 1} ${HEIGHT}`, preserveAspectRatio: "none", role: "img",
    "aria-label": `${Math.min(read, masses.length)} of ${masses.length} rungs hung and read`,
  });
  const most = Math.max(...masses.filter(Boolean), 1);
  masses.forEach((mass, place) => {
    const state = place + 1 === now ? "now" : place < read ? "held" : "left";
    const height = Math.max(LEAST, Math.round((TALLEST * (mass || most)) / most));
    const edge = state === "left" ? 0.5 : 0;
    svg.append(make("rect", { class: state, x: PITCH * place + edge, y: FOOT - height + edge, width: WIDTH - 2 * edge, height: height - 2 * edge }));
  });
  if (now && now <= masses.length) svg.append(make("path", { class: "now", d: `M${PITCH * (now - 1) + 6} -8h10l-5 6z` }));
  svg.append(make("path", { class: "rail", d: `M0 ${RAIL}H${PITCH * masses.length - 4}` }));
  return svg;
}

function make(name, attributes) {
  const element = document.createElementNS(SPACE, name);
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, value);
  return element;
}
