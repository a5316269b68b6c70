// The timers' bar at the foot of every page: one line that names the most urgent timer, and a list above it. It starts
// when it is imported: by a page that can begin a timer, else by site.js once there is something to show.
// Nothing in it moves under a thumb: rows keep their height, and their order for a while after each tap.

import { stayAwake } from "./awake.js";
import { button, element, spoken } from "./dom.js";
import { ready, tone, unlock } from "./sound.js";
import { recall, remember, top } from "./store.js";
import { begin, change, checksDue, firstDue, MOST, onlyHere, save, state, timeOfDay, timers } from "./timer.js";
import { dropOld, note, takeBack } from "./timing_log.js";

/** Milliseconds after a tap for which rows stay where they are. */
const HELD = 3000;
/** Milliseconds between two tones. */
const RING = 4000;

const bar = {};
const rows = new Map();
let heldUntil = 0;
let rangAt = 0;
let loggedOn = "";

/** Set a text only where it differs: what is read aloud is not read again. */
function put(place, text) {
  if (place.textContent !== text) place.textContent = text;
}

/** A timer's row. Checked and Undo share the left place, Rinsed has the right one for itself. */
function newRow(timer) {
  const row = {
    item: element("li"), word: element("strong", "bb-word"), passed: element("span", "bb-passed"),
    span: element("span", "bb-span"),
    checked: button("Checked", () => act(timer.id, looked(find(timer.id), Date.now()), "Checked")),
    rinsed: button("Rinsed", () => act(timer.id, { rinsed: Date.now() }, "Rinsed")),
    undo: button("Undo", () => act(timer.id, { rinsed: 0 })),
  };
  const label = element("span", "bb-timed", timer.label);
  row.item.append(row.word, row.passed, label, row.span, row.checked, row.undo, row.rinsed);
  for (const each of [row.checked, row.rinsed, row.undo]) each.setAttribute("aria-description", timer.label);
  return row;
}

/** What a look at the hair answers: every check that has come due, and that the first section is being rinsed. */
const looked = (timer, now) => ({ checked: checksDue(timer, now), rinsing: firstDue(timer, now) });

const find = (id) => timers().find((each) => each.id === id);

/** Change a timer, and put a line into the log; without one, take the rinse back. */
function act(id, changes, line = null) {
  const timer = find(id);
  if (!timer) return;
  change(id, changes);
  if (line) note(timer, line, Date.now());
  else takeBack(id, "Rinsed");
  tick();
}

function update(row, timer, now) {
  row.state = state(timer, now);
  row.item.className = `bb-timer bb-${row.state.kind}`;
  put(row.word, row.state.word);
  put(row.passed, row.state.passed);
  const until = timer.began + timer.minutes * 60000;
  const [from, to] = timer.section ? [`First ${timer.section} in`, "last rinsed by"] : ["Begun", "rinse by"];
  put(row.span, row.state.detail ?? `${from} ${timeOfDay(timer.began)}, ${to} ${timeOfDay(until)}`);
  const over = row.state.kind === "rinsed";
  // A button that has no use now keeps its place and takes no tap.
  row.checked.classList.toggle("bb-away", !row.state.check);
  row.rinsed.classList.toggle("bb-away", over);
  row.checked.hidden = over;
  row.undo.hidden = !over;
}

/** Put the most urgent row first and drop what was rinsed; while somebody taps, only add and update. */
function arrange(now) {
  const settled = now >= heldUntil || bar.list.hidden;
  const found = timers();
  const kept = settled ? found.filter((each) => !state(each, now).gone) : found;
  if (kept.length < found.length) save(kept);
  const ids = new Set(kept.map((each) => each.id));
  for (const [id, row] of rows) {
    if (ids.has(id)) continue;
    row.item.remove();
    rows.delete(id);
  }
  for (const timer of kept) {
    if (!rows.has(timer.id)) rows.set(timer.id, newRow(timer));
    const row = rows.get(timer.id);
    if (!row.item.isConnected) bar.rows.prepend(row.item); // the list stands on the bar: nothing below it moves
    update(row, timer, now);
  }
  const ordered = [...rows.values()].sort((one, other) => other.state.urgency - one.state.urgency);
  const items = ordered.map(({ item }) => item);
  if (settled && items.some((item, place) => bar.rows.children[place] !== item)) {
    const focused = document.activeElement;
    bar.rows.replaceChildren(...items);
    if (bar.rows.contains(focused)) focused.focus({ preventScroll: true });
  }
  return kept.map((timer) => ({ timer, state: rows.get(timer.id).state }))
    .sort((one, other) => other.state.urgency - one.state.urgency);
}

function headline(all) {
  const late = all.filter((each) => each.state.kind === "late").length;
  const [first] = all;
  bar.head.className = `bb-timers-head bb-${first.state.kind}`;
  put(bar.word, first.state.word);
  put(bar.label, first.timer.label);
  const many = all.length > 1 ? `${all.length} timers` : "";
  put(bar.count, [late > 1 || (late && many) ? `${late} late` : "", many].filter(Boolean).join(" of "));
  const now = late ? `${first.state.word.split(",")[0]}: ${first.timer.label}.` : "";
  put(bar.status, now);
  return late;
}

function notes(late) {
  const remarks = onlyHere() ? ["This phone keeps nothing here; the timer runs while this page stays open."] : [];
  if (bar.muted) remarks.push("The sound is off.");
  else if (late && !ready()) remarks.push("No sound until this page is tapped.");
  put(bar.note, remarks.join(" "));
  bar.note.hidden = !remarks.length;
}

function tick() {
  const now = Date.now();
  if (new Date(now).toDateString() !== loggedOn) {
    loggedOn = new Date(now).toDateString();
    dropOld(now, timers().filter((each) => !each.rinsed).map((each) => each.id));
  }
  const all = arrange(now);
  stayAwake("timer", all.some((each) => !each.timer.rinsed));
  bar.strip.hidden = all.length === 0;
  document.documentElement.classList.toggle("bb-timing", all.length > 0);
  if (!all.length) { open(false); return; }
  const late = headline(all);
  notes(late);
  if (!late) rangAt = 0;
  else if (now - rangAt >= RING || now < rangAt) {
    rangAt = now;
    if (!bar.muted) tone();
    if (navigator.userActivation?.hasBeenActive) navigator.vibrate?.([300, 100, 300]);
  }
}

function open(opened) {
  bar.list.hidden = !opened;
  bar.head.setAttribute("aria-expanded", String(opened));
}

function sayMuted() {
  put(bar.mute, bar.muted ? "Turn the sound on" : "Mute");
}

function build() {
  bar.muted = recall("muted", false) === true;
  bar.strip = element("aside", "bb-timers");
  bar.strip.setAttribute("aria-label", "Timers");
  bar.status = spoken("p", "bb-unseen");
  bar.note = element("p", "bb-timers-note");
  bar.list = element("div", "bb-timers-list");
  bar.list.id = "bb-timers-list";
  bar.rows = element("ol");
  bar.mute = button("", () => {
    bar.muted = !bar.muted;
    remember("muted", bar.muted);
    sayMuted();
    tick();
  });
  const links = [["If it goes wrong", "troubles/"], ["Timing log", "timing-log/"]].map(([text, address]) => {
    const link = element("a", "bb-button", text);
    link.href = new URL(address, top).href;
    return link;
  });
  bar.list.append(bar.rows, ...links, bar.mute);
  bar.list.append(element("p", "", "A locked phone makes no sound. Where it can, the screen stays on while a timer runs; keep it in sight."));
  bar.head = button("", () => { open(bar.list.hidden); tick(); }, "bb-timers-head");
  bar.head.setAttribute("aria-controls", bar.list.id);
  [bar.word, bar.label, bar.count] = ["bb-word", "bb-timed", "bb-count"].map((name) => element("span", name));
  bar.head.append(bar.word, bar.label, bar.count);
  bar.strip.append(bar.status, bar.note, bar.list, bar.head);
  for (const kind of ["pointerdown", "keydown"]) {
    bar.strip.addEventListener(kind, () => { heldUntil = Date.now() + HELD; });
    addEventListener(kind, () => { if (rows.size) unlock(); });
  }
  sayMuted();
  open(false);
  document.body.append(bar.strip);
}

/** A button that begins a timer, with the time at which it began. A second tap at once is a slip of the thumb. */
function starter(place) {
  const { timer: name, minutes, check, section, first } = place.dataset;
  const set = { minutes: Number(minutes), check: Number(check), section, first: Number(first ?? 0) };
  const status = spoken("span");
  let begun = 0;
  place.append(button("Start a timer", () => {
    const now = Date.now();
    if (Math.abs(now - begun) < 1000) return;
    unlock();
    const fine = begin(name, set, now);
    if (fine) {
      begun = now;
      note(timers().slice(-1)[0], "Begun", now);
    }
    heldUntil = now + HELD;
    status.textContent = fine ? `Begun ${timeOfDay(now)}` : `${MOST} timers run already`;
    tick();
  }), status);
  place.hidden = false;
}

build();
for (const place of document.querySelectorAll("[data-timer]")) starter(place);
tick();
setInterval(tick, 1000);
document.addEventListener("visibilitychange", () => { if (document.visibilityState === "visible") tick(); });
addEventListener("storage", tick);
addEventListener("beforeunload", (event) => { if (onlyHere() && timers().length) event.preventDefault(); });
