// The finished recipe of Try a blend: shown as text, copied, downloaded, shared, or proposed to the house.

import { idFrom } from "./draft.js";
import { entryText } from "./draft_text.js";

const at = (id) => document.getElementById(`try-${id}`);
const repository = document.getElementById("bb-repository")?.dataset;
/** Longer addresses are refused by servers; such a text is copied instead, to be put in there. */
const LONGEST_ADDRESS = 7000;
let text = "";
let file = "";

const say = (words) => { at("done").textContent = words; };

/** Shows the text of a draft that nothing is open in; `open` says what still is. */
export function showText(shelf, draft, open) {
  at("open").textContent = open ?? "";
  at("recipe-text").hidden = Boolean(open);
  if (open) return;
  text = entryText(draft, shelf.schema);
  file = `${idFrom(draft.name, shelf.longest_id)}.yml`;
  at("text").textContent = text;
  at("file").textContent = `${repository?.folder ?? "recipes/blends"}/${file}`;
  at("propose").hidden = !repository?.propose;
  if (repository?.propose) at("propose").href = proposal(text) ?? proposal("");
  say("");
}

/** The address at which a new file with this text can be proposed; null where it is too long. */
function proposal(content) {
  const found = repository.propose.replace("{name}", encodeURIComponent(file)).replace("{text}", encodeURIComponent(content));
  return found.length > LONGEST_ADDRESS ? null : found;
}

async function copy(words) {
  try {
    await navigator.clipboard.writeText(text);
    say(words);
  } catch {
    getSelection().selectAllChildren(at("text"));
    say("Copying is not allowed here. The text is selected: copy it by hand.");
  }
}

/** Wires the buttons. */
export function textButtons() {
  at("copy").addEventListener("click", () => copy("Copied."));
  at("download").addEventListener("click", () => {
    const link = document.createElement("a");
    link.href = URL.createObjectURL(new Blob([text], { type: "application/yaml" }));
    link.download = file;
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 1000);
    say(`Saved as ${file}.`);
  });
  at("share").hidden = !navigator.share;
  at("share").addEventListener("click", () => navigator.share({ title: file, text }).catch(() => {}));
  at("propose").addEventListener("click", () => {
    if (proposal(text) === null) copy("Copied: put it in on the page that opens.");
  });
}
