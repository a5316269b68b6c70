// Exact fractions of whole numbers without limit; rounding half up, once, last: the same arithmetic as in Python.

export const gcd = (one, other) => { while (other) [one, other] = [other, one % other]; return one < 0n ? -one : one; };

/** A fraction [numerator, denominator] in lowest terms, the denominator above zero. */
function fraction(numerator, denominator = 1n) {
  if (denominator < 0n) { numerator = -numerator; denominator = -denominator; }
  const shared = gcd(numerator, denominator);
  return shared > 1n ? [numerator / shared, denominator / shared] : [numerator, denominator];
}

/** A fraction from "3", "3/4" or "0.75". */
export function read(text) {
  const [whole, below] = text.split("/");
  if (below !== undefined) return fraction(BigInt(whole), BigInt(below));
  const [left, right = ""] = whole.split(".");
  return fraction(BigInt(left + right), 10n ** BigInt(right.length));
}

export const plus = (a, b) => fraction(a[0] * b[1] + b[0] * a[1], a[1] * b[1]);
export const minus = (a, b) => fraction(a[0] * b[1] - b[0] * a[1], a[1] * b[1]);
export const times = (a, b) => fraction(a[0] * b[0], a[1] * b[1]);
export const over = (a, b) => fraction(a[0] * b[1], a[1] * b[0]);
export const less = (a, b) => a[0] * b[1] < b[0] * a[1];
export const sum = (all) => all.reduce(plus, [0n, 1n]);
export const whole = (number) => [BigInt(number), 1n];

/** Rounded down, and rounded up, to a whole number. */
export function floor([numerator, denominator]) {
  const cut = numerator / denominator;
  return numerator % denominator < 0n ? cut - 1n : cut;
}
export const ceiling = ([numerator, denominator]) => -floor([-numerator, denominator]);

/** Rounded half up to a whole number. */
export const halfUp = (a) => floor(plus(a, [1n, 2n]));

/** A fraction with so many decimals, rounded half up. */
export function fixed(number, places) {
  const scale = 10n ** BigInt(places);
  const rounded = halfUp(times(number, [scale, 1n]));
  const sign = rounded < 0n ? "-" : "";
  const digits = String(rounded < 0n ? -rounded : rounded).padStart(places + 1, "0");
  return places ? `${sign}${digits.slice(0, -places)}.${digits.slice(-places)}` : sign + digits;
}

/** A fraction as a decimal without trailing zeros, rounded half up to at most so many places. */
export function plain(number, places = 6) {
  const text = fixed(number, places);
  return text.includes(".") ? text.replace(/0+$/, "").replace(/\.$/, "") : text;
}

/** So many whole units shared by weights: largest remainder, ties to the one listed first. */
export function shares(units, weights) {
  const total = sum(weights);
  const exact = weights.map((weight) => over(times([units, 1n], weight), total));
  const given = exact.map(floor);
  let left = units - given.reduce((a, b) => a + b, 0n);
  const order = exact.map((share, at) => [minus(share, [given[at], 1n]), at])
    .sort(([a, i], [b, j]) => (less(b, a) ? -1 : less(a, b) ? 1 : i - j));
  for (const [, at] of order) {
    if (left <= 0n) break;
    given[at] += 1n;
    left -= 1n;
  }
  return given;
}
