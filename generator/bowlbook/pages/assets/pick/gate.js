// The list "Stop if …" and the rows of words to tap. What is tapped here is in the form alone: it enters no
// address and no storage. A word of hair in the list is the same tap as in the form's own row.

import { element } from "./dom.js";
import { placeOf } from "./consult.js";

/** What tells one head from another: such a word replaced by another may mean another client. */
const OF_THE_HEAD = ["natural_level", "texture", "curl", "density"];

export class Gate {
  constructor(form) {
    this.form = form;
    this.list = document.getElementById("bb-stops");
    this.sofar = document.getElementById("bb-so-far");
    this.none = document.getElementById("bb-none");
    this.chips = [...this.list.querySelectorAll("input")];
    this.cleared = false;
    this.before = {};
  }

  /** Ask the list again: another head. */
  ask() {
    this.cleared = false;
  }

  /** A word of hair in the list is the same tap as in the form. */
  tapped({ dataset: { of }, value, checked }) {
    if (of) this.source(of, value).checked = checked;
  }

  /** Ask again where what tells heads apart was replaced or taken back. */
  follow(chosen) {
    const changed = ([name, values]) => String(values) !== String(chosen[name]);
    if (Object.entries(this.before).filter(([name]) => OF_THE_HEAD.includes(name)).some(changed)) this.ask();
    this.before = chosen;
  }

  source(facet, value) {
    return this.form.querySelector(`input[name="${facet}"][value="${CSS.escape(value)}"]`);
  }

  /** Show the list, only what was tapped of it, or nothing. `state`: asked, stopped, closed. */
  show(state, verdict) {
    for (const chip of this.chips) {
      const { of } = chip.dataset;
      if (of) chip.checked = this.source(of, chip.value).checked;
    }
    const some = this.chips.some((chip) => chip.checked);
    this.list.dataset.state = state;
    this.list.hidden = state === "closed" || (state === "stopped" && !some);
    this.sofar.textContent = verdict;
    this.none.textContent = some ? "None of the others" : "None of these";
  }

  /** By facet, the values that the answered list said no to, as bit sets. */
  denied(data) {
    const found = {};
    if (!this.cleared) return found;
    for (const chip of this.chips) {
      const facet = chip.dataset.of ?? chip.name;
      const value = data.facets[placeOf(data, facet)][1].indexOf(chip.value);
      if (!chip.checked) found[facet] = (found[facet] ?? 0) | (1 << value);
    }
    return found;
  }
}

/** One row of words for the weeks since the last service: as many words as the rules tell apart. */
export function weeksRow(data) {
  const place = placeOf(data, "weeks"), values = data.facets[place][1];
  const sets = data.stops.flatMap(([when]) => when.flatMap((at, i) => (i % 2 === 0 && at === place ? [when[i + 1]] : [])));
  const kindOf = (value) => sets.map((set) => (set >> value) & 1).join("");
  const starts = values.filter((_, value) => !value || kindOf(value) !== kindOf(value - 1));
  const row = element("fieldset", "bb-facet", element("legend", "", "Weeks since the last of these"));
  row.dataset.facet = "weeks";
  row.dataset.unkept = "";
  starts.forEach((start, number) => {
    const input = element("input"), label = element("label", "", number + 1 < starts.length
      ? `${start}–${starts[number + 1] - 1}` : `${start} or more`);
    Object.assign(input, { type: "radio", name: "weeks", value: start, id: `weeks-${number + 1}` });
    label.htmlFor = input.id;
    row.append(input, label);
  });
  return row;
}
