// What every page has: light or dark, the menu, search, timers, copying, and the copy kept on the phone.

import { button, element } from "./dom.js";
import { noteOpened, remember, recall, top } from "./store.js";

function scheme() {
  const root = document.documentElement;
  const toggle = document.getElementById("bb-scheme");
  const dark = () => (root.dataset.scheme ?? (matchMedia("(prefers-color-scheme: dark)").matches ? "dark" : "light")) === "dark";
  const label = () => { toggle.textContent = dark() ? "Switch to light" : "Switch to dark"; };
  toggle.addEventListener("click", () => {
    root.dataset.scheme = dark() ? "light" : "dark";
    try { localStorage.setItem("bowlbook-scheme", root.dataset.scheme); } catch { /* not remembered */ }
    label();
  });
  label();
  toggle.hidden = false;
}

/** The contents open over the page; where a phone cannot do that, they stand at its foot. */
function contents() {
  if (HTMLElement.prototype.togglePopover) return;
  for (const each of document.querySelectorAll(".bb-menu-button")) {
    each.addEventListener("click", () => document.getElementById("bb-menu").scrollIntoView());
  }
}

/** What the style sheet opens at a desk and on paper, where the browser cannot be made to by style alone. */
function folds() {
  if (CSS.supports("selector(::details-content)")) return;
  const open = (each) => { each.open = true; };
  if (matchMedia("(min-width: 64rem)").matches) document.querySelectorAll(".bb-open-at-desk > details").forEach(open);
  addEventListener("beforeprint", () => document.querySelectorAll("article details").forEach(open));
}

function search() {
  const openers = document.querySelectorAll("#bb-search-open, .bb-search-opener");
  const ready = () => import("./search.js");
  const open = async (event) => {
    event.preventDefault();
    (await ready()).openSearch();
  };
  // Made ready beforehand where it comes from the copy on the phone; a first visit fetches it when it is wanted.
  if (navigator.serviceWorker?.controller) {
    (window.requestIdleCallback ?? setTimeout)(async () => (await ready()).name().catch(() => null));
  }
  for (const opener of openers) {
    opener.addEventListener("pointerdown", async () => (await ready()).begin(), { once: true });
    opener.addEventListener("click", open);
    opener.setAttribute("role", "button");
    opener.addEventListener("keydown", (event) => { if (event.key === " ") open(event); });
  }
  document.addEventListener("keydown", (event) => {
    const field = event.target.closest?.("input, textarea, select, [contenteditable]");
    const typing = field && !field.closest("dialog:not([open])"); // a field just closed may still get the keys
    if (event.key === "/" && !typing && !event.ctrlKey && !event.metaKey && !event.altKey) open(event);
  });
  if (location.hash === "#search") open(new Event("open", { cancelable: true }));
}

function copying() {
  if (!navigator.clipboard) return;
  for (const code of document.querySelectorAll("article pre")) {
    const copy = button("Copy", async () => {
      const done = navigator.clipboard.writeText(code.innerText.trimEnd());
      copy.textContent = await done.then(() => "Copied", () => "Not allowed here");
      setTimeout(() => { copy.textContent = "Copy"; }, 2000);
    }, "bb-button bb-copy");
    code.after(copy);
  }
}

/** What scrolls sideways can be reached and scrolled by keyboard. */
function reachable(box, name) {
  if (box.scrollWidth <= box.clientWidth) return;
  box.tabIndex = 0;
  box.setAttribute("role", "region");
  box.setAttribute("aria-label", name);
}

function scrolling() {
  let count = 0; // each region has a name of its own
  for (const table of document.querySelectorAll("article table:not([class])")) {
    if (table.closest(".bb-wide")) continue;
    const box = element("div", "bb-wide");
    table.replaceWith(box);
    box.append(table);
    reachable(box, `Table ${count += 1}`);
  }
  for (const code of document.querySelectorAll("article pre > code")) reachable(code, `Example ${count += 1}`);
}

/** What the address names is in sight once its page is drawn, and every fold around it open. */
function openNamed() {
  const named = document.getElementById(location.hash.slice(1));
  const fold = named?.closest("details");
  if (!fold) return;
  for (let each = fold; each; each = each.parentElement.closest("details")) each.open = true;
  if (document.readyState === "complete") named.scrollIntoView();
  else addEventListener("load", () => named.scrollIntoView());
}

/** A phone on which nothing was timed fetches none of the timers' scripts, here or in another tab. */
function timing() {
  if (["timers", "log"].some((name) => recall(name)?.length)) import("./timer_bar.js");
}

scheme();
contents();
folds();
openNamed();
addEventListener("hashchange", openNamed);
search();
copying();
scrolling();
noteOpened();
timing();
for (const kind of ["storage", "pageshow"]) addEventListener(kind, timing);
if (document.querySelector(".bb-findable")) import("./find_on_page.js");
if ("serviceWorker" in navigator && !document.documentElement.dataset.preview) {
  addEventListener("load", () => import("./offline.js").then(({ keepCopy }) => keepCopy(top, recall, remember)));
}
