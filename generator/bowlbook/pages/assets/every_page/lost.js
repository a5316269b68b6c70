// The page for lost addresses: leads its links and styles to where the site really is. This script knows that by
// its own address; the page, which a server shows at any depth, cannot.

import "./early.js";
import "./site.js";
import { top } from "./store.js";

const written = document.querySelector("[data-top]").dataset.top;

if (new URL(written, location.href).href !== top.href) {
  for (const element of document.querySelectorAll(`[href^="${CSS.escape(written)}"]`)) {
    element.setAttribute("href", top.href + element.getAttribute("href").slice(written.length));
  }
}
