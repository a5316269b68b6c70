// Search: every recipe by its names and by what the trade calls things, typing mistakes forgiven.
// The index was made at build. A word is looked up as it stands, as the beginning of a word, and a slip away.

import { button, element, spoken } from "./dom.js";
import { top } from "./store.js";

const SHOWN = 30;
const FIRST = 8; // a screen of them, drawn before the rest
let index;
let loading;
let dialog;

/** Words of a text as the index has them: lower case, without accents, letters and digits only. */
export function wordsOf(text) {
  return text.toLowerCase().normalize("NFD").replace(/\p{M}/gu, "").split(/[^\p{L}\p{N}]+/u).filter(Boolean);
}

/** Where a word would stand in a sorted list. */
function place(words, word) {
  let low = 0;
  let high = words.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (words[middle] < word) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Whether two words are at most `most` slips apart: a letter wrong, missing, too many, or two swapped. */
export function within(one, other, most) {
  if (Math.abs(one.length - other.length) > most) return false;
  let before = [];
  let last = Array.from({ length: other.length + 1 }, (_, at) => at);
  for (let row = 1; row <= one.length; row += 1) {
    const now = [row];
    let least = row;
    for (let column = 1; column <= other.length; column += 1) {
      let cost = Math.min(last[column] + 1, now[column - 1] + 1,
        last[column - 1] + (one[row - 1] === other[column - 1] ? 0 : 1));
      if (row > 1 && column > 1 && one[row - 1] === other[column - 2] && one[row - 2] === other[column - 1]) {
        cost = Math.min(cost, before[column - 2] + 1);
      }
      now.push(cost);
      if (cost < least) least = cost;
    }
    if (least > most) return false;
    before = last;
    last = now;
  }
  return last[other.length] <= most;
}

/** The index's words that a typed word may mean, each with how sure that is. */
function meanings(words, typed) {
  const found = new Map();
  for (let at = place(words, typed); at < words.length && words[at].startsWith(typed); at += 1) {
    found.set(at, words[at] === typed ? 1 : 0.6);
  }
  if (found.size === 0 && typed.length > 3 && !/\d/.test(typed)) {
    const most = typed.length > 7 ? 2 : 1;
    words.forEach((word, at) => {
      if (within(typed, word, most)) found.set(at, 0.4);
      else if (word.length > typed.length && within(typed, word.slice(0, typed.length), 1)) found.set(at, 0.2);
    });
  }
  return found;
}

/** Entries for a query, best first: those with most of its words, then those with them in their names. */
export function find(data, query) {
  const typed = [...new Set(wordsOf(query))].slice(0, 8);
  const count = new Map();
  const score = new Map();
  for (const word of typed) {
    const best = new Map();
    for (const [at, sure] of meanings(data.words, word)) {
      for (const [list, weight] of [[data.names[at], 4], [data.others[at], 1]]) {
        const rare = Math.log(1 + data.entries.length / (1 + list.length));
        let entry = 0;
        for (const step of list) {
          entry += step;
          const value = sure * weight * rare;
          if (value > (best.get(entry) ?? 0)) best.set(entry, value);
        }
      }
    }
    for (const [entry, value] of best) {
      count.set(entry, (count.get(entry) ?? 0) + 1);
      score.set(entry, (score.get(entry) ?? 0) + value);
    }
  }
  return [...count.keys()].sort((one, other) => count.get(other) - count.get(one)
    || score.get(other) - score.get(one) || one - other);
}

/** The index, fetched once; its file is named after its content, so that an old one is never taken for new. */
export function load() {
  loading ??= fetchIndex().catch((error) => { loading = undefined; throw error; });
  return loading;
}

let named;

/** What the index's file is called just now: a few bytes, asked for while nothing else is to do. */
export function name() {
  named ??= fetch(new URL("data/names.json", top), { cache: "no-cache" }).then((answer) => answer.json())
    .catch((error) => { named = undefined; throw error; });
  return named;
}

async function fetchIndex() {
  const names = await name();
  const data = await fetch(new URL(`data/${names.search}`, top)).then((answer) => answer.json());
  data.words = data.words.split(" ");
  return data;
}

function build() {
  const field = Object.assign(element("input"), {
    type: "search", id: "bb-search-field", autocomplete: "off", autocapitalize: "none", spellcheck: false,
    enterKeyHint: "search", placeholder: "Level, texture, tone, product …",
  });
  const label = Object.assign(element("label", "", "Search the book"), { htmlFor: field.id });
  const close = button("Close", () => dialog.close());
  const status = spoken("p", "bb-search-said");
  const list = element("ol", "bb-search-list");
  dialog = element("dialog", "bb-search md-typeset",
    element("search", "", element("div", "bb-search-row", label, close), field), status, list);
  dialog.setAttribute("aria-label", "Search");
  const show = () => {
    if (!index) return;
    const query = field.value.trim();
    const found = query ? find(index, query) : [];
    const count = found.length === 1 ? "1 entry" : `${found.length} entries`;
    status.textContent = !query ? "" : found.length ? `${count}, best first.` : "Nothing in the book by that name.";
    const item = (at) => {
      const [address, title, kind, note] = index.entries[at];
      const link = element("a", "", element("span", "bb-link-name", title),
        element("span", "bb-link-note", note ? `${index.kinds[kind]}. ${note}` : index.kinds[kind]));
      link.href = new URL(address, top).href;
      return element("li", "", link);
    };
    list.replaceChildren(...found.slice(0, FIRST).map(item));
    requestAnimationFrame(() => setTimeout(() => {
      if (field.value.trim() === query) list.append(...found.slice(FIRST, SHOWN).map(item));
    }));
  };
  field.addEventListener("input", show);
  field.addEventListener("keydown", (event) => {
    const links = list.querySelectorAll("a");
    if (event.key === "Enter" && links.length) links[0].click();
    if (event.key === "ArrowDown" && links.length) { event.preventDefault(); links[0].focus(); }
  });
  list.addEventListener("keydown", (event) => {
    const links = [...list.querySelectorAll("a")];
    const at = links.indexOf(document.activeElement);
    if (event.key === "ArrowDown" && at + 1 < links.length) { event.preventDefault(); links[at + 1].focus(); }
    if (event.key === "ArrowUp") { event.preventDefault(); (links[at - 1] ?? field).focus(); }
  });
  dialog.addEventListener("click", (event) => { if (event.target === dialog) dialog.close(); });
  document.body.append(dialog);
  return { field, status, show };
}

export function openSearch() {
  if (!dialog) {
    const { field, status, show } = build();
    status.textContent = "Opening the book …";
    load().then((data) => { index = data; status.textContent = ""; show(); })
      .catch(() => { status.textContent = "The book's index cannot be had just now."; });
    dialog.showModal();
    field.focus();
    return;
  }
  if (!dialog.open) dialog.showModal();
  const field = dialog.querySelector("input");
  field.focus();
  field.select();
}
