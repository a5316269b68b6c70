"""Pages by hair situation: one for every value of every facet, with what suits it and what does not."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import islice

from bowlbook.book.book import Book
from bowlbook.book.current import current
from bowlbook.entries.facets import FACETS
from bowlbook.figures.head import DOMAINS, TONE, Head, bits_of, head_of, head_with
from bowlbook.figures.head_sets import HeadSets, head_sets
from bowlbook.figures.match import Verdict
from bowlbook.figures.shortlist import Few, Shortlist
from bowlbook.figures.tally import places_of
from bowlbook.figures.use import use_of
from bowlbook.figures.verdict import Practice, consult, lightening_answers, toners_at, toning_answers
from bowlbook.pages.address import entry_address, relative
from bowlbook.pages.link_list import LinkGroup, LinkItem, link_to
from bowlbook.pages.page import Heading, Page, SearchEntry
from bowlbook.pages.pagination import paginate, render_pages
from bowlbook.pages.render import render
from bowlbook.reading.amount import Span, counted
from bowlbook.wording.facet import FACET_NAMES
from bowlbook.wording.reason import label, pigment_sentences, reasons_of
from bowlbook.wording.use import mixed_with
from bowlbook.wording.verdict import Answered, answered, visit_sentence

MOST_ANSWERS = 20
"""How many answers and refusals of a kind a page shows."""

SLUGS = {"natural_level": "natural-level", "target_level": "lifted-to-level", "lift": "levels-of-lift"}


@dataclass(frozen=True, slots=True)
class FacetValue:
    """A value of a facet, or a band of levels, with the address and title of its page."""

    facet: str
    bits: int
    address: str
    title: str


def _title(facet: str, value: int | str) -> str:
    if facet == "natural_level":
        return f"Natural level {value}"
    if facet == "target_level":
        return f"Target level {value}"
    if facet == "lift":
        return f"{counted(int(value), 'level')} of lift"
    text = str(value)
    noun = {"density": " density", "porosity": " porosity", "placement": " placement", "tone": " tone"}
    if facet == "grey":
        return {"none": "No grey hair", "all": "All of it grey"}.get(text, f"{text} of it grey".capitalize())
    if text in ("henna", "metallic dye", "pool water"):
        return f"Hair with {text}"
    hair = " hair" if facet in ("texture", "curl", "condition", "history") else noun.get(facet, "")
    return (text + hair).capitalize()


def _values() -> tuple[FacetValue, ...]:
    # A value's bit is its place in the facet's domain, as `figures.head` counts them.
    found = []
    for facet in FACETS:
        for place, value in enumerate(DOMAINS[facet]):
            title = _title(facet, value)
            slug = SLUGS.get(facet)
            name = f"{slug}-{value}" if slug else title.lower().replace(" ", "-")
            found.append(FacetValue(facet, 1 << place, f"heads/{name}/", title))
    # A colourist often knows only the band, before a level is settled.
    bands = (
        ("level-4-and-darker", "Level 4 and darker", Span(1, 4)),
        ("level-5-and-6", "Levels 5 and 6", Span(5, 6)),
        ("level-7-and-lighter", "Level 7 and lighter", Span(7, 10)),
    )
    for name, title, span in bands:
        found.append(FacetValue("natural_level", bits_of("natural_level", span), f"heads/{name}/", title))
    return tuple(found)


FACET_VALUES = _values()
"""Every value that has a page, in the order of a consultation, bands of levels last."""


@dataclass(frozen=True, slots=True)
class AnswerItem:
    """One answer or refusal with its sentences; an answer also has what to mix it with, and cautions."""

    name: str
    href: str
    mixed: str
    cautions: tuple[str, ...]
    sentences: tuple[str, ...]
    ask: tuple[str, ...]
    instead: LinkItem | None


@dataclass(frozen=True, slots=True)
class AnswerGroup:
    """The answers and refusals of one kind; ``more``: how many further ones are not shown."""

    title: str
    anchor: str
    suits: list[AnswerItem]
    refused: list[AnswerItem]
    more: int


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
    book: Book, lightening: Shortlist | None, toning: Shortlist | None, start: str, most: int = MOST_ANSWERS
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
    for each in found.suiting("pair", most * PAIRS_A_BLEND).verdicts:
        best.setdefault(each.candidate.id, each)
    alone = found.suiting("blend", most)
    for each in alone.verdicts:
        best.setdefault(each.candidate.id, each)
    first = tuple(best.values())[:most]
    return Few(first, max(0, len(alone.verdicts) + alone.more - len(first)))


def _group(
    book: Book, found: Shortlist, title: str, anchor: str, suits: Few, kind: str, start: str, most: int
) -> AnswerGroup:
    refused = found.refused(kind, most)
    return AnswerGroup(
        title,
        anchor,
        [answer_item(book, each, found, start) for each in suits.verdicts],
        [answer_item(book, each, found, start) for each in refused.verdicts],
        suits.more + refused.more,
    )


@dataclass(frozen=True, slots=True)
class Asked:
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
    return Asked(found.said, answered(found, consult(practice, head), visits), groups)


@dataclass(frozen=True, slots=True)
class SituationIndex:
    """A book's situations by name, and the set of heads that each describes, for finding similar ones.

    ``situations``: id, name and summary of each.
    """

    situations: tuple[tuple[str, str, str | None], ...]
    sets: HeadSets

    def matching(self, head: Head, most: int) -> list[tuple[str, str, str | None]]:
        """The first ``most`` situations that overlap with ``head`` in every facet that it gives."""
        found = self.sets.every
        for place, asked in enumerate(head):
            if asked:
                found &= self.sets.with_any(place, asked)
        return [self.situations[place] for place in islice(places_of(found), most)]


def situation_index(book: Book) -> SituationIndex:
    """The situations of a book, indexed once for all pages of facet values."""
    found = sorted(current(book.situations).values(), key=lambda each: (each.name.casefold(), each.id))
    return SituationIndex(
        tuple((each.id, each.name, each.summary) for each in found),
        head_sets([head_of(each.hair) for each in found]),
    )


STATE_OR_WISH = {
    "natural_level": "The level that hair has by nature, before anything is done.",
    "target_level": "A wish: hair that is to be lifted to this level. What it shows now is its natural "
    "level, or the level that an earlier lift left.",
    "lift": "A wish: how many levels lighter than it is now.",
    "tone": "A wish: the tone in the end.",
}
"""What a level or tone on a page means, where it could be the hair's state or a wish."""


def facet_page(book: Book, practice: Practice, situations: SituationIndex, value: FacetValue) -> Page:
    """The page of one facet value."""
    head = head_with(**{value.facet: value.bits})
    similar = [
        LinkItem(name, relative(entry_address("situation", entry_id), value.address), summary)
        for entry_id, name, summary in situations.matching(head, MOST_ANSWERS)
    ]
    siblings = [
        LinkItem(each.title, relative(each.address, value.address))
        for each in FACET_VALUES
        if each.facet == value.facet and each.address != value.address
    ]
    asked = asked_of(book, practice, head, value.address)
    body = render(
        "facet.html",
        value.address,
        title=value.title,
        meaning=STATE_OR_WISH.get(value.facet),
        pigment=pigment_sentences(head),
        answered=asked.answered,
        groups=asked.groups,
        situations=similar,
        siblings=siblings,
        pick=relative("pick/", value.address),
    )
    headings = [Heading("heads", "Heads like this")] if similar else []
    headings += [Heading(each.anchor, each.title) for each in asked.groups]
    headings += [Heading("siblings", "Instead of this"), Heading("cautions", "Cautions")]
    return Page(
        value.address,
        value.title,
        f"What this book mixes and does for {value.title[0].lower()}{value.title[1:]}, and what not.",
        body,
        tuple(headings),
        SearchEntry(value.title, "", "By kind of hair"),
    )


def facet_links(head: Head, start: str) -> list[tuple[str, list[LinkItem]]]:
    """The facets that a head gives, by name, each value a link to its page."""
    rows = []
    for name, bits in zip(FACETS, head, strict=False):
        links = [
            LinkItem(_short(value), relative(value.address, start))
            for value in FACET_VALUES
            if bits and value.facet == name and value.bits.bit_count() == 1 and value.bits & bits
        ]
        if links:
            rows.append((FACET_NAMES[name], links))
    return rows


def _short(value: FacetValue) -> str:
    return str(DOMAINS[value.facet][value.bits.bit_length() - 1])


def heads_pages(book: Book) -> Iterator[Page]:
    """The list of every facet value."""
    address = "heads/"
    groups = [
        LinkGroup(
            FACET_NAMES[name],
            name.replace("_", "-"),
            tuple(
                LinkItem(value.title, relative(value.address, address))
                for value in FACET_VALUES
                if value.facet == name
            ),
        )
        for name in FACETS
    ]
    lead = "What suits each kind of hair and each wish, one at a time, and what does not."
    return render_pages("index.html", paginate(address, groups), "By kind of hair", lead)
