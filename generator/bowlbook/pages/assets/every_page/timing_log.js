// What was timed on this phone today: when a timer began, was checked and rinsed, and the levels read meanwhile.
// Nobody's name is in it, and it is dropped at the end of the day.

import { recall, remember } from "./store.js";

const MOST = 400;

/** Lines of this page alone, where the phone stores nothing; null while it does. */
let inPage = null;

const day = (moment) => new Date(moment).toDateString();

/** The lines, oldest first: `timer` is its id, `label` its name, `began` and `at` moments, `what` a few words. */
export function lines() {
  const all = inPage ?? recall("log", []);
  return Array.isArray(all) ? all.filter((each) => Number.isFinite(each?.at) && Number.isFinite(each.began)) : [];
}

function save(all) {
  if (inPage !== null || !remember("log", all)) inPage = all;
}

export function note({ id, label, began }, what, now) {
  save([...lines(), { timer: id, label, began, at: now, what }].slice(-MOST));
}

/** Drop the last line of a timer, or its last line of these words. */
export function takeBack(id, what = null) {
  const all = lines();
  const own = all.filter((each) => each.timer === id && (what === null || each.what === what));
  if (own.length) save(all.filter((each) => each !== own.slice(-1)[0]));
}

/** Drop every line of another day, but those of timers that still run: a service may go on past midnight. */
export function dropOld(now, running) {
  const all = lines();
  const kept = all.filter((each) => day(each.at) === day(now) || running.includes(each.timer));
  if (kept.length < all.length) save(kept);
}

export const dropAll = () => save([]);
