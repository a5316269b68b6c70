// What a check finds in a draft, in the words in which `bowlbook check` says it.

/** `way`: the keys to the value concerned, by which the page finds its field. */
export const finding = (code, way, message, mend, severity = "error") => ({ code, way, message, mend, severity });
export const warn = (...said) => finding(...said, "warning");

/** A number with its noun, plural unless it is one. */
export const counted = (number, noun) => `${number} ${noun}${Number(number) === 1 ? "" : "s"}`;
