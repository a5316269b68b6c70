// The recipe of the book that is nearest to a draft: by what shares the batch, then ratio, developer and additives.

import { found, ratioOf, sharesOf, tones } from "./draft.js";
import { less, minus, over, read, sum, times } from "./exact.js";

const NONE = [0n, 1n];
const off = (one, other) => {
  const [top, below] = minus(one, other);
  return [top < 0n ? -top : top, below];
};

/** Of each product the share of the batch that it is. */
function portions(draft) {
  const total = sum(sharesOf(draft).map(({ parts }) => read(parts)));
  return new Map(sharesOf(draft).map(({ product, parts }) => [product, over(read(parts), total)]));
}

/** The share of the batch that would have to be something else; 1 where nothing is the same. */
function moved(draft, recipe) {
  const [mine, theirs] = [portions(draft), portions(recipe)];
  const ids = new Set([...mine.keys(), ...theirs.keys()]);
  return times(sum([...ids].map((id) => off(mine.get(id) ?? NONE, theirs.get(id) ?? NONE))), [1n, 2n]);
}

/** The additives that differ, as one number. */
function additivesOff(draft, recipe) {
  const ratios = (each) => new Map((each.additives ?? []).map(({ product, ratio }) => [product, ratioOf(ratio)]));
  const [mine, theirs] = [ratios(draft), ratios(recipe)];
  const ids = new Set([...mine.keys(), ...theirs.keys()]);
  return sum([...ids].map((id) => off(mine.get(id) ?? NONE, theirs.get(id) ?? NONE)));
}

/** How far a recipe is from a draft: exact numbers, the first ones counting most. */
function distance(shelf, draft, recipe) {
  const volume = (each) => read(found(shelf.developers, each.developer.product).volume);
  return [
    moved(draft, recipe),
    off(ratioOf(draft.developer.ratio), ratioOf(recipe.developer.ratio)),
    off(volume(draft), volume(recipe)),
    additivesOff(draft, recipe),
  ];
}

const nearer = (one, other) => {
  const at = one.findIndex((each, place) => less(each, other[place]) || less(other[place], each));
  return at >= 0 && less(one[at], other[at]);
};

/** The nearest recipe, and whether it is the same one; null where none has anything of it in its batch. */
export function nearest(shelf, draft) {
  let best = null;
  const mine = new Set(sharesOf(draft).map(({ product }) => product));
  for (const recipe of shelf.recipes) {
    if (tones(recipe) !== tones(draft) || !sharesOf(recipe).some(({ product }) => mine.has(product))) continue;
    const far = distance(shelf, draft, recipe);
    if (!best || nearer(far, best.far)) best = { recipe, far };
  }
  return best && { recipe: best.recipe, same: best.far.every(([top]) => !top) };
}
