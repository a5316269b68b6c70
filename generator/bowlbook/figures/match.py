"""Figure 10: what suits whom. Safety exclusions first, then fit; ranked, and the same every time."""

from collections.abc import Sequence
from typing import NamedTuple

from bowlbook.figures.candidate import Candidate
from bowlbook.figures.head import COLOURED, HISTORY, Head, assumed, completed, holds, may_hold
from bowlbook.figures.ruling import Clause


class Verdict(NamedTuple):
    """One candidate for one head, with what speaks for and against it.

    ``excluded``: clauses that certainly hold. ``ask``: clauses that may hold, as far as the head was
    described, for heads that the recipe otherwise suits; each kind of head once. ``hits``, ``parts``,
    ``misses``: places of facets in which the recipe suits the whole head as asked, some of it, none of it.
    ``preferred``: clauses that put it forward. ``unusual``: how many of the facets
    that were not said the recipe names for other than the usual head.
    """

    candidate: Candidate
    excluded: tuple[Clause, ...]
    ask: tuple[Clause, ...]
    hits: tuple[int, ...]
    parts: tuple[int, ...]
    misses: tuple[int, ...]
    preferred: tuple[Clause, ...]
    unusual: int
    tightness: int

    @property
    def suits(self) -> bool:
        """Whether this is an answer: nothing excludes it, no facet speaks against it, and one at least
        that was said speaks for it. What is for any head is no answer."""
        return not self.excluded and not self.misses and bool(self.hits or self.parts)

    def rank(self) -> tuple[int, ...]:
        """Excluded last; then by misses; by being for unusual heads where nothing was said; by preferences,
        partial fits, hits, and how closely it was written for such heads. Ties keep the candidates' order: by
        name, then id."""
        return (
            int(bool(self.excluded)),
            len(self.misses),
            self.unusual,
            -len(self.preferred),
            len(self.parts),
            -len(self.hits),
            -self.tightness,
        )


class Ranking(NamedTuple):
    """The verdicts on every candidate, best first. ``head`` as it was judged; None: nothing can be lifted."""

    head: Head | None
    verdicts: tuple[Verdict, ...]


def match(candidates: Sequence[Candidate], head: Head) -> Ranking:
    """Rank every candidate for a head. ``head`` need not be complete; lift and levels are completed.

    Where only the first few are wanted, `shortlist.py` finds the same ones in a fraction of the time.
    """
    whole = completed(head)
    if whole is None:
        return Ranking(None, ())
    whole = assumed(whole)
    memo: ClauseMemo = {}
    verdicts = [verdict_on(candidate, whole, memo) for candidate in candidates]
    return Ranking(whole, tuple(sorted(verdicts, key=Verdict.rank)))


ClauseMemo = dict[Head, tuple[bool, bool]]
"""For one head: whether a clause for these heads holds, and whether it may. Many candidates share a rule."""


def verdict_on(candidate: Candidate, head: Head, memo: ClauseMemo | None = None) -> Verdict:
    """The verdict on one candidate for one completed head; ``memo`` is shared by the candidates of a head."""
    memo = {} if memo is None else memo
    hits, parts, misses, unusual, tightness = _fit(candidate, head)
    excluded, open_ = [], []
    for clause, meets in zip(candidate.excluded_by, candidate.may_meet, strict=True):
        certain, possible = memo.get(clause.when) or _clause_holds(clause.when, head, memo)
        if certain:
            excluded.append(clause)
        elif possible and meets:
            open_.append(clause)
    refused = {clause.when for clause in excluded}
    ask: dict[Head, Clause] = {}
    for clause in open_:
        if clause.when not in refused:
            ask.setdefault(clause.when, clause)
    preferred = tuple(
        each
        for each in candidate.preferred_by
        if (memo.get(each.when) or _clause_holds(each.when, head, memo))[0]
    )
    return Verdict(
        candidate, tuple(excluded), tuple(ask.values()), hits, parts, misses, preferred, unusual, tightness
    )


Places = tuple[int, ...]


def _fit(candidate: Candidate, head: Head) -> tuple[Places, Places, Places, int, int]:
    """The hits, parts and misses of a `Verdict`, how unusual and how closely meant the candidate is."""
    hits, parts, misses = [], [], []
    unusual = tightness = 0
    for place, suits, odd, tight in candidate.named_facets:
        asked = head[place]
        if not asked:
            unusual += odd
        elif place == HISTORY:  # true at once; recipes are written for colour and lightener only
            if asked & COLOURED & ~suits:
                misses.append(place)
            elif asked & suits:
                hits.append(place)
                tightness += tight
        elif not asked & ~suits:
            hits.append(place)
            tightness += tight
        elif asked & suits:
            parts.append(place)
        else:
            misses.append(place)
    return tuple(hits), tuple(parts), tuple(misses), unusual, tightness


def _clause_holds(when: Head, head: Head, memo: ClauseMemo) -> tuple[bool, bool]:
    possible = may_hold(when, head)
    memo[when] = found = (possible and holds(when, head), possible)
    return found
