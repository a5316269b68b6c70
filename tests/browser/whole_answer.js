// The whole answers of Pick by hair for some heads, in words, in the shape of `bowlbook match --json`: made on a page
// of the functions that the phone evaluates. `address`: of the scripts; `data` and `heads`: JSON.
async ([address, data, heads]) => {
  const [
    { answersOf, described, explained, headOf, phrase, pigment, questions, ranked, tonersAt },
    { assumptionsOf, beforeOf, conditionOf, consult, placeOf, reasonOf },
  ] = await Promise.all(["match.js", "consult.js"].map((name) => import(address + name)));

  const answer = (data, said) => {
    const head = headOf(data, said);
    const found = consult(data, head);
    const tone = head[placeOf(data, "tone")];
    const answers = [];
    for (const [matched, rows] of [[found.lightening, data.candidates], [found.toning, data.toners]]) {
      if (!matched) continue;
      const all = ranked(data, rows, matched);
      const named = answersOf(all);
      answers.push(...all.map((each) => explained(data, each, matched, named)));
    }
    const open = found.lightening || found.toning;
    return {
      verdict: found.verdict,
      reason: reasonOf(data, found),
      before: beforeOf(data, found),
      only_once: conditionOf(data, found),
      visits: found.visits.map(({ to, lift, weeks_later }) => ({
        to, weeks_later, lift, shows: data.shows[to - 1], tone_with: tonersAt(data, to, tone).map((row) => data.texts[row[1]]),
      })),
      asked: Object.fromEntries(data.facets.flatMap(([name, values], place) =>
        (head[place] ? [[name, values.filter((_, n) => (head[place] >> n) & 1)]] : []))),
      head: described(data, found.said),
      says: open && !answers.some(({ suits }) => suits) ? data.words.nothing_in_book : null,
      assumes: assumptionsOf(data, found, head, phrase),
      ask: questions(data, head, found),
      pigment: pigment(data, found.lightening ?? found.said).map(([, sentence]) => sentence),
      answers,
    };
  };

  const book = JSON.parse(data);
  return JSON.stringify(JSON.parse(heads).map((head) => answer(book, head)));
}
