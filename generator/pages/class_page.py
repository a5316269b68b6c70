"""Class notes as the educator reads them: outcomes, timed outline, demonstrations and handout."""

from dataclasses import dataclass
from fractions import Fraction

from generator.book.book import Book
from generator.entries.class_notes import ClassNotes
from generator.figures.outline import starts_of
from generator.pages.address import entry_address
from generator.pages.caution import USUAL_CAUTIONS
from generator.pages.free_text import free_text
from generator.pages.link_list import LinkItem, link_to
from generator.pages.page import Heading, Page
from generator.pages.render import render
from generator.pages.search_words import search_entry
from generator.pages.stamp import closing_of
from generator.pages.wording import Wording
from generator.reading.amount import plain


@dataclass(frozen=True, slots=True)
class OutlineRow:
    """One stretch of the class with the time at which it begins."""

    start: str
    what: str
    minutes: str
    technique: LinkItem | None


def class_page(book: Book, notes: ClassNotes, wording: Wording) -> Page:
    """The finished page of class notes."""
    address = entry_address("class", notes.id)
    starts = starts_of(notes)
    outline = [
        OutlineRow(
            _clock(start),
            item.what,
            plain(item.minutes),
            link_to("technique", book.techniques[item.technique], address) if item.technique else None,
        )
        for start, item in zip(starts, notes.outline, strict=False)
    ]
    demonstrations = [
        link_to(
            "technique",
            book.techniques[each.technique],
            address,
            f"{each.heads} {'head' if each.heads == 1 else 'heads'}" + (f": {each.on}" if each.on else ""),
        )
        for each in notes.demonstrations
    ]
    body = render(
        "class_notes.html",
        address,
        notes=notes,
        facts=[("Learners", str(notes.learners)), ("Lasts", f"{plain(notes.duration)} minutes")],
        outline=outline,
        ends=_clock(starts[-1]),
        in_all=plain(starts[-1]),
        demonstrations=demonstrations,
        handout=free_text(notes.handout),
        usual=USUAL_CAUTIONS,
        **closing_of(book, notes, wording),
    )
    headings = [Heading("outcomes", "Afterwards a learner can"), Heading("outline", "Outline")]
    headings += [Heading("demonstrations", "Shown and practised")] if demonstrations else []
    headings += [Heading("handout", "Handout"), Heading("cautions", "Cautions")]
    return Page(
        address,
        notes.name,
        notes.summary or notes.outcomes[0],
        body,
        tuple(headings),
        search_entry(book, "class", notes),
    )


def _clock(minutes: Fraction) -> str:
    hours, rest = divmod(int(minutes), 60)
    return f"{hours}:{rest:02d}"
