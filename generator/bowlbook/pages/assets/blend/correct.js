// A bowl put right: a pour came out wrong, and what is still to pour must keep the recipe. Nothing is taken out.

import { ceiling, fixed, halfUp, less, minus, over, plus, read, sum, times, whole } from "./exact.js";
import { decimalsOf, FARTHEST, overBowl, readings, ReadsZero } from "./mix.js";

/**
 * The smallest bowl that holds what is already in it. `poured`: weights by place in pouring order; `after`: a place
 * and what the tared scale shows after it, or null. What is listed before the last place mentioned is in as planned.
 * Gives of each pour what is in, what it must be, what to add, and what the scale shows then; or `before`, where the
 * scale shows no more than what was in before that pour; or null, where no bowl holds it.
 */
export function correct(blend, unit, batchText, stepText, pouredTexts, after = null) {
  const [batch, step] = [read(batchText), read(stepText)];
  const planned = halfUp(over(batch, step));
  const weights = (count) => readings(blend, times([count, 1n], step), step).map((each) => each.weigh);
  const must = weights(planned);
  const poured = new Map(Object.entries(pouredTexts).map(([place, text]) => [Number(place), read(text)]));
  const inBowlAfter = (place) => must.slice(0, place + 1).map((weight, at) => poured.get(at) ?? weight);
  if (after) {
    const before = sum(inBowlAfter(after.place - 1));
    const shows = read(after.shows);
    if (!less(before, shows)) return { before: fixed(before, Math.max(decimalsOf(step), decimalsOf(before))) };
    poured.set(after.place, minus(shows, before));
  }
  const inBowl = inBowlAfter(Math.max(...poured.keys()));
  const found = smallest(blend, planned, weights, inBowl.map((weight) => over(weight, step)), step);
  return found && corrected(blend, unit, step, found, inBowl);
}

/** The smallest batch, in steps from `planned` up, and its weights, that holds what is `needed` (in steps). */
function smallest(blend, planned, weights, needed, step) {
  const holds = (all) => needed.every((least, place) => !less(over(all[place], step), least));
  const must = weights(planned);
  if (holds(must)) return { count: planned, must };
  const total = sum(blend.bases.map((each) => each.parts));
  const share = [...blend.bases.map((each) => over(each.parts, total)), blend.ratio,
    ...blend.additives.map((each) => each.ratio)];
  // Rounding never adds a whole step, so that a bowl with less than this cannot hold a pour.
  const least = needed.map((steps, place) => ceiling(over([ceiling(steps) - 1n, 1n], share[place])));
  const start = least.reduce((one, other) => (other > one ? other : one), planned);
  for (let count = start; count < start + BigInt(FARTHEST); count += 1n) {
    try {
      const all = weights(count);
      if (holds(all)) return { count, must: all };
    } catch (zero) { // a step more can take a small part's only step from it
      if (!(zero instanceof ReadsZero)) throw zero;
    }
  }
  return null;
}

/** A bowl put right, as texts: with the scale's decimals, or more where what was poured has more. */
function corrected(blend, unit, step, { count, must }, inBowl) {
  const places = Math.max(...[step, ...inBowl].map(decimalsOf));
  const batch = times([count, 1n], step);
  let shown = sum(inBowl);
  return {
    batch: `${fixed(batch, decimalsOf(step))} ${unit}`,
    overBowl: overBowl(blend, unit, batch),
    pours: must.map((weight, place) => {
      const now = inBowl[place] ?? whole(0);
      const add = minus(weight, now);
      shown = plus(shown, add);
      return {
        in: fixed(now, places),
        must: fixed(weight, places),
        add: fixed(add, places),
        shows: fixed(shown, places),
        more: add[0] > 0n,
      };
    }),
  };
}
