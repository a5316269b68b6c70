// The bowl on a blend's page: one size, scale and developer rule its table, Any amount and Added too much?.

import { addedTooMuch } from "./added.js";
import { stayAwake } from "./awake.js";
import { button, element, warning } from "./dom.js";
import { showLarge } from "./large.js";
import { mix, recipe } from "./mix.js";
import { addPanel, draw, remarks } from "./panel.js";
import { bowlText, share } from "./share.js";
import { recall, remember } from "./store.js";
import { NAMES, typedWeight } from "./typed.js";

const bench = document.getElementById("bb-bench");
const group = document.querySelector(".bb-weighing");
const data = JSON.parse(document.getElementById("bb-recipe").textContent);
const blend = recipe(data);
const sizes = [...group.querySelectorAll(".bb-size")];
const units = [...bench.querySelectorAll("[name=bench-unit]")];
const field = (name) => bench.querySelector(`[name=bench-${name}]`);
const developer = field("developer");
const own = [".bb-panel", ".bb-of-size"].map((name) => [...group.querySelectorAll(name)]);
const any = addPanel(group);
const steps = { ...data.steps };
/** What the page shows: `batch` as text, null where what was typed is no size; `why` gives the reason then. */
const now = { unit: null, batch: null, why: null, sure: null };
const same = (one, other) => Number(one) === Number(other);
const listed = () => sizes.find((each) => each.dataset.unit === now.unit && same(each.dataset.batch, now.batch));
const label = () => `${now.batch} ${now.unit}`;

/** The bowl to show, or a sentence to show instead; `ask` where the sentence is a question. */
function answer() {
  if (now.why) return { says: now.why };
  if (now.batch / steps[now.unit] > 100000) return { says: "That is more than any bowl on this scale." };
  const bowl = mix(blend, now.unit, now.batch, steps[now.unit], developer.value);
  if (bowl.zero) {
    const instead = bowl.following ? ` Nearest size this scale can weigh: ${bowl.following}.` : "";
    return { says: `The scale would read zero for ${bowl.zero}.${instead}` };
  }
  if (!bowl.overBowl || listed() || now.sure === label()) return { bowl };
  const grams = now.unit === "oz" && data.steps.g ? ` (${Math.round(now.batch * 28.349523125)} g)` : "";
  return { says: `Really ${label()}${grams} of ${data.role}? It is more than fits one bowl. `, ask: true };
}

/** The sentence, and where it is a question a button that answers it. */
function notice({ says, ask }) {
  if (!ask) return warning(says);
  return warning(says, button("Yes, show it", () => { now.sure = label(); show(); }));
}

function show() {
  const found = answer();
  const size = now.why ? undefined : listed();
  for (const each of sizes) each.checked = each === size;
  for (const each of units) each.checked = each.value === now.unit;
  const printed = found.bowl && size && same(steps[now.unit], data.steps[now.unit]) && developer.selectedIndex === 0;
  group.dataset.unit = now.unit;
  const at = printed ? sizes.indexOf(size) : null;
  for (const places of own) places.forEach((each, place) => each.classList.toggle("bb-now", place === at));
  for (const each of [any.panel, any.beneath]) each.classList.toggle("bb-now", !printed);
  for (const each of bench.querySelectorAll("#bb-large, #bb-share")) each.hidden = !found.bowl;
  if (!printed) {
    const above = found.bowl ? remarks(data, found.bowl, `${steps[now.unit]} ${now.unit}`) : [notice(found)];
    draw(any, data, now, found.bowl, above);
  }
  bench.querySelector(".bb-bench-says").replaceChildren(found.bowl ? summary(found.bowl) : notice(found));
  added.put();
}

/** The readings in one line, for somebody who types below the table. */
function summary(bowl) {
  const readings = bowl.pours.map((pour) => `${pour.name} ${pour.shows}`).join("; ");
  return element("p", "", `The table above is a batch of ${label()}. The scale shows: ${readings}.`);
}

/** The bowl that the page shows, for the fold that puts it right; null where it shows none. */
function bowlNow() {
  const { bowl } = answer();
  const [unit, step] = [now.unit, steps[now.unit]];
  return bowl ? {
    bowl,
    unit,
    batch: now.batch,
    step,
    remarksOf: (batch) => remarks(data, mix(blend, unit, batch, step, developer.value), `${step} ${unit}`),
  } : null;
}

/** Another unit: the size that stands in the same place among those of that unit. */
function turnTo(unit) {
  const place = sizes.filter((each) => each.dataset.unit === now.unit).indexOf(listed());
  const there = sizes.filter((each) => each.dataset.unit === unit);
  take(unit, (there[place] ?? there[0]).dataset.batch);
  keep();
}

const keep = () => remember("scale", { unit: now.unit, batch: now.batch, steps });

/** Takes a size for the whole page, and shows it. */
function take(unit, batch, why = null) {
  if (unit !== now.unit) added.clear();
  Object.assign(now, { unit, batch, why, sure: null });
  field("step").value = steps[unit];
  for (const name of ["batch", "step"]) field(name).removeAttribute("aria-invalid");
  if (!why && document.activeElement !== field("batch")) field("batch").value = batch;
  show();
}

/** Reads what was typed as a batch: its unit rules; without one it is in the unit chosen. */
function typeBatch() {
  const { number, unit, why } = typedWeight(field("batch").value, now.unit);
  const wrong = why ?? (data.steps[unit] ? null : `This house does not weigh in ${NAMES[unit]}.`);
  if (wrong) take(now.unit, now.batch, wrong);
  else take(unit, number);
  field("batch").setAttribute("aria-invalid", String(Boolean(wrong)));
}

function typeStep() {
  const { number, unit, why } = typedWeight(field("step").value, now.unit);
  const wrong = why ?? (unit === now.unit ? null : `The batch is in ${now.unit}: type the step in ${now.unit} too.`);
  field("step").setAttribute("aria-invalid", String(Boolean(wrong)));
  if (!wrong) steps[now.unit] = number;
  Object.assign(now, { why: wrong, sure: null });
  show();
}

let added = null;

function start() {
  const kept = recall("scale", {});
  for (const [unit, step] of Object.entries(kept.steps ?? {})) {
    if (data.steps[unit] && typedWeight(String(step), unit).number) steps[unit] = String(step);
  }
  for (const each of group.querySelectorAll(".bb-overs")) each.remove();
  added = addedTooMuch(blend, bowlNow, turnTo);
  bench.hidden = false;
  group.classList.add("bb-chosen");
  bench.querySelector("#bb-large").addEventListener("click", () => {
    stayAwake("bowl");
    showLarge(bowlNow(), any.panel.querySelectorAll(".bb-key"));
  });
  bench.querySelector("#bb-share").addEventListener("click", async () => {
    const name = document.getElementById("start").textContent;
    const address = location.href.split(/[?#]/)[0];
    bench.querySelector(".bb-bench-shared").textContent = await share(bowlText(name, bowlNow(), address), name);
  });
  const ofUnit = sizes.filter((each) => each.dataset.unit === kept.unit);
  const last = ofUnit.find((each) => same(each.dataset.batch, kept.batch)); // the size that was mixed last
  const first = last ?? ofUnit[0] ?? sizes.find((each) => each.checked) ?? sizes[0];
  take(first.dataset.unit, first.dataset.batch);
  group.addEventListener("input", ({ target }) => {
    if (target.matches(".bb-size")) take(target.dataset.unit, target.dataset.batch);
    keep();
  });
  bench.addEventListener("input", ({ target }) => {
    if (target.name === "bench-batch") typeBatch();
    else if (target.name === "bench-step") typeStep();
    else if (target.name === "bench-unit") turnTo(target.value);
    else if (target === developer) show();
    keep();
    stayAwake("bowl");
  });
  group.addEventListener("input", () => stayAwake("bowl"));
}

if (bench) start();
