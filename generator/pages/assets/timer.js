// Timers for processing. They keep when they began, so that they tell the time that passed, whatever the phone did.

import { recall, remember } from "./store.js";

const MOST = 24;
let strip;

const timers = () => recall("timers", []).filter((each) => Number.isFinite(each?.began) && each.minutes > 0);

/** Minutes and seconds, as 07:05; hours only once there are some. */
export function clock(seconds) {
  const [hours, rest] = [Math.floor(seconds / 3600), seconds % 3600];
  const text = `${String(Math.floor(rest / 60)).padStart(2, "0")}:${String(rest % 60).padStart(2, "0")}`;
  return hours ? `${hours}:${text}` : text;
}

/** What a timer says at a moment: the time that passed, and what to do next. Moments in milliseconds. */
export function state(timer, now) {
  const passed = Math.floor((now - timer.began) / 1000);
  if (passed < 0) return { passed: "00:00", says: "The phone’s clock was set back. Look at the hair.", due: true };
  const end = timer.minutes * 60;
  if (passed >= end) {
    return { passed: clock(passed), says: `Longest time reached ${clock(passed - end)} ago. Rinse.`, due: true, over: true };
  }
  const every = timer.check * 60;
  const next = (timer.checked + 1) * every;
  if (every && passed >= next && next < end) {
    return { passed: clock(passed), says: `Check now; due ${clock(passed - next)} ago.`, due: true };
  }
  const soon = every && next < end ? `Next check in ${clock(next - passed)}. ` : "";
  return { passed: clock(passed), says: `${soon}At most ${clock(end - passed)} more.`, due: false };
}

function save(all) {
  remember("timers", all.slice(-MOST));
  draw();
}

function button(text, act) {
  const made = document.createElement("button");
  made.type = "button";
  made.className = "bb-button";
  made.textContent = text;
  made.addEventListener("click", act);
  return made;
}

function item(timer) {
  const made = document.createElement("li");
  const [name, passed, says] = ["strong", "span", "span"].map((tag) => document.createElement(tag));
  name.textContent = timer.label;
  passed.className = "bb-passed";
  says.className = "bb-says";
  const checked = button("Checked", () => {
    const due = Math.floor((Date.now() - timer.began) / 60000 / timer.check);
    save(timers().map((each) => (each.id === timer.id ? { ...each, checked: due } : each)));
  });
  const end = button("Rinsed", () => save(timers().filter((each) => each.id !== timer.id)));
  made.append(name, passed, says, checked, end);
  return { made, passed, says, checked };
}

let drawn = [];

function draw() {
  const all = timers();
  strip.hidden = all.length === 0;
  document.documentElement.classList.toggle("bb-timing", all.length > 0);
  drawn = all.map((timer) => ({ timer, ...item(timer) }));
  strip.querySelector("ol").replaceChildren(...drawn.map(({ made }) => made));
  tick();
}

const rung = new Map();

function tick() {
  let ring = false;
  for (const { timer, made, passed, says, checked } of drawn) {
    const now = state(timer, Date.now());
    passed.textContent = now.passed;
    if (says.textContent !== now.says) says.textContent = now.says;
    made.classList.toggle("bb-due", now.due);
    checked.hidden = !now.due || Boolean(now.over) || !timer.check;
    const mark = now.due ? `${timer.checked}${now.over}` : "";
    if (now.due && rung.get(timer.id) !== mark) ring = true;
    rung.set(timer.id, mark);
  }
  const due = drawn.find(({ made }) => made.classList.contains("bb-due"));
  const told = due ? `${due.timer.label}: look at it now.` : "";
  const status = strip.querySelector("[role=status]");
  if (status.textContent !== told) status.textContent = told;
  const first = due ?? drawn[0];
  const count = drawn.length === 1 ? "" : ` (${drawn.length} timers)`;
  if (first) strip.querySelector("summary").textContent = `${first.passed.textContent} ${first.timer.label}${count}`;
  strip.classList.toggle("bb-due", Boolean(due));
  if (!ring) return;
  strip.querySelector("details").open = true;
  navigator.vibrate?.([300, 100, 300]);
}

function build() {
  strip = document.createElement("aside");
  strip.className = "bb-timers md-typeset";
  strip.setAttribute("aria-label", "Timers");
  const status = document.createElement("p");
  status.setAttribute("role", "status");
  status.className = "bb-unseen";
  const details = document.createElement("details");
  details.append(document.createElement("summary"), document.createElement("ol"));
  strip.append(status, details);
  document.body.append(strip);
}

/** Shows the running timers, and gives the page's own start buttons their work. */
export function startTimers() {
  build();
  for (const starter of document.querySelectorAll("[data-timer]")) {
    const { timer: label, minutes, check } = starter.dataset;
    const act = button("Start a timer", () => {
      const all = timers();
      const same = all.filter((each) => each.label.replace(/ \d+$/, "") === label).length;
      save([...all, {
        id: `${Date.now()}-${Math.random()}`, label: same ? `${label} ${same + 1}` : label, began: Date.now(),
        minutes: Number(minutes), check: Number(check), checked: 0,
      }]);
      strip.querySelector("details").open = true;
    });
    starter.append(act);
    starter.hidden = false;
  }
  draw();
  setInterval(tick, 1000);
  document.addEventListener("visibilitychange", () => { if (document.visibilityState === "visible") draw(); });
  addEventListener("storage", draw);
}
