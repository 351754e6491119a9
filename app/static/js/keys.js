// Keys for what a teacher does while standing: a button with data-key is pressed by its key, never while someone types.

export function listenForKeys(others = {}) {
  document.addEventListener("keydown", (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey || event.repeat || isTyping(event.target)) return;
    const key = event.key.length === 1 ? event.key.toUpperCase() : event.key;
    const button = document.querySelector(`[data-key="${CSS.escape(key)}"]`);
    if (!button && !others[key]) return;
    event.preventDefault();
    if (button) button.click();
    else others[key]();
  });
}

function isTyping(element) {
  return element instanceof Element && element.matches("input:not([type=checkbox], [type=radio]), textarea, select, [contenteditable]");
}
