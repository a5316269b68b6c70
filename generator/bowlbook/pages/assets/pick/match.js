// Matching for Pick by hair: the same short evaluation as generator/bowlbook/figures/match.py, on data compiled
// there. Pure functions; consult.js gives the verdict that comes first, pick.js shows both.

import { assumed, both, completed, either, fill, holds, placeOf, questionsOf } from "./consult.js";

/** A head as one bit set a facet, from a mapping of facet names to lists of values. */
export function headOf(data, chosen) {
  return data.facets.map(([name, values]) => {
    let bits = 0;
    for (const value of chosen[name] ?? []) {
      const place = values.findIndex((known) => String(known) === String(value));
      if (place >= 0) bits |= 1 << place;
    }
    // A lift of 0 is a wish for no lift at all.
    if (name === "wish" && (chosen.lift ?? []).some((value) => String(value) === "0")) bits = data.bits.no_lift;
    return bits;
  });
}

function mayHold(sets, head) {
  for (let i = 0; i < sets.length; i += 2) {
    const asked = head[sets[i]];
    if (asked && !(asked & sets[i + 1])) return false;
  }
  return true;
}

function count(bits) {
  let found = 0;
  for (let rest = bits; rest; rest &= rest - 1) found += 1;
  return found;
}

/** What a facet of a candidate is to what was asked of it: hit, part, miss, or "" where it says nothing of it.
    Of a history recipes are written for colour and lightener; what else was done is for stops to judge. */
function meets(data, place, set, asked) {
  if (data.facets[place][0] === "history") {
    if (asked & data.bits.coloured & ~set) return "miss";
    return asked & set ? "hit" : "";
  }
  if (!(asked & ~set)) return "hit";
  return asked & set ? "part" : "miss";
}

/** How a candidate's facets meet a head: places of facets it suits wholly, partly, not at all. */
function met(data, suits, head) {
  const found = { hit: [], part: [], miss: [], "": [] };
  for (let i = 0; i < suits.length; i += 2) {
    const asked = head[suits[i]];
    if (asked) found[meets(data, suits[i], suits[i + 1], asked)].push(suits[i]);
  }
  return { hits: found.hit, parts: found.part, misses: found.miss };
}

/** The place of one candidate in the ranking, as one number: the smaller, the better. Its digits are, two each:
    excluded, misses, unusual, preferred (from 99 down), parts, hits (from 99 down), tightness (from 99 down). */
function rankOf(data, candidate, head, held) {
  const suits = candidate[4];
  let hits = 0, parts = 0, misses = 0, unusual = 0, tightness = 0;
  for (let i = 0; i < suits.length; i += 2) {
    const place = suits[i], set = suits[i + 1], asked = head[place];
    if (!asked) {
      const usual = data.facets[place][3];
      if (usual && !(set & usual)) unusual += 1;
      continue;
    }
    const how = meets(data, place, set, asked);
    if (how === "hit") {
      hits += 1;
      tightness += Math.max(0, 10 - count(set));
    } else if (how === "part") parts += 1;
    else if (how === "miss") misses += 1;
  }
  let excluded = 0, preferred = 0;
  for (const number of candidate[5]) if (held[number]) excluded = 1;
  for (const number of candidate[6]) if (held[number]) preferred += 1;
  const upper = ((excluded * 100 + misses) * 100 + unusual) * 100 + 99 - Math.min(preferred, 99);
  return ((upper * 100 + parts) * 100 + 99 - hits) * 100 + 99 - tightness;
}

/** The clauses to ask about: they may hold, for heads that the recipe otherwise suits; each kind of head once,
    and not what is asked of every head. */
function toAsk(data, candidate, excluded, head) {
  const own = fromSets(data, candidate[4]);
  const ask = [];
  for (const number of candidate[5]) {
    const heads = data.clauses[number][0];
    if (excluded.includes(number) || !mayHold(heads, head) || !mayHold(heads, own)) continue;
    const known = [...excluded, ...ask].some((other) => String(data.clauses[other][0]) === String(heads));
    if (!known) ask.push(number);
  }
  return ask.filter((number) => !data.clauses[number][5]);
}

function levels(numbers) {
  const runs = [];
  for (const number of numbers) {
    const last = runs.slice(-1)[0];
    if (last && number === last[last.length - 1] + 1) last.push(number);
    else runs.push([number]);
  }
  return runs.map((run) => (run.length === 1 ? `${run[0]}` : `${run[0]}–${run.slice(-1)[0]}`)).join(", ");
}

/** A facet's set as words, by the phrase that came with the data. */
export function phrase(data, place, bits) {
  const [, values, many, , one = many] = data.facets[place];
  const named = values.filter((_, n) => (bits >> n) & 1);
  const words = named.every((value) => typeof value === "number") ? levels(named) : either(named);
  return (words === "1" ? one : many).replace("{}", () => words);
}

/** The same for a toner, which meets the target level as a level that the hair has. */
function tonedPhrase(data, place, bits) {
  if (data.facets[place][0] !== "target_level") return phrase(data, place, bits);
  return `hair lifted to level ${levels(data.facets[place][1].filter((_, n) => (bits >> n) & 1))}`;
}

export function described(data, head) {
  const said = head.flatMap((bits, place) => (bits && data.facets[place][2] ? [phrase(data, place, bits)] : []));
  return said.join(", ") || "any head";
}

function fromSets(data, sets) {
  const head = data.facets.map(() => 0);
  for (let i = 0; i < sets.length; i += 2) head[sets[i]] = sets[i + 1];
  return head;
}

function reasons(data, candidate, head, answers) {
  const set = fromSets(data, candidate[4]);
  const { hits, parts, misses } = met(data, candidate[4], head);
  const certain = (number) => holds(data, data.clauses[number][0], head);
  const words = candidate[10] ? tonedPhrase : phrase;
  const excluded = candidate[5].filter(certain);
  const text = (number) => data.texts[number];
  const refusal = ([, because, , , , , of]) => (of < 0 ? "" : fill(data.words.bowl_of, text(of))) + text(because);
  const sentence = (number) => refusal(data.clauses[number]) + text(data.clauses[number][2]);
  const why = [];
  if (hits.length) why.push(`Meant for ${both(hits.map((place) => words(data, place, head[place])))}.`);
  for (const place of parts) {
    why.push(`Good for part of it only: ${words(data, place, set[place] & head[place])}.`);
  }
  for (const number of candidate[6].filter(certain)) why.push(sentence(number));
  const whyNot = excluded.map(sentence);
  for (const place of misses) {
    whyNot.push(`Meant for ${words(data, place, set[place])}, not ${words(data, place, head[place])}.`);
  }
  const unsaid = data.facets.flatMap(([name], place) =>
    set[place] && !head[place] && name !== "placement" ? [words(data, place, set[place])] : []);
  const ask = unsaid.length ? [`Only for ${both(unsaid)}.`] : [];
  for (const number of toAsk(data, candidate, excluded, head)) {
    const clause = data.clauses[number];
    ask.push(`Not for ${described(data, fromSets(data, clause[0]))}: ${refusal(clause)}`);
  }
  const instead = excluded.map((number) => data.clauses[number].slice(3))
    .find(([id, kind]) => id >= 0 && answers.has(`${kind} ${id}`));
  return { why, why_not: [...new Set(whyNot)], ask: [...new Set(ask)], instead };
}

/** A head as it is judged: its levels completed, and what is taken for granted. */
function judgedHead(data, head) {
  return assumed(data, completed(data, head) ?? head);
}

/** What underlying pigment the levels lifted to will show: each level and its sentence, at most three. */
export function pigment(data, head) {
  return data.pigment.map((sentence, n) => [n + 1, sentence])
    .filter(([level]) => (head[placeOf(data, "target_level")] >> (level - 1)) & 1).slice(0, 3);
}

const MISSES = 1e10, EXCLUDED = 1e12;

/** Every candidate for a head that a consultation gives, best first: the row, its rank, whether it is an answer.
    What is for any head is none. */
export function ranked(data, rows, head) {
  const judged = judgedHead(data, head);
  const held = data.clauses.map((clause) => holds(data, clause[0], judged));
  const found = rows.map((row, number) => [number, rankOf(data, row, judged, held)]);
  found.sort((one, other) => one[1] - other[1] || one[0] - other[0]);
  return found.map(([number, rank]) => {
    const row = rows[number];
    const { hits, parts } = met(data, row[4], judged);
    const found = { row, rank, excluded: rank >= EXCLUDED, misses: Math.floor((rank % EXCLUDED) / MISSES) };
    return { ...found, suits: !found.excluded && !found.misses && hits.length + parts.length > 0 };
  });
}

/** How many of some recipes suit a head: the same as of `ranked`, without putting them in order. */
function suiting(data, rows, head) {
  const judged = judgedHead(data, head);
  const held = data.clauses.map((clause) => holds(data, clause[0], judged));
  return rows.filter((row) => {
    if (rankOf(data, row, judged, held) >= MISSES) return false;
    const { hits, parts } = met(data, row[4], judged);
    return hits.length + parts.length > 0;
  }).length;
}

/** The kinds and ids of all answers that are no pair: only these are named instead of another. */
export function answersOf(found) {
  return new Set(found.filter((each) => each.suits && each.row[3] < 0).map(({ row }) => `${row[0]} ${row[1]}`));
}

function placementWords(data, bits) {
  const values = data.facets[placeOf(data, "placement")][1];
  return values.filter((_, n) => (bits >> n) & 1);
}

/** The developers and cautions of a row for the areas that are worked on: of a technique only the bowls that go
    there count. */
function useOf(data, row, head) {
  const [kind, , , , , , , , developers, cautions, , , , bowls] = row;
  if (!bowls.length) return { developers, cautions };
  const area = head[placeOf(data, "area")];
  const used = bowls.filter(([reach]) => !reach || !area || reach & area);
  const lightening = used.filter(([reach]) => reach);
  const own = lightening.filter((bowl) => bowl[1]);
  const pair = data.kinds[kind] === "pair";
  const first = pair && own.length ? own : lightening;
  const mixed = first.length ? first : bowls;
  return {
    developers: [...new Set(mixed.map((bowl) => bowl[2]))].sort((one, other) => one - other),
    cautions: pair ? cautions : [...new Set([...cautions, ...used.flatMap((bowl) => bowl[3])])],
  };
}

/** The developers an answer is written for, by name and volume, the strongest first. */
export function developersOf(data, row, head) {
  return useOf(data, row, head).developers.map((developer) => data.texts[data.developers[developer][1]]);
}

/** Which unusual hair an answer is for, where nothing was said of it; "" where it is for usual hair. */
export function onlyFor(data, row, head) {
  const judged = judgedHead(data, head), words = row[10] ? tonedPhrase : phrase, unusual = [];
  for (let i = 0; i < row[4].length; i += 2) {
    const place = row[4][i], set = row[4][i + 1], usual = data.facets[place][3];
    if (usual && !judged[place] && !(set & usual)) unusual.push(words(data, place, set));
  }
  return unusual.length ? `Only for ${both(unusual)}.` : "";
}

/** The placements of a row, as bits, that were asked for and that nothing refuses this head; all of them where
    none is left. */
function allowedPlacements(data, row, head) {
  if (data.kinds[row[0]] !== "blend") return row[7];
  const place = placeOf(data, "placement");
  let left = 0;
  for (let bit = 1; bit <= row[7]; bit <<= 1) {
    if (!(row[7] & bit) || (head[place] && !(head[place] & bit))) continue;
    const placed = head.with(place, bit);
    if (!row[5].some((number) => holds(data, data.clauses[number][0], placed))) left |= bit;
  }
  return left || row[7];
}

/** What an answer is mixed with, where it goes and how long, as a sentence or two. */
export function mixedWith(data, row, head) {
  const where = either(placementWords(data, allowedPlacements(data, row, judgedHead(data, head)))) || "at the basin";
  const mixed = `With ${developersOf(data, row, head).join(" or ")}; ${where}.`;
  return row[11] === null ? mixed : `${mixed} At most ${row[11]} minutes, first check after ${row[12]}.`;
}

/** The smallest bowl of a blend: its batch, and for each pour the product's name and what the scale shows; null
    for a technique and for a toner. */
export function firstBowl(data, row, head) {
  const bowl = data.kinds[row[0]] === "technique" ? null : data.bowls[row[1]];
  if (!bowl) return null;
  const [batch, ...pours] = bowl;
  const developer = developersOf(data, row, head).join(" or ");
  return { batch, pours: pours.map(([name, shows]) => [name < 0 ? developer : data.texts[name], shows]) };
}

/** An answer or a refusal in words. ``answers``: see `answersOf`. */
export function explained(data, found, head, answers) {
  const { row } = found;
  const judged = judgedHead(data, head);
  const said = reasons(data, row, judged, answers);
  const use = useOf(data, row, head);
  const [developer, , volume] = data.developers[use.developers[0]];
  return {
    kind: data.kinds[row[0]],
    id: data.texts[row[1]],
    name: data.texts[row[2]],
    within: row[3] < 0 ? null : data.texts[row[3]],
    tones: row[10] === 1,
    placement: placementWords(data, allowedPlacements(data, row, judged)),
    developer: data.texts[developer],
    volume,
    minutes: row[11],
    first_check: row[12],
    cautions: use.cautions.map((caution) => data.texts[caution]),
    suits: found.suits,
    excluded: found.excluded,
    misses: found.misses,
    why: said.why,
    why_not: said.why_not,
    ask: said.ask,
    instead: said.instead ? data.texts[said.instead[0]] : null,
    instead_kind: said.instead ? data.kinds[said.instead[1]] : null,
  };
}

/** The toning blends for hair lifted to a level and a tone that is wished for, best first, at most three. */
export function tonersAt(data, level, tone) {
  const head = data.facets.map(() => 0);
  head[placeOf(data, "target_level")] = 1 << (level - 1);
  head[placeOf(data, "tone")] = tone;
  head[placeOf(data, "wish")] = data.bits.lighter;
  const blends = ranked(data, data.toners, head).filter(({ suits, row }) => suits && data.kinds[row[0]] === "blend");
  return blends.slice(0, 3).map(({ row }) => row);
}

/** What to ask next about a head; `denied` as in `questionsOf`. */
export function questions(data, head, found, denied) {
  const count = (each) => suiting(data, data.candidates, each);
  return questionsOf(data, head, found, count, denied);
}
