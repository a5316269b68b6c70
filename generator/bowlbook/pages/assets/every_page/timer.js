// Timers for processing: their state at a moment, and where they are stored. timer_bar.js shows them.
// They keep when they began, so that they show the time that passed, whatever the phone did meanwhile.

import { keptList } from "./store.js";

export const MOST = 24;
/** Milliseconds for which a rinsed timer can be taken back. */
const UNDO = 10000;
const SOON = 60;

const { read, save, onlyHere } = keptList("timers");
export { save, onlyHere };
export const timers = () => read().filter((each) => Number.isFinite(each?.began) && each.minutes > 0);

export function change(id, changes) {
  save(timers().map((each) => (each.id === id ? { ...each, ...changes } : each)));
}

/** Begin a timer with the first section; false where too many run already. ``section`` is its word, as
    foil; ``first`` the minutes until it is due where each is rinsed by itself, 0 where all are rinsed together. */
export function begin(name, { minutes, check, section, first }, now) {
  const all = timers();
  if (all.length >= MOST) return false;
  const number = 1 + Math.max(0, ...all.filter((each) => each.name === name).map((each) => each.number ?? 1));
  const label = number > 1 ? `${name} ${number}` : name;
  const set = { minutes, check, section, first, checked: 0 };
  save([...all, { id: `${now}-${Math.random()}`, name, number, label, began: now, ...set }]);
  return true;
}

/** The number of the last check that has come due. */
export const checksDue = (timer, now) => Math.floor((now - timer.began) / 60000 / timer.check);

/** Whether the first section is due: from then on they are rinsed one after another. */
export const firstDue = (timer, now) => timer.first > 0 && now - timer.began >= timer.first * 60000;

/** A moment as this phone writes the time of day. */
export const timeOfDay = (moment) => new Date(moment).toLocaleTimeString([], { hour: "2-digit", minute: "2-digit" });

/** Minutes and seconds, as 07:05; hours only once there are some. */
export function clock(seconds) {
  const [hours, rest] = [Math.floor(seconds / 3600), seconds % 3600];
  const text = `${String(Math.floor(rest / 60)).padStart(2, "0")}:${String(rest % 60).padStart(2, "0")}`;
  return hours ? `${hours}:${text}` : text;
}

/** The state of a timer at a moment, in milliseconds: the time that passed, what to do, and how urgent that is.
    ``kind``: late, soon, runs or rinsed. ``urgency``: the larger, the sooner it must be looked at. ``check``:
    whether a check can be answered. ``detail``: in place of when it was begun, where that is not known. */
export function state(timer, now) {
  if (timer.rinsed) {
    const left = Math.ceil((timer.rinsed + UNDO - now) / 1000);
    const passed = clock(Math.max(0, Math.floor((timer.rinsed - timer.began) / 1000)));
    const word = left > 0 ? `Rinsed; gone in ${left} ${left === 1 ? "second" : "seconds"}` : "Rinsed";
    return { kind: "rinsed", passed, word, urgency: -1e9, check: false, gone: left <= 0 };
  }
  const passed = Math.floor((now - timer.began) / 1000);
  if (passed < 0) {
    const detail = "The phone’s clock was set back.";
    return { kind: "late", passed: "00:00", word: "Look at the hair now", detail, urgency: 1e9, check: false };
  }
  const end = timer.minutes * 60;
  if (passed >= end) return late("Rinse now", passed, passed - end, 1e8, false);
  if (firstDue(timer, now)) return inTurn(timer, passed, end);
  const due = timer.first > 0 ? timer.first * 60 : end;
  const next = (timer.checked + 1) * timer.check * 60;
  const toCheck = timer.check > 0 && next < due;
  if (toCheck && passed >= next) return late("Check now", passed, passed - next, 0, true);
  const left = (toCheck ? next : due) - passed;
  const word = `${toCheck ? "Check" : timer.first > 0 ? `Rinse first ${timer.section}` : "Rinse"} in ${clock(left)}`;
  return { kind: left <= SOON ? "soon" : "runs", passed: clock(passed), word, urgency: -left, check: false };
}

/** The first section is due until somebody answers; then the others follow, in the order they went in. */
function inTurn(timer, passed, end) {
  if (!timer.rinsing) return late(`Rinse first ${timer.section} now`, passed, passed - timer.first * 60, 1e7, true);
  const left = end - passed;
  const word = `Rinse in turn, last in ${clock(left)}`;
  return { kind: "soon", passed: clock(passed), word, urgency: -left, check: false };
}

function late(what, passed, by, urgency, check) {
  return { kind: "late", passed: clock(passed), word: `${what}, ${clock(by)} late`, urgency: urgency + by, check };
}
