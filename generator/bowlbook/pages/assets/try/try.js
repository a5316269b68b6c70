// Try a blend: what is typed, read as a draft; the bowl, the checks and the recipe's text follow each change.

import { findingsIn } from "./check_draft.js";
import { found, isWhole, ladderOf } from "./draft.js";
import { element } from "./dom.js";
import { fillForm, makeForm, readForm } from "./try_form.js";
import { holdCurrent, lastCurrent, startDrafts } from "./try_drafts.js";
import { showBowl, showFindings, showNearest } from "./try_result.js";
import { showText, textButtons } from "./try_text.js";
import { recall } from "./store.js";
import { typedWeight } from "./typed.js";

const form = document.getElementById("try");
const at = (id) => document.getElementById(`try-${id}`);
let shelf = null;
/** The size that is weighed; `why` says why what was typed is none. */
let size = {};

const FIELDS = {
  lighteners: "bases", toners: "bases", additives: "additives", developer: "developer", suits: "suits", not_for: "not-for",
  cautions: "cautions", name: "name", summary: "summary", notes: "notes", batches: "batches", reviewed: "by",
};
const fieldOf = ([first]) => `try-${FIELDS[first] ?? "name"}`;

/** The sizes to tap: the draft's own, else the house's. */
function showSizes(draft) {
  const ladder = ladderOf(shelf, draft);
  const same = ([unit, batch]) => unit === size.unit && Number(batch) === Number(size.batch);
  if (!size.typed && !ladder.some(same)) size = { unit: ladder[0][0], batch: ladder[0][1] };
  const chips = ladder.flatMap(([unit, batch], place) => {
    const box = element("input");
    const label = element("label", "", `${batch} ${unit}`);
    Object.assign(box, { type: "radio", name: "size", id: `try-size-${place}`, value: `${batch} ${unit}`, checked: same([unit, batch]) });
    label.htmlFor = box.id;
    return [box, label];
  });
  const shown = at("sizes").querySelectorAll("input");
  const known = [...shown].map(({ value }) => value).join();
  if (known === ladder.map(([unit, batch]) => `${batch} ${unit}`).join()) {
    for (const box of shown) box.checked = !size.why && same(box.value.split(" ").reverse());
    return;
  }
  at("sizes").replaceChildren(at("sizes").firstElementChild, ...chips);
}

function typeSize(text) {
  if (!text.trim()) { size = {}; return; }
  const { number, unit, why } = typedWeight(text, size.unit);
  size = { unit, batch: number, typed: true, why: why ?? (shelf.steps[unit] ? undefined : "This house has no scale for that unit.") };
  if (!size.why && number / shelf.steps[unit] > 100000) size.why = "That is more than any bowl on this scale.";
  if (size.why) size.unit = Object.keys(shelf.steps)[0];
}

/** Why there is no bowl to weigh; null where there is one. */
function whyNoBowl(draft, problems) {
  const bowlFields = problems.filter(({ field }) => field.closest(".try-in"));
  if (bowlFields.length) return bowlFields[0].why;
  if (!(draft.lighteners ?? draft.toners)) return "Choose what is in the bowl.";
  return draft.developer.product ? null : "Choose a developer.";
}

/** What is still open before there is a recipe; null where nothing is. */
function whyNoText(draft, problems, says) {
  const open = [];
  if (!isWhole(draft)) open.push("what is in the bowl");
  if (!draft.suits) open.push("what it is good for");
  if (!draft.name) open.push("a name");
  const stops = says.filter(({ severity }) => severity === "error").length;
  if (open.length) return `Still open: ${open.join(", ")}.`;
  if (problems.length) return problems[0].why;
  return stops ? `First mend what stops it: ${stops} under “What the checks say”.` : null;
}

function show() {
  const { draft, problems } = readForm();
  for (const field of form.querySelectorAll("[aria-invalid]")) field.removeAttribute("aria-invalid");
  for (const { field } of problems) field.setAttribute("aria-invalid", "true");
  showSizes(draft);
  at("size").toggleAttribute("aria-invalid", Boolean(size.why));
  const without = whyNoBowl(draft, problems);
  const says = findingsIn(shelf, draft);
  showBowl(shelf, draft, size, without, says);
  showFindings(says, fieldOf);
  if (without) at("nearest").replaceChildren();
  else showNearest(shelf, draft, size);
  const also = draft.developer.also?.length;
  at("also-said").textContent = also ? `: ${draft.developer.also.map((id) => found(shelf.developers, id).name).join(", ")}` : "";
  showText(shelf, draft, whyNoText(draft, problems, says));
  holdCurrent(draft);
}

/** Puts a draft into the form; one that this page did not write, or cannot read any more, leaves it empty. */
function put(draft) {
  try {
    fillForm(known(draft));
    show();
  } catch {
    fillForm({});
    show();
  }
}

function open(draft) {
  put(draft);
  form.scrollIntoView();
}

/** A draft without what the shelf no longer has. */
function known(draft) {
  const has = (list) => ({ product }) => found(list, product);
  return {
    ...draft,
    ...(draft.lighteners ? { lighteners: draft.lighteners.filter(has(shelf.lighteners)) } : {}),
    ...(draft.toners ? { toners: draft.toners.filter(has(shelf.toners)) } : {}),
    ...(draft.additives ? { additives: draft.additives.filter(has(shelf.additives)) } : {}),
  };
}

/** The head that the address names, as facets: what a blend is to be made for. */
function headAsked() {
  const asked = new URLSearchParams(location.search);
  const facets = {};
  for (const [name, , values, ranged] of shelf.facets) {
    const said = (asked.get(name) ?? "").split("~").filter((value) => values.includes(value));
    if (said.length) facets[name] = ranged ? [said[0], said.slice(-1)[0]].filter((end, place) => !place || end !== said[0]).join("-") : said;
  }
  return Object.keys(facets).length ? facets : null;
}

function showHead(facets) {
  const words = shelf.facets.filter(([name]) => facets[name]).map(([name, title]) => `${title.toLowerCase()} ${[facets[name]].flat().join(" or ")}`);
  at("head").textContent = `Make a blend for this head: ${words.join("; ")}.`;
  at("head").hidden = false;
}

async function start() {
  try {
    shelf = await (await fetch(form.dataset.shelf)).json();
  } catch {
    at("without").textContent = "The shelf is not on this phone yet: open this page once with a network.";
    return;
  }
  makeForm(shelf);
  const head = headAsked();
  const unit = recall("scale", {})?.unit;
  const sizes = shelf.sizes[unit];
  if (shelf.steps[unit] && sizes.length) size = { unit, batch: sizes[0] };
  put(head ? { suits: head } : lastCurrent() ?? {});
  if (head) showHead(head);
  at("without").hidden = true;
  form.hidden = false;
  form.addEventListener("submit", (event) => event.preventDefault());
  form.addEventListener("input", ({ target }) => {
    if (target === at("size")) typeSize(target.value);
    else if (target.name === "size") {
      const [batch, chosen] = target.value.split(" ");
      size = { unit: chosen, batch };
      at("size").value = "";
    }
    show();
  });
  at("take").addEventListener("click", () => {
    const { id, name, fresh_for: fresh, ...recipe } = shelf.recipes.find((each) => each.id === at("recipe").value);
    open({ ...recipe, ...(fresh ? { fresh_for: `${fresh} minutes` } : {}) });
    at("begin").open = false;
  });
  textButtons();
  startDrafts(() => readForm().draft, open);
}

start();
