// A draft of a blend: the very keys and texts of its entry, and what they are as exact numbers.

import { less, over, plain, read } from "./exact.js";
import { recipe } from "./mix.js";

const NUMBER = /^(0|[1-9]\d{0,8})(\.\d{1,6})?$/;
const LEAST = read("0.01");

/** A number as somebody types it, "1,5" too; null where it is not certain, or not from `least` to `most`. */
function typedNumber(text, least, most) {
  const point = text.trim().replace(/^(\d*),(\d{1,2})$/, "$1.$2").replace(/^\./, "0.");
  if (!NUMBER.test(point)) return null;
  const number = read(point);
  return less(number, least) || less(read(most), number) ? null : plain(number);
}
export const typedParts = (text) => typedNumber(text, LEAST, "100");
export const typedSize = (text) => typedNumber(text, LEAST, "10000");
export const typedMinutes = (text) => typedNumber(text, read("1/60"), "1440");

/** A ratio "1:2": what stands right of the colon, over what stands left of it. */
export function ratioOf(text) {
  const [left, right] = text.split(":");
  return over(read(right), read(left));
}

export const tones = (draft) => Boolean(draft.toners);
/** What shares the batch by parts: lighteners, or toners. */
export const sharesOf = (draft) => draft.toners ?? draft.lighteners ?? [];
/** Every developer that the draft allows, its own first. */
export const developersOf = (draft) => [draft.developer.product, ...(draft.developer.also ?? [])];
export const found = (products, id) => products.find((each) => each.id === id);
export const basesOf = (shelf, draft) => sharesOf(draft).map(({ product }) => (
  found(tones(draft) ? shelf.toners : shelf.lighteners, product)));

/** The sizes that the draft is mixed in, as [unit, size, step]: its own of a unit, else the house's. */
export function ladderOf(shelf, draft) {
  return ["oz", "g"].filter((unit) => shelf.steps[unit]).flatMap((unit) => (
    (draft.batches?.[unit] ?? shelf.sizes[unit]).map((size) => [unit, size, shelf.steps[unit]])));
}

/** Whether all that is weighed is chosen, and its numbers can be read. */
export function isWhole({ developer, additives = [], ...draft }) {
  const shares = sharesOf(draft);
  return shares.length > 0 && shares.every(({ parts }) => parts) && additives.every(({ ratio }) => ratio)
    && Boolean(developer.ratio && developer.product);
}

/** The draft as `mix` takes a recipe; null while something that is weighed is still open. */
export function bowlOf(shelf, draft) {
  const additives = draft.additives ?? [];
  if (!isWhole(draft)) return null;
  const value = (ratio) => ratioOf(ratio).join("/");
  return recipe({
    bases: sharesOf(draft).map((each, at) => ({ ...basesOf(shelf, draft)[at], parts: each.parts })),
    ratio: value(draft.developer.ratio),
    steps: shelf.steps,
    developers: developersOf(draft).map((id) => found(shelf.developers, id)),
    additives: additives.map(({ product, ratio }) => {
      const additive = found(shelf.additives, product);
      return { ...additive, ratio: value(ratio), dose: additive.dose && value(additive.dose) };
    }),
    tolerance: shelf.tolerance,
    largest: shelf.largest,
    role: tones(draft) ? "toner" : "lightener",
    money: shelf.money,
  });
}

/** An id made of a name: its letters without accents, in small letters; empty where none are left. */
export function idFrom(name, longest) {
  const bare = name.replaceAll("ß", "ss").normalize("NFKD").replace(/[^\0-\x7f]/g, "").toLowerCase();
  const trimmed = (text) => text.replace(/^-+|-+$/g, "");
  return trimmed(trimmed(bare.replace(/[^a-z0-9]+/g, "-")).slice(0, longest));
}
