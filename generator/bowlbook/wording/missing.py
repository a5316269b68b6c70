"""Sentences for an id that no entry has, and for a recipe that must not be mixed any more."""

from collections.abc import Iterator, Mapping

from bowlbook.book.book import Book
from bowlbook.book.current import retired_of
from bowlbook.book.lazy_entries import outlines_of
from bowlbook.entries.blend import Blend
from bowlbook.entries.entry import Entry
from bowlbook.entries.technique import Technique
from bowlbook.figures.withdrawn import retired_in
from bowlbook.reading.nearest import did_you_mean
from bowlbook.wording.entry import name_of


def no_such(kind: str, entry_id: str, entries: Mapping[str, Entry]) -> str:
    """That there is no entry of this id; with the id that it has now, or the nearest one."""
    outlines = outlines_of(entries).items()
    now = next((each for each, outline in outlines if entry_id in outline.formerly), None)
    hint = f'Its id is "{now}" now.' if now else did_you_mean(entry_id, entries)
    return f'There {"are" if kind == "class notes" else "is"} no {kind} "{entry_id}". {hint}'.rstrip()


def retired_sentences(book: Book, recipe: Blend | Technique) -> Iterator[str]:
    """A sentence for each retired entry in a recipe, itself included, with its successor's id."""
    for kind, entry_id in retired_in(book, recipe):
        entry = book.of_kind(kind)[entry_id]
        retired = retired_of(entry)
        assert retired is not None
        instead = f' Take "{retired.instead}" instead.' if retired.instead else ""
        said = f"{name_of(entry)} was retired on {retired.on.isoformat()}: do not use it."
        yield f"{said} {retired.because}{instead}"
