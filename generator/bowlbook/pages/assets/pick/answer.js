// What Pick by hair shows of an answer: elements made of what consult.js and match.js found.

import { element } from "./dom.js";
import {
  assumptionsOf, beforeOf, conditionOf, either, placeOf, reasonOf, unplanned, visitHeading, visitSentence,
} from "./consult.js";
import {
  answersOf, described, explained, firstBowl, mixedWith, onlyFor, phrase, pigment, questions, ranked, tonersAt,
} from "./match.js";

const TITLES = { pair: "Blend with its technique", blend: "Blends", technique: "Techniques" };
const TONING = { blend: "To tone", technique: "Toning techniques" };
const MOST = 5;

function link(data, kind, id, text) {
  const made = element("a", "bb-choice", element("span", "bb-link-name", text));
  made.href = data.top + data.folders[data.kinds.indexOf(kind)] + id + "/";
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
  const unit = bowl.batch.split(" ").slice(-1)[0];
  const list = element("ol", "bb-readings", ...bowl.pours.map(([name, shows]) =>
    element("li", "", name, element("b", "", shows, element("small", "", ` ${unit}`)))));
  return [element("p", "", `For ${either(each.placement)}. Batch ${bowl.batch}; the scale shows:`), list];
}

/** The recipe's own cautions; nothing where it has none. */
function cautions(each) {
  return each.cautions.length
    ? [element("ul", "bb-mind", ...each.cautions.map((caution) => element("li", "", caution)))] : [];
}

/** A verdict's sign and word, and a sentence. */
function verdictWords(verdict, text) {
  const sign = document.getElementById("bb-signs").content.querySelector(`[data-sign="${verdict}"]`).cloneNode(true);
  const word = verdict.charAt(0).toUpperCase() + verdict.slice(1);
  return [sign, element("strong", "", `${word}. `), text];
}

function verdictBox(verdict, text, ...rows) {
  const made = element("div", "bb-verdict", element("p", "", ...verdictWords(verdict, text)), ...rows);
  made.dataset.verdict = verdict;
  return made;
}

/** The verdict "go" with what would overturn it, in one fold: the figures below it stay in sight. */
export function goUnless(text, content) {
  const made = folded(element("span", "", ...verdictWords("go", text)), content);
  made.classList.add("bb-verdict");
  made.dataset.verdict = "go";
  return made;
}

/** The verdict with what to do first; why, on whose word, what else, and the visits are folded. */
export function briefVerdict(data, head, found) {
  const [first] = beforeOf(data, found);
  if (!first) return verdictBox(found.verdict, found.verdict === "go" ? "" : reasonOf(data, found));
  const why = folded(found.visits.length ? "Why, and the visits" : "Why", () =>
    element("div", "", ...before(data, head, found)));
  return verdictBox(found.verdict, first.do, why);
}

/** The verdict with all that comes before an answer. */
function wholeVerdict(data, head, found) {
  const rows = before(data, head, found);
  return verdictBox(found.verdict, rows.length ? "" : reasonOf(data, found), ...rows);
}

/** The first answer, with all that must be known before it is mixed. Its figures wait where it is for unusual hair
    and nobody said that this is such. */
function pinnedAnswer(data, best, head, named) {
  const each = explained(data, best, head, named);
  const only = onlyFor(data, best.row, head);
  const bowl = only ? null : firstBowl(data, best.row, head);
  const mixed = bowl ? readings(bowl, each) : [element("p", "", mixedWith(data, best.row, head))];
  const waits = only ? [element("p", "", element("strong", "", only), " Say so first, then its figures are shown.")] : [];
  return [link(data, each.kind, each.id, label(data, each)), ...waits, ...mixed, ...cautions(each), ...inFull(each)];
}

/** The first answer under its heading; behind a fold where something must have happened before. */
export function pinned(data, found) {
  if (unplanned(found)) return [element("p", "", data.words.say_the_level)];
  const best = bestOf(data, found);
  if (!best) return [element("p", "", data.words.nothing_in_book)];
  const visit = visitHeading(data, found), condition = conditionOf(data, found);
  const content = () => [...(visit ? [element("p", "bb-for", `${visit}:`)] : []), ...pinnedAnswer(data, ...best)];
  return condition ? [folded(condition, () => element("div", "", ...content()))] : content();
}

/** What stays at the foot of the box: it leads to all of the cautions. */
function inFull(each) {
  const count = each.cautions.length;
  if (!count) return [];
  const made = element("a", "bb-in-full", `Read ${count === 1 ? "the caution" : `all ${count} cautions`} before you mix`);
  made.href = "#answer";
  return [made];
}

/** Take those cautions out of the pinned box that would end half way above its foot: each is whole, or not there. */
export function fitCautions(box) {
  const foot = box.querySelector(".bb-in-full");
  if (!foot) return;
  const list = box.querySelector(".bb-mind"), cautions = [...list.children];
  for (const each of [list, ...cautions]) each.classList.remove("bb-cut");
  const end = foot.getBoundingClientRect().top;
  let cut = false;
  for (const caution of cautions) {
    cut ||= caution.getBoundingClientRect().bottom > end + 1;
    caution.classList.toggle("bb-cut", cut);
  }
  list.classList.toggle("bb-cut", cautions[0].classList.contains("bb-cut"));
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
export function folded(title, content) {
  const made = element("details", "bb-fold", element("summary", "", title));
  made.addEventListener("toggle", () => made.append(content()), { once: true });
  return made;
}

function group(data, found, head, kind, title) {
  const all = found.filter(({ row }) => data.kinds[row[0]] === kind);
  const suiting = all.filter((each) => each.suits);
  const refused = kind === "pair" ? [] : all.filter(({ excluded, misses }) => excluded || misses)
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

/** Everything that is known of a head, in full. `denied`: what was asked about already, as in `questionsOf`. */
export function wholeAnswer(data, head, found, denied) {
  return [
    element("p", "bb-recipe", `For ${described(data, found.said)}.`),
    wholeVerdict(data, head, found),
    ...(found.verdict === "not today" ? [] : [askNext(data, head, found, denied)]),
    ...answers(data, found),
  ];
}

/** What to ask next, in a fold: it takes every recipe through every question, so that it is worked out when opened. */
function askNext(data, head, found, denied) {
  return folded("Ask next", () => {
    const next = questions(data, head, found, denied).map((question) => element("li", "", question.ask));
    return next.length ? element("ul", "", ...next) : element("p", "", "Nothing more would change this answer.");
  });
}

function listed(title, sentences) {
  return sentences.length
    ? [element("h3", "", title), element("ul", "", ...sentences.map((each) => element("li", "", each)))] : [];
}

/** Every recipe under its heading; behind a fold where something must have happened before. */
function answers(data, found) {
  if (!found.lightening && !found.toning) return [];
  if (unplanned(found)) return [element("p", "", data.words.say_the_level)];
  const visit = visitHeading(data, found), condition = conditionOf(data, found);
  const content = () => [
    ...(visit ? [element("h3", "bb-for", visit)] : []),
    ...(found.lightening ? pigment(data, found.lightening).map(([level, sentence]) => (
      element("p", "bb-exposed-at", element("i", `bb-p${level}`), element("span", "", sentence)))) : []),
    ...groups(data, data.candidates, found.lightening, TITLES),
    ...groups(data, data.toners, found.toning, TONING),
  ];
  return condition ? [folded(condition, () => element("div", "", ...content()))] : content();
}

/** What the answer takes for granted; `asked`: whether the person was asked about. */
export function assumptions(data, head, found, asked) {
  const lines = assumptionsOf(data, found, head, phrase);
  return listed("What this answer assumes", lines.filter((line) => !asked || line !== data.words.assumed_person));
}
