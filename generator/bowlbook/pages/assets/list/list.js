// A list narrowed down: rows that have every facet asked for, of all pages of the list, the first hundred drawn.

const MOST = 100;
const form = document.getElementById("bb-filters");
const body = document.querySelector(".bb-list-body");
const pages = document.querySelector(".bb-list-pages");
const shown = form.querySelector(".bb-shown");
const own = [...body.childNodes];

/** Rows of this page, then, once they are wanted, those of every further one. */
let rows = [...body.querySelectorAll(".bb-row")];
let whole = form.dataset.further ? null : Promise.resolve();

function fetchAll() {
  whole ??= Promise.all(form.dataset.further.split(" ").map(async (page) => {
    const address = new URL(page, location.href);
    const found = new DOMParser().parseFromString(await (await fetch(address)).text(), "text/html");
    return [...found.querySelectorAll(".bb-row")].map((row) => {
      const copy = document.importNode(row, true);
      const link = copy.querySelector("a");
      link.href = new URL(link.getAttribute("href"), address);
      copy.removeAttribute("id");
      return copy;
    });
  })).then((more) => {
    rows = [...rows, ...more.flat()];
    const name = (row) => row.querySelector("b").textContent;
    if (body.querySelectorAll("section").length === 1) rows.sort((one, other) => name(one).localeCompare(name(other)));
  });
  return whole;
}

/** The values asked for, by facet: any of a facet's, of every facet. */
function asked() {
  const found = new Map();
  for (const input of form.querySelectorAll("input:checked")) {
    const facet = input.closest("[data-facet]").dataset.facet;
    found.set(facet, [...(found.get(facet) ?? []), input.value]);
  }
  return [...found.values()];
}

async function narrow() {
  const wanted = asked();
  const query = wanted.length ? `?narrow=${wanted.flat().join("~")}` : location.pathname;
  history.replaceState(null, "", query + location.hash);
  if (!wanted.length) {
    body.replaceChildren(...own);
    pages.hidden = false;
    shown.textContent = "";
    return;
  }
  try {
    await fetchAll();
  } catch { // without a network and without a copy: this page's own rows
    whole = null;
  }
  const found = rows.filter((row) => {
    const picks = row.dataset.picks.split(" ");
    return wanted.every((values) => values.some((value) => picks.includes(value)));
  });
  const list = document.createElement("ul");
  list.className = "bb-rows";
  list.append(...found.slice(0, MOST).map((row) => row.cloneNode(true)));
  body.replaceChildren(list);
  pages.hidden = true;
  const more = found.length > MOST ? `; the first ${MOST} are shown, narrow down further` : "";
  shown.textContent = `${found.length} of ${rows.length}${more}.`;
}

for (const value of (new URLSearchParams(location.search).get("narrow") ?? "").split("~")) {
  const input = [...form.querySelectorAll("input")].find((each) => each.value === value);
  if (input) { input.checked = true; form.querySelector("details").open = true; }
}
form.querySelector(".bb-narrow").hidden = false;
form.addEventListener("change", narrow);
form.addEventListener("reset", () => setTimeout(narrow));
form.addEventListener("submit", (event) => event.preventDefault());
if (asked().length) narrow();
