// Pick by hair: what was tapped, kept in the address, and the answer shown at once. match.js does the matching.

import { element } from "./dom.js";
import { beforeOf, consult, either, placeOf, reasonOf, visitSentence } from "./consult.js";
import {
  answersOf, described, firstBowl, headOf, mixedWith, pigment, questions, ranked, explained, tonersAt,
} from "./match.js";

const form = document.getElementById("bb-pick");
const first = document.getElementById("bb-first");
const shown = document.getElementById("bb-answer");
const TITLES = { pair: "Blend with its technique", blend: "Blends", technique: "Techniques" };
const TONING = { blend: "To tone", technique: "Toning techniques" };
const MOST = 5;

function chosenValues() {
  const chosen = {};
  for (const input of form.querySelectorAll("input:checked")) (chosen[input.name] ??= []).push(input.value);
  return chosen;
}

/** The address keeps what is said of the hair, and nothing of the person. */
function toAddress(chosen) {
  const hair = Object.entries(chosen).filter(([name]) => !form.querySelector(`[data-facet="${name}"][data-unkept]`));
  const query = new URLSearchParams(hair.map(([name, values]) => [name, values.join("~")]));
  history.replaceState(null, "", query.size ? `?${query}` : location.pathname);
}

function fromAddress() {
  for (const [name, values] of new URLSearchParams(location.search)) {
    for (const value of values.split("~")) {
      const input = form.querySelector(`input[name="${CSS.escape(name)}"][value="${CSS.escape(value)}"]`);
      if (!input || input.closest("[data-unkept]")) continue;
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

/** The verdict in a word, and under it what comes first; where nothing does, why. */
function verdictOf(data, found, ...rows) {
  const word = found.verdict.charAt(0).toUpperCase() + found.verdict.slice(1);
  const [first] = beforeOf(data, found);
  const why = rows.length ? "" : first?.do ?? reasonOf(data, found);
  const made = element("div", "bb-verdict", element("p", "", element("strong", "", `${word}. `), why), ...rows);
  made.dataset.verdict = found.verdict;
  return made;
}

/** The first answer, with all that must be known before it is mixed. */
function pinned(data, best, head, named) {
  const each = explained(data, best, head, named);
  const bowl = firstBowl(data, best.row, head);
  const mixed = bowl ? readings(bowl, each) : [element("p", "", mixedWith(data, best.row, head))];
  return [link(data, each.kind, each.id, label(data, each)), ...mixed, ...cautions(each), ...inFull(each)];
}

/** Where the box holds not all of the cautions, this stays at its foot, so that none seems to end half way. */
function inFull(each) {
  const count = each.cautions.length;
  if (!count) return [];
  const made = element("a", "bb-in-full", count === 1 ? "Read the caution in full" : `Read all ${count} cautions`);
  made.href = "#answer";
  return [made];
}

function item(data, found, head, named) {
  const each = explained(data, found, head, named);
  const made = element("li", "", link(data, each.kind, each.id, label(data, each)));
  if (each.suits) made.append(element("p", "", mixedWith(data, found.row, head)), ...cautions(each));
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

function group(data, found, head, kind, title) {
  const all = found.filter(({ row }) => data.kinds[row[0]] === kind);
  const suiting = all.filter((each) => each.suits);
  const refused = kind === "pair" ? [] : all.filter((each) => !each.suits)
    .sort((one, other) => one.misses - other.misses || other.excluded - one.excluded);
  const named = answersOf(found);
  const items = (some) => some.slice(0, MOST).map((each) => item(data, each, head, named));
  const made = element("section", "", element("h3", "", title));
  if (suiting.length) {
    made.append(element("ol", "bb-answers", ...items(suiting)));
    if (suiting.length > MOST) {
      made.append(element("p", "", `Not shown: ${suiting.length - MOST} more. Say more of the hair.`));
    }
  } else made.append(element("p", "", "Nothing in this book suits."));
  if (refused.length) made.append(folded("Not, and why not", () => element("ul", "bb-refusals", ...items(refused))));
  return made;
}

/** What comes before any answer: what to ask or test, and the visits. */
function before(data, head, found) {
  const made = [];
  const rows = beforeOf(data, found);
  if (rows.length) {
    made.push(element("ul", "bb-before", ...rows.map((row) =>
      element("li", "", element("b", "", row.do), ` ${row.because} `, element("small", "", row.standing)))));
  }
  if (found.visits.length) {
    const tone = head[placeOf(data, "tone")];
    made.push(element("ol", "bb-visits", ...found.visits.map((visit, number) => {
      const toners = tonersAt(data, visit.to, tone).map((row) => data.texts[row[2]]);
      return element("li", "", visitSentence(data, visit, number, toners));
    })));
  }
  return made;
}

/** What to ask next, in a fold: it takes every recipe through every question, so that it is worked out when opened. */
function askNext(data, head, found) {
  return folded("Ask next", () => {
    const next = questions(data, head, found).map((question) => element("li", "", question.ask));
    return next.length ? element("ul", "", ...next) : element("p", "", "Nothing more would change this answer.");
  });
}

/** The answers of one kind of recipe for a head: groups in their order; none where the verdict allows none. */
function groups(data, rows, head, titles) {
  if (!head) return [];
  const found = ranked(data, rows, head);
  return Object.entries(titles).filter(([kind]) => rows.some((row) => data.kinds[row[0]] === kind))
    .map(([kind, title]) => group(data, found, head, kind, title));
}

/** The best answer and the head it is for: of what lightens a blend with its technique, else what tones. */
function bestOf(data, found) {
  for (const [head, rows] of [[found.lightening, data.candidates], [found.toning, data.toners]]) {
    if (!head) continue;
    const all = ranked(data, rows, head);
    const firstOf = (kind) => all.find(({ suits, row }) => suits && data.kinds[row[0]] === kind);
    const best = firstOf("pair") ?? firstOf("blend");
    if (best || found.lightens) return best ? [best, head, answersOf(all)] : null;
  }
  return null;
}

let rest = 0;
let shownFor = {};

function show(data) {
  const chosen = shownFor = chosenValues();
  first.scrollTop = 0;
  clearTimeout(rest);
  toAddress(chosen);
  if (!Object.keys(chosen).length) {
    first.replaceChildren("Nothing tapped yet.");
    shown.replaceChildren(element("p", "", "The answer comes with the first tap."));
    return;
  }
  const head = headOf(data, chosen);
  const found = consult(data, head);
  const best = bestOf(data, found);
  const stopped = !found.lightening && !found.toning;
  first.replaceChildren(...(found.verdict === "go" ? [] : [verdictOf(data, found)]),
    ...(best ? pinned(data, ...best) : stopped ? [] : ["Nothing in this book suits. Below is why."]));
  // The first answer is shown at once; the rest follows as soon as that has been drawn.
  rest = setTimeout(() => shown.replaceChildren(
    element("p", "bb-recipe", `For ${described(data, found.said)}.`),
    verdictOf(data, found, ...before(data, head, found)),
    ...(stopped ? [] : [askNext(data, head, found)]),
    ...(found.lightening ? pigment(data, found.lightening).map((sentence) => element("p", "", sentence)) : []),
    ...groups(data, data.candidates, found.lightening, TITLES),
    ...groups(data, data.toners, found.toning, TONING),
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
    setTimeout(() => ranked(data, data.candidates, headOf(data, { natural_level: [level], tone: ["cool"] })), 40 * level);
  }
}

start();
