// Find on a long page: of its folds and rows, those that have every word typed are shown.

import { element, spoken } from "./dom.js";

const MOST_OPEN = 3;
const place = document.querySelector(".bb-findable");
const folds = [...place.querySelectorAll("details.bb-fold")];
const rows = [...place.querySelectorAll(place.matches(".bb-find-rows") ? "tbody tr" : ".bb-find-row")];
const field = Object.assign(element("input"), { type: "search", autocomplete: "off" });
const found = spoken("p", "bb-soft");
place.before(element("search", "bb-find", element("label", "bb-input", "Find on this page", field), found));

/** Which folds were open before anything was typed; null while the field is empty. */
let before = null;

function find() {
  const words = field.value.toLowerCase().split(/\s+/).filter(Boolean);
  const has = (element) => words.every((word) => element.textContent.toLowerCase().includes(word));
  for (const row of rows) row.hidden = !has(row);
  for (const fold of folds) {
    const own = rows.filter((row) => fold.contains(row));
    fold.hidden = own.length ? own.every((row) => row.hidden) : !has(fold);
  }
  const left = folds.filter((fold) => !fold.hidden);
  if (words.length) before ??= folds.filter((fold) => fold.open);
  for (const fold of folds) {
    if (words.length) fold.open = !fold.hidden && (rows.length > 0 || left.length <= MOST_OPEN);
    else if (before) fold.open = before.includes(fold);
  }
  if (!words.length) before = null;
  const of = rows.length ? rows : folds;
  found.textContent = words.length ? `${of.filter((each) => !each.hidden).length} of ${of.length}` : "";
}

field.addEventListener("input", find);
