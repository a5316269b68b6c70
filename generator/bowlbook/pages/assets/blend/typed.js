// A weight as somebody types it, with or without a unit. Nothing is guessed: what is not certain is refused.

const WEIGHT = /^(\d{1,5}(?:\.\d{1,4})?|\.\d{1,4}|\d{0,5},\d{1,2})\s*(\p{L}[\p{L}\s]*)?$/u;
const UNITS = { oz: "oz", ounce: "oz", ounces: "oz", g: "g", gram: "g", grams: "g" };
export const NAMES = { oz: "ounces", g: "grams" };

/** A weight and its unit, `unit` where none is typed: `{ number, unit }`, or `{ why }` with a sentence. */
export function typedWeight(text, unit, zero = false) {
  const found = WEIGHT.exec(text.trim());
  if (!found) return { why: why(text.trim(), unit) };
  const typed = found[2]?.trim().toLowerCase();
  if (typed && !UNITS[typed]) {
    const volume = /^(fl|ml|l\b)/.test(typed) ? " That is a volume." : "";
    return { why: `“${found[2].trim()}” is not read here.${volume} Type a weight in ${unit}.` };
  }
  const point = found[1].replace(",", ".");
  const number = point.startsWith(".") ? `0${point}` : point;
  if (!Number(number) && !zero) return { why: why("", unit) };
  return { number, unit: typed ? UNITS[typed] : unit };
}

function why(text, unit) {
  if (/[½¼¾⅓⅔⅛]|\d\s*\/\s*\d/.test(text)) return "Write ½ as 0.5 and ¼ as 0.25.";
  return `Type a weight above zero, such as ${unit === "oz" ? "0.75 oz" : "15 g"}.`;
}


