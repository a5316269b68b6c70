// The checks of the heads that a draft is good for, and of the house's rules: sets of heads as bit sets.

import { basesOf, developersOf, found, tones } from "./draft.js";
import { less, read } from "./exact.js";
import { counted, finding, warn } from "./finding.js";

const PLACEMENT = "placement";

/** A facet's value, "6-10" or a list of words, as a bit set; 0 for any. */
function bitsOf([, , values, ranged], said) {
  if (!said) return 0;
  const [low, high = low] = ranged ? said.split("-") : [];
  const within = (value) => (ranged ? Number(value) >= Number(low) && Number(value) <= Number(high) : said.includes(value));
  return values.reduce((bits, value, at) => (within(value) ? bits | (1 << at) : bits), 0);
}
/** Facets as a bit set for each of the book's. */
const headsOf = (shelf, facets) => shelf.facets.map((facet) => bitsOf(facet, facets?.[facet[0]]));

/** Whether every head of the one is one of the other. */
export const within = (inner, outer) => outer.every((bits, at) => !bits || (inner[at] && !(inner[at] & ~bits)));

/** The heads of both; null where there is none. */
function meet(one, other) {
  const met = one.map((bits, at) => (bits && other[at] ? bits & other[at] : bits | other[at]));
  return met.some((bits, at) => !bits && one[at] && other[at]) ? null : met;
}

/** Whether any natural level, lift and target level of these go together. */
function canBe({ natural_level: level, lift, target_level: target } = {}) {
  if (!level || (!lift && !target)) return true;
  const range = (span) => { const [from, to = from] = ends(span); return [from, to]; };
  const [low, high] = range(level);
  const [least, most] = lift ? range(lift) : [0, 9];
  const [from, to] = target ? range(target) : [1, 10];
  return low + least <= to && high + most >= from; // whole steps: every sum between is reached
}

function contradictorySuits(shelf, draft) {
  const suits = headsOf(shelf, draft.suits);
  const levels = canBe(draft.suits) ? [] : [finding("contradictory-suits", ["suits"],
    "No hair has these levels together: natural level and lift add up to the target level.",
    "Write levels that can be reached.")];
  return levels.concat((draft.not_for ?? []).flatMap(({ when }, at) => (within(suits, headsOf(shelf, when))
    ? [finding("contradictory-suits", ["not_for", at], "This refuses every head that the recipe suits.",
      "Narrow this refusal, or what the recipe suits.")] : [])));
}

function offScalpProduct(shelf, draft) {
  if (tones(draft)) return [];
  return basesOf(shelf, draft).flatMap(({ name, placement }, at) => {
    const barred = (draft.suits?.placement ?? []).filter((word) => !placement.includes(word));
    return barred.length ? [finding("off-scalp-product", ["lighteners", at, "product"],
      `${name} is not made for ${barred.join(", ")} use.`,
      `It is made for: ${placement.join(", ")}. Take another lightener, or change what the blend suits.`)] : [];
  });
}

const ends = (span) => span.split("-").map(Number);
const shown = (span) => span.replace("-", "–");

function liftOverProduct(shelf, draft) {
  const most = Math.max(0, ...(tones(draft) ? [] : basesOf(shelf, draft).map(({ lifts }) => lifts)));
  const { lift } = draft.suits ?? {};
  if (!lift || ends(lift).slice(-1)[0] <= most) return [];
  const levels = counted(most, "level");
  return [warn("lift-over-product", ["suits", "lift"],
    `A lift of ${shown(lift)} is more than any lightener in it gives (${levels}).`, `Promise at most ${levels}.`)];
}

function tonerOffLevel(shelf, draft) {
  const target = draft.suits?.target_level;
  const made = tones(draft) && target ? basesOf(shelf, draft).map(({ levels }) => levels).filter((each) => each.length) : [];
  if (!made.length) return [];
  const wanted = made.reduce((one, other) => one.filter((level) => other.includes(level)));
  const [low, high] = [ends(target)[0], ends(target).slice(-1)[0]];
  const off = [];
  for (let level = low; wanted.length && level <= high; level += 1) if (!wanted.includes(level)) off.push(level);
  if (!off.length) return [];
  const whole = off.slice(-1)[0] - off[0] === off.length - 1;
  const levels = whole ? [off[0], off.slice(-1)[0]].filter((level, at) => !at || level !== off[0]).join("–") : off.join(", ");
  return [finding("toner-off-level", ["suits", "target_level"],
    `A toner in this bowl is not made for level ${levels}.`, "Narrow the target level, or take another toner.")];
}

/** Why the draft needs a caution of its own; undefined where the usual ones do. */
function needsCaution(shelf, draft) {
  const has = (name, word) => draft.suits?.[name]?.includes(word);
  const strong = developersOf(draft).some((id) => !less(read(found(shelf.developers, id).volume), read("30")));
  const lift = draft.suits?.lift && ends(draft.suits.lift).slice(-1)[0];
  return [
    [has(PLACEMENT, "on-scalp"), "it goes on the scalp"],
    [has("area", "scalp regrowth"), "it goes next to the scalp"],
    [has("area", "hairline"), "it goes round the hairline"],
    [has("history", "previously lightened"), "it goes on hair that was lightened before"],
    [strong, "its developer is 30 volume or more"],
    [lift >= 4, "it lifts four or more levels"],
  ].find(([holds]) => holds)?.[1];
}

function missingCautions(shelf, draft) {
  const why = needsCaution(shelf, draft);
  return why && !draft.cautions?.length ? [finding("missing-cautions", ["cautions"],
    `This needs a caution of its own: ${why}.`, "Add cautions, one sentence each.")] : [];
}

/** What the draft is, as rules look at it. */
function makeUp(shelf, draft) {
  const bases = basesOf(shelf, draft);
  const placements = shelf.facets.find(([name]) => name === PLACEMENT)[2]
    .filter((word) => (draft.suits?.placement ?? [word]).includes(word) && bases.every((each) => each.placement.includes(word)));
  const strengths = bases.map(({ strength }) => shelf.strengths.indexOf(strength));
  return {
    placements,
    strength: shelf.strengths[Math.max(...strengths)],
    forms: bases.map(({ form }) => form),
    pigments: bases.map(({ pigment }) => pigment),
    volume: Number(found(shelf.developers, draft.developer.product).volume),
  };
}

const fixedTraits = (traits, made) => (!traits.strength.length || traits.strength.includes(made.strength))
  && (!traits.form.length || made.forms.some((form) => traits.form.includes(form)))
  && (!traits.pigment.length || made.pigments.some((pigment) => traits.pigment.includes(pigment)))
  && (!traits.developer || (made.volume >= traits.developer[0] && made.volume <= traits.developer[1]));
const overlaps = (one, other) => one.some((word) => other.includes(word));

/** The placements for which a rule keeps its heads from the draft: all, where it does outright; else null. */
function keptFor({ exclude, require: required }, made) {
  const traits = exclude ?? required;
  const fits = fixedTraits(traits, made);
  const placed = traits.placement;
  if (exclude) {
    if (fits && made.placements.every((word) => !placed.length || placed.includes(word))) return "all";
    const ways = made.placements.filter((word) => placed.includes(word));
    return fits && ways.length ? ways : null;
  }
  if (!fits || (placed.length && !overlaps(placed, made.placements))) return "all";
  const ways = made.placements.filter((word) => placed.length && !placed.includes(word));
  return ways.length ? ways : null;
}

/** The heads that a rule keeps from the draft; null where it keeps none. */
function keptBy(shelf, rule, made) {
  const kept = keptFor(rule, made);
  if (!kept || kept === "all") return kept && rule.when;
  const at = shelf.facets.findIndex(([name]) => name === PLACEMENT);
  const ways = bitsOf(shelf.facets[at], kept);
  const met = rule.when[at] ? ways & rule.when[at] : ways;
  return met ? rule.when.map((bits, place) => (place === at ? met : bits)) : null;
}

function ruleContradictsSuits(shelf, draft) {
  if (tones(draft)) return [];
  const made = makeUp(shelf, draft);
  const suits = headsOf(shelf, draft.suits);
  return shelf.rules.flatMap((rule) => {
    const heads = keptBy(shelf, rule, made);
    const said = heads?.every((bits, at) => !bits || suits[at] || shelf.facets[at][0] === PLACEMENT);
    const met = said ? meet(suits, heads) : null;
    if (!met || (draft.not_for ?? []).some(({ when }) => within(met, headsOf(shelf, when)))) return [];
    return [{
      ...warn("rule-contradicts-suits", ["suits"],
        "It says that it suits heads which a rule of the house keeps from it.",
        "Narrow what it suits, name that corner under not for, or change the rule."),
      because: rule.because,
      rule: rule.place,
    }];
  });
}

export const HEAD_CHECKS = [
  contradictorySuits, offScalpProduct, liftOverProduct, tonerOffLevel, missingCautions, ruleContradictsSuits,
];
