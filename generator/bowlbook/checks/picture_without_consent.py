"""A picture shows somebody who can be recognised, and does not say that the person agreed.

Why: a picture of a person is that person's, and who opens the book later cannot know what was agreed.
Agreeing that the team sees it is not agreeing that everybody does.
Source: common practice, no published source; what the law asks is for local rules.
Wrong: `person: yes` without `consent: yes`.
Right: a written consent, kept elsewhere, and `consent: yes`; or a picture from behind, and `person: no`.
"""

from collections.abc import Iterator
from datetime import date
from typing import Any

from bowlbook.book.book import Book
from bowlbook.entries.picture import pictures_in
from bowlbook.reading.finding import Finding

KINDS = ("product", "technique", "situation", "class")
RETIRED_TOO = True


def find(book: Book, entry: Any, today: date) -> Iterator[Finding]:
    """A finding at what says that a person is seen."""
    for loc, picture in pictures_in(entry):
        if picture.person and not picture.consent:
            message = "Somebody can be recognised on this picture, and nothing says that the person agreed."
            mend = "Ask for it in writing and add consent: yes, or show the hair only."
            yield entry.source.objection((*loc, "person"), message, mend)
