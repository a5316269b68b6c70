// The verdict on a head, before any answer: the same evaluation as generator/bowlbook/figures/verdict.py, on data
// compiled there. Pure functions; nothing that is asked is kept.

/** Place of a facet in a head. */
export function placeOf(data, name) {
  return data.facets.findIndex((facet) => facet[0] === name);
}

const length = (bits) => 32 - Math.clz32(bits);
const lowest = (bits) => bits & -bits;
export const fill = (text, ...values) => values.reduce((made, value) => made.replace("{}", () => value), text);

/** A sentence with names in braces filled in. */
function filled(text, values) {
  return text.replace(/\{(\w+)\}/g, (_, name) => values[name]);
}

export function counted(number, word) {
  return `${number} ${word}${number === 1 ? "" : "s"}`;
}

function joined(words, last) {
  return words.length < 2 ? words.join("") : `${words.slice(0, -1).join(", ")} ${last} ${words.slice(-1)[0]}`;
}

export function either(words) {
  return joined(words, "or");
}

export function both(words) {
  return joined(words, "and");
}

/** Whether the lift starts from what the hair shows now. */
function startOf(data, head) {
  const now = placeOf(data, "now");
  return head[now] && head[placeOf(data, "area")] !== data.bits.regrowth ? now : placeOf(data, "natural_level");
}

/** The third of starting level, target level and lift from the other two; null where nothing can be lifted. */
export function completed(data, head) {
  const start = startOf(data, head), target = placeOf(data, "target_level"), lift = placeOf(data, "lift");
  const found = [...head];
  let place = -1;
  if (head[start] && head[target] && !head[lift]) {
    place = lift;
    found[place] = pairs(head[start], head[target], (n, t) => t - n, 9);
  } else if (head[start] && head[lift] && !head[target]) {
    place = target;
    found[place] = pairs(head[start], head[lift], (n, l) => n + l, 10);
  } else if (head[target] && head[lift] && !head[start]) {
    place = start;
    found[place] = pairs(head[target], head[lift], (t, l) => t - l, 10);
  }
  return place >= 0 && !found[place] ? null : found;
}

function pairs(one, other, join, most) {
  let bits = 0;
  for (let first = 0; first < 10; first += 1) {
    for (let second = 0; second < 10; second += 1) {
      if (!((one >> first) & 1) || !((other >> second) & 1)) continue;
      const number = join(first + 1, second + 1);
      if (number >= 1 && number <= most) bits |= 1 << (number - 1);
    }
  }
  return bits;
}

/** A completed head as it is judged, with what is taken for granted. */
export function assumed(data, head) {
  const { regrowth, coloured, virgin, every_area: everyArea, unasked } = data.bits;
  const area = placeOf(data, "area"), history = placeOf(data, "history");
  const now = placeOf(data, "now"), weeks = placeOf(data, "weeks");
  const found = [...head];
  if (head[area] === regrowth) {
    if (head[history] & coloured) found[history] = (head[history] & ~coloured) | virgin;
  } else if (head[now]) found[placeOf(data, "natural_level")] = head[now];
  if (!head[weeks]) found[weeks] = 1;
  found[placeOf(data, "reach")] = head[area] || everyArea | (head[placeOf(data, "placement")] ? 0 : unasked);
  return found;
}

/** Whether heads certainly hold: of what is true at once, one thing is enough. */
export function holds(data, sets, head) {
  for (let i = 0; i < sets.length; i += 2) {
    const asked = head[sets[i]];
    if (!(asked & sets[i + 1])) return false;
    if (asked & ~sets[i + 1] && !data.at_once.includes(sets[i])) return false;
  }
  return true;
}

function asksForNoLift(data, head) {
  const at = (name) => head[placeOf(data, name)];
  if (at("wish") && !(at("wish") & data.bits.lighter)) return true;
  const growth = at("area") === data.bits.regrowth;
  const start = head[startOf(data, head)];
  if (at("target_level") && start && !at("lift")) return length(at("target_level")) <= length(lowest(start));
  if (at("target_level") || at("lift") || !at("tone") || growth) return false;
  const lifted = at("now") && at("natural_level") && lowest(at("now")) > at("natural_level");
  return Boolean(at("history") & data.bits.lightened || lifted);
}

/** The most levels in one visit, the fewest weeks to the next, and the stops that say so. */
function inOneVisit(data, head) {
  const [usual, between] = data.visit;
  const visits = data.effects.indexOf("visits");
  const found = data.stops.filter((stop) => stop[1] === visits && holds(data, stop[0], head));
  const levels = Math.min(usual, ...found.map((stop) => stop[6]).filter(Boolean));
  const weeks = Math.max(between, ...found.map((stop) => stop[7]));
  return { levels, weeks, because: found.filter((stop) => stop[6] === levels) };
}

/** A lift from a level over as few visits as it takes. */
function planOf(data, head, start, lift) {
  const first = inOneVisit(data, head);
  const lightened = [...head];
  if (head[placeOf(data, "area")] !== data.bits.regrowth) {
    lightened[placeOf(data, "history")] |= data.bits.lightened;
  }
  const later = inOneVisit(data, lightened);
  const count = 1 + Math.max(0, Math.ceil((lift - first.levels) / later.levels));
  const found = [];
  let left = lift, level = start;
  for (let number = 0; number < count; number += 1) {
    const after = count - number - 1;
    const most = number ? later.levels : first.levels;
    const own = Math.min(most, Math.max(Math.ceil(left / (after + 1)), left - after * later.levels));
    level += own;
    left -= own;
    found.push({ to: level, lift: own, weeks_later: number ? later.weeks : 0 });
  }
  return found;
}

function leastLift(data, head) {
  const at = (name) => head[placeOf(data, name)];
  const natural = at("natural_level"), target = at("target_level");
  let least = length(lowest(at("lift")));
  if (natural && target) least = Math.max(least, length(lowest(target)) - length(natural));
  return natural ? Math.min(least, 10 - length(lowest(natural))) : least;
}

/** The heads that toners meet: at the level lifted to, or that the hair shows, and with what is asked for: a lift,
    none, or depth. Null where no level is known. */
function toTone(data, today, judged, lifted) {
  const found = [...today];
  const natural = placeOf(data, "natural_level"), target = placeOf(data, "target_level");
  found[target] = lifted ? today[target] : judged[natural];
  const deeper = judged[target] && length(judged[target]) < length(lowest(judged[natural]));
  const { lighter, no_lift: noLift, deeper: asDeeper } = data.bits;
  found[placeOf(data, "wish")] = lifted ? lighter : deeper ? asDeeper : noLift;
  for (const name of ["natural_level", "now", "lift", "placement"]) found[placeOf(data, name)] = 0;
  return found[target] ? found : null;
}

/** The verdict on a head and a wish; `lightening` and `toning` are the heads to match, null where no recipe of
    that kind may be an answer. */
export function consult(data, head) {
  const lightens = !asksForNoLift(data, head);
  const whole = lightens ? completed(data, head) : head;
  const judged = assumed(data, whole ?? head);
  const effect = (name) => data.effects.indexOf(name);
  const found = data.stops.filter((stop) =>
    stop[1] !== effect("visits") && (lightens || !stop[5]) && holds(data, stop[0], judged)).map((stop) =>
    [stop[1], ...stop.slice(2, 5).map((number) => data.texts[number])]);
  if (whole === null) found.push([effect("stop"), ...data.words.past_the_lightest]);
  const limit = inOneVisit(data, judged);
  let visits = [], tooMuch = false;
  if (whole !== null && lightens) {
    const lift = leastLift(data, judged), start = judged[placeOf(data, "natural_level")];
    tooMuch = lift > limit.levels;
    if (tooMuch && start) visits = planOf(data, judged, length(lowest(start)), lift);
  }
  const today = [...(whole ?? head)];
  if (visits.length) {
    today[placeOf(data, "target_level")] = 1 << (visits[0].to - 1);
    today[placeOf(data, "lift")] = 1 << (visits[0].lift - 1);
  }
  const has = (name) => found.some(([which]) => which === effect(name));
  let verdict = "go";
  if (has("stop")) verdict = "not today";
  else if (has("test_first")) verdict = "test first";
  else if (tooMuch) verdict = "more than one visit";
  else if (!lightens) verdict = "tone only";
  else if (has("care")) verdict = "with care";
  const stopped = verdict === "not today";
  return {
    verdict, said: whole ?? head, lightens, visits, tooMuch, limit,
    stops: found.sort((one, other) => one[0] - other[0]),
    lightening: lightens && !stopped && !(tooMuch && !visits.length) ? today : null,
    toning: stopped ? null : toTone(data, today, judged, lightens),
  };
}

/** What comes before anything else: each with what to do, why, and on whose word. */
export function beforeOf(data, found) {
  const effect = (name) => data.effects.indexOf(name);
  const rows = (name) => found.stops.filter(([which]) => which === effect(name)).map(([, ...row]) => row);
  const over = [];
  if (found.tooMuch) {
    const text = (stop, place) => data.texts[stop[place]];
    const reasons = [...new Set(found.limit.because.map((stop) => text(stop, 3)))].join(" ");
    over.push([
      fill(data.words.more_than_one, counted(found.limit.levels, "level")),
      reasons || data.words.sound_gives,
      found.limit.because.length ? text(found.limit.because[0], 4) : data.words.usual_standing,
    ]);
  }
  return [...rows("stop"), ...rows("test_first"), ...over, ...rows("care")]
    .map(([what, because, standing]) => ({ do: what, because, standing }));
}

/** The verdict's reason in a sentence or two. */
export function reasonOf(data, found) {
  const first = beforeOf(data, found)[0];
  if (!found.said.some(Boolean)) return data.words.nothing_known;
  const care = data.effects.indexOf("care");
  if (!found.lightens && !found.stops.some(([which]) => which !== care)) return data.words.no_lightening;
  return first ? `${first.do} ${first.because}` : data.words.nothing_stops;
}

/** What must have happened before anything is mixed; null where nothing must. */
export function conditionOf(data, found) {
  if (found.verdict !== "test first") return null;
  return found.said[placeOf(data, "person")] ? data.words.once_agreed : data.words.once_tested;
}

/** Which visit the answers are for; null where there is one, or its level is not known. */
export function visitHeading(data, found) {
  return found.visits.length ? fill(data.words.first_visit, found.visits[0].to) : null;
}

/** Whether one visit is not enough and no plan can be made, as nobody said the level: no recipe is for it. */
export const unplanned = (found) => Boolean(found.tooMuch && !found.visits.length && found.verdict !== "not today");

/** One visit of a plan as a sentence. */
export function visitSentence(data, visit, number, toners) {
  return filled(data.words.visit, {
    when: number ? fill(data.words.later, counted(visit.weeks_later, "week")) : data.words.today,
    lift: counted(visit.lift, "level"),
    to: visit.to,
    shows: data.shows[visit.to - 1],
    tone: toners.length ? fill(data.words.toned, either(toners)) : data.words.no_toner,
    test: data.words.test,
  });
}

/** What an answer takes for granted, as nothing was said of it. `phrase` puts a facet's set into words. */
export function assumptionsOf(data, found, head, phrase) {
  if (!found.lightening && !found.toning) return [];
  const at = (name) => head[placeOf(data, name)];
  const usual = data.words.assumed.filter((name) => !at(name)).map((name) => {
    const place = placeOf(data, name);
    return phrase(data, place, data.facets[place][3]);
  });
  const lines = usual.length ? [fill(data.words.assumed_hair, both(usual))] : [];
  if (!at("person")) lines.push(data.words.assumed_person);
  if (at("volume")) lines.push(data.words.as_written);
  if (at("history") & ~data.bits.coloured && !at("weeks")) lines.push(data.words.assumed_weeks);
  return lines;
}

const MOST_QUESTIONS = 5;

/** What to ask next, the weightiest first. `answers` counts the lightening answers for a head; `denied` are the
    values, by facet and as bit sets, that were asked about already and are not true. */
export function questionsOf(data, head, found, answers, denied = {}) {
  const rank = (each) => data.verdicts.indexOf(each.verdict);
  const now = rank(found);
  const before = found.lightening ? answers(found.lightening) : 0;
  const weighed = [];
  for (const [name, ask] of Object.entries(data.asked)) {
    const place = placeOf(data, name);
    if (head[place] || (name === "weeks" && !head[placeOf(data, "history")])) continue;
    const not = denied[name] ?? 0;
    // Nobody is asked for a volume that the house has no developer of.
    const among = name === "volume" ? data.volumes : -1;
    const places = data.facets[place][1].map((_, value) => value)
      .filter((value) => !((not >> value) & 1) && (among >> value) & 1);
    if (!places.length) continue;
    let lost = 0;
    const ranks = places.map((value) => {
      const then = consult(data, head.with(place, 1 << value));
      if (then.lightening) lost = Math.max(lost, before - answers(then.lightening));
      return rank(then);
    });
    const worst = Math.max(...ranks);
    const rise = name === "weeks" ? Math.max(...ranks.map((each) => Math.abs(each - now))) : Math.max(0, worst - now);
    if (!rise && !lost) continue;
    const verdict = worst > now ? data.verdicts[worst] : null;
    const stops = verdict ? places.filter((_, at) => ranks[at] === worst).map((value) => data.facets[place][1][value]) : [];
    const words = (not && data.words.narrowed[name]) || ask;
    weighed.push({
      rise, facet: name, verdict, values: stops, answers_lost: lost,
      ask: asked(data, name, words, verdict, stops, lost),
    });
  }
  // What was asked for comes after what is so.
  const last = (each) => Number(each.facet === "volume");
  weighed.sort((one, other) => last(one) - last(other) || other.rise - one.rise || other.answers_lost - one.answers_lost);
  return weighed.slice(0, MOST_QUESTIONS).map(({ rise, ...question }) => question);
}

function asked(data, name, ask, verdict, stops, lost) {
  if (verdict) return filled(data.words.raises, { ask, values: either(stops.map(String)), verdict });
  if (name === "weeks") return filled(data.words.unknown_weeks, { ask });
  return filled(data.words.takes_away, { ask, lost: counted(lost, "answer") });
}
