// Drafts of Try a blend, on this phone alone. Who went over a recipe is not kept: a draft holds hair and recipe.

import { button, element } from "./dom.js";
import { keptList, recall, remember } from "./store.js";

const MOST = 30;
const at = (id) => document.getElementById(`try-${id}`);
const say = (words) => { at("kept").textContent = words; };
const all = keptList("drafts").read;
const kept = ({ reviewed, ...draft }) => draft;
const titleOf = (draft) => draft.name || "Without a name";

function show(open) {
  at("drafts").replaceChildren(...all().map((draft, place) => {
    const take = button(titleOf(draft), () => open(draft), "bb-button try-draft");
    const forget = button("Delete", () => {
      remember("drafts", all().filter((_, other) => other !== place));
      show(open);
      say(`Deleted: ${titleOf(draft)}. `);
      at("kept").append(button("Undo", () => { keep(draft, open); }));
    });
    forget.setAttribute("aria-label", `Delete the draft ${titleOf(draft)}`);
    return element("li", "", take, forget);
  }));
}

function keep(draft, open) {
  const others = all().filter(({ name }) => !draft.name || name !== draft.name);
  if (others.length >= MOST) return say(`${MOST} drafts are kept already: delete one first.`);
  const done = remember("drafts", [kept(draft), ...others]);
  say(done ? `Kept: ${titleOf(draft)}.` : "This phone keeps nothing for this page: copy the text instead.");
  return show(open);
}

/** Wires the list. `now` gives the draft on the page; `open` shows another one. */
export function startDrafts(now, open) {
  at("keep").addEventListener("click", () => keep(now(), open));
  at("new").addEventListener("click", () => {
    const before = now();
    open({});
    say("");
    at("kept").append("A new draft. ", button("Take the last one back", () => { open(before); say(""); }));
  });
  addEventListener("storage", () => show(open));
  show(open);
}

/** What was on the page is there again when it is opened next. */
export const holdCurrent = (draft) => remember("draft", kept(draft));
export const lastCurrent = () => recall("draft");
