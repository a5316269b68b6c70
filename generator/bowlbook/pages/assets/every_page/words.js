// Words as search compares them; the same as reading/search_word.py, which a test holds against this file.

const UNITS = new Map(Object.entries({
  level: "level", lvl: "level", lv: "level", l: "level",
  volume: "volume", vol: "volume", v: "volume",
  lift: "lift",
  "%": "percent", percent: "percent",
  oz: "oz", ounce: "oz",
  g: "g", gr: "g", gram: "g",
}));
const BEFORE = ["level", "volume", "lift"];
const TOKEN = /[0-9]+(?:[.,][0-9]+)?|(?:(?![0-9])[\p{L}\p{N}])+|%/gu;

export const isNumber = (word) => /^[0-9]/.test(word);
const unitOf = (word) => UNITS.get(word);

/** A plain plural without its ending. */
function singular(word) {
  if (word.length < 4 || !word.endsWith("s") || /(ss|us|is)$/.test(word)) return word;
  if (word.endsWith("ies") && word.length > 4) return `${word.slice(0, -3)}y`;
  return /(sses|xes|ches|shes)$/.test(word) ? word.slice(0, -2) : word.slice(0, -1);
}

/** Two words as a number with its unit; undefined where they are not one. Levels after a number are of lift. */
function withUnit(one, other = "") {
  if (isNumber(other) && BEFORE.includes(unitOf(one))) return other + unitOf(one);
  if (isNumber(one) && unitOf(other)) return one + (unitOf(other) === "level" ? "lift" : unitOf(other));
  return undefined;
}

/** The words of a text: lower case, without accents, plurals as singulars, numbers joined to their units. */
export function wordsOf(text) {
  const bare = text.toLowerCase().normalize("NFD").replace(/\p{M}/gu, "").replace(/['’]s(?![\p{L}\p{N}])/gu, "s");
  const found = (bare.match(TOKEN) ?? []).map((word) => singular(word).replace(",", "."));
  const words = [];
  for (let place = 0; place < found.length; place += 1) {
    const joined = withUnit(found[place], found[place + 1]);
    words.push(joined ?? found[place]);
    if (joined) place += 1;
  }
  return words;
}
