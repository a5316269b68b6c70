"""An entry's review stamp, with its dates in the house's language."""

from typing import NamedTuple

from bowlbook.book.book import Book
from bowlbook.entries.entry import Entry
from bowlbook.entries.review import review_due
from bowlbook.wording.locale_format import LocaleFormat


class ReviewStamp(NamedTuple):
    """When an entry was last reviewed, who did it, and by when it is due again."""

    day: str
    by: str
    due: str
    change: str | None


def review_stamp(book: Book, entry: Entry, formats: LocaleFormat) -> ReviewStamp | None:
    """An entry's stamp; None where it was never reviewed."""
    reviewed = getattr(entry, "reviewed", None)
    due = review_due(reviewed.on if reviewed else None, book.house.review_after)
    if reviewed is None or due is None:
        return None
    return ReviewStamp(formats.day(reviewed.on), reviewed.by, formats.day(due), reviewed.change)
