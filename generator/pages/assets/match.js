// The finder's reckoning: the same short evaluation as generator/figures/match.py, on data compiled there.
// Pure functions; the page that shows the answer is finder.js.

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

function judged(data, candidate, head) {
  const [kind, id, name, within, suits, excludedBy, preferredBy] = candidate;
  const hits = [], parts = [], misses = [];
  let unusual = 0, tightness = 0;
  for (let i = 0; i < suits.length; i += 2) {
    const place = suits[i], set = suits[i + 1], asked = head[place];
    if (!asked) {
      const usual = data.facets[place][3];
      if (usual && !(set & usual)) unusual += 1;
    } else if (!(asked & ~set)) {
      hits.push(place);
      tightness += 10 - count(set);
    } else if (asked & set) parts.push(place);
    else misses.push(place);
  }
  const clause = (number) => data.clauses[number];
  const excluded = excludedBy.filter((number) => holds(clause(number)[0], head));
  const own = fromSets(data, suits);
  const ask = [];
  for (const number of excludedBy) {
    const heads = clause(number)[0];
    const known = [...excluded, ...ask].some((other) => String(clause(other)[0]) === String(heads));
    if (!known && mayHold(heads, head) && mayHold(heads, own)) ask.push(number);
  }
  const preferred = preferredBy.filter((number) => holds(clause(number)[0], head));
  const key = [excluded.length ? 1 : 0, misses.length, unusual, -preferred.length, parts.length, -hits.length,
    -tightness];
  return { kind, id, name, within, suits, hits, parts, misses, excluded, ask, preferred, key };
}

function byKey(one, other) {
  for (let i = 0; i < one.key.length; i += 1) {
    if (one.key[i] !== other.key[i]) return one.key[i] - other.key[i];
  }
  return 0;
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

/** A facet's set as words, by the phrase that came with the data. */
export function phrase(data, place, bits) {
  const [, values, wording] = data.facets[place];
  const said = values.filter((_, n) => (bits >> n) & 1);
  const words = said.every((value) => typeof value === "number") ? levels(said) : joined(said, "or");
  return wording.replace("{}", () => words);
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

function reasons(data, verdict, head) {
  const set = fromSets(data, verdict.suits);
  const text = (number) => data.texts[number];
  const said = (number) => text(data.clauses[number][1]) + text(data.clauses[number][2]);
  const why = [];
  if (verdict.hits.length) {
    why.push(`Meant for ${joined(verdict.hits.map((place) => phrase(data, place, head[place])), "and")}.`);
  }
  for (const place of verdict.parts) {
    why.push(`Suits only part of it: ${phrase(data, place, set[place] & head[place])}.`);
  }
  for (const number of verdict.preferred) why.push(said(number));
  const whyNot = verdict.excluded.map(said);
  for (const place of verdict.misses) {
    whyNot.push(`Meant for ${phrase(data, place, set[place])}, not ${phrase(data, place, head[place])}.`);
  }
  const unsaid = data.facets.flatMap(([name], place) =>
    set[place] && !head[place] && name !== "placement" ? [phrase(data, place, set[place])] : []);
  const ask = unsaid.length ? [`Only for ${joined(unsaid, "and")}.`] : [];
  for (const number of verdict.ask) {
    const clause = data.clauses[number];
    ask.push(`Not for ${described(data, fromSets(data, clause[0]))}: ${text(clause[1])}`);
  }
  const instead = verdict.excluded.map((number) => data.clauses[number][3]).find((place) => place >= 0);
  return { why, why_not: [...new Set(whyNot)], ask: [...new Set(ask)], instead: instead ?? -1 };
}

/** What underlying pigment the levels lifted to will show, at most three. */
export function pigment(data, head) {
  return data.pigment.filter((_, n) => (head[TARGET] >> n) & 1).slice(0, 3);
}

/** Every candidate for a head, best first, with reasons; null where nothing can be lifted. */
export function answer(data, said) {
  const head = completed(headOf(data, said));
  if (head === null) return null;
  const verdicts = data.candidates.map((candidate) => judged(data, candidate, head)).sort(byKey);
  return {
    head: described(data, head),
    pigment: pigment(data, head),
    answers: verdicts.map((verdict) => {
      const told = reasons(data, verdict, head);
      return {
        kind: data.kinds[verdict.kind],
        id: data.texts[verdict.id],
        name: data.texts[verdict.name],
        within: verdict.within < 0 ? null : data.texts[verdict.within],
        excluded: verdict.excluded.length > 0,
        misses: verdict.misses.length,
        suits: !verdict.excluded.length && !verdict.misses.length,
        why: told.why,
        why_not: told.why_not,
        ask: told.ask,
        instead: told.instead < 0 ? null : data.texts[told.instead],
      };
    }),
  };
}
