// Reads a query that describes a head, as "coarse 4 cool" or "level 7 to 9 fine".

import { isNumber } from "./words.js";

/** Facets of the hair itself: without one of them a query is no head. */
const HAIR = ["natural_level", "texture", "density", "porosity", "curl", "history", "grey"];
const HIGHEST = 10;

const levelIn = (word) => {
  const [, number, unit] = /^([0-9.]+)(.*)$/.exec(word) ?? [];
  const level = Number(number);
  const is = Number.isInteger(level) && level >= 1 && level <= HIGHEST;
  return is && (unit === "" || unit === "level") ? { level, bare: unit === "" } : null;
};

/** The level wished for, where a query says from which to which, and the place of its word. */
function wish(words) {
  const at = words.findIndex((word, place) => word === "to" && levelIn(words[place - 1] ?? "") && levelIn(words[place + 1] ?? ""));
  return at < 0 ? null : { from: words[at - 1], to: words[at + 1] };
}

/** The facet and value that a phrase names, by itself or by what it means. */
function facetOf(data, phrase) {
  for (const text of [phrase, ...(data.typed.get(phrase) ?? [])]) {
    if (Object.keys(data.facets).includes(text)) return data.facets[text];
  }
  return null;
}

/**
 * What a query says of a head, as facets and values for Pick by hair, with its phrases put for search; null for
 * a query that says anything else, or too little.
 */
export function readHead(data, words, parts) {
  const chosen = {};
  const put = [];
  const wished = wish(words);
  const add = (facet, value, phrase) => {
    if (!(chosen[facet] ??= []).includes(value)) chosen[facet].push(value);
    put.push(phrase);
  };
  let bare = 0;
  for (const phrase of parts) {
    const number = isNumber(phrase) ? levelIn(phrase) : null;
    if (wished && phrase === wished.to && phrase !== wished.from) {
      add("target_level", String(number.level), `target ${number.level}level`);
    } else if (number) {
      bare += number.bare && phrase !== wished?.from ? 1 : 0;
      add("natural_level", String(number.level), `${number.level}level`);
    } else {
      const facet = facetOf(data, phrase);
      if (!facet) return null;
      add(facet[0], facet[1], phrase);
    }
  }
  const facets = Object.keys(chosen);
  const isHead = facets.some((facet) => HAIR.includes(facet))
    && (facets.length > 1 || (facets[0] === "natural_level" && bare === 0))
    && Object.entries(chosen).every(([facet, values]) => facet === "history" || values.length === 1);
  if (!isHead) return null;
  const order = [...new Set(Object.values(data.facets).map(([facet]) => facet))];
  const sorted = Object.entries(chosen).sort(([one], [other]) => order.indexOf(one) - order.indexOf(other));
  return { chosen: Object.fromEntries(sorted), parts: put };
}
