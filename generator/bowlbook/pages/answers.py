"""What suits a set of heads and what does not, as pages show it: the verdict, then groups of answers."""

import re
from typing import NamedTuple

from bowlbook.book.book import Book
from bowlbook.figures.head import TONE, Head
from bowlbook.figures.match import Verdict
from bowlbook.figures.shortlist import Few, Shortlist
from bowlbook.figures.use import use_of
from bowlbook.figures.verdict import Practice, consult, lightening_answers, toners_at, toning_answers
from bowlbook.pages.address import entry_address, relative
from bowlbook.pages.link_list import LinkItem, link_to
from bowlbook.wording.reason import label, mixed_with, reasons_of
from bowlbook.wording.verdict import Answered, answered, visit_sentence

MOST_ANSWERS = 20
"""How many answers and refusals of a kind a page shows."""
OPEN = 4
"""How many answers of a kind stand open; the others are in a fold."""


class AnswerItem(NamedTuple):
    """One answer or refusal with its sentences; an answer also has what to mix it with, and cautions."""

    name: str
    href: str
    mixed: str
    cautions: tuple[str, ...]
    sentences: tuple[str, ...]
    ask: tuple[str, ...]
    instead: LinkItem | None


class AnswerGroup(NamedTuple):
    """The answers and refusals of one kind; ``said``: sentences that are true of each answer; ``more``: how
    many further ones are not shown."""

    title: str
    anchor: str
    said: tuple[str, ...]
    suits: list[AnswerItem]
    refused: list[AnswerItem]
    more: int

    @property
    def open(self) -> list[AnswerItem]:
        """The answers that stand open."""
        return self.suits[:OPEN]

    @property
    def folded(self) -> list[AnswerItem]:
        """The answers in a fold."""
        return self.suits[OPEN:]


GROUPS = (("Blends with their technique", "pairs"), ("Further techniques", "techniques"))
TONERS = ("blend", "Toners", "toners")


def answer_item(book: Book, verdict: Verdict, found: Shortlist, start: str) -> AnswerItem:
    """A verdict as a page at ``start`` shows it."""
    candidate = verdict.candidate
    reasons = reasons_of(verdict, found.head, found)
    kind = "technique" if candidate.kind == "technique" else "blend"
    use = use_of(book, candidate, found.head) if verdict.suits else None
    instead = None
    if reasons.instead is not None and not verdict.suits:
        other, entry_id = reasons.instead
        instead = link_to(other, book.of_kind(other)[entry_id], start)
    return AnswerItem(
        label(book, verdict),
        relative(entry_address(kind, candidate.id), start),
        mixed_with(use) if use else "",
        use.cautions if use else (),
        reasons.why if verdict.suits else reasons.why_not,
        reasons.ask if verdict.suits else (),
        instead,
    )


def groups_of(
    book: Book, lightening: Shortlist | None, toning: Shortlist | None, start: str, most: int
) -> list[AnswerGroup]:
    """What suits and what does not, best first, each recipe once: a blend with the technique that suits best,
    or alone; then the techniques that no blend was named with; then toners."""
    groups = []
    if lightening is not None:
        blends = _each_once(lightening, most)
        named = {each.candidate.within for each in blends.verdicts}
        further = lightening.suiting("technique", most + len(named))
        techniques = [each for each in further.verdicts if each.candidate.id not in named][:most]
        left = len(further.verdicts) + further.more - len(techniques) - len(named - {None})
        rows = (("blend", blends), ("technique", Few(tuple(techniques), max(0, left))))
        for (title, anchor), (kind, suits) in zip(GROUPS, rows, strict=True):
            groups.append(_group(book, lightening, title, anchor, suits, kind, start, most))
    if toning is not None:
        kind, title, anchor = TONERS
        groups.append(_group(book, toning, title, anchor, toning.suiting(kind, most), kind, start, most))
    return groups


PAIRS_A_BLEND = 6
"""How many techniques of a blend are looked through, on average, for its best one."""


def _each_once(found: Shortlist, most: int) -> Few:
    """The first blends that suit, each once: as its best pair, else alone; best first."""
    best: dict[str, Verdict] = {}
    pairs, alone = found.suiting("pair", most * PAIRS_A_BLEND), found.suiting("blend", most)
    for each in (*pairs.verdicts, *alone.verdicts):
        best.setdefault(each.candidate.id, each)
    first = tuple(best.values())[:most]
    return Few(first, max(0, len(alone.verdicts) + alone.more - len(first)))


def _group(
    book: Book, found: Shortlist, title: str, anchor: str, suits: Few, kind: str, start: str, most: int
) -> AnswerGroup:
    refused = found.refused(kind, most)
    answers = [answer_item(book, each, found, start) for each in suits.verdicts]
    said = tuple(
        sentence
        for sentence in (answers[0].sentences if answers[1:] else ())
        if all(sentence in each.sentences for each in answers)
    )
    shown = [each._replace(sentences=tuple(s for s in each.sentences if s not in said)) for each in answers]
    against = [answer_item(book, each, found, start) for each in refused.verdicts]
    return AnswerGroup(title, anchor, said, shown, against, suits.more + refused.more)


def each_caution_once(groups: list[AnswerGroup]) -> None:
    """Shorten a caution that stands in full above, in an open answer: it then says what it is about."""
    read: set[str] = set()
    for group in groups:
        for place, each in enumerate(group.suits):
            cautions = tuple(_as_above(caution) if caution in read else caution for caution in each.cautions)
            group.suits[place] = each._replace(cautions=cautions)
            if place < OPEN:
                read.update(each.cautions)


def _as_above(caution: str) -> str:
    """``Warm foils keep lifting. Mist at once.`` as ``Warm foils keep lifting: as above.``"""
    begins = re.match(r"(.+?)[.:;] \S", caution)
    return f"{begins[1]}: as above." if begins else caution


class Asked(NamedTuple):
    """What a page about many heads says to them: first the verdict, then what suits and what does not."""

    said: Head
    answered: Answered | None
    groups: list[AnswerGroup]


def asked_of(book: Book, practice: Practice, head: Head, start: str, most: int = MOST_ANSWERS) -> Asked:
    """The verdict and the answers for a set of heads, as a page at ``start`` shows them."""
    found = consult(practice, head, one_head=False)
    visits = [
        visit_sentence(each, number, [toner.name for toner in toners_at(practice, each.to, head[TONE])])
        for number, each in enumerate(found.visits)
    ]
    lightening, toning = found.lightening, found.toning
    groups = groups_of(
        book,
        lightening_answers(practice, lightening, one_head=False) if lightening else None,
        toning_answers(practice, toning) if toning else None,
        start,
        most,
    )
    each_caution_once(groups)
    return Asked(found.said, answered(found, consult(practice, head), visits), groups)
