// The timing log's page: the lines of each timer of today, and what to add to them with a tap.

import { button, element, warning } from "./dom.js";
import { top } from "./store.js";
import { dropAll, dropOld, lines, note, takeBack } from "./timing_log.js";
import { timeOfDay, timers } from "./timer.js";

const LEVELS = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10];
const STRETCH = ["springs back", "stays long", "breaks"];
/** Answers to a pulled strand after which nothing goes on. */
const STOPS = STRETCH.slice(1).map((each) => `Wet strand ${each}`);
const AGAIN = 15000;

const place = document.getElementById("bb-log");
let shown = "";

const minute = ({ at, began }) => Math.max(0, Math.floor((at - began) / 60000));

/** A button that changes the log, which is then drawn again. */
const choice = (text, act) => button(text, () => { act(); show(); });

function table(own) {
  const made = element("table", "bb-table");
  const head = element("tr", "", ...["Time", "Minute", "What"].map((text) => element("th", "", text)));
  for (const each of head.children) each.scope = "col";
  const rows = own.map((line) => element("tr", "", element("td", "", timeOfDay(line.at)),
    element("td", "", String(minute(line))), element("td", "", line.what)));
  made.append(element("thead", "", head), element("tbody", "", ...rows));
  return made;
}

/** Buttons that add a line to a timer: the level read, and how a wet strand took a pull. */
function choices(timer, title, values, line) {
  const legend = element("legend", "", title);
  const buttons = values.map((value) => choice(String(value), () => note(timer, line(value), Date.now())));
  return element("fieldset", "bb-facet", legend, ...buttons);
}

function section(id, own) {
  const { label, began } = own[0];
  const timer = { id, label, began };
  const made = element("section", "bb-log-timer", element("h2", "", label), table(own));
  if (own.some((each) => STOPS.includes(each.what))) {
    const link = element("a", "", "What to do now");
    link.href = new URL("troubles/", top).href;
    made.append(warning("No more lightener on this hair. Rinse. ", link));
  }
  made.append(
    choices(timer, "Level on a wiped strand", LEVELS, (value) => `Level ${value}`),
    choices(timer, "A wet strand, pulled", STRETCH, (value) => `Wet strand ${value}`),
    choice("Take back the last line", () => takeBack(id)),
  );
  return made;
}

/** Draws the log where it has changed; whatever is being tapped stays where it is otherwise. */
function show() {
  dropOld(Date.now(), timers().filter((each) => !each.rinsed).map((each) => each.id));
  const all = lines();
  const now = JSON.stringify(all);
  if (now === shown) return;
  shown = now;
  const ids = [...new Set(all.map((each) => each.timer))];
  const focused = [...place.querySelectorAll("button")].indexOf(document.activeElement);
  place.replaceChildren(...ids.map((id) => section(id, all.filter((each) => each.timer === id))));
  if (!all.length) place.append(element("p", "", "Nothing was timed on this phone today. Start a timer on a technique’s page."));
  place.querySelectorAll("button")[focused]?.focus({ preventScroll: true });
  for (const each of document.querySelectorAll(".bb-log-tools")) each.hidden = !all.length;
}

document.getElementById("bb-log-without").hidden = true;
const [printing, forget] = document.querySelectorAll(".bb-log-tools button");
printing.addEventListener("click", () => window.print());
forget.addEventListener("click", () => { dropAll(); show(); });
show();
addEventListener("storage", show);
setInterval(show, AGAIN);
document.addEventListener("visibilitychange", show);
// The bar at the foot of this very page adds lines too.
addEventListener("click", () => setTimeout(show));
