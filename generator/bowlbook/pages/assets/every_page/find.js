// Search itself: a query to rows, best first. No page is needed for it: the index comes as data, see search_index.py.
// A query is taken apart into phrases that the trade's list knows and single words. Each is looked up exactly and by
// what it means; only where that finds nothing, more loosely.

import { readHead } from "./head_query.js";
import { isNumber, wordsOf } from "./words.js";

const LONGEST_PHRASE = 4;
const MOST_WORDS = 12;
/** How much a word counts in an entry's title, in another name of it, and elsewhere. */
const WEIGHTS = { names: 4, also: 3, others: 1 };
/** Kinds that are looked for less often; the manual stands last in any case. */
const KIND_WEIGHT = { "Class notes": 0.8, "By kind of hair": 0.6, Page: 0.5 };
const MANUAL = ["Keeping the book", "Finding"];
/** Entries found otherwise, from which on the manual is left out. */
const ENOUGH = 3;
/** Units that a bare number may have, by the likeliest. */
const BARE = ["level", "volume", "percent", "lift"];

/** 5 volume before 10. */
const byName = new Intl.Collator("en", { numeric: true });

/** What a query needs to be quick, made once of the index as it was fetched. */
export function prepare(data) {
  const words = data.words.split(" ");
  const place = new Map(words.map((word, at) => [word, at]));
  const small = new Set(data.small.split(" "));
  const typed = new Map(Object.entries(data.typed));
  // A phrase as one word: "baby lights" for "babylights", and the reverse.
  const joined = new Map();
  for (const phrase of [...typed.keys(), ...Object.keys(data.facets)]) joined.set(phrase.replaceAll(" ", ""), phrase);
  for (const word of words) if (word.length > 4 && !joined.has(word)) joined.set(word, word);
  const single = new Set([...typed.keys()].flatMap((phrase) => phrase.split(" ")));
  return { ...data, words, place, small, typed, joined, single, titles: [], count: data.entries.length };
}

/** Where a word would stand in a sorted list. */
function below(words, word) {
  let low = 0;
  let high = words.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (words[middle] < word) low = middle + 1;
    else high = middle;
  }
  return low;
}

function* startingWith(words, start) {
  for (let at = below(words, start); at < words.length && words[at].startsWith(start); at += 1) yield words[at];
}

/** How many slips apart two words are, up to `most`: a letter wrong, missing, too many, or two swapped. */
function slips(one, other, most) {
  if (Math.abs(one.length - other.length) > most) return most + 1;
  let before = [];
  let last = Array.from({ length: other.length + 1 }, (_, at) => at);
  for (let row = 1; row <= one.length; row += 1) {
    const now = [row];
    for (let column = 1; column <= other.length; column += 1) {
      let cost = Math.min(last[column] + 1, now[column - 1] + 1,
        last[column - 1] + (one[row - 1] === other[column - 1] ? 0 : 1));
      if (row > 1 && column > 1 && one[row - 1] === other[column - 2] && one[row - 2] === other[column - 1]) {
        cost = Math.min(cost, before[column - 2] + 1);
      }
      now.push(cost);
    }
    if (Math.min(...now) > most) return most + 1;
    before = last;
    last = now;
  }
  return last[other.length];
}

/** The entries that have a word, each with how much that counts. */
function entriesOf(data, word) {
  const found = new Map();
  const at = data.place.get(word);
  if (at === undefined) return found;
  for (const [field, weight] of Object.entries(WEIGHTS)) {
    const list = data[field][at];
    const rare = weight * Math.log(1 + data.count / (1 + list.length));
    let entry = 0;
    for (const step of list) {
      entry += step;
      if (rare > (found.get(entry) ?? 0)) found.set(entry, rare);
    }
  }
  return found;
}

const kindOf = (data, entry) => data.kinds[data.entries[entry][2]];

/** How much of its title was asked for: "gloves" is all of Gloves. One that begins with it is named after it. */
function wholeness(data, entry, asked) {
  const title = data.titles[entry] ??= wordsOf(data.entries[entry][1]);
  const share = title.filter((word) => asked.includes(word)).length / Math.max(title.length, asked.length);
  return 1 + share + (asked.includes(title[0]) ? 0.1 : 0);
}

/** The entries that have all of these words, each with its share of what the best of them is worth. */
function entriesOfAll(data, words) {
  const [first, ...rest] = words.map((word) => entriesOf(data, word));
  const found = new Map();
  let most = 0;
  for (const [entry, value] of first) {
    if (!rest.every((other) => other.has(entry))) continue;
    const sum = rest.reduce((total, other) => total + other.get(entry), value);
    const worth = sum * wholeness(data, entry, words) * (KIND_WEIGHT[kindOf(data, entry)] ?? 1);
    most = Math.max(most, worth);
    found.set(entry, worth);
  }
  for (const [entry, worth] of found) found.set(entry, worth / most);
  return found;
}

const ENDING = /(ing|ed|ly|er|y|e)$/;
const stem = (word) => (word.length > 4 ? word.replace(ENDING, "") : word);

/** Words of the same stem, as "painted" for "painting". */
function sameStem(data, word) {
  const base = stem(word);
  if (base.length < 3 || isNumber(word)) return [];
  return [...startingWith(data.words, base)].filter((other) => stem(other) === base);
}

/** Two known words that were typed as one. */
function parted(data, word) {
  for (let at = 3; at <= word.length - 3; at += 1) {
    const parts = [word.slice(0, at), word.slice(at)];
    if (parts.every((part) => data.place.has(part) || data.single.has(part))) return parts;
  }
  return null;
}

/** The known word nearest to one that was typed, at most two slips away; null where there is none. */
function nearest(data, word) {
  if (word.length < 4 || /[0-9]/.test(word)) return null;
  let best = null;
  let least = word.length > 7 ? 2 : 1;
  const look = (other) => {
    if (/[0-9]/.test(other) || other.length < 3) return;
    const apart = slips(word, other, least) + (other[0] === word[0] ? 0 : 0.5);
    if (apart > least || (best !== null && apart === least)) return;
    best = other;
    least = apart;
  };
  for (const other of data.single) look(other);
  for (const other of data.words) look(other);
  return best;
}

const begins = (data, word) => word.length > 1 && !startingWith(data.words, word).next().done;

/** A query's words, with typing mistakes put right where nothing else is meant by them. */
function spelled(data, words) {
  const mended = [];
  const found = words.flatMap((word, at) => {
    if (isNumber(word) || data.place.has(word) || data.single.has(word) || data.small.has(word)) return [word];
    if (data.joined.has(word)) return data.joined.get(word).split(" ");
    if (sameStem(data, word).length || begins(data, word)) return [word];
    if (at === words.length - 1 && typedFrom(data, word).length) return [word];
    const parts = parted(data, word);
    if (parts) return parts;
    const other = nearest(data, word);
    if (other === null) return [word];
    mended.push([word, other]);
    return [other];
  });
  return { words: found, mended };
}

const typedFrom = (data, start) => (start.length < 3 ? []
  : [...data.typed.keys()].filter((phrase) => phrase.startsWith(start)));

/** A query in phrases that are known and single words; small words by themselves are left out. */
function phrases(data, words) {
  const found = [];
  for (let at = 0; at < words.length;) {
    let length = Math.min(LONGEST_PHRASE, words.length - at);
    for (; length > 1; length -= 1) {
      const part = words.slice(at, at + length);
      const phrase = part.join(" ");
      const known = data.typed.has(phrase) || Object.keys(data.facets).includes(phrase) ? phrase : data.joined.get(part.join(""));
      if (known) { found.push(known); break; }
    }
    if (length <= 1) {
      length = 1;
      found.push(words[at]);
    }
    at += length;
  }
  const content = found.filter((phrase) => !data.small.has(phrase));
  return content.length ? content : found;
}

/** How sure a meaning of the list is, by its place on it; and the phrase itself, word for word. */
const MEANT = [4, 3.4, 2.8, 2.2];
const LITERAL = 2;

/** Ways to look for words, each tried only where those before found nothing: [words, how sure]. */
function* looser(data, phrase, last) {
  if (isNumber(phrase)) {
    const [, number, unit] = /^([0-9.]+)(.*)$/.exec(phrase);
    yield unit ? [[[unit], 0.5]] : BARE.map((each, at) => [[number + each], 1 - 0.1 * at]);
    return;
  }
  yield sameStem(data, phrase).map((word) => [[word], 1]);
  if (phrase.length > 1) yield [...startingWith(data.words, phrase)].map((word) => [[word], 1]);
  if (last) yield typedFrom(data, phrase).flatMap((each) => data.typed.get(each)).map((text) => [text.split(" "), 0.5]);
}

/** Entries for a phrase, each with how well it answers: what is meant first, and among those what has the words. */
function valuesOf(data, phrase, last) {
  const found = new Map();
  const meant = (data.typed.get(phrase) ?? []).map((text) => entriesOfAll(data, text.split(" ")));
  for (const [at, entries] of meant.entries()) {
    for (const [entry, share] of entries) if (!found.has(entry)) found.set(entry, (MEANT[at] ?? LITERAL) + share / 2);
  }
  for (const [entry, share] of entriesOfAll(data, phrase.split(" "))) {
    found.set(entry, found.has(entry) ? found.get(entry) + share / 2 : LITERAL * share);
  }
  if (found.size) return found;
  for (const ways of looser(data, phrase, last)) {
    for (const [words, sure] of ways) {
      for (const [entry, share] of entriesOfAll(data, words)) {
        found.set(entry, Math.max(sure * share, found.get(entry) ?? 0));
      }
    }
    if (found.size) return found;
  }
  return found;
}

/** Paragraphs of one page count as one: the best stands for it. */
const pageOf = (data, entry) => data.entries[entry][0].replace(/#.*/, "");

function ranked(data, parts) {
  const count = new Map();
  const score = new Map();
  for (const [place, phrase] of parts.entries()) {
    const found = valuesOf(data, phrase, place === parts.length - 1);
    const rare = Math.log(1 + data.count / (1 + found.size));
    for (const [entry, value] of found) {
      count.set(entry, (count.get(entry) ?? 0) + 1);
      score.set(entry, (score.get(entry) ?? 0) + value * rare);
    }
  }
  const most = Math.max(0, ...count.values());
  const seen = new Set();
  const title = (entry) => data.entries[entry][1];
  // What has fewer of the words is shown only as long as it has half of them.
  return [...score.keys()].filter((entry) => count.get(entry) * 2 >= most)
    .sort((one, other) => count.get(other) - count.get(one) || score.get(other) - score.get(one)
      || byName.compare(title(one), title(other)) || one - other)
    .filter((entry) => !seen.has(pageOf(data, entry)) && seen.add(pageOf(data, entry)))
    .map((entry) => ({ entry, whole: count.get(entry) === parts.length }));
}

/** The rows of a query, best first, as places in the index; the head it reads like, if any; and what was put right. */
export function find(data, query) {
  const typed = [...wordsOf(query)].slice(0, MOST_WORDS);
  const { words, mended } = spelled(data, typed);
  const parts = [...new Set(phrases(data, words))];
  if (!parts.length) return { rows: [], head: null, mended: [] };
  const head = readHead(data, words, parts);
  const found = ranked(data, head?.parts ?? parts);
  const name = words.join(" ");
  // An entry asked for by its whole name stands first; a paragraph of a page has no name of its own.
  const first = ({ entry }) => kindOf(data, entry) !== "Page" && wordsOf(data.entries[entry][1]).join(" ") === name;
  const isManual = ({ entry }) => MANUAL.includes(kindOf(data, entry));
  const named = found.filter(first);
  const isRetired = ({ entry }) => data.entries[entry][3] === "retired";
  const rest = found.filter((each) => !first(each) && !isManual(each));
  const own = [...rest.filter((each) => !isRetired(each)), ...rest.filter(isRetired)];
  const manual = own.length < ENOUGH ? found.filter((each) => !first(each) && isManual(each) && each.whole) : [];
  return { rows: [...named, ...own, ...manual].map(({ entry }) => entry), head: head?.chosen ?? null, mended };
}
