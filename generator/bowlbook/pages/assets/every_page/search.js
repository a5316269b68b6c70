// The search dialog: the index, the field, and the rows under it. find.js does the finding; it comes with the index.

import { button, element, spoken } from "./dom.js";
import { openOver } from "./over.js";
import { openedLately, top } from "./store.js";

const SHOWN = 30;
const FIRST = 8; // a screen of them, drawn before the rest
let data;
let loading;
let dialog;
let named;

/** What the index's file is called just now: a few bytes, asked for while nothing else is to do. */
export function name() {
  named ??= fetch(new URL("data/names.json", top), { cache: "no-cache" }).then((answer) => answer.json())
    .catch((error) => { named = undefined; throw error; });
  return named;
}

/** The index, fetched once; its file is named after its content, so that an old one is never taken for new. */
function load() {
  const index = () => name().then((names) => fetch(new URL(`data/${names.search}`, top))).then((answer) => answer.json());
  loading ??= Promise.all([import("./find.js"), index()])
    .then(([finder, found]) => ({ ...finder.prepare(found), find: finder.find }))
    .catch((error) => { loading = undefined; throw error; });
  return loading;
}

/** The ten levels, with those served filled; beside words, never alone. */
function strip([from, to, lifted]) {
  const made = element("span", "bb-level-row");
  for (let level = 1; level <= 10; level += 1) {
    made.append(element("i", level >= from && level <= to ? `bb-on bb-${lifted ? "p" : "l"}${level}` : ""));
  }
  made.setAttribute("aria-hidden", "true");
  const levels = from === to ? `level ${from}` : `levels ${from} to ${to}`;
  return element("span", "bb-level-line", made, lifted ? `lifted to ${levels}` : levels);
}

function row(href, title, kind, note, more = null) {
  const link = element("a", "", element("span", "bb-link-name", title), element("span", "bb-kind", kind),
    note ? element("span", "bb-link-note", note) : null, more);
  link.href = href;
  return element("li", "", link);
}

/** An entry's row. A thing to do on a blend's page leads to the blend opened last on this phone. */
function entryRow(place, changed = "") {
  const [address, title, kind, tag, note = "", levels, ofBlend] = data.entries[place];
  const blend = ofBlend ? openedLately().find((each) => each.startsWith("blends/")) : null;
  const known = blend && data.entries.find(([other]) => other === blend);
  const href = new URL(known ? `${blend}#${ofBlend}` : address, top).href;
  const name = data.kinds[kind] === "Page" ? "" : data.kinds[kind];
  const kinds = [name, tag].filter(Boolean).join(", ");
  return row(href, known ? `${title} ${known[1]}` : title, kinds, changed || note, levels ? strip(levels) : null);
}

/** The row that opens Pick by hair with what the query says of a head. The address keeps the hair alone. */
function pickRow(chosen) {
  const query = new URLSearchParams(Object.entries(chosen).map(([facet, values]) => [facet, values.join("~")]));
  const words = Object.entries(chosen).flatMap(([facet, values]) => values.map((value) => ({
    natural_level: `level ${value}`, target_level: `to level ${value}`, lift: `${value} of lift`,
  }[facet] ?? (["density", "porosity", "grey"].includes(facet) ? `${value} ${facet}` : value))));
  return row(new URL(`pick/?${query}`, top).href, `Pick by hair: ${words.join(", ")}`, "To do",
    "What to mix, how to place it, and what not, for this head.");
}

/** What an empty field shows: what was opened on this phone, and what is new. */
function emptyLists() {
  const places = new Map(data.entries.map(([address], place) => [address, place]));
  const lately = openedLately().filter((address) => places.has(address)).map((address) => entryRow(places.get(address)));
  const written = new Intl.DateTimeFormat(document.documentElement.lang || "en", { dateStyle: "medium", timeZone: "UTC" });
  const fresh = data.new.map(([place, day, what]) => entryRow(place, `${written.format(new Date(day))}: ${what}`));
  return [["Opened lately on this phone", lately], ["New", fresh]].filter(([, rows]) => rows.length);
}

function shownRows(query) {
  const { rows, head, mended } = data.find(data, query);
  const made = rows.slice(0, SHOWN).map((place) => () => entryRow(place));
  if (head) made.unshift(() => pickRow(head));
  return { made, count: rows.length, mended };
}

function said(count, mended) {
  const put = mended.map(([typed, read]) => `“${typed}” read as “${read}”.`);
  if (!count) return "Nothing in the book by that name. Fewer words find more.";
  return [...put, `${count === 1 ? "1 entry" : `${count} entries`}, best first.`].join(" ");
}

function build() {
  const field = Object.assign(element("input"), {
    type: "search", id: "bb-search-field", autocomplete: "off", autocapitalize: "none", spellcheck: false,
    enterKeyHint: "search", placeholder: "Name, hair, level, trouble …",
  });
  const label = Object.assign(element("label", "", "Search the book"), { htmlFor: field.id });
  const close = button("Close", () => dialog.close());
  const status = spoken("p", "bb-search-said");
  const lists = element("div", "bb-search-lists");
  dialog = element("dialog", "bb-search",
    element("search", "", element("div", "bb-search-row", label, close), field), status, lists);
  dialog.setAttribute("aria-label", "Search");
  const show = () => {
    if (!data) return;
    const query = field.value.trim();
    if (!query) {
      status.textContent = "";
      lists.replaceChildren(...emptyLists().flatMap(([title, rows]) => [
        element("h2", "bb-search-title", title), element("ol", "bb-search-list", ...rows)]));
      return;
    }
    const { made, count, mended } = shownRows(query);
    status.textContent = said(made.length ? Math.max(count, 1) : 0, mended);
    const list = element("ol", "bb-search-list", ...made.slice(0, FIRST).map((make) => make()));
    lists.replaceChildren(list);
    requestAnimationFrame(() => setTimeout(() => {
      if (list.isConnected) list.append(...made.slice(FIRST).map((make) => make()));
    }));
  };
  field.addEventListener("input", show);
  const links = () => [...lists.querySelectorAll("a")];
  field.addEventListener("keydown", (event) => {
    const [first] = links();
    if (event.key === "Enter" && first && field.value.trim()) first.click();
    if (event.key === "ArrowDown" && first) { event.preventDefault(); first.focus(); }
  });
  lists.addEventListener("keydown", (event) => {
    const all = links();
    const at = all.indexOf(document.activeElement);
    if (event.key === "ArrowDown" && at + 1 < all.length) { event.preventDefault(); all[at + 1].focus(); }
    if (event.key === "ArrowUp") { event.preventDefault(); (all[at - 1] ?? field).focus(); }
  });
  lists.addEventListener("click", (event) => {
    // A place on this very page: nothing is loaded, and the dialog would stand before it.
    if (event.target.closest("a")) dialog.close();
  });
  dialog.addEventListener("click", (event) => { if (event.target === dialog) dialog.close(); });
  document.body.append(dialog);
  return { field, status, show };
}

/** The dialog's own styles, fetched with the first search; until they are here it would be bare text. */
async function styled() {
  const link = Object.assign(element("link"), { rel: "stylesheet", href: new URL("search.css", import.meta.url).href });
  await new Promise((done) => {
    link.onload = link.onerror = done;
    document.head.append(link);
  });
}

let opening;

/** Everything that the dialog needs, asked for as soon as a finger is on its way. */
export function begin() {
  opening ??= styled().then(build);
  return [opening, load()];
}

export async function openSearch() {
  const [built, loaded] = begin();
  const { field, status, show } = await built;
  openOver(dialog);
  field.focus();
  field.select();
  if (data) {
    if (!field.value.trim()) show();
    return;
  }
  status.textContent = "Opening the book …";
  try {
    data = await loaded;
    status.textContent = "";
    show();
  } catch {
    status.textContent = "The book's index cannot be had just now.";
  }
}
