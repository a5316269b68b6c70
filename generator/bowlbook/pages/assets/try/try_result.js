// What Try a blend answers: the bowl weighed, what the checks say, and the nearest recipe beside it.

import { bowlOf } from "./draft.js";
import { element, warning } from "./dom.js";
import { mix } from "./mix.js";
import { nearest } from "./nearest.js";
import { heading, row } from "./table.js";

const at = (id) => document.getElementById(`try-${id}`);

/** The bowl of a draft in a size; null where there is none to show. */
function weighed(shelf, draft, { unit, batch }) {
  const bowl = bowlOf(shelf, draft);
  return bowl && mix(bowl, unit, batch, shelf.steps[unit], draft.developer.product);
}

/** What hurts somebody, or what a maker forbids: said before any figure. */
const HAZARDS = new Set([
  "additive-outweighs-bowl", "additive-over-dose", "developer-over-house-limit", "developer-over-product-limit",
  "off-scalp-product", "peroxide-over-limit", "ratio-out-of-range", "toner-off-level",
]);

/** Why the bowl is not to be mixed as it stands; null where no check stops it. */
function held(says) {
  const why = [...new Set(says.filter(({ code }) => HAZARDS.has(code)).map(({ message }) => message))];
  return why.length ? element("p", "try-held", element("strong", "", "Do not mix this. "), why.join(" ")) : null;
}

/** Shows the bowl, under what holds it; `why` where there is none. `found`: the findings in the draft. */
export function showBowl(shelf, draft, size, why, found) {
  const bowl = why || size.why ? null : weighed(shelf, draft, size);
  const says = why ?? size.why ?? (bowl.zero ? zero(bowl) : null);
  const stop = says ? null : held(found);
  at("bowl").replaceChildren(...(says ? [warning(says)] : [...(stop ? [stop] : []), table(size, bowl), facts(shelf, size, bowl), ...remarks(shelf, size, bowl)]));
  at("now").replaceChildren(...(says ? [] : [held(found) ?? readingsOf(size, bowl)]));
}

const zero = ({ zero: name, following }) => `The scale would read zero for ${name}.`
  + (following ? ` Nearest size this scale can weigh: ${following}.` : "");

function table({ unit, batch }, bowl) {
  const rows = bowl.pours.map((pour) => {
    const made = row([element("span", "bb-role", pour.role), pour.name, pour.volume ? element("span", "bb-volume", pour.volume) : null],
      ["bb-weigh", pour.weigh], ["bb-shows", pour.shows]);
    made.className = `bb-${pour.role}`;
    Object.assign(made.dataset, { exact: pour.exact, cost: pour.cost ?? "" });
    return made;
  });
  return element("table", "bb-table bb-pours", element("caption", "", `Batch of ${batch} ${unit}. Tare the bowl once, then work down the list.`),
    heading("Product", ["Weigh", unit], ["Scale shows", unit]), element("tbody", "", ...rows));
}

function facts(shelf, { batch }, bowl) {
  const nearestSize = bowl.within && parseFloat(bowl.following) === Number(batch) ? "this one" : bowl.following ?? "none found";
  const shown = [
    ["In the bowl", "total", bowl.total],
    ["Peroxide in the bowl", "peroxide", bowl.peroxide],
    ...(shelf.priced ? [["Cost", "cost", bowl.cost ?? "no price"]] : []),
    ["Worst rounding error", "error", bowl.error],
    ["Nearest size this scale can weigh", "next", nearestSize],
  ];
  return element("dl", "bb-facts bb-result", ...shown.map(([name, kind, text]) => (
    element("div", "", element("dt", "", name), element("dd", `bb-${kind}`, text)))));
}

function remarks(shelf, { unit, batch }, bowl) {
  return [
    ...(bowl.within ? [] : [warning(element("strong", "", "This scale cannot weigh this size closely enough."),
      ` In steps of ${shelf.steps[unit]} ${unit} it is ${bowl.error} off; the house allows ${shelf.tolerance_text}.`)]),
    ...bowl.overDose.map((sentence) => warning(sentence)),
    ...(bowl.overBowl ? [warning(`${batch} ${unit} is more than fits one bowl.`)] : []),
  ];
}

/** What the scale shows in one row, in sight while somebody types. */
function readingsOf({ unit }, bowl) {
  const list = element("ol", "bb-readings", ...bowl.pours.map(({ name, shows }) => (
    element("li", "", element("span", "", name), element("b", "", shows, element("small", "", ` ${unit}`))))));
  list.setAttribute("aria-label", "The scale shows");
  return list;
}

/** Lists what stops the draft, then what to look at; each leads to its field. */
export function showFindings(found, fieldOf) {
  if (!found.length) {
    at("says").replaceChildren(element("p", "try-clear", "Nothing to mend, and nothing to look at."));
    return;
  }
  at("says").replaceChildren(element("ul", "try-findings", ...found.map((each) => {
    const stops = each.severity === "error";
    const link = element("a", "", each.message);
    link.href = `#${fieldOf(each.way)}`;
    const item = element("li", stops ? "try-stop" : "", element("b", "", stops ? "To mend: " : "To look at: "), link,
      element("span", "", ` ${each.because ? `${each.because} ` : ""}${each.mend}`));
    item.dataset.code = each.code;
    return item;
  })));
}

/** Shows the nearest recipe of the book, weighed beside the draft. */
export function showNearest(shelf, draft, size) {
  const parts = bowlOf(shelf, draft) ? [element("h2", "", "Nearest in the book")] : [];
  const close = parts.length && nearest(shelf, draft);
  if (close) {
    const { recipe, same } = close;
    const link = element("a", "", recipe.name);
    link.href = `${document.getElementById("try").dataset.top}blends/${recipe.id}/`;
    parts.push(element("p", "", link, same ? ": the very same bowl." : ":"));
    if (!same && !size.why) parts.push(beside(shelf, draft, recipe, size));
  } else if (parts.length) parts.push(element("p", "", "No recipe of the book has any of this in its batch."));
  at("nearest").replaceChildren(...parts);
}

/** Both bowls in one size, product by product. */
function beside(shelf, draft, recipe, size) {
  const [mine, theirs] = [draft, recipe].map((each) => weighed(shelf, each, size));
  if (mine.zero || theirs.zero) return element("p", "", "In this size one of the two cannot be weighed.");
  const names = new Map([...mine.pours, ...theirs.pours].map(({ id, name }) => [id, name]));
  const of = (bowl, id) => bowl.pours.find((pour) => pour.id === id)?.weigh ?? "–";
  const line = (name, one, other) => row([name], ["", one], ["", other]);
  return element("table", "bb-table try-beside", element("caption", "", `Both in a batch of ${size.batch} ${size.unit}.`),
    heading("Product", ["This draft", size.unit], ["The recipe", size.unit]), element("tbody", "",
      ...[...names].map(([id, name]) => line(name, of(mine, id), of(theirs, id))),
      line("Peroxide in the bowl", mine.peroxide, theirs.peroxide),
      ...(shelf.priced ? [line("Cost", mine.cost ?? "–", theirs.cost ?? "–")] : [])));
}
