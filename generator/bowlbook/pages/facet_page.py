"""Pages by hair situation: one for every value of every facet, with what suits it and what does not."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import islice

from bowlbook.book.book import Book
from bowlbook.entries.facets import FACETS
from bowlbook.entries.situation import Situation
from bowlbook.figures.head import DOMAINS, Head, bits_of, head_of
from bowlbook.figures.head_sets import HeadSets, head_sets
from bowlbook.figures.match import Verdict
from bowlbook.figures.shortlist import Few, Index, Shortlist, shortlist
from bowlbook.figures.tally import places_of
from bowlbook.figures.use import use_of
from bowlbook.pages.address import entry_address, relative
from bowlbook.pages.link_list import LinkGroup, LinkItem, link_to
from bowlbook.pages.page import Heading, Page, SearchEntry
from bowlbook.pages.pagination import paginate, render_pages
from bowlbook.pages.render import render
from bowlbook.pages.search_words import ALSO_CALLED
from bowlbook.reading.amount import Span, counted
from bowlbook.wording.caution import USUAL_CAUTIONS
from bowlbook.wording.developer import mixed_with
from bowlbook.wording.facet import FACET_NAMES
from bowlbook.wording.reason import pigment_sentences, reasons_of

SHOWN = 20
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
    hair = " hair" if facet in ("texture", "curl", "history") else noun.get(facet, "")
    return (text + hair).capitalize()


def _values() -> tuple[FacetValue, ...]:
    found = []
    for facet in FACETS:
        for place, value in enumerate(DOMAINS[facet]):
            title = _title(facet, value)
            slug = SLUGS.get(facet)
            name = f"{slug}-{value}" if slug else title.lower().replace(" ", "-")
            found.append(FacetValue(facet, 1 << place, f"heads/{name}/", title))
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
class Told:
    """One answer or refusal with its sentences; of an answer also what it is mixed with, and its cautions."""

    name: str
    href: str
    mixed: str
    cautions: tuple[str, ...]
    sentences: tuple[str, ...]
    ask: tuple[str, ...]
    instead: LinkItem | None


@dataclass(frozen=True, slots=True)
class ToldGroup:
    """The answers and refusals of one kind; ``more``: how many further ones are not shown."""

    title: str
    anchor: str
    suits: list[Told]
    refused: list[Told]
    more: int


GROUPS = (
    ("pair", "Blends with their technique", "pairs"),
    ("blend", "Blends", "blends"),
    ("technique", "Techniques", "techniques"),
)


def told(book: Book, verdict: Verdict, head: Head, start: str) -> Told:
    """A verdict as a page at ``start`` shows it."""
    candidate = verdict.candidate
    reasons = reasons_of(verdict, head)
    kind = "technique" if candidate.kind == "technique" else "blend"
    name = candidate.name
    if candidate.within is not None:
        name = f"{name}, placed with {book.techniques[candidate.within].name}"
    use = use_of(book, candidate) if verdict.suits else None
    instead = None
    if reasons.instead is not None and not verdict.suits:
        other, entry_id = reasons.instead
        instead = link_to(other, book.of_kind(other)[entry_id], start)
    return Told(
        name,
        relative(entry_address(kind, candidate.id), start),
        mixed_with(use) if use else "",
        use.cautions if use else (),
        reasons.why if verdict.suits else reasons.why_not,
        reasons.ask if verdict.suits else (),
        instead,
    )


def groups_of(book: Book, found: Shortlist | None, start: str, most: int = SHOWN) -> list[ToldGroup]:
    """What suits and what does not, by kind, best first."""
    if found is None:
        return []
    groups = []
    for kind, title, anchor in GROUPS:
        suits = found.suiting(kind, most)
        refused = Few((), 0) if kind == "pair" else found.refused(kind, most)
        groups.append(
            ToldGroup(
                title,
                anchor,
                [told(book, each, found.head, start) for each in suits.verdicts],
                [told(book, each, found.head, start) for each in refused.verdicts],
                suits.more + refused.more,
            )
        )
    return groups


@dataclass(frozen=True, slots=True)
class Heads:
    """A book's situations by name, and the heads they are about."""

    situations: tuple[Situation, ...]
    sets: HeadSets

    def like(self, head: Head, most: int) -> list[Situation]:
        """The first situations that say something of what was asked, in every facet that was."""
        found = self.sets.every
        for place, asked in enumerate(head):
            if asked:
                found &= self.sets.with_any(place, asked)
        return [self.situations[place] for place in islice(places_of(found), most)]


def heads_of(book: Book) -> Heads:
    """The situations of a book, made ready for all pages of facet values."""
    found = sorted(book.situations.values(), key=lambda each: (each.name.casefold(), each.id))
    return Heads(tuple(found), head_sets([head_of(each.hair) for each in found]))


def facet_page(book: Book, index: Index, heads: Heads, value: FacetValue) -> Page:
    """The page of one facet value."""
    head = tuple(value.bits if name == value.facet else 0 for name in FACETS)
    situations = [link_to("situation", each, value.address, each.summary) for each in heads.like(head, SHOWN)]
    siblings = [
        LinkItem(each.title, relative(each.address, value.address))
        for each in FACET_VALUES
        if each.facet == value.facet and each.address != value.address
    ]
    body = render(
        "facet.html",
        value.address,
        title=value.title,
        pigment=pigment_sentences(head),
        groups=groups_of(book, shortlist(index, head), value.address),
        situations=situations,
        siblings=siblings,
        pick=relative("pick/", value.address),
        usual=USUAL_CAUTIONS,
    )
    headings = [Heading("heads", "Heads like this")] if situations else []
    headings += [Heading(anchor, title) for _, title, anchor in GROUPS]
    headings += [Heading("siblings", "Instead of this"), Heading("cautions", "Cautions")]
    words = ", ".join(filter(None, [value.title, ALSO_CALLED.get(value.title.removesuffix(" hair").lower())]))
    return Page(
        value.address,
        value.title,
        f"What this book mixes and does for {value.title[0].lower()}{value.title[1:]}, and what not.",
        body,
        tuple(headings),
        SearchEntry(value.title, f"Hair situation. {words}"),
    )


def facet_links(head: Head, start: str) -> list[tuple[str, list[LinkItem]]]:
    """The facets a set of heads says, by name, each value a link to its page."""
    rows = []
    for name, bits in zip(FACETS, head, strict=True):
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
