// Numbers as people type them, and how they are shown: the same rules as app/domain/quantities.py.

const TYPED_MOST = 20;
const NUMBER = /^[+-]?(\d+([.,]\d*)?|[.,]\d+)$/;
const NARROW = "\u202f";
const FAST = "\u00a0";
const MINUS = "\u2212";

// What was typed as a number, or a sentence why it is none.
export function numberTyped(typed, [low, high] = [-Infinity, Infinity], unit = "") {
  const text = typed.trim().replace(/\u2212/g, "-");
  if (!text) return { why: "Type a number here." };
  if (text.length > TYPED_MOST) return { why: `That is too long: at most ${TYPED_MOST} characters.` };
  if (!NUMBER.test(text)) return { why: "Numbers only, please, without the unit. A comma or a point may stand in it." };
  const value = Number(text.replace(",", "."));
  if (value < low || value > high) return { why: `That is outside what can be: ${low} to ${high}${unit && " " + unit}.` };
  return { value };
}

export function shown(value, decimals = 0) {
  const [whole, part] = Math.abs(value).toFixed(decimals).split(".");
  const sign = value < 0 && Number(value.toFixed(decimals)) !== 0 ? MINUS : "";
  return sign + whole.replace(/\B(?=(\d{3})+$)/g, NARROW) + (part ? "." + part : "");
}

export function trimmed(value, decimals = 2) {
  const text = shown(value, decimals);
  return text.includes(".") ? text.replace(/\.?0+$/, "") : text;
}

export const grams = (value) => (value === null ? "" : trimmed(value, 1) + FAST + "g");
export const newtons = (value) => (value === null ? "" : shown(value, 2) + FAST + "N");
export const withUnit = (text, unit) => text + FAST + unit;
