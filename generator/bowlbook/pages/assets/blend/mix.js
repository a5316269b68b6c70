// One bowl of a blend in any size, on any scale. Gives the very strings that Python gives.

import {
  ceiling, fixed, gcd, halfUp, less, minus, over, plain, plus, read, shares, sum, times, whole,
} from "./exact.js";

export const FARTHEST = 20000;
const FLUID_OUNCE = read("29.5735295625");
const GRAMS = { g: read("1"), oz: read("28.349523125") };

export class ReadsZero extends Error {
  constructor(place) { super("reads zero"); this.place = place; }
}

export const decimalsOf = (step) => {
  for (let places = 0; places < 7; places += 1) if ((10n ** BigInt(places) * step[0]) % step[1] === 0n) return places;
  return 6;
};
const lcm = (one, other) => (one / gcd(one, other)) * other;

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
    additives: data.additives.map((each) => ({
      ...product(each), ratio: read(each.ratio), dose: number(each.dose),
    })),
    tolerance: read(data.tolerance),
    largest: read(data.largest),
    role: data.role,
    steps: data.steps,
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

/** Every reading of a batch in pouring order, as exact numbers; throws `ReadsZero`. */
export function readings(blend, batch, step) {
  const lighteners = weighOut(batch, blend.bases.map((each) => each.parts), step);
  const weighed = sum(lighteners.map((each) => each.weigh));
  const ratios = [blend.ratio, ...blend.additives.map((each) => each.ratio)];
  return [...lighteners, ...ratios.map((ratio, at) => pour(weighed, ratio, step, lighteners.length + at))];
}

/** The smallest batch in whole steps, at or above this one, that this scale can weigh; null where there is none. */
function nearestSize(blend, batch, step) {
  const total = sum(blend.bases.map((each) => each.parts));
  const portions = blend.bases.map((each) => over(each.parts, total));
  const ratios = [blend.ratio, ...blend.additives.map((each) => each.ratio)];
  const period = [...portions, ...ratios].reduce((so, portion) => lcm(so, portion[1]), 1n);
  const first = ceiling(over(batch, step));
  const ahead = ((-first % period) + period) % period;
  const last = first + (ahead < BigInt(FARTHEST) ? ahead : BigInt(FARTHEST));
  for (let count = first; count <= last; count += 1n) {
    if (!count) continue;
    try {
      const size = times([count, 1n], step);
      const worst = largest(readings(blend, size, step).map(error));
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

/** What is in the bowl, in pouring order: bases, developer, additives. */
const productsOf = (blend, developer) => [...blend.bases, developer, ...blend.additives];

/** Whether a batch is more lightener than fits a bowl. */
export const overBowl = (blend, unit, batch) => less(blend.largest, times(batch, GRAMS[unit]));

/** The bowl for a batch (all the lightener together), as texts; or which pour would read zero. */
export function mix(blend, unit, batchText, stepText, developerId) {
  const [batch, step] = [read(batchText), read(stepText)];
  const developer = blend.developers.find((each) => each.id === developerId) ?? blend.developers[0];
  const products = productsOf(blend, developer);
  const places = decimalsOf(step);
  const inOunces = !blend.steps || "oz" in blend.steps; // else nothing is said in fluid ounces
  const nearest = nearestSize(blend, batch, step);
  const following = nearest && `${fixed(nearest, places)} ${unit}`;
  let found;
  try {
    found = readings(blend, batch, step);
  } catch (zero) {
    if (!(zero instanceof ReadsZero)) throw zero;
    return { zero: products[zero.place].name, following };
  }
  const costs = products.map((each, at) => each.price && times(times(each.price, GRAMS[unit]), found[at].weigh));
  const bill = billOf(costs, blend.money.places);
  const unpriced = products.filter((each, at) => !costs[at]).map((each) => each.name);
  let shown = whole(0);
  const pours = found.map((reading, at) => {
    const { exact, weigh } = reading;
    shown = plus(shown, weigh);
    const { density } = products[at];
    const volume = density && over(times(weigh, GRAMS[unit]), density);
    return {
      id: products[at].id,
      name: products[at].name,
      role: at < blend.bases.length ? blend.role : at === blend.bases.length ? "developer" : "additive",
      exact: plain(exact, 4),
      off: `${fixed(times(error(reading), whole(100)), 1)} %`,
      weigh: fixed(weigh, places),
      shows: fixed(shown, places),
      volume: volume && `${fixed(volume, 1)} mL${inOunces ? ` · ${fixed(over(volume, FLUID_OUNCE), 2)} fl oz (US)` : ""}`,
      cost: money(bill.lines[at], blend.money),
    };
  });
  const worst = largest(found.map(error));
  return {
    pours,
    total: `${fixed(shown, places)} ${unit}`,
    peroxide: `${fixed(over(times(developer.peroxide, found[blend.bases.length].weigh), shown), 2)} %`,
    error: `${fixed(times(worst, whole(100)), 1)} %`,
    within: !less(blend.tolerance, worst),
    following,
    overDose: overDose(blend, unit, found, places),
    overBowl: overBowl(blend, unit, batch),
    cost: unpriced.length < products.length ? money(bill.total, blend.money) + without(unpriced) : null,
  };
}

/** A sentence for each additive whose reading is over its maker's dose. */
function overDose(blend, unit, found, places) {
  const count = blend.bases.length;
  const weighed = sum(found.slice(0, count).map((each) => each.weigh));
  return blend.additives.flatMap(({ name, dose }, at) => {
    const { weigh } = found[count + 1 + at];
    const most = dose && times(dose, weighed);
    return most && less(most, weigh)
      ? [`${fixed(weigh, places)} ${unit} of ${name} is over its maker’s dose, ${plain(most, 4)} ${unit}.`] : [];
  });
}

/** The costs that are known in whole minor units, adding up to their total; null where one is not known. */
function billOf(costs, places) {
  const known = costs.filter(Boolean);
  const total = halfUp(times(sum(known), [10n ** BigInt(places), 1n]));
  const lines = known.some((cost) => cost[0]) ? shares(total, known) : known.map(() => 0n);
  return { total, lines: costs.map((cost) => (cost ? lines.shift() : null)) };
}

/** The end of a cost that leaves products out. */
function without(names) {
  if (!names.length) return "";
  const all = [names.slice(0, -1).join(", "), names.slice(-1)[0]].filter(Boolean).join(" and ");
  return ` without ${all}, which ${names.length === 1 ? "has" : "have"} no price`;
}
