// The mixing bench on a blend's page: any amount, any scale, any of its developers, and a pour that went wrong.

import { correct, mix, recipe } from "./mix.js";
import { recall, remember } from "./store.js";

const bench = document.getElementById("bb-bench");
const data = JSON.parse(document.getElementById("bb-recipe").textContent);
const blend = recipe(data);
const field = (name) => bench.querySelector(`[name=${name}]`);
const part = (name) => bench.querySelector(`.bb-bench-${name}`);
const NUMBER = /^(?:\d{1,5}(?:\.\d{1,4})?|\.\d{1,4})$/;
const poured = new Map();

/** A typed weight as plain text; null where it cannot be understood for certain. */
function typed(text) {
  const found = text.trim().replace(/\s*(?:oz|g)$/i, "");
  const point = /^\d*,\d{1,2}$/.test(found) ? found.replace(",", ".") : found;
  return NUMBER.test(point) && Number(point) > 0 ? (point.startsWith(".") ? `0${point}` : point) : null;
}

function make(tag, className, ...children) {
  const made = document.createElement(tag);
  if (className) made.className = className;
  made.append(...children.filter((child) => child !== null));
  return made;
}

function heading(...names) {
  return make("thead", "", make("tr", "", ...names.map((name, at) => {
    const [text, unit] = [name].flat();
    const cell = make("th", at ? "bb-num" : "", text, ...(unit ? [make("br", ""), make("span", "", unit)] : []));
    cell.scope = "col";
    return cell;
  })));
}

function row(first, ...cells) {
  const head = make("th", "", ...first);
  head.scope = "row";
  return make("tr", "", head, ...cells.map(([className, text]) => make("td", `bb-num ${className}`, text)));
}

function fact(name, value) {
  return make("div", "", make("dt", "", name), make("dd", "", value));
}

function chosen() {
  const unit = bench.querySelector("[name=bench-unit]:checked").value;
  const batch = typed(field("bench-batch").value);
  const step = typed(field("bench-step").value);
  field("bench-batch").setAttribute("aria-invalid", String(!batch));
  field("bench-step").setAttribute("aria-invalid", String(!step));
  return { unit, batch, step, developer: field("bench-developer").value };
}

function show() {
  const { unit, batch, step, developer } = chosen();
  const answer = part("answer");
  part("wrong").hidden = true;
  if (!batch || !step) {
    answer.replaceChildren(make("p", "bb-warning", "Type a weight above zero, such as 0.75 or 47."));
    return;
  }
  if (Number(batch) / Number(step) > 100000) {
    answer.replaceChildren(make("p", "bb-warning", "That is more than any bowl on this scale."));
    return;
  }
  const bowl = mix(blend, unit, batch, step, developer);
  if (bowl.zero) {
    const instead = bowl.following ? ` The next honest batch is ${bowl.following}.` : "";
    answer.replaceChildren(make("p", "bb-warning", `The scale would read zero for ${bowl.zero}.${instead}`));
    return;
  }
  const table = make("table", "bb-table bb-pours",
    heading("Product", ["Weigh", unit], ["Scale shows", unit]),
    make("tbody", "", ...bowl.pours.map((pour) => {
      const made = row([make("span", "bb-role", pour.role), pour.name,
        pour.volume ? make("span", "bb-volume", pour.volume) : null],
      ["bb-weigh", pour.weigh], ["bb-shows", pour.shows]);
      made.className = `bb-${pour.role}`;
      return made;
    })));
  const warning = bowl.honest ? null : make("p", "bb-warning",
    make("strong", "", "This size cannot be weighed honestly."),
    ` Rounding puts it ${bowl.error} off the recipe; the house allows ${data.tolerance_text}.`,
    bowl.following ? ` Mix ${bowl.following} instead, the next honest batch.` : "");
  answer.replaceChildren(table, ...(warning ? [warning] : []), make("dl", "bb-facts bb-result",
    fact("In the bowl", bowl.total), fact("Peroxide in the bowl", bowl.peroxide),
    ...(data.priced ? [fact("Cost", bowl.cost ?? "no price")] : []), fact("Worst rounding error", bowl.error)));
  wrong(bowl, unit, batch, step);
}

/** The pours of this bowl with a field each for what they really weighed, and what the others must now be. */
function wrong(bowl, unit, batch, step) {
  const rows = bowl.pours.map((pour, place) => {
    const input = make("input", "");
    Object.assign(input, { inputMode: "decimal", autocomplete: "off", value: poured.get(place) ?? "" });
    input.setAttribute("aria-label", `${pour.name} really weighed, in ${unit}`);
    input.addEventListener("input", () => {
      if (input.value.trim()) poured.set(place, input.value);
      else poured.delete(place);
      put();
    });
    return row([pour.name], ["", pour.weigh], ["", input]);
  });
  const result = make("div", "bb-bench-corrected");
  result.setAttribute("role", "status");
  const put = () => {
    const weights = {};
    for (const [place, text] of poured) {
      const weight = typed(text);
      if (!weight) {
        result.replaceChildren(make("p", "bb-warning", "Type what the pour weighed, such as 0.45."));
        return;
      }
      weights[place] = weight;
    }
    if (!poured.size) { result.replaceChildren(); return; }
    const found = correct(blend, unit, batch, step, weights);
    if (!found) {
      result.replaceChildren(make("p", "bb-warning", "No bowl of this recipe holds that. Begin a new one."));
      return;
    }
    result.replaceChildren(
      make("p", "", `Make it a batch of ${found.batch}. Spoon nothing out; weigh the rest up to this:`),
      make("table", "bb-table bb-pours", heading("Pour", ["Add", unit], ["In the end", unit]),
        make("tbody", "", ...found.pours.map((pour, place) => row([bowl.pours[place].name],
          ["bb-weigh", pour.add], ["bb-shows", pour.must])))));
  };
  part("pours").replaceChildren(make("table", "bb-table",
    heading("Pour", "Planned", "Really weighed"), make("tbody", "", ...rows)), result);
  part("wrong").hidden = false;
  put();
}

/** While somebody mixes the screen stays on, where the phone allows it. */
let lock = null;
async function stayAwake() {
  if (lock || !navigator.wakeLock || document.visibilityState !== "visible") return;
  try {
    lock = await navigator.wakeLock.request("screen");
    lock.addEventListener("release", () => { lock = null; });
  } catch { lock = null; }
}

function start() {
  const kept = recall("scale", {});
  const units = [...bench.querySelectorAll("[name=bench-unit]")];
  const unit = units.find((each) => each.value === kept.unit) ?? units[0];
  unit.checked = true;
  const steps = { ...data.steps, ...(kept.steps ?? {}) };
  const fit = (first) => {
    const now = bench.querySelector("[name=bench-unit]:checked").value;
    field("bench-step").value = typed(String(steps[now] ?? "")) ?? data.steps[now];
    if (!first || !field("bench-batch").value) field("bench-batch").value = data.first[now];
  };
  fit(true);
  bench.addEventListener("input", (event) => {
    if (!event.target.name) return;
    if (event.target.name === "bench-unit") { fit(false); poured.clear(); }
    const now = bench.querySelector("[name=bench-unit]:checked").value;
    const step = typed(field("bench-step").value);
    if (step) steps[now] = step;
    if (event.target.name !== "bench-batch") remember("scale", { unit: now, steps });
    show();
    stayAwake();
  });
  const panel = document.querySelector(".bb-bowl");
  panel?.addEventListener("input", stayAwake);
  document.addEventListener("visibilitychange", () => { if (lock === null && poured.size) stayAwake(); });
  const preferred = kept.unit && panel?.querySelector(`.bb-size[id^="size-${kept.unit}-"]`);
  if (preferred) preferred.checked = true;
  bench.hidden = false;
  show();
}

if (bench) start();
