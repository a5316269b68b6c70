// A bowl as text, to send or to paste: what to weigh, what the scale shows, and where it is written.

/** The text of a bowl. */
export function bowlText(name, { bowl, unit, batch }, address) {
  const lines = bowl.pours.map((pour) => `${pour.name}: ${pour.weigh}, scale shows ${pour.shows} ${unit}`);
  return [`${name}, batch of ${batch} ${unit}`, ...lines, "The maker’s instructions come first.", address].join("\n");
}

/** Hands the text to the phone, or copies it. Gives a sentence on what became of it, empty where nothing is to be said. */
export async function share(text, title) {
  if (navigator.share && navigator.maxTouchPoints) {
    try {
      await navigator.share({ title, text });
      return "";
    } catch (fault) {
      if (fault.name === "AbortError") return "";
    }
  }
  try {
    await navigator.clipboard.writeText(text);
    return "Copied.";
  } catch {
    return "This phone lets nothing be copied here.";
  }
}
