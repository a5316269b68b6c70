// The bowl of a size, scale or developer that the page was not printed with: in the place of its own tables.

import { element, warning } from "./dom.js";
import { heading, row } from "./table.js";

/** The places for it: as those of the page's own sizes, their figures filled in by `draw`. */
export function addPanel(group) {
  const [panel, beneath] = [".bb-panel", ".bb-of-size"].map((name) => {
    const first = group.querySelector(name);
    const made = first.cloneNode(true);
    first.parentElement.append(made);
    return made;
  });
  panel.id = "any-size";
  panel.classList.add("bb-any-size");
  return { panel, beneath };
}

/** Shows a bowl of `batch` in `unit` under its remarks, or the remarks alone where there is no bowl to show. */
export function draw({ panel, beneath }, data, { batch, unit }, bowl, remarks) {
  const label = `${batch} ${unit}`;
  panel.setAttribute("aria-label", bowl ? `Batch of ${label}` : "No bowl");
  for (const each of [panel, beneath]) each.classList.toggle("bb-no-bowl", !bowl);
  panel.querySelector(".bb-remarks").replaceChildren(...remarks);
  if (!bowl) return;
  panel.querySelector(".bb-pours caption").textContent = `Batch of ${label}`;
  panel.querySelector(".bb-pours").classList.toggle("bb-long", bowl.pours.slice(-1)[0].shows.length > 5);
  for (const each of panel.querySelectorAll("thead span")) each.textContent = unit;
  const rows = panel.querySelectorAll(".bb-pours tbody tr");
  bowl.pours.forEach((pour, place) => {
    const part = (name) => rows[place].querySelector(name);
    part(".bb-name").textContent = pour.name;
    part(".bb-volume")?.remove();
    if (pour.volume) part("th").append(element("span", "bb-volume", pour.volume));
    part(".bb-weigh").textContent = pour.weigh;
    part(".bb-shows").textContent = pour.shows;
  });
  const facts = {
    total: bowl.total, peroxide: bowl.peroxide, cost: bowl.cost ?? "no price", error: bowl.error,
    next: bowl.within && parseFloat(bowl.following) === Number(batch) ? "this one" : bowl.following ?? "none found",
  };
  for (const [name, text] of Object.entries(facts)) {
    const place = panel.querySelector(`.bb-${name}`) ?? beneath.querySelector(`.bb-${name}`);
    if (place) place.textContent = text;
  }
  beneath.querySelector(".bb-wide").setAttribute("aria-label", `Exact weights, batch of ${label}`);
  beneath.querySelector(".bb-exact").replaceChildren(
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
