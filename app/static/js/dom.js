// Parts of the page by id, also those of panels that are put away: a panel that is not in use is not in the page, so
// that nothing is there twice.

const panels = [...document.querySelectorAll("template[data-panel]")].map((place) => ({
  place,
  modes: place.dataset.panel.split(" "),
  node: place.content.firstElementChild || place.nextElementSibling,
}));

export function $(id) {
  const found = document.getElementById(id);
  if (found) return found;
  const inside = panels.map(({ node }) => (node.id === id ? node : node.querySelector(`#${id}`)));
  return inside.find(Boolean) || null;
}

// The panels of that mode stand in the page, the others are put away.
export function showPanels(mode) {
  for (const { place, modes, node } of panels) {
    const wanted = modes.includes(mode);
    if (wanted && !node.isConnected) place.after(node);
    if (!wanted && node.isConnected) node.remove();
  }
}

export function element(name, className = "", words = "") {
  const made = document.createElement(name);
  if (className) made.className = className;
  if (words) made.textContent = words;
  return made;
}

export const fill = (place, ...parts) => place.replaceChildren(...parts);

export function text(place, words) {
  if (place.textContent !== words) place.textContent = words;
}
