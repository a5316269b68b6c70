// The bowl of a size, scale or developer that the page was not printed with: in the place of its own tables.

import { element, warning } from "./dom.js";
import { heading, row } from "./table.js";

/** The panel for it: as those of the page, its figures filled in by `draw`. */
export function addPanel(group) {
  const panel = group.querySelector(".bb-panel").cloneNode(true);
  panel.id = "any-size";
  panel.hidden = true;
  panel.classList.add("bb-any-size");
  group.append(panel);
  return panel;
}

/** Shows a bowl of `batch` in `unit` under its remarks, or the remarks alone where there is no bowl to show. */
export function draw(panel, data, { batch, unit }, bowl, remarks) {
  const label = `${batch} ${unit}`;
  panel.setAttribute("aria-label", bowl ? `Batch of ${label}` : "No bowl");
  panel.classList.toggle("bb-no-bowl", !bowl);
  panel.querySelector(".bb-remarks").replaceChildren(...remarks);
  if (!bowl) return;
  panel.querySelector(".bb-pours caption").textContent =
    `Batch of ${label}. Tare the bowl once, then work down the list.`;
  panel.querySelector(".bb-pours thead").replaceWith(heading("Product", ["Weigh", unit], ["Scale shows", unit]));
  panel.querySelector(".bb-pours tbody").replaceChildren(...bowl.pours.map((pour) => {
    const made = row([element("span", "bb-role", pour.role), pour.name,
      pour.volume ? element("span", "bb-volume", pour.volume) : null],
    ["bb-weigh", pour.weigh], ["bb-shows", pour.shows]);
    made.className = `bb-${pour.role}`;
    return made;
  }));
  const facts = {
    total: bowl.total, peroxide: bowl.peroxide, cost: bowl.cost ?? "no price", error: bowl.error,
    next: bowl.within && parseFloat(bowl.following) === Number(batch) ? "this one" : bowl.following ?? "none found",
  };
  for (const [name, text] of Object.entries(facts)) {
    const place = panel.querySelector(`.bb-${name}`);
    if (place) place.textContent = text;
  }
  panel.querySelector(".bb-wide").setAttribute("aria-label", `Exact weights, batch of ${label}`);
  panel.querySelector(".bb-exact").replaceChildren(
    heading("Product", ["Exact", unit], "Off by", ...(data.priced ? ["Cost"] : [])),
    element("tbody", "", ...bowl.pours.map((pour) => row([pour.name], ["", pour.exact], ["", pour.off],
      ...(data.priced ? [["", pour.cost ?? "–"]] : []))), data.priced ? total(bowl) : null));
}

function total(bowl) {
  const made = row(["Total"], ["", ""], ["", ""], ["", bowl.cost ?? "no price"]);
  made.className = "bb-sum";
  return made;
}

/** Remarks on a bowl that is off its recipe, the same as at the page's own tables. */
export function remarks(data, bowl, step) {
  const found = bowl.overDose.map((sentence) => warning(sentence));
  if (!bowl.within) {
    found.unshift(warning(element("strong", "", "This scale cannot weigh this size closely enough."),
      ` In steps of ${step} it is ${bowl.error} off the recipe; the house allows ${data.tolerance_text}.`,
      bowl.following ? ` Nearest size this scale can weigh: ${bowl.following}.` : ""));
  }
  return found;
}
