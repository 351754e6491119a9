// Small conveniences of forms that work without them: a passphrase shown as it is typed, a hint that something is
// not saved yet, a question before something unsaved is left, differences at the balance worked out at once.

function showWhatIsTyped(box) {
  const form = box.form;
  const fields = form.querySelectorAll('input[type="password"]');
  const set = () => fields.forEach((field) => { field.type = box.checked ? "text" : "password"; });
  box.addEventListener("change", set);
  form.addEventListener("submit", () => fields.forEach((field) => { field.type = "password"; }));
  set();
}

function sayWhenChanged(form) {
  const status = form.querySelector(".done-bar [role=status]");
  if (status) form.addEventListener("input", () => { status.textContent = "Not saved yet."; });
}

function differs(field) {
  if (field.type === "checkbox" || field.type === "radio") return field.checked !== field.defaultChecked;
  if (field.tagName !== "SELECT") return field.defaultValue !== undefined && field.value !== field.defaultValue;
  const loaded = Array.from(field.options).find((option) => option.defaultSelected) || field.options[0];
  return Boolean(loaded) && !loaded.selected;
}

// Whoever leaves while a blank differs from what is saved is asked; whoever sends the form is not.
function askBeforeLeaving(form) {
  let sending = false;
  form.addEventListener("submit", () => { sending = true; });
  window.addEventListener("pageshow", () => { sending = false; });
  window.addEventListener("beforeunload", (event) => {
    const unsaved = "refused" in form.dataset || Array.from(form.elements).some(differs);
    if (sending || !unsaved) return;
    event.preventDefault();
    event.returnValue = "";        // older browsers ask only for this
  });
}

function numberOf(text) {
  const plain = text.trim().replace(",", ".").replace("\u2212", "-");
  return plain === "" ? NaN : Number(plain);
}

function signed(value) {
  const text = Math.abs(value).toFixed(1);
  return (value > 0 ? "+" : value < 0 ? "\u2212" : "") + text;
}

function showDifference(row) {
  const field = row.querySelector("input");
  const printed = numberOf(row.cells[2].textContent.replace(/[\u202f\u00a0 ]/g, ""));
  if (!field || Number.isNaN(printed)) return;
  field.addEventListener("input", () => {
    const balance = numberOf(field.value);
    const known = !Number.isNaN(balance);
    row.cells[4].textContent = known ? signed(balance - printed) : "";
    row.cells[5].textContent = known ? signed((100 * (balance - printed)) / printed) : "";
    row.classList.remove("apart");
  });
}

document.querySelectorAll("[data-shows]").forEach(showWhatIsTyped);
document.querySelectorAll("form.sheet").forEach(sayWhenChanged);
document.querySelectorAll("#lesson-sheet").forEach(askBeforeLeaving);
document.querySelectorAll(".balance tbody tr:not(.says-row)").forEach(showDifference);
