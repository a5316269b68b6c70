"""Class notes as the educator reads them: outcomes, timed outline, demonstrations and handout."""

from fractions import Fraction

from bowlbook.book.book import Book
from bowlbook.book.current import is_retired
from bowlbook.entries.class_notes import ClassNotes, Demonstration
from bowlbook.figures.kit import KitPlan
from bowlbook.figures.timetable import starts_of
from bowlbook.pages.address import entry_address, relative
from bowlbook.pages.cards.deck import class_deck, class_deck_address
from bowlbook.pages.closing import closing_of
from bowlbook.pages.free_text import free_text
from bowlbook.pages.kit_table import kit_rows, kit_table, most_learners, planned_kit
from bowlbook.pages.link_list import LinkItem, link_to
from bowlbook.pages.page import Page
from bowlbook.pages.picture import shown_pictures
from bowlbook.pages.placement import named_drawings
from bowlbook.pages.render import render
from bowlbook.pages.search_words import search_entry
from bowlbook.pages.try_page import ADDRESS as TRY
from bowlbook.pages.try_page import try_for
from bowlbook.reading.amount import counted, plain
from bowlbook.wording.facet import facet_sentence
from bowlbook.wording.locale_format import LocaleFormat


def class_page(book: Book, notes: ClassNotes, formats: LocaleFormat) -> Page:
    """The finished page of class notes."""
    address = entry_address("class", notes.id)
    starts = starts_of(notes)
    outline = []
    # One start more than there are stretches: the last is the end of the class.
    for start, item in zip(starts, notes.outline, strict=False):
        shown = link_to("technique", book.techniques[item.technique], address) if item.technique else None
        outline.append((_clock(start), item.what, plain(item.minutes), shown))
    found = planned_kit(book, notes)
    planned = found if isinstance(found, KitPlan) else None
    body = render(
        "class_notes.html",
        address,
        notes=notes,
        facts=[("Learners", str(notes.learners)), ("Lasts", counted(notes.duration, "minute"))],
        outline=outline,
        ends=_clock(starts[-1]),
        in_all=plain(starts[-1]),
        demonstrations=_demonstrations(book, notes, address),
        kit=kit_table(planned, notes.learners, formats) if planned else None,
        no_kit=found if isinstance(found, str) else None,
        kit_rows=kit_rows(planned, formats) if planned else [],
        most=most_learners(notes),
        handout_href=relative(handout_address(notes), address),
        deck=relative(class_deck_address(notes), address) if class_deck(book, notes).entries else None,
        handout=free_text(notes.handout),
        heads=_heads_to_make_for(book, notes, address),
        **shown_pictures(book, notes, address),
        **closing_of(book, notes, formats),
    )
    lead = notes.summary or notes.outcomes[0]
    return Page(address, notes.name, lead, body, search=search_entry(book, "class", notes))


def handout_address(notes: ClassNotes) -> str:
    """The address of a class's handout."""
    return f"{entry_address('class', notes.id)}handout/"


def handout_page(book: Book, notes: ClassNotes) -> Page:
    """What the learners take home: outcomes, the text, the techniques. No prices and no team notes."""
    address = handout_address(notes)
    body = render(
        "handout.html",
        address,
        notes=notes,
        handout=free_text(notes.handout),
        demonstrations=[
            (link, [drawing for _, drawing in named_drawings(book.techniques[each.technique].drawings)])
            for link, each in zip(_demonstrations(book, notes, address), notes.demonstrations, strict=True)
        ],
        pictures=shown_pictures(book, notes, address)["pictures"],
    )
    summary = notes.summary or notes.outcomes[0]
    return Page(address, f"Handout: {notes.name}", summary, body)


def _demonstrations(book: Book, notes: ClassNotes, start: str) -> list[LinkItem]:
    return [
        link_to("technique", book.techniques[each.technique], start, _heads(book, each))
        for each in notes.demonstrations
    ]


def _heads_to_make_for(book: Book, notes: ClassNotes, start: str) -> list[LinkItem]:
    """Heads that a learner can make a blend for: those that take a technique of the class; else any head."""
    users = [
        user for each in notes.demonstrations for user in book.used_by.get(("technique", each.technique), ())
    ]
    named = (book.situations[entry_id] for kind, entry_id in dict.fromkeys(users) if kind == "situation")
    heads = [each for each in named if not is_retired(each)]
    found = [LinkItem(each.name, try_for(each.hair, start), facet_sentence(each.hair)) for each in heads]
    return found or [LinkItem("Any head", relative(TRY, start))]


def _heads(book: Book, each: Demonstration) -> str:
    phrases = []
    if each.heads:
        phrases.append(counted(each.heads, "head"))
    if each.learners_per_head:
        many = counted(each.learners_per_head, "learner")
        one = "each learner" if each.learners_per_head == 1 else f"every {many}"
        phrases.append(f"{'and one' if phrases else 'one head'} for {one}")
    if each.shares_heads_with:
        shared = f"the practice heads of {book.techniques[each.shares_heads_with].name}"
        phrases.append(f"and {shared}" if phrases else shared)
    return " ".join(phrases) + (f": {each.on}" if each.on else "")


def _clock(minutes: Fraction) -> str:
    hours, rest = divmod(int(minutes), 60)
    return f"{hours}:{rest:02d}"
