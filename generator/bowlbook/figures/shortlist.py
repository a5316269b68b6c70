"""The first few answers and refusals for a head, without a verdict on every candidate.

The candidates stand in an index as masks, made once for a book. For a head, the parts of `Verdict.rank` are
counted for all candidates at once and read off lowest first; only those shown get a verdict (`verdict_on`).
"""

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from itertools import islice
from typing import NamedTuple

from bowlbook.figures.candidate import Candidate
from bowlbook.figures.head import COLOURED, HISTORY, USUAL, Head, assumed, completed
from bowlbook.figures.head_sets import HeadSets, head_sets
from bowlbook.figures.match import ClauseMemo, Verdict, verdict_on
from bowlbook.figures.ruling import Clause
from bowlbook.figures.tally import Tally, any_of, by_number, mask_of, masks_of, places_of, tally_of, tally_sum


class Carried(NamedTuple):
    """The heads of clauses, each once, and for each the candidates that carry such a clause.

    A head stands twice where a candidate carries two clauses for it, and so on.
    """

    heads: HeadSets
    by: tuple[int, ...]

    def certain(self, head: Head) -> list[int]:
        """Of each clause that certainly holds for a head, who carries it."""
        return [self.by[place] for place in places_of(self.heads.certain(head))]


class Index(NamedTuple):
    """Candidates indexed for many heads: time and memory grow with their number.

    ``alone``: where a blend or technique is among them.
    ``unusual``: of each facet, who names unusual values only. ``tightness``: of each facet, how closely each
    one is meant (`Candidate.named_facets`).
    """

    candidates: tuple[Candidate, ...]
    alone: dict[tuple[str, str], int]
    kinds: dict[str, int]
    suits: HeadSets
    unusual: tuple[int, ...]
    tightness: tuple[Tally, ...]
    excluding: Carried
    preferring: Carried


def index_of(candidates: Sequence[Candidate]) -> Index:
    """The index of some candidates; their order breaks ties."""
    suits = head_sets([each.suits for each in candidates])
    return Index(
        tuple(candidates),
        {(each.kind, each.id): place for place, each in enumerate(candidates) if each.within is None},
        masks_of([each.kind for each in candidates]),
        suits,
        tuple(
            any_of(mask for bits, mask in masks.items() if bits and usual and not bits & usual)
            for masks, usual in zip(suits.by_set, USUAL, strict=True)
        ),
        tuple(_tightness(masks) for masks in suits.by_set),
        _carried([each.excluded_by for each in candidates]),
        _carried([each.preferred_by for each in candidates]),
    )


def _tightness(masks: dict[int, int]) -> Tally:
    """For each candidate 10 less the number of values it names; four digits hold it."""
    tight = [(max(0, 10 - bits.bit_count()), mask) for bits, mask in masks.items() if bits]
    return [any_of(mask for number, mask in tight if number >> digit & 1) for digit in range(4)]


def _carried(clauses: Sequence[Iterable[Clause]]) -> Carried:
    places: dict[Head, list[int]] = {}
    for place, own in enumerate(clauses):
        for clause in own:
            places.setdefault(clause.when, []).append(place)
    heads, by = [], []
    for when, found in places.items():
        often = Counter(found)
        for times in range(max(often.values())):
            heads.append(when)
            by.append(mask_of((place for place, n in often.items() if n > times), len(clauses)))
    return Carried(head_sets(heads), tuple(by))


class Few(NamedTuple):
    """The first verdicts in their order, and how many further ones there are."""

    verdicts: tuple[Verdict, ...]
    more: int


@dataclass(frozen=True, slots=True)
class Shortlist:
    """What suits a completed head and what does not, computed as far as it is requested.

    ``head``: as it was judged. ``for_it``: those for which a facet that was said speaks.
    ``fit``: the digits of `Verdict.rank` after the misses, highest first. ``clauses``: what of them is known.
    """

    index: Index
    head: Head
    excluded: int
    misses: Tally
    for_it: int
    fit: Tally
    clauses: ClauseMemo = field(default_factory=dict, repr=False, compare=False)

    def suiting(self, kind: str, most: int) -> Few:
        """The best answers of a kind, as `Verdict.rank` orders them."""
        return self._few(self._of_kind(kind) & ~self._against, self.fit, most)

    def refused(self, kind: str, most: int) -> Few:
        """The refusals of a kind, nearest to suiting first; what a clause excludes before what merely misses,
        then as `Verdict.rank` orders them. What is for any head is neither an answer nor refused."""
        merely = self.index.suits.every ^ self.excluded
        against = any_of([self.excluded, *self.misses])
        return self._few(self._of_kind(kind) & against, [*self.misses[::-1], merely, *self.fit], most)

    def answers(self, kind: str, entry_id: str) -> bool:
        """Whether the blend or technique of this id is an answer."""
        place = self.index.alone.get((kind, entry_id))
        return place is not None and not self._against >> place & 1

    def count(self) -> int:
        """How many answers there are, of all kinds."""
        return (self.index.suits.every & ~self._against).bit_count()

    def nearest(self, kind: str) -> Verdict | None:
        """The first of a kind by `Verdict.rank`, whether it suits or not; None where the book has none."""
        found = self._few(self._of_kind(kind), [self.excluded, *self.misses[::-1], *self.fit], 1)
        return found.verdicts[0] if found.verdicts else None

    @property
    def _against(self) -> int:
        return any_of([self.excluded, *self.misses, self.index.suits.every ^ self.for_it])

    def _of_kind(self, kind: str) -> int:
        return self.index.kinds.get(kind, 0)

    def _few(self, members: int, digits: Sequence[int], most: int) -> Few:
        first = [self.index.candidates[place] for place in islice(by_number(members, digits), most)]
        verdicts = tuple(verdict_on(each, self.head, self.clauses) for each in first)
        return Few(verdicts, members.bit_count() - len(verdicts))


def shortlist(index: Index, head: Head, *, one_head: bool = True) -> Shortlist | None:
    """What an index answers for a head, which need not be complete; None: nothing can be lifted.

    ``one_head`` as in `assumed`: whether it is one in the chair, or a page about many.

    For each facet, as in `verdict_on`: whether what was asked is within what a candidate names, partly so, or
    outside it; where nothing was asked, whether it is for unusual heads.
    """
    whole = completed(head)
    if whole is None:
        return None
    whole = assumed(whole, one_head=one_head)
    suits = index.suits
    hits, parts, misses, unusual = [], [], [], []
    tightness: Tally = []
    for place, asked in enumerate(whole):
        if not asked:
            unusual.append(index.unusual[place])
            continue
        met = suits.with_any(place, asked)
        if place == HISTORY:
            coloured = asked & COLOURED
            miss = suits.named[place] & ~suits.with_all(place, coloured) if coloured else 0
            hit = met & ~miss
        else:
            hit, miss = suits.with_all(place, asked), suits.named[place] & ~met
            parts.append(met ^ hit)
        hits.append(hit)
        misses.append(miss)
        tightness = tally_sum(tightness, [digit & hit for digit in index.tightness[place]])
    return Shortlist(
        index,
        whole,
        any_of(index.excluding.certain(whole)),
        tally_of(misses),
        any_of([*hits, *parts]),
        [
            *reversed(tally_of(unusual)),
            *_most_first(index, tally_of(index.preferring.certain(whole))),
            *reversed(tally_of(parts)),
            *_most_first(index, tally_of(hits)),
            *_most_first(index, tightness),
        ],
    )


def _most_first(index: Index, tally: Tally) -> Tally:
    """The digits, highest first, of a number that is lower the higher the tally is."""
    return [index.suits.every ^ digit for digit in reversed(tally)]
