// Pick by hair: what was tapped, kept in the address, and the answer shown at once. match.js does the matching.

import {
  completed, described, either, excluded, firstBowl, headOf, missed, mixedWith, pigment, ranked, suits, told,
} from "./match.js";

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

function nameOf(data, kind, id) {
  return data.names[data.kinds.indexOf(kind)][data.texts.indexOf(id)] ?? id;
}

function label(data, each) {
  return each.within ? `${each.name}, placed with ${nameOf(data, "technique", each.within)}` : each.name;
}

/** What the scale shows after each pour, under the pour's name. */
function readings(bowl, each) {
  const unit = bowl.batch.split(" ").at(-1);
  const list = element("ol", "bb-readings", ...bowl.pours.map(([name, shows]) =>
    element("li", "", name, element("b", "", shows, element("small", "", ` ${unit}`)))));
  const count = each.cautions.length;
  const heeding = count ? `, with ${count === 1 ? "1 caution" : `${count} cautions`}` : "";
  return [element("p", "", `For ${either(each.placement)}${heeding}. Batch ${bowl.batch}; the scale shows:`), list];
}

/** The recipe's own cautions; nothing where it has none. */
function cautions(each) {
  return each.cautions.length
    ? [element("ul", "bb-mind", ...each.cautions.map((caution) => element("li", "", caution)))] : [];
}

/** The first answer, with all that must be known before it is mixed. */
function pinned(data, found, head) {
  const each = told(data, found, head);
  return [link(data, each.kind, each.id, label(data, each)),
    ...readings(firstBowl(data, found), each), ...cautions(each), ...inFull(each)];
}

/** Where the box holds not all of the cautions, this stays at its foot, so that none seems to end half way. */
function inFull(each) {
  const count = each.cautions.length;
  if (!count) return [];
  const made = element("a", "bb-in-full", count === 1 ? "Read the caution in full" : `Read all ${count} cautions`);
  made.href = "#answer";
  return [made];
}

function item(data, found, head) {
  const each = told(data, found, head);
  const made = element("li", "", link(data, each.kind, each.id, label(data, each)));
  if (each.suits) made.append(element("p", "", mixedWith(data, found)), ...cautions(each));
  for (const sentence of each.suits ? each.why : each.why_not) made.append(element("p", "", sentence));
  if (each.suits && each.ask.length) {
    const sentences = () => each.ask.map((sentence) => element("li", "", sentence));
    made.append(folded("Ask first", () => element("ul", "", ...sentences())));
  }
  if (!each.suits && each.instead) {
    made.append(link(data, each.instead_kind, each.instead,
      `Instead: ${nameOf(data, each.instead_kind, each.instead)}`));
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
  const items = (some) => some.slice(0, MOST).map((each) => item(data, each, head));
  const made = element("section", "", element("h3", "", TITLES[kind]));
  if (suiting.length) {
    made.append(element("ol", "bb-answers", ...items(suiting)));
    if (suiting.length > MOST) {
      made.append(element("p", "", `Not shown: ${suiting.length - MOST} more. Say more of the hair.`));
    }
  } else made.append(element("p", "", "Nothing in this book suits."));
  if (refused.length) made.append(folded("Not, and why not", () => element("ul", "bb-refusals", ...items(refused))));
  return made;
}

let rest = 0;
let shownFor = {};

function show(data) {
  const chosen = shownFor = said();
  first.scrollTop = 0;
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
  const best = firstOf("pair") ?? firstOf("blend");
  first.replaceChildren(...(best ? pinned(data, best, head) : ["Nothing in this book suits. Below is why."]));
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
  // A second tap on a chosen word takes it back, and so does the space bar, which clicks no chosen radio button.
  const takeBack = (event) => {
    const { target } = event;
    if (!target.matches("input") || !shownFor[target.name]?.includes(target.value)) return;
    if (event.type === "keyup") event.preventDefault();
    target.checked = false;
    show(data);
  };
  form.addEventListener("click", takeBack);
  form.addEventListener("keyup", (event) => { if (event.key === " ") takeBack(event); });
  form.addEventListener("submit", (event) => event.preventDefault());
  // Reckon a few heads while the reader still reads, so that the first tap does not pay for a cold start.
  for (let level = 1; level <= 10; level += 1) {
    setTimeout(() => ranked(data, completed(headOf(data, { natural_level: [level], tone: ["cool"] }))), 40 * level);
  }
}

start();
