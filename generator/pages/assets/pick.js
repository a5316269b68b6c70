// Pick by hair: what was tapped, kept in the address, and the answer shown at once. match.js does the matching.

import { completed, described, excluded, headOf, missed, pigment, ranked, suits, told } from "./match.js";

const form = document.getElementById("bb-pick");
const first = document.getElementById("bb-first");
const shown = document.getElementById("bb-answer");
const TITLES = { pair: "Blend with its technique", blend: "Blends", technique: "Techniques" };
const MOST = 5;

/** An element with text and children; text is never read as HTML. */
function element(name, className, ...children) {
  const made = document.createElement(name);
  if (className) made.className = className;
  made.append(...children.filter((child) => child !== null));
  return made;
}

function said() {
  const chosen = {};
  for (const input of form.querySelectorAll("input:checked")) (chosen[input.name] ??= []).push(input.value);
  return chosen;
}

function toAddress(chosen) {
  const query = new URLSearchParams(Object.entries(chosen).map(([name, values]) => [name, values.join("~")]));
  history.replaceState(null, "", query.size ? `?${query}` : location.pathname);
}

function fromAddress() {
  for (const [name, values] of new URLSearchParams(location.search)) {
    for (const value of values.split("~")) {
      const input = form.querySelector(`input[name="${CSS.escape(name)}"][value="${CSS.escape(value)}"]`);
      if (!input) continue;
      input.checked = true;
      if (input.closest("details")) input.closest("details").open = true;
    }
  }
}

function link(data, kind, id, text) {
  const made = element("a", "bb-choice", element("span", "bb-link-name", text));
  made.href = form.dataset.top + data.folders[data.kinds.indexOf(kind)] + id + "/";
  return made;
}

function nameOf(data, id) {
  return data.names[data.texts.indexOf(id)] ?? id;
}

function label(data, each) {
  return each.within ? `${each.name}, placed with ${nameOf(data, each.within)}` : each.name;
}

function bowlOf(data, each) {
  const bowl = each.kind === "technique" ? null : data.bowls[data.texts.indexOf(each.id)];
  return bowl ? `Batch ${bowl[0]}: the scale shows ${bowl.slice(1).join(", ")}` : null;
}

function item(data, each) {
  const made = element("li", "", link(data, each.kind, each.id, label(data, each)));
  for (const sentence of each.suits ? each.why : each.why_not) made.append(element("p", "", sentence));
  if (each.suits && each.ask.length) {
    const sentences = () => each.ask.map((sentence) => element("li", "", sentence));
    made.append(folded("Ask first", () => element("ul", "", ...sentences())));
  }
  if (!each.suits && each.instead) {
    made.append(link(data, each.kind === "technique" ? "technique" : "blend", each.instead,
      `Instead: ${nameOf(data, each.instead)}`));
  }
  return made;
}

/** A closed fold whose content is made when it is opened first. */
function folded(title, content) {
  const made = element("details", "bb-more", element("summary", "", title));
  made.addEventListener("toggle", () => made.append(content()), { once: true });
  return made;
}

function group(data, found, head, kind) {
  const all = found.filter(([number]) => data.kinds[data.candidates[number][0]] === kind);
  const suiting = all.filter(suits);
  const refused = kind === "pair" ? [] : all.filter((each) => !suits(each))
    .sort((one, other) => missed(one) - missed(other) || excluded(other) - excluded(one));
  const items = (some) => some.slice(0, MOST).map((each) => item(data, told(data, each, head)));
  const made = element("section", "", element("h3", "", TITLES[kind]));
  if (suiting.length) {
    made.append(element("ol", "bb-answers", ...items(suiting)));
    if (suiting.length > MOST) {
      made.append(element("p", "", `${suiting.length - MOST} more suit; say more of the head.`));
    }
  } else made.append(element("p", "", "Nothing in this book suits."));
  if (refused.length) made.append(folded("Not, and why not", () => element("ul", "bb-refusals", ...items(refused))));
  return made;
}

let rest = 0;

function show(data) {
  const chosen = said();
  clearTimeout(rest);
  toAddress(chosen);
  if (!Object.keys(chosen).length) {
    first.replaceChildren("Nothing tapped yet.");
    shown.replaceChildren(element("p", "", "The answer comes with the first tap."));
    return;
  }
  const head = completed(headOf(data, chosen));
  if (head === null) {
    first.replaceChildren(data.unlifted);
    shown.replaceChildren(element("p", "", data.unlifted));
    return;
  }
  const found = ranked(data, head);
  const firstOf = (kind) => found.find((each) =>
    suits(each) && data.kinds[data.candidates[each[0]][0]] === kind);
  const chosenFirst = firstOf("pair") ?? firstOf("blend");
  const best = chosenFirst && told(data, chosenFirst, head);
  first.replaceChildren(...(best
    ? [link(data, best.kind, best.id, label(data, best)), element("p", "", bowlOf(data, best) ?? "")]
    : ["Nothing in this book suits. Below is why."]));
  // The first answer stands at once; the rest follows as soon as that has been drawn.
  rest = setTimeout(() => shown.replaceChildren(
    element("p", "bb-recipe", `For ${described(data, head)}.`),
    ...pigment(data, head).map((sentence) => element("p", "", sentence)),
    ...data.kinds.map((kind) => group(data, found, head, kind)),
  ));
}

async function start() {
  const response = await fetch(form.dataset.pick);
  if (!response.ok) return;
  const data = await response.json();
  document.getElementById("bb-without").remove();
  form.hidden = false;
  fromAddress();
  show(data);
  form.addEventListener("change", () => show(data));
  form.addEventListener("reset", () => setTimeout(() => show(data)));
  // A second tap on a chosen word takes it back.
  form.addEventListener("click", (event) => {
    const input = event.target.closest("label") ? document.getElementById(event.target.closest("label").htmlFor) : null;
    if (!input?.checked) return;
    event.preventDefault();
    input.checked = false;
    show(data);
  });
  form.addEventListener("submit", (event) => event.preventDefault());
  // Reckon a few heads while the reader still reads, so that the first tap does not pay for a cold start.
  for (let level = 1; level <= 10; level += 1) {
    setTimeout(() => ranked(data, completed(headOf(data, { natural_level: [level], tone: ["cool"] }))), 40 * level);
  }
}

start();
