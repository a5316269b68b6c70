// A draft as the text of its entry: in the order and style of `bowlbook format`, which leaves it as it is.

/** A text that YAML reads as it stands, inside brackets too. */
const PLAIN = /^[\p{L}\p{N}](?:[\p{L}\p{N}_ ()%'.;/+×°!?–-]|:(?=[^\s:]))*$/u;
/** One on a line of its own, where commas end nothing. */
const LINE = /^[\p{L}\p{N}][^#:[\]{}"&*!|>@`]*$/u;
const NO_TEXT = /^(null|~)$/i;

function scalar(text, line = false) {
  const plain = !NO_TEXT.test(text) && text === text.trim() && (PLAIN.test(text) || (line && LINE.test(text)));
  return plain ? text : JSON.stringify(text);
}

/** A value on one line: keys and values in { }, a list in [ ]. */
function inline(value) {
  if (Array.isArray(value)) return `[${value.map(inline).join(", ")}]`;
  if (typeof value === "string") return scalar(value);
  return `{${Object.entries(value).map(([key, inner]) => `${key}: ${inline(inner)}`).join(", ")}}`;
}

/** Keys whose values take a line each, however short: they are what is read most. */
const LINES = ["suits"];
/** Keys of texts with lines of their own. */
const BLOCKS = ["notes"];

function lines(key, value) {
  if (BLOCKS.includes(key)) return [`${key}: |`, ...value.split("\n").map((line) => line && `  ${line}`)];
  if (typeof value === "string") return [`${key}: ${scalar(value, true)}`];
  if (Array.isArray(value)) {
    return [`${key}:`, ...value.map((each) => `  - ${typeof each === "string" ? scalar(each, true) : inline(each)}`)];
  }
  if (!LINES.includes(key)) return [`${key}: ${inline(value)}`];
  return [`${key}:`, ...Object.entries(value).map(([inner, text]) => `  ${inner}: ${inline(text)}`)];
}

/** The whole file; `schema` is its first line, by which editors know what may stand in it. */
export function entryText(draft, schema) {
  return [schema, "", ...Object.entries(draft).flatMap(([key, value]) => lines(key, value)), ""].join("\n");
}
