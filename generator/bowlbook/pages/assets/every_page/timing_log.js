// What was timed on this phone today: when a timer began, was checked and rinsed, and the levels read meanwhile.
// Nobody's name is in it, and it is dropped at the end of the day.

import { keptList } from "./store.js";

const MOST = 400;

const { read, save } = keptList("log");
const day = (moment) => new Date(moment).toDateString();

/** The lines, oldest first: `timer` is its id, `label` its name, `began` and `at` moments, `what` a few words. */
export const lines = () => read().filter((each) => Number.isFinite(each?.at) && Number.isFinite(each.began));

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
