// Pick by hair: what was tapped, kept in the address, and the answer shown at once. consult.js gives the verdict,
// match.js does the matching, answer.js draws both, gate.js holds the list "Stop if …".

import { assumptions, briefVerdict, fitCautions, folded, goUnless, pinned, wholeAnswer } from "./answer.js";
import { consult, fill, placeOf, questionsOf } from "./consult.js";
import { button, element } from "./dom.js";
import { Gate, weeksRow } from "./gate.js";
import { headOf, phrase, ranked } from "./match.js";

const form = document.getElementById("bb-pick");
const box = document.getElementById("bb-first");
const said = document.getElementById("bb-said");
const moreSaid = document.getElementById("bb-more-said");
const shown = document.getElementById("bb-answer");
const gate = new Gate(form);
const ENOUGH = 2;
/** As many things must be known of the hair before anything is an answer. */

function chosenValues() {
  const chosen = {};
  for (const input of form.querySelectorAll("input[name]:checked")) (chosen[input.name] ??= []).push(input.value);
  return chosen;
}

function isKept(name) {
  return !form.querySelector(`input[name="${name}"]`).closest("[data-unkept]");
}

/** Said of the wish: not kept either, but nothing of a person. */
const OF_THE_WISH = ["volume", "heat"];

const isPersonal = (name) => !isKept(name) && !OF_THE_WISH.includes(name);

/** The address keeps what is said of the hair, and nothing of the person. */
function toAddress(chosen) {
  const hair = Object.entries(chosen).filter(([name]) => isKept(name));
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

let rest = 0;
let shownFor = {};

/** A question in full with its words to tap. */
function tapsOf(data, { ask, facet }) {
  const values = data.facets[placeOf(data, facet)][1];
  const denied = gate.denied(data)[facet] ?? 0;
  const sources = [...form.querySelectorAll(`input[name="${facet}"]`)]
    .filter((input) => !((denied >> values.findIndex((value) => String(value) === input.value)) & 1));
  const taps = sources.map((input) => button(input.labels[0].textContent, () => {
    input.click();
    box.focus({ preventScroll: true });
  }));
  return element("div", "", element("p", "", ask), element("p", "bb-taps", ...taps));
}

/** What would overturn the answer, in a line; the question in full where there is no shorter one. */
function inBrief(data, { ask, facet, verdict, values }) {
  const place = placeOf(data, facet), [, known, phrased] = data.facets[place];
  if (!verdict || !phrased) return ask;
  const bits = values.reduce((made, value) => made | (1 << known.indexOf(value)), 0);
  return fill(data.words.sure, phrase(data, place, bits), verdict);
}

/** What is pinned: a refusal; or, once the list was answered, the answer and what would overturn it. */
function showPinned(data, head, found) {
  const stopped = found.verdict === "not today";
  // Only what would change the verdict, which asks no recipe and so takes no time.
  const asked = questionsOf(data, head, found, () => 0, gate.denied(data));
  const next = asked.find(({ facet, verdict }) => (stopped ? facet === "weeks" : verdict));
  const go = next && found.verdict === "go";
  const again = button("Stop if …", () => {
    gate.ask();
    show(data);
    gate.chips[0].focus({ preventScroll: true });
  });
  const other = element("button", "bb-button", "Start again");
  other.type = "reset";
  const taps = element("p", "bb-taps", ...(stopped ? [other] : [again, other]));
  said.replaceChildren(go ? goUnless(inBrief(data, next), () => tapsOf(data, next)) : briefVerdict(data, head, found));
  const later = next && !go ? [folded(inBrief(data, next), () => tapsOf(data, next))] : [];
  moreSaid.replaceChildren(...(stopped ? [] : pinned(data, found)), ...later, taps);
  fitCautions(box);
}

function show(data) {
  const chosen = shownFor = chosenValues();
  box.scrollTop = 0;
  clearTimeout(rest);
  toAddress(chosen);
  gate.follow(chosen);
  form.classList.toggle("bb-personal", Object.keys(chosen).some(isPersonal));
  const head = headOf(data, chosen);
  const found = consult(data, head);
  const stopped = found.verdict === "not today";
  const enough = Object.keys(chosen).filter(isKept).length >= ENOUGH;
  if (!enough && !stopped) {
    gate.show("closed", "");
    said.replaceChildren(Object.keys(chosen).length ? "Tap one thing more of the hair." : "Tap two things of the hair.");
    moreSaid.replaceChildren();
    shown.replaceChildren(element("p", "", "The answer comes with two things of the hair, and after the list “Stop if …”."));
    return;
  }
  const open = stopped || gate.cleared;
  // "go" is not said before the list has been read.
  const soFar = found.verdict === "go" ? "" : `So far: ${found.verdict}`;
  gate.show(stopped ? "stopped" : gate.cleared ? "closed" : "asked", soFar);
  if (open) showPinned(data, head, found);
  else {
    said.replaceChildren();
    moreSaid.replaceChildren();
    shown.replaceChildren(element("p", "", "First the list “Stop if …”, then the answer."));
    return;
  }
  // The first answer is shown at once; the rest follows as soon as that has been drawn.
  rest = setTimeout(() => shown.replaceChildren(
    ...wholeAnswer(data, head, found, gate.denied(data)), ...assumptions(data, head, found, gate.cleared)));
}

async function start() {
  const response = await fetch(form.dataset.pick);
  if (!response.ok) return;
  const data = { ...await response.json(), top: form.dataset.top };
  document.getElementById("bb-without").remove();
  form.querySelector("[data-facet=history]").after(weeksRow(data));
  form.hidden = false;
  fromAddress();
  show(data);
  form.addEventListener("change", ({ target }) => {
    gate.tapped(target);
    show(data);
  });
  form.addEventListener("reset", () => setTimeout(() => {
    gate.ask();
    show(data);
  }));
  gate.none.addEventListener("click", () => {
    gate.cleared = true;
    show(data);
    box.focus({ preventScroll: true });
  });
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
  // A fold in the box opens, or the phone is turned: another part of the cautions has room.
  box.addEventListener("toggle", () => requestAnimationFrame(() => fitCautions(box)), { capture: true });
  addEventListener("resize", () => fitCautions(box));
  form.addEventListener("submit", (event) => event.preventDefault());
  // Reckon a few heads while the reader still reads, so that the first tap does not pay for a cold start.
  for (let level = 1; level <= 10; level += 1) {
    setTimeout(() => ranked(data, data.candidates, headOf(data, { natural_level: [level], tone: ["cool"] })), 40 * level);
  }
}

start();
