// The checks of a draft's name and texts: that they can be read, and hold neither persons nor prices.

import { idFrom } from "./draft.js";
import { read } from "./exact.js";
import { finding, warn } from "./finding.js";

/** Control and invisible characters, signs of text direction, and halves of characters. */
const CONTROL = new RegExp("[\\x00-\\x08\\x0b-\\x1f\\x7f-\\x9f\\u061c\\u200b\\u200e\\u200f\\u2028\\u2029\\u202a-\\u202e"
  + "\\u2060-\\u206f\\ufeff\\ufff9-\\ufffb\\p{Cs}\\ufffe\\uffff\\u{e0000}-\\u{e007f}]", "u");
const LONGEST = { name: 80, by: 80, notes: 8000 };
const SENTENCE = 400;

/** Every text in a value, with the way to it. */
function textsIn(value, way = []) {
  if (typeof value === "string") return [[way, value]];
  if (value === null) return []; // a number that could not be read
  return Object.entries(value).flatMap(([key, inner]) => textsIn(inner, [...way, key]));
}

function unreadable(shelf, draft) {
  return textsIn(draft).flatMap(([way, text]) => {
    const says = (code, message, mend) => [finding(code, way, message, mend)];
    const named = [...way].reverse().find((step) => !/^\d+$/.test(step));
    const most = LONGEST[named] ?? SENTENCE;
    const [control] = CONTROL.exec(text) ?? [];
    if (control !== undefined) {
      const sign = `U+${control.codePointAt(0).toString(16).toUpperCase().padStart(4, "0")}`;
      return says("control-character", `There is a control or invisible character here (${sign}).`,
        "Delete it; retype the line if you cannot see it.");
    }
    if (shelf.gaps.includes(text.trim().replace(/\s+/g, " "))) return says("not-filled-in", `Not filled in yet: ${named}.`, "Write the value.");
    const length = [...text].length;
    if (length > most) {
      return says("text-too-long", `This text has ${length} characters; ${most} fit here.`,
        "Shorten it, or move the detail to the notes.");
    }
    if (named === "notes") return notesUnreadable(text, says);
    if (named !== "name" && named !== "by") return [];
    if (/[<>]/.test(text)) return says("bad-name", "A name has no < or > in it.", "Use words.");
    return /[\p{L}\p{N}_]/u.test(text) ? [] : says("bad-name", "A name has at least one letter or digit.", "Use words.");
  });
}

function notesUnreadable(text, says) {
  const lines = text.split("\n");
  if (lines.some((line) => [...line].length > 2000)) {
    return says("text-too-long", "One line here is longer than 2000 signs.", "Break the line.");
  }
  if (lines.length > 400) return says("text-too-long", `This text has ${lines.length} lines; 400 fit here.`, "Shorten it.");
  return /[[(*_>`]{20}/.test(text) || /^[ >*+-]{24}/m.test(text)
    ? says("text-too-deep", "This text nests its marks too deep.", "Write it simpler.") : [];
}

const bare = (name) => name.toLowerCase().normalize("NFKD").replace(/[^\p{L}\p{N}]/gu, "");
const ALIKE = [["rn", "m"], ["vv", "w"], ["0", "o"], ["1", "l"], ["i", "l"], ["-", ""]];
const seenAs = (id) => ALIKE.reduce((seen, [sign, other]) => seen.replaceAll(sign, other), id);

function nameOfAnother(shelf, draft) {
  if (!draft.name) return [];
  const id = idFrom(draft.name, shelf.longest_id);
  if (!id) return [finding("bad-id", ["name"], "No id can be made of this name.", "Use at least one letter from a to z, or a digit.")];
  if (new RegExp(`^${shelf.reserved}$`).test(id)) {
    return [finding("bad-file-name", ["name"], `"${id}" cannot be a file's name everywhere.`, "Give it another name.")];
  }
  if (shelf.recipes.some((each) => each.id === id) || shelf.taken.includes(id)) {
    return [finding("already-there", ["name"], `The book has a blend "${id}", or had one.`, "Give this one another name.")];
  }
  const same = shelf.recipes.find((each) => bare(each.name) === bare(draft.name));
  const like = shelf.recipes.find((each) => seenAs(each.id) === seenAs(id));
  return [
    ...(same ? [warn("same-name", ["name"], `"${same.id}" carries the same name.`, "Say in the names what sets the two apart.")] : []),
    ...(like ? [warn("look-alike-id", ["name"], `The id "${id}" looks like "${like.id}".`,
      "Rename one of the two; name its former id under formerly.")] : []),
  ];
}

const MAIL = /[\p{L}\p{N}_.+-]{1,64}@[\p{L}\p{N}_-]{1,63}(?:\.[\p{L}\p{N}_-]{2,63}){1,4}/u;
const PHONE = /(?:^|[^\d.:/-])(\+?\(?\d{2,4}\)?(?:[ ./-]?\d{2,4}){2,5})(?![\d:])/g;

function isPhone(text) {
  if (/^\d{4}[-./]\d{2}[-./]\d{2}$/.test(text)) return false;
  const groups = text.match(/\d+/g);
  const digits = groups.join("").length;
  return digits >= 9 && digits <= 15 && groups.some((group) => group.length >= 3);
}

function personalDetails(shelf, draft) {
  return textsIn(draft).filter(([, text]) => MAIL.test(text) || [...text.matchAll(PHONE)].some(([, number]) => isPhone(number))).map(([way]) => warn("personal-details", way,
    "This looks like somebody's contact details.", "Take them out: a book holds recipes, not people."));
}

const SIGNED = /\p{Sc}\s?\d|\d\s?\p{Sc}/u;
const NAMED = /\d\s?(?:euros?|dollars?|cents?|francs?|franken|reais|yen|quid)(?![\p{L}\p{N}_])/iu;
const LETTERS = /(?:^|[^\p{L}\p{N}_])([A-Z]{3})\s?\d|\d\s?([A-Z]{3})(?![\p{L}\p{N}_])/gu;
const UNIT = "(?:(?:oz|fl|g|kg|m?[lL]|[cm]?m|h)(?![\\p{L}\\p{N}_])|%|min|hour|vol|part|level|piece)";
const PRICE = new RegExp(`(?:^|[^\\d.,:])(\\d{1,6})[.,](\\d{2})(?![\\d.,:]|\\s?${UNIT})`, "gu");

function priceInText(shelf, draft) {
  const prices = new Set(shelf.prices);
  const currencies = new Set(shelf.currencies.split(" "));
  const isPrice = ([, units, cents]) => {
    const [top, below] = read(`${units}.${cents}`);
    return prices.has(below === 1n ? `${top}` : `${top}/${below}`);
  };
  return textsIn(draft).filter(([way, text]) => way[way.length - 1] !== "by" && (SIGNED.test(text) || NAMED.test(text)
    || [...text.matchAll(LETTERS)].some(([, before, after]) => currencies.has(before ?? after))
    || [...text.matchAll(PRICE)].some(isPrice))).map(([way]) => finding("price-in-text", way,
    "This looks like a price, and the public may read it here.",
    "Write prices under the product's pack, or this text under private."));
}

/** A picture first, which is not a link. */
const LINK = /!\[[^\]\n]*\]\([^)\n]*\)|\]\(\s*<?([^)\s>]*)|^ {0,3}\[[^\]\n]+\]:\s*<?([^\s>]*)/gm;

function pictureInText(shelf, draft) {
  return textsIn(draft).filter(([, text]) => /!\[[^\]\n]*\]|<img(?![\p{L}\p{N}_])/iu.test(text))
    .map(([way]) => warn("picture-in-text", way, "A text cannot hold a picture; it would be left out.",
      "Put the file into the book's folder pictures, and name it under pictures."));
}

function linkToNowhere(shelf, draft) {
  return textsIn(draft).filter(([, text]) => [...text.matchAll(LINK)]
    .some(([whole, one, other]) => whole[0] !== "!" && !/^https?:\/\/[^\s/]/i.test(one || other || ""))).map(([way]) => warn("link-to-nowhere", way,
    "A link in this text does not lead to a page of the web.",
    "Begin its address with https://, or name the entry without a link."));
}

function privateNameInText(shelf, draft) {
  const names = shelf.people.filter((name) => name.length >= 3);
  const named = (text) => names.some((name) => {
    for (let at = text.indexOf(name); at >= 0; at = text.indexOf(name, at + 1)) {
      const word = /[\p{L}\p{N}_]/u;
      if (!word.test([...text.slice(0, at)].slice(-1)[0] ?? "") && !word.test([...text.slice(at + name.length)][0] ?? "")) return true;
    }
    return false;
  });
  return textsIn({ ...draft, reviewed: { change: draft.reviewed?.change ?? "" } }).filter(([, text]) => named(text))
    .map(([way]) => warn("private-name-in-text", way,
      "This names a member of staff or a supplier, and the public may read it here.",
      "Say the part they play, or write it under private."));
}

function overdueReview(shelf, draft) {
  return draft.reviewed ? [] : [warn("overdue-review", ["reviewed"], "This was never reviewed.",
    "Go over it against the makers' instructions, then write the day under reviewed.")];
}

export const WORD_CHECKS = [
  unreadable, nameOfAnother, personalDetails, priceInText, pictureInText, linkToNowhere, privateNameInText, overdueReview,
];
