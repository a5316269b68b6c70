// The checks of what is in the bowl: each is a check of the book, named as there, with the same words.

import { basesOf, bowlOf, developersOf, found, ladderOf, ratioOf, sharesOf, tones } from "./draft.js";
import { fixed, less, over, plus, read, sum, times, whole } from "./exact.js";
import { finding, warn } from "./finding.js";
import { mix, overBowl, readings } from "./mix.js";

const key = (draft) => (tones(draft) ? "toners" : "lighteners");
/** Each developer that the draft allows, with the way to it. */
const developers = (shelf, draft) => developersOf(draft).map((id, at) => [
  at ? ["developer", "also", at - 1] : ["developer", "product"], found(shelf.developers, id)]);

function duplicateReference(shelf, draft) {
  const lists = [[[key(draft)], sharesOf(draft)], [["additives"], draft.additives ?? []]];
  lists.push([["developer"], developersOf(draft).map((product) => ({ product }))]);
  return lists.flatMap(([way, list]) => list.flatMap(({ product }, at) => (
    list.findIndex((each) => each.product === product) < at
      ? [finding("duplicate-reference", [...way, at], `"${product}" is named here a second time.`, "Name it once.")]
      : [])));
}

function ratioOutOfRange(shelf, draft) {
  const ratio = ratioOf(draft.developer.ratio);
  return basesOf(shelf, draft).flatMap((base) => {
    const [from, to] = [base.from && ratioOf(base.from), base.to && ratioOf(base.to)];
    if ((from && to && less(to, from)) || !((from && less(ratio, from)) || (to && less(to, ratio)))) return [];
    const ends = [base.from && `from ${base.from}`, base.to && `to ${base.to}`].filter(Boolean).join(" ");
    return [finding("ratio-out-of-range", ["developer", "ratio"],
      `${draft.developer.ratio} is outside the range of ${base.name} (${ends}).`, `Its usual ratio is ${base.usual}.`)];
  });
}

function developerOverProductLimit(shelf, draft) {
  return developers(shelf, draft).flatMap(([way, { volume }]) => {
    const over = basesOf(shelf, draft).find(({ limit }) => limit && less(read(limit), read(volume)));
    return over ? [finding("developer-over-product-limit", way, `${volume} volume is over the limit of ${over.name}.`,
      `Use ${over.limit} volume or less with it.`)] : [];
  });
}

function developerOverHouseLimit(shelf, draft) {
  if (!draft.suits?.placement?.includes("on-scalp")) return [];
  return developers(shelf, draft).filter(([, { volume }]) => less(read(shelf.on_scalp), read(volume)))
    .map(([way, { volume }]) => finding("developer-over-house-limit", way,
      `${volume} volume is over the house's on-scalp limit.`,
      `Use ${shelf.on_scalp} volume or less, or keep the recipe off the scalp.`));
}

function additiveOverDose(shelf, draft) {
  return (draft.additives ?? []).flatMap(({ product, ratio }, at) => {
    const { name, dose } = found(shelf.additives, product);
    return dose && less(ratioOf(dose), ratioOf(ratio)) ? [finding("additive-over-dose", ["additives", at, "ratio"],
      `${ratio} is more ${name} than its dose of ${dose}.`, `Write ${dose}, or less of it.`)] : [];
  });
}

function additiveOutweighsBowl(shelf, draft) {
  const base = tones(draft) ? "toner" : "lightener";
  const rest = plus(whole(1), ratioOf(draft.developer.ratio));
  return (draft.additives ?? []).flatMap(({ product, ratio }, at) => {
    const { name, dose } = found(shelf.additives, product);
    const settled = dose && (tones(draft) || less(ratioOf(dose), ratioOf(ratio)));
    if (settled || !less(rest, ratioOf(ratio))) return [];
    const [left, right] = ratio.split(":");
    return [warn("additive-outweighs-bowl", ["additives", at, "ratio"],
      `${ratio} is ${right} parts of ${name} to ${left} of ${base}, more than ${base} and developer together.`,
      `If ${left} to ${right} of ${base} is meant, write ${right}:${left}.`)];
  });
}

function peroxideOverLimit(shelf, draft) {
  const bowl = bowlOf(shelf, draft);
  return developers(shelf, draft).flatMap(([way, developer]) => {
    const strength = read(developer.peroxide);
    const near = shelf.limits.filter(([, most]) => less(read(most), strength));
    const worst = near.length ? strongest(shelf, draft, bowl, strength) : null;
    return near.filter(([, most]) => less(read(most), worst)).map(([where, most, since, source]) => (
      finding("peroxide-over-limit", way,
        `${fixed(worst, 2)} % peroxide in the bowl is over ${most} % (${where}, since ${since}: ${source}).`,
        "Use a weaker developer, or less of it.")));
  });
}

/** Per cent of peroxide in the strongest bowl: as written, or as rounding makes it in one of the sizes. */
function strongest(shelf, draft, bowl, strength) {
  const share = (developed, total) => over(times(strength, developed), total);
  const written = share(bowl.ratio, sum([whole(1), bowl.ratio, ...bowl.additives.map((each) => each.ratio)]));
  return ladderOf(shelf, draft).reduce((most, [, size, step]) => {
    const weighed = weighedIn(bowl, size, step);
    const found = weighed && share(weighed[bowl.bases.length], weighed.reduce(plus));
    return found && less(most, found) ? found : most;
  }, written);
}

function weighedIn(bowl, size, step) {
  try {
    return readings(bowl, read(size), read(step)).map(({ weigh }) => weigh);
  } catch { return null; /* it would read zero */ }
}

function missingScaleStep(shelf, draft) {
  return Object.entries(draft.batches ?? {}).filter(([, sizes]) => (
    sizes.some((size, at) => at && !less(read(sizes[at - 1]), read(size))))).map(([unit]) => (
    finding("missing-scale-step", ["batches", unit], "Batch sizes go from the smallest to the largest, each once.",
      "Put the batches in order.")));
}

function batchOverBowl(shelf, draft) {
  const bowl = bowlOf(shelf, draft);
  return Object.entries(draft.batches ?? {}).flatMap(([unit, sizes]) => sizes
    .filter((size) => overBowl(bowl, unit, read(size))).map((size) => warn("batch-over-bowl", ["batches", unit],
      `${size} ${unit} of lightener is more than fits one bowl (${shelf.largest_text}).`,
      "Check the unit; where such bowls are mixed, give the house a largest_batch.")));
}

/** Sizes that the scale cannot weigh closely enough, or at all. */
function unweighable(shelf, draft) {
  const bowl = bowlOf(shelf, draft);
  return ladderOf(shelf, draft).flatMap(([unit, size, step]) => {
    const weighed = mix(bowl, unit, size, step, draft.developer.product);
    if (weighed.zero) {
      const name = shelf.developers.find((each) => each.name === weighed.zero)?.label ?? weighed.zero;
      return [finding("zero-reading", [key(draft)],
        `In a batch of ${size} ${unit} the scale would read zero for ${name} (steps of ${step} ${unit}).`,
        "Give the blend its own larger batches, or change its parts.")];
    }
    if (weighed.within) return [];
    const nearest = weighed.following ? `The nearest size this scale can weigh is ${weighed.following}; give the blend `
      + "its own batches, or change the parts." : "Change the parts, or weigh on a finer scale.";
    const overDose = weighed.overDose.map((sentence) => ` ${sentence}`).join("");
    return [warn("unweighable-batch", draft.batches?.[unit] ? ["batches", unit] : [key(draft)],
      `${size} ${unit} cannot be weighed in steps of ${step} ${unit}: ${weighed.error} off, and the house allows `
      + `${shelf.tolerance_text}.${overDose}`, nearest)];
  });
}

export const BOWL_CHECKS = [
  duplicateReference, ratioOutOfRange, developerOverProductLimit, developerOverHouseLimit, additiveOverDose,
  additiveOutweighsBowl, peroxideOverLimit, missingScaleStep, batchOverBowl, unweighable,
];
