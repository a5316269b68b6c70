// What every page has: light or dark, the menu, search, timers, copying, and the copy kept on the phone.

import { button, element } from "./dom.js";
import { noteOpened, remember, recall, top } from "./store.js";
import { startTimers } from "./timer_bar.js";

function scheme() {
  const toggle = document.getElementById("bb-scheme");
  const label = () => {
    const dark = document.body.dataset.mdColorScheme === "slate";
    toggle.setAttribute("aria-label", dark ? "Switch to light" : "Switch to dark");
  };
  toggle.addEventListener("click", () => {
    const dark = document.body.dataset.mdColorScheme !== "slate";
    document.body.dataset.mdColorScheme = dark ? "slate" : "default";
    try { localStorage.setItem("bowlbook-scheme", dark ? "dark" : "light"); } catch { /* not remembered */ }
    label();
  });
  label();
  toggle.hidden = false;
}

function search() {
  const openers = document.querySelectorAll("#bb-search-open, .bb-search-opener");
  const ready = () => import("./search.js");
  const open = async (event) => {
    event.preventDefault();
    (await ready()).openSearch();
  };
  (window.requestIdleCallback ?? setTimeout)(async () => (await ready()).name().catch(() => null));
  for (const opener of openers) {
    opener.addEventListener("pointerdown", async () => (await ready()).load(), { once: true });
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
      await navigator.clipboard.writeText(code.innerText.trimEnd());
      copy.textContent = "Copied";
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

/** A tool that the address names is open, and in sight once its page is drawn. */
function openTool() {
  const tool = document.getElementById(location.hash.slice(1));
  if (tool?.localName !== "details") return;
  tool.open = true;
  addEventListener("load", () => tool.scrollIntoView());
}

scheme();
openTool();
addEventListener("hashchange", openTool);
search();
copying();
scrolling();
noteOpened();
startTimers();
if ("serviceWorker" in navigator && !document.documentElement.dataset.preview) {
  addEventListener("load", () => import("./offline.js").then(({ keepCopy }) => keepCopy(top, recall, remember)));
}
