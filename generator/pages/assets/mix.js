// One bowl of a blend in any size, on any scale, and a bowl put right. Gives the very strings that the book gives.

import {
  ceiling, fixed, fraction, halfUp, less, minus, over, plain, plus, read, shares, sum, times, whole,
} from "./exact.js";

const FARTHEST = 20000;
const FLUID_OUNCE = read("29.5735295625");
const GRAMS = { g: read("1"), oz: read("28.349523125") };

class ReadsZero extends Error {
  constructor(place) { super("reads zero"); this.place = place; }
}

const decimalsOf = (step) => {
  for (let places = 0; places < 7; places += 1) if ((10n ** BigInt(places) * step[0]) % step[1] === 0n) return places;
  return 6;
};
const lcm = (one, other) => {
  let [a, b] = [one, other];
  while (b) [a, b] = [b, a % b];
  return (one / a) * other;
};

/** The data of a blend's page, read once: parts, ratios, developers, prices as exact numbers. */
export function recipe(data) {
  const number = (text) => (text === null ? null : read(text));
  const product = (each) => ({
    ...each, price: number(each.price), density: number(each.density), peroxide: number(each.peroxide ?? null),
  });
  return {
    bases: data.bases.map((each) => ({ ...product(each), parts: read(each.parts) })),
    ratio: read(data.ratio),
    developers: data.developers.map(product),
    additives: data.additives.map((each) => ({ ...product(each), ratio: read(each.ratio) })),
    tolerance: read(data.tolerance),
    role: data.role,
    money: data.money,
  };
}

function weighOut(batch, parts, step) {
  const counts = shares(halfUp(over(batch, step)), parts);
  const at = counts.indexOf(0n);
  if (at >= 0) throw new ReadsZero(at);
  const total = sum(parts);
  return parts.map((part, place) => ({
    exact: over(times(batch, part), total), weigh: times([counts[place], 1n], step),
  }));
}

function pour(lightener, ratio, step, place) {
  const exact = times(lightener, ratio);
  const count = halfUp(over(exact, step));
  if (count === 0n) throw new ReadsZero(place);
  return { exact, weigh: times([count, 1n], step) };
}

const error = ({ exact, weigh }) => {
  const off = minus(weigh, exact);
  return over(off[0] < 0n ? [-off[0], off[1]] : off, exact);
};
const largest = (all) => all.reduce((one, other) => (less(one, other) ? other : one));

function readings(blend, batch, step) {
  const lighteners = weighOut(batch, blend.bases.map((each) => each.parts), step);
  const weighed = sum(lighteners.map((each) => each.weigh));
  const developer = pour(weighed, blend.ratio, step, lighteners.length);
  const additives = blend.additives.map(
    (each, at) => pour(weighed, each.ratio, step, lighteners.length + 1 + at));
  return { lighteners, developer, additives };
}

function nextHonest(blend, batch, step) {
  const parts = blend.bases.map((each) => each.parts);
  const total = sum(parts);
  const period = parts.reduce((so, part) => lcm(so, over(part, total)[1]), blend.ratio[1]);
  const first = ceiling(over(batch, step));
  const ahead = ((-first % period) + period) % period;
  const last = first + (ahead < BigInt(FARTHEST) ? ahead : BigInt(FARTHEST));
  for (let count = first; count <= last; count += 1n) {
    if (!count) continue;
    try {
      const size = times([count, 1n], step);
      const lighteners = weighOut(size, parts, step);
      const developer = pour(size, blend.ratio, step, 0);
      const worst = largest([...lighteners, developer].map(error));
      if (!less(blend.tolerance, worst)) return size;
    } catch (zero) {
      if (!(zero instanceof ReadsZero)) throw zero;
    }
  }
  return null;
}

/** Money in whole minor units, by the pattern of the house's language. */
export function money(minor, form) {
  if (minor === null) return null;
  const digits = String(minor).padStart(form.places + 1, "0");
  const left = form.places ? digits.slice(0, -form.places) : digits;
  const groups = [];
  let rest = left;
  let size = form.first;
  while (size && rest.length > size) {
    groups.unshift(rest.slice(-size));
    rest = rest.slice(0, -size);
    size = form.rest;
  }
  groups.unshift(rest);
  const shown = groups.join(form.group);
  return form.before + shown + (form.places ? form.decimal + digits.slice(-form.places) : "") + form.after;
}

/** The bowl for a batch (all the lightener together), as texts; or which pour would read zero. */
export function mix(blend, unit, batchText, stepText, developerId) {
  const [batch, step] = [read(batchText), read(stepText)];
  const developer = blend.developers.find((each) => each.id === developerId) ?? blend.developers[0];
  const products = [...blend.bases, developer, ...blend.additives];
  const places = decimalsOf(step);
  const honest = nextHonest(blend, batch, step);
  const following = honest && `${fixed(honest, places)} ${unit}`;
  let found;
  try {
    found = readings(blend, batch, step);
  } catch (zero) {
    if (!(zero instanceof ReadsZero)) throw zero;
    return { zero: products[zero.place].name, following };
  }
  const all = [...found.lighteners, found.developer, ...found.additives];
  const costs = products.map((each, at) => each.price && times(times(each.price, GRAMS[unit]), all[at].weigh));
  const bill = costs.every(Boolean) ? billOf(costs, blend.money.places) : null;
  let shown = whole(0);
  const pours = all.map(({ exact, weigh }, at) => {
    shown = plus(shown, weigh);
    const { density } = products[at];
    const volume = density && over(times(weigh, GRAMS[unit]), density);
    return {
      id: products[at].id,
      name: products[at].name,
      role: at < blend.bases.length ? blend.role : at === blend.bases.length ? "developer" : "additive",
      exact: plain(exact, 4),
      weigh: fixed(weigh, places),
      shows: fixed(shown, places),
      volume: volume && `${fixed(volume, 1)} mL · ${fixed(over(volume, FLUID_OUNCE), 2)} fl oz (US)`,
      cost: bill && money(bill.lines[at], blend.money),
    };
  });
  const worst = largest([...found.lighteners, found.developer].map(error));
  return {
    pours,
    total: `${fixed(shown, places)} ${unit}`,
    peroxide: `${fixed(over(times(developer.peroxide, found.developer.weigh), shown), 2)} %`,
    error: `${fixed(times(worst, whole(100)), 1)} %`,
    honest: !less(blend.tolerance, worst),
    following,
    cost: bill && money(bill.total, blend.money),
  };
}

function billOf(costs, places) {
  const total = halfUp(times(sum(costs), [10n ** BigInt(places), 1n]));
  return { total, lines: costs.some((cost) => cost[0]) ? shares(total, costs) : costs.map(() => 0n) };
}

/** The smallest bowl that holds what is already in it: what each must be, what is still to add. */
export function correct(blend, unit, batchText, stepText, pouredTexts) {
  const [batch, step] = [read(batchText), read(stepText)];
  const places = decimalsOf(step);
  const poured = new Map(Object.entries(pouredTexts).map(([place, text]) => [Number(place), read(text)]));
  const weights = (count) => {
    const { lighteners, developer, additives } = readings(blend, times([count, 1n], step), step);
    return [...lighteners, developer, ...additives].map((each) => each.weigh);
  };
  const holds = (all) => [...poured].every(([place, weight]) => !less(all[place], weight));
  const planned = halfUp(over(batch, step));
  let count = planned;
  let must = weights(count);
  if (!holds(must)) {
    const total = sum(blend.bases.map((each) => each.parts));
    const share = [...blend.bases.map((each) => over(each.parts, total)), blend.ratio,
      ...blend.additives.map((each) => each.ratio)];
    for (const [place, weight] of poured) {
      // Rounding never adds a whole step, so that a bowl with less than this cannot hold a pour.
      const least = ceiling(over(minus(over(weight, step), whole(1)), share[place]));
      if (least > count) count = least;
    }
    const last = count + BigInt(FARTHEST);
    for (; ; count += 1n) {
      if (count >= last) return null;
      try {
        must = weights(count);
        if (holds(must)) break;
      } catch (zero) {
        if (!(zero instanceof ReadsZero)) throw zero;
      }
    }
  }
  let shown = whole(0);
  return {
    batch: `${fixed(times([count, 1n], step), places)} ${unit}`,
    pours: must.map((weight, place) => {
      const inBowl = poured.get(place) ?? whole(0);
      shown = plus(shown, weight);
      return {
        must: fixed(weight, places), add: fixed(minus(weight, inBowl), places), shows: fixed(shown, places),
      };
    }),
  };
}
