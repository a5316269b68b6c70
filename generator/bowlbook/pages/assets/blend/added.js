// Added too much? Which pour went over, and what the scale shows now; then what to add, and what it shows then.

import { correct } from "./correct.js";
import { button, element, warning } from "./dom.js";
import { heading, row } from "./table.js";
import { NAMES, typedWeight } from "./typed.js";

const root = document.getElementById("bb-added");
const part = (name) => root.querySelector(`.bb-added-${name}`);
const shows = root.querySelector("[name=added-shows]");
const pours = [...root.querySelectorAll("[name=added-pour]")];
const weights = [...root.querySelectorAll("[name=added-weight]")];

const chosen = () => pours.findIndex((each) => each.checked);

/** Wires the fold. `bowlNow` gives the bowl that the page shows, `turnTo` puts it into another unit. */
export function addedTooMuch(blend, bowlNow, turnTo) {
  const put = () => part("answer").replaceChildren(...answer(blend, bowlNow(), turnTo));
  root.addEventListener("input", (event) => {
    const place = chosen();
    if (event.target.name === "added-weight") {
      // The scale was read after the pour chosen: a weight of that one, or a later one, takes its place.
      if (event.target.value.trim() && place >= 0 && weights.indexOf(event.target) >= place) forget();
    } else if (place >= 0) {
      for (const each of weights.slice(place)) each.value = "";
    }
    put();
  });
  return {
    /** Shows the answer for the page's bowl as it is now. */
    put() {
      const now = bowlNow();
      root.hidden = !now;
      if (!now) return;
      now.bowl.pours.forEach((pour, place) => {
        pours[place].labels[0].textContent = pour.name;
        weights[place].labels[0].textContent = pour.name;
        weights[place].placeholder = pour.weigh;
      });
      for (const each of root.querySelectorAll(".bb-unit")) each.textContent = now.unit;
      put();
    },
    /** Clears the answers about a bowl that is no longer the one on the page. */
    clear() {
      forget();
      for (const each of weights) each.value = "";
    },
  };
}

function forget() {
  shows.value = "";
  for (const each of pours) each.checked = false;
}

function answer(blend, now, turnTo) {
  const place = chosen();
  part("planned").textContent = place < 0 ? "" : `, planned ${now.bowl.pours[place].shows}`;
  const asked = place >= 0 && shows.value.trim() ? [[shows, "after"]] : [];
  for (const each of weights) if (each.value.trim()) asked.push([each, "weight"]);
  for (const each of [shows, ...weights]) each.removeAttribute("aria-invalid");
  const poured = {};
  let after = null;
  for (const [input, kind] of asked) {
    const weight = typedWeight(input.value, now.unit, kind === "weight");
    if (weight.why || weight.unit !== now.unit) {
      input.setAttribute("aria-invalid", "true");
      return [weight.why ? warning(weight.why) : otherUnit(now, weight, turnTo)];
    }
    if (kind === "after") after = { place, shows: weight.number };
    else poured[weights.indexOf(input)] = weight.number;
  }
  if (!after && !Object.keys(poured).length) return [];
  return whatToAdd(now, correct(blend, now.unit, now.batch, now.step, poured, after), place);
}

/** A weight in the other unit is never taken for one in this: the other bowl is offered. */
function otherUnit(now, weight, turnTo) {
  return warning(`You typed ${NAMES[weight.unit]}, and this bowl is weighed in ${NAMES[now.unit]}. `,
    button(`Show this blend in ${NAMES[weight.unit]}`, () => turnTo(weight.unit)));
}

function whatToAdd(now, found, place) {
  if (!found) return [warning("No bowl of this recipe holds that. Begin a new one.")];
  if (found.before !== undefined) {
    return [warning(`Before ${now.bowl.pours[place].name} the scale showed ${found.before} ${now.unit}. `
      + "Read it again, or say what is in the bowl.")];
  }
  const more = found.pours.map((pour, at) => [now.bowl.pours[at].name, pour]).filter(([, pour]) => pour.more);
  const inside = found.pours.map((pour, at) => `${pour.in} ${now.bowl.pours[at].name}`)
    .filter((text) => Number(text.split(" ")[0]));
  const lines = [element("p", "", `In the bowl now: ${inside.join("; ")}.`)];
  if (found.overBowl) lines.push(warning(`A batch of ${found.batch} is more than fits one bowl. Begin a new one.`));
  lines.push(element("p", "", ...(more.length
    ? ["Take nothing out. Make it a batch of ", element("strong", "", found.batch), ", and add:"]
    : [`That is the whole bowl, a batch of ${found.batch}. Nothing is left to add.`])));
  if (more.length) {
    lines.push(element("table", "bb-table bb-pours bb-adds", heading("Product", ["Add", now.unit], ["Scale shows", now.unit]),
      element("tbody", "", ...more.map(([name, pour]) => row([name], ["bb-weigh", pour.add], ["bb-shows", pour.shows])))));
  }
  return [...lines, ...now.remarksOf(found.batch.split(" ")[0])];
}
