// Matching for Pick by hair: the same short evaluation as generator/bowlbook/figures/match.py, on data compiled there.
// Pure functions; pick.js shows the answer.

const NATURAL = 0, TARGET = 1, LIFT = 2;

/** A head as one bit set a facet, from a mapping of facet names to lists of values. */
export function headOf(data, said) {
  return data.facets.map(([name, values]) => {
    let bits = 0;
    for (const value of said[name] ?? []) {
      const place = values.findIndex((known) => String(known) === String(value));
      if (place >= 0) bits |= 1 << place;
    }
    return bits;
  });
}

/** The third of natural level, target level and lift from the other two; null where nothing can be lifted. */
export function completed(head) {
  const [natural, target, lift] = head;
  const found = [...head];
  let place = -1;
  if (natural && target && !lift) {
    place = LIFT;
    found[place] = pairs(natural, target, (n, t) => t - n, 9);
  } else if (natural && lift && !target) {
    place = TARGET;
    found[place] = pairs(natural, lift, (n, l) => n + l, 10);
  } else if (target && lift && !natural) {
    place = NATURAL;
    found[place] = pairs(target, lift, (t, l) => t - l, 10);
  }
  return place >= 0 && !found[place] ? null : found;
}

function pairs(one, other, join, most) {
  let bits = 0;
  for (let first = 0; first < 10; first += 1) {
    for (let second = 0; second < 10; second += 1) {
      if (!((one >> first) & 1) || !((other >> second) & 1)) continue;
      const number = join(first + 1, second + 1);
      if (number >= 1 && number <= most) bits |= 1 << (number - 1);
    }
  }
  return bits;
}

function holds(sets, head) {
  for (let i = 0; i < sets.length; i += 2) {
    const asked = head[sets[i]];
    if (!asked || asked & ~sets[i + 1]) return false;
  }
  return true;
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

/** How a candidate's facets meet a head: places of facets it suits wholly, partly, not at all. */
function met(suits, head) {
  const hits = [], parts = [], misses = [];
  for (let i = 0; i < suits.length; i += 2) {
    const asked = head[suits[i]];
    if (!asked) continue;
    if (!(asked & ~suits[i + 1])) hits.push(suits[i]);
    else (asked & suits[i + 1] ? parts : misses).push(suits[i]);
  }
  return { hits, parts, misses };
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
    } else if (!(asked & ~set)) {
      hits += 1;
      tightness += 10 - count(set);
    } else if (asked & set) parts += 1;
    else misses += 1;
  }
  let excluded = 0, preferred = 0;
  for (const number of candidate[5]) if (held[number]) excluded = 1;
  for (const number of candidate[6]) if (held[number]) preferred += 1;
  const upper = ((excluded * 100 + misses) * 100 + unusual) * 100 + 99 - Math.min(preferred, 99);
  return ((upper * 100 + parts) * 100 + 99 - hits) * 100 + 99 - tightness;
}

/** The clauses to ask about: they may hold, for heads that the recipe otherwise suits; each kind of head once. */
function toAsk(data, candidate, excluded, head) {
  const own = fromSets(data, candidate[4]);
  const ask = [];
  for (const number of candidate[5]) {
    const heads = data.clauses[number][0];
    if (excluded.includes(number) || !mayHold(heads, head) || !mayHold(heads, own)) continue;
    const known = [...excluded, ...ask].some((other) => String(data.clauses[other][0]) === String(heads));
    if (!known) ask.push(number);
  }
  return ask;
}

function levels(numbers) {
  const runs = [];
  for (const number of numbers) {
    const last = runs.at(-1);
    if (last && number === last.at(-1) + 1) last.push(number);
    else runs.push([number]);
  }
  return runs.map((run) => (run.length === 1 ? `${run[0]}` : `${run[0]}–${run.at(-1)}`)).join(", ");
}

function joined(words, last) {
  return words.length < 2 ? words.join("") : `${words.slice(0, -1).join(", ")} ${last} ${words.at(-1)}`;
}

export function either(words) {
  return joined(words, "or");
}

/** A facet's set as words, by the phrase that came with the data. */
export function phrase(data, place, bits) {
  const [, values, many, , one = many] = data.facets[place];
  const said = values.filter((_, n) => (bits >> n) & 1);
  const words = said.every((value) => typeof value === "number") ? levels(said) : either(said);
  return (words === "1" ? one : many).replace("{}", () => words);
}

export function described(data, head) {
  const said = head.flatMap((bits, place) => (bits ? [phrase(data, place, bits)] : []));
  return said.join(", ") || "any head";
}

function fromSets(data, sets) {
  const head = data.facets.map(() => 0);
  for (let i = 0; i < sets.length; i += 2) head[sets[i]] = sets[i + 1];
  return head;
}

function reasons(data, candidate, head) {
  const set = fromSets(data, candidate[4]);
  const { hits, parts, misses } = met(candidate[4], head);
  const certain = (number) => holds(data.clauses[number][0], head);
  const excluded = candidate[5].filter(certain);
  const text = (number) => data.texts[number];
  const said = (number) => text(data.clauses[number][1]) + text(data.clauses[number][2]);
  const why = [];
  if (hits.length) {
    why.push(`Meant for ${joined(hits.map((place) => phrase(data, place, head[place])), "and")}.`);
  }
  for (const place of parts) {
    why.push(`Good for part of it only: ${phrase(data, place, set[place] & head[place])}.`);
  }
  for (const number of candidate[6].filter(certain)) why.push(said(number));
  const whyNot = excluded.map(said);
  for (const place of misses) {
    whyNot.push(`Meant for ${phrase(data, place, set[place])}, not ${phrase(data, place, head[place])}.`);
  }
  const unsaid = data.facets.flatMap(([name], place) =>
    set[place] && !head[place] && name !== "placement" ? [phrase(data, place, set[place])] : []);
  const ask = unsaid.length ? [`Only for ${joined(unsaid, "and")}.`] : [];
  for (const number of toAsk(data, candidate, excluded, head)) {
    const clause = data.clauses[number];
    ask.push(`Not for ${described(data, fromSets(data, clause[0]))}: ${text(clause[1])}`);
  }
  const instead = excluded.map((number) => data.clauses[number].slice(3)).find(([place]) => place >= 0);
  return { why, why_not: [...new Set(whyNot)], ask: [...new Set(ask)], instead };
}

/** What underlying pigment the levels lifted to will show, at most three. */
export function pigment(data, head) {
  return data.pigment.filter((_, n) => (head[TARGET] >> n) & 1).slice(0, 3);
}

/** Every candidate for a completed head, best first, not yet put into words: its number and its rank. */
export function ranked(data, head) {
  const held = data.clauses.map((clause) => holds(clause[0], head));
  const found = data.candidates.map((candidate, number) => [number, rankOf(data, candidate, head, held)]);
  return found.sort((one, other) => one[1] - other[1] || one[0] - other[0]);
}

const MISSES = 1e10, EXCLUDED = 1e12;

/** Whether something excludes a ranked candidate. */
export function excluded([, rank]) {
  return rank >= EXCLUDED;
}

/** In how many facets a ranked candidate misses the head. */
export function missed([, rank]) {
  return Math.floor((rank % EXCLUDED) / MISSES);
}

/** Whether a ranked candidate is an answer. */
export function suits(found) {
  return !excluded(found) && !missed(found);
}

function placementWords(data, bits) {
  const [, values] = data.facets.find(([name]) => name === "placement");
  return values.filter((_, n) => (bits >> n) & 1);
}

/** The developers a ranked candidate is written for, by name and volume, the strongest first. */
export function developersOf(data, [number]) {
  return data.candidates[number][8].map((developer) => data.texts[data.developers[developer][1]]);
}

/** What a ranked candidate is mixed with and where it goes, as one sentence. */
export function mixedWith(data, found) {
  const placements = placementWords(data, data.candidates[found[0]][7]);
  return `With ${developersOf(data, found).join(" or ")}; ${either(placements)}.`;
}

/** The smallest bowl of a ranked blend: its batch, and for each pour the product's name and what the scale
    shows; null for a technique. */
export function firstBowl(data, found) {
  const [kind, id] = data.candidates[found[0]];
  const bowl = data.kinds[kind] === "technique" ? null : data.bowls[id];
  if (!bowl) return null;
  const [batch, ...pours] = bowl;
  const developer = developersOf(data, found).join(" or ");
  return { batch, pours: pours.map(([name, shows]) => [name < 0 ? developer : data.texts[name], shows]) };
}

/** A ranked candidate in words. */
export function told(data, found, head) {
  const [kind, id, name, within, , , , placements, developers, cautions, tones] = data.candidates[found[0]];
  const [developer, , volume] = data.developers[developers[0]];
  const said = reasons(data, data.candidates[found[0]], head);
  return {
    kind: data.kinds[kind],
    id: data.texts[id],
    name: data.texts[name],
    within: within < 0 ? null : data.texts[within],
    tones: tones === 1,
    placement: placementWords(data, placements),
    developer: data.texts[developer],
    volume,
    cautions: cautions.map((number) => data.texts[number]),
    excluded: excluded(found),
    misses: missed(found),
    suits: suits(found),
    why: said.why,
    why_not: said.why_not,
    ask: said.ask,
    instead: said.instead ? data.texts[said.instead[0]] : null,
    instead_kind: said.instead ? data.kinds[said.instead[1]] : null,
  };
}

/** The whole answer for a head, in words; null where nothing can be lifted. */
export function answer(data, said) {
  const head = completed(headOf(data, said));
  if (head === null) return null;
  return {
    head: described(data, head),
    pigment: pigment(data, head),
    answers: ranked(data, head).map((found) => told(data, found, head)),
  };
}
