// The steps of a technique one a screen, large, for wet gloves: back, the timer, next. The screen stays on.

import { stayAwake } from "./awake.js";
import { button, element } from "./dom.js";
import { openOver } from "./over.js";
import { state, timers } from "./timer.js";

const opener = document.getElementById("bb-one-step");
const starter = document.querySelector(".bb-starter");

/** A part of the page again, without what only a page has. */
function again(part) {
  const copy = part.cloneNode(true);
  for (const each of [copy, ...copy.querySelectorAll("[id]")]) each.removeAttribute("id");
  return copy;
}

/** A screen: what stands above, and its parts. Steps first, each with the bowls at hand; then what follows them. */
function screensOf() {
  const bowls = () => [...document.querySelectorAll(".bb-step-bowl")].map((bowl) => element("section", "bb-screen-bowl",
    element("b", "", bowl.querySelector("h3").textContent), element("span", "bb-soft", ` ${bowl.dataset.at}`), again(bowl.querySelector(".bb-readings"))));
  const steps = [...document.querySelectorAll(".bb-steps > li")];
  const made = steps.map((step, place) => ({
    title: `Step ${place + 1} of ${steps.length}`, parts: () => [...step.childNodes].map(again), bowls,
  }));
  for (const id of ["processing", "rinse"]) {
    const heading = document.getElementById(id);
    if (!heading) continue;
    made.push({
      title: heading.textContent,
      parts: () => {
        const found = [];
        for (let each = heading.nextElementSibling; each && each.localName !== "h2"; each = each.nextElementSibling) {
          if (!each.matches(".bb-starter")) found.push(again(each));
        }
        return found;
      },
      bowls: () => [],
    });
  }
  return made;
}

/** What the middle button says: the timer of this technique that is most urgent, or that one can be started. */
function timing() {
  const own = timers().filter((each) => each.name === starter?.dataset.timer);
  if (!own.length) return ["Start timer", ""];
  const [first] = own.map((each) => state(each, Date.now())).sort((one, other) => other.urgency - one.urgency);
  return [first.word, first.passed];
}

function open() {
  const screens = screensOf();
  const title = element("p", "bb-screen-title");
  const content = element("div", "bb-screen");
  const back = button("Back", () => turn(place - 1));
  const next = button("Next", () => turn(place + 1), "bb-button bb-first-button");
  const clock = button("", () => {
    if (!timers().some((each) => each.name === starter.dataset.timer)) starter.querySelector("button")?.click();
    tick();
  });
  const leave = button("Leave", () => dialog.close(), "bb-leave");
  const dialog = element("dialog", "bb-screens", element("div", "bb-screen-head", title, leave), content,
    element("div", "bb-turn", back, clock, next));
  dialog.setAttribute("aria-label", "Steps");
  content.setAttribute("aria-live", "polite");
  content.tabIndex = 0; // what is longer than the screen is scrolled by keyboard too
  clock.hidden = !starter;
  let place = 0;
  function turn(to) {
    if (to >= screens.length) { dialog.close(); return; }
    place = to;
    const screen = screens[place];
    title.textContent = screen.title;
    content.replaceChildren(...screen.parts(), ...screen.bowls());
    content.scrollTop = 0;
    back.classList.toggle("bb-away", place === 0);
    next.textContent = place + 1 < screens.length ? "Next" : "Done";
  }
  function tick() {
    const [word, passed] = timing();
    clock.replaceChildren(word, ...(passed ? [element("b", "", passed)] : []));
  }
  dialog.addEventListener("keydown", (event) => {
    if (event.key === "ArrowRight") turn(place + 1);
    if (event.key === "ArrowLeft" && place > 0) turn(place - 1);
  });
  const ticking = setInterval(tick, 1000);
  dialog.addEventListener("close", () => {
    clearInterval(ticking);
    stayAwake("steps", false);
    dialog.remove();
    opener.focus();
  });
  document.body.append(dialog);
  turn(0);
  tick();
  openOver(dialog);
  next.focus();
  stayAwake("steps");
}

opener.hidden = false;
opener.addEventListener("click", open);
