// The form of Try a blend: rows made for what the shelf holds, read as a draft, filled from one.

import { typedMinutes, typedParts, typedSize } from "./draft.js";
import { button, element } from "./dom.js";

const at = (id) => document.getElementById(`try-${id}`);
let shelf = null;
let made = 0;

const bases = () => (at("tones").checked ? shelf.toners : shelf.lighteners);
const option = (value, text) => {
  const one = element("option", "", text);
  one.value = value;
  return one;
};
const products = (list) => [option("", "Choose …"), ...list.map(({ id, name }) => option(id, name))];

const labelled = (label, field, className = "") => element("label", className, element("span", "", label), field);
function input(value, mode = "decimal") {
  const field = element("input");
  field.inputMode = mode;
  field.value = value;
  return field;
}
/** Two numbers with a colon between them, each with what it is of. */
function ratioFields([left, right], of) {
  const fields = [input(left), input(right)];
  fields[0].setAttribute("aria-label", "Parts of the batch");
  fields[1].setAttribute("aria-label", `Parts of ${of}`);
  return element("span", "try-ratio", element("span", "", "Ratio"), fields[0], " : ", fields[1]);
}

function removable(row, what) {
  const remove = button("×", () => {
    const list = row.parentElement;
    row.remove();
    list.dispatchEvent(new Event("input", { bubbles: true }));
  }, "bb-button try-remove");
  remove.setAttribute("aria-label", `Take this ${what} out`);
  row.append(remove);
  return row;
}

function baseRow({ product = "", parts = "1" } = {}) {
  const select = element("select", "", ...products(bases()));
  select.value = product;
  const row = element("div", "try-row", labelled("Product", select, "try-what"), labelled("Parts", input(parts), "try-parts"));
  return removable(row, "product");
}

function additiveRow({ product = "", ratio } = {}) {
  const select = element("select", "", ...products(shelf.additives));
  select.value = product;
  const which = labelled("Which", select, "try-what");
  return removable(element("div", "try-row", which, ratioFields((ratio ?? "10:1").split(":"), "additive")), "additive");
}

function notForRow({ when = {}, because = "", instead = "" } = {}) {
  const row = at("not-for-row").content.firstElementChild.cloneNode(true);
  made += 1;
  for (const box of row.querySelectorAll("[id]")) {
    const label = row.querySelector(`label[for="${box.id}"]`);
    box.id = `${box.id}-${made}`;
    label.htmlFor = box.id;
  }
  fillHeads(row, when);
  const part = (name) => row.querySelector(`[data-part=${name}]`);
  part("because").value = because;
  part("instead").append(option("", "nothing named"), ...shelf.recipes.map(({ id, name }) => option(id, name)));
  part("instead").value = instead;
  return removable(row, "head");
}

function fillHeads(root, facets) {
  for (const field of root.querySelectorAll("[data-facet]")) {
    const said = facets[field.dataset.facet];
    const [low = "", high = ""] = typeof said === "string" ? said.split("-") : [];
    for (const end of field.querySelectorAll("select")) end.value = end.dataset.end === "from" ? low : high;
    for (const box of field.querySelectorAll("input")) box.checked = Boolean(said?.includes(box.value));
    if (said && field.closest("details")) field.closest("details").open = true;
  }
}

function readHeads(root, problem) {
  const facets = {};
  for (const [name] of shelf.facets) {
    const field = root.querySelector(`[data-facet=${name}]`);
    const [from, to] = [...field.querySelectorAll("select")].map(({ value }) => value);
    const words = [...field.querySelectorAll("input:checked")].map(({ value }) => value);
    if (words.length) facets[name] = words;
    if (to && !from) problem(field.querySelector("select"), "Choose where the range begins.");
    if (from) {
      const ends = [from, to || from].sort((one, other) => one - other);
      facets[name] = ends[0] === ends[1] ? ends[0] : ends.join("-");
    }
  }
  return facets;
}

/** What is typed on one line, without spaces too many. */
const oneLine = (text) => text.trim().replace(/\s+/g, " ");
const sentence = (field) => oneLine(field.value);
const linesOf = (text) => text.replace(/\r\n?/g, "\n").split("\n").map((line) => line.trimEnd());
const notesOf = (text) => linesOf(text).join("\n").replace(/^\s+|\s+$/g, "");

/** Makes the parts of the form that depend on the shelf. */
export function makeForm(given) {
  shelf = given;
  at("developer").append(...products(shelf.developers));
  at("ratio").replaceWith(Object.assign(ratioFields(["1", "2"], "developer"), { id: "try-ratio" }));
  at("recipe").append(...shelf.recipes.map(({ id, name }) => option(id, name)));
  at("also").append(...shelf.developers.flatMap(({ id, name }) => {
    const box = element("input");
    const label = element("label", "", name);
    Object.assign(box, { type: "checkbox", value: id, id: `try-also-${id}` });
    label.htmlFor = box.id;
    return [box, label];
  }));
  at("batches").append(...Object.keys(shelf.steps).map((unit) => {
    const field = input("", "text");
    field.dataset.unit = unit;
    return element("p", "try-field", labelled(unit === "oz" ? "In ounces" : "In grams", field));
  }));
  const add = (list, row) => {
    list.append(row);
    row.querySelector("select").focus();
    list.dispatchEvent(new Event("input", { bubbles: true }));
  };
  at("add-base").addEventListener("click", () => add(at("bases"), baseRow()));
  at("add-additive").addEventListener("click", () => add(at("additives"), additiveRow()));
  at("add-not-for").addEventListener("click", () => add(at("not-for"), notForRow()));
  for (const each of document.getElementsByName("tones")) {
    each.addEventListener("input", () => { // before the form's own listener reads the rows
      at("bases").replaceChildren(baseRow());
      nameRole();
    });
  }
}

function nameRole() {
  const toning = at("tones").checked;
  at("bases-title").textContent = toning ? "Toners, by parts" : "Lighteners, by parts";
  for (const each of document.querySelectorAll(".try-role")) each.textContent = toning ? "toner" : "lightener";
}

/** Puts a draft into the form; an empty one clears it. */
export function fillForm(draft) {
  at(draft.toners ? "tones" : "lightens").checked = true;
  nameRole();
  at("bases").replaceChildren(...(draft.toners ?? draft.lighteners ?? [{}]).map(baseRow));
  at("developer").value = draft.developer?.product ?? "";
  const sides = (draft.developer?.ratio ?? "1:2").split(":");
  at("ratio").querySelectorAll("input").forEach((field, place) => { field.value = sides[place]; });
  for (const box of at("also").querySelectorAll("input")) box.checked = Boolean(draft.developer?.also?.includes(box.value));
  at("additives").replaceChildren(...(draft.additives ?? []).map(additiveRow));
  for (const field of at("batches").querySelectorAll("input")) field.value = (draft.batches?.[field.dataset.unit] ?? []).join(" ");
  at("own").open = Boolean(draft.batches);
  fillHeads(at("suits"), draft.suits ?? {});
  at("not-for").replaceChildren(...(draft.not_for ?? []).map(notForRow));
  at("name").value = draft.name ?? "";
  at("summary").value = draft.summary ?? "";
  at("cautions").value = (draft.cautions ?? []).join("\n");
  at("notes").value = draft.notes ?? "";
  at("fresh").value = draft.fresh_for?.split(" ")[0] ?? "";
  at("by").value = "";
  at("change").value = "";
}

/** The day on this phone, as it is written in an entry. */
function today() {
  const day = new Date();
  return [day.getFullYear(), day.getMonth() + 1, day.getDate()].map((part) => String(part).padStart(2, "0")).join("-");
}

/** The draft that the form shows, and what in it cannot be read: a field and a sentence each. */
export function readForm() {
  const problems = [];
  const problem = (field, why) => problems.push({ field, why });
  const number = (field, read, why) => {
    const found = read(field.value);
    if (found === null) problem(field, why);
    return found;
  };
  const ratio = (fields) => {
    const sides = fields.map((field) => number(field, typedParts, `“${field.value.trim()}” is no number for a ratio. Type it as 2 or 1.5.`));
    return sides.includes(null) ? null : sides.join(":");
  };
  const rows = (list) => [...list.children].map((row) => [row, row.querySelector("select").value]).filter(([, id]) => id);
  const shares = rows(at("bases")).map(([row, product]) => ({
    product, parts: number(row.querySelector("input"), typedParts, `“${row.querySelector("input").value.trim()}” is no number of parts. Type it as 2 or 1.5.`),
  }));
  const developer = {
    ratio: ratio([...at("ratio").querySelectorAll("input")]), product: at("developer").value,
  };
  const also = [...at("also").querySelectorAll("input:checked")].map(({ value }) => value).filter((id) => id !== developer.product);
  if (also.length) developer.also = also;
  const additives = rows(at("additives")).map(([row, product]) => ({ product, ratio: ratio([...row.querySelectorAll("input")]) }));
  const fresh = at("fresh").value.trim() && number(at("fresh"), typedMinutes, "Type minutes as 45.");
  const reviewed = at("by").value.trim() && {
    on: today(), by: sentence(at("by")), ...(sentence(at("change")) ? { change: sentence(at("change")) } : {}),
  };
  const draft = {
    name: sentence(at("name")),
    summary: sentence(at("summary")),
    [at("tones").checked ? "toners" : "lighteners"]: shares,
    developer,
    additives,
    batches: batchesOf(number),
    fresh_for: fresh && `${fresh} minutes`,
    suits: readHeads(at("suits"), problem),
    not_for: refusals(problem),
    cautions: linesOf(at("cautions").value).map(oneLine).filter(Boolean),
    notes: notesOf(at("notes").value),
    reviewed,
  };
  // Without what was left open; a developer that is not chosen stays, so that it can be asked for.
  const filled = Object.entries(draft).filter(([key, value]) => key === "developer" || !isEmpty(value));
  return { draft: Object.fromEntries(filled), problems };
}

function batchesOf(number) {
  const found = {};
  for (const field of at("batches").querySelectorAll("input")) {
    const sizes = field.value.trim().split(/[\s;]+/).filter(Boolean);
    const read = (text) => (sizes.every((size) => typedSize(size) !== null) ? text : null);
    if (sizes.length && number(field, read, "Type sizes with spaces between them, as 0.6 1.2.") !== null) {
      found[field.dataset.unit] = sizes.map(typedSize);
    }
  }
  return found;
}

function refusals(problem) {
  return [...at("not-for").children].flatMap((row) => {
    const because = row.querySelector("[data-part=because]");
    const when = readHeads(row, problem);
    const instead = row.querySelector("[data-part=instead]").value;
    const said = Object.keys(when).length > 0;
    if (!said && !because.value.trim()) return [];
    if (!because.value.trim()) problem(because, "Say why it is not for them.");
    if (!said) problem(row.querySelector("select"), "Say which heads it is not for.");
    return [{ when, because: sentence(because), ...(instead ? { instead } : {}) }];
  });
}

const isEmpty = (value) => !value || (typeof value === "object" && !Object.keys(value).length);
