"""A word that the house taught search means something that is nowhere in the book.

Why: who types it finds nothing, or what was meant second, and nobody notices.
Source: none needed; words of names, summaries, kinds and hair, and those of the trade's own list, are known.
Wrong: `words: [{typed: [the works], means: [fine waeves]}]`.
Right: the book's own words, as they stand in a name: `means: [fine weaves]`.
"""

from collections.abc import Iterator
from datetime import date

from bowlbook.book.book import Book
from bowlbook.entries.facets import FACETS
from bowlbook.entries.product import FORMS, PIGMENTS, PRODUCT_KINDS, STRENGTHS
from bowlbook.entries.trade_word import trade_words
from bowlbook.figures.head import DOMAINS
from bowlbook.reading.finding import Finding
from bowlbook.reading.nearest import did_you_mean
from bowlbook.reading.search_word import words_of

NOWHERE = "is in no name, summary or hair of this book."
MEND = "Use words of an entry's name, of hair or of a kind."


def find(book: Book, today: date) -> Iterator[Finding]:
    """Warnings at the meaning."""
    if not book.house.words or not book.whole:
        return
    known = _known(book)
    for place, each in enumerate(book.house.words):
        for at, meaning in enumerate(each.means):
            missing = [word for word in words_of(meaning) if word not in known and not word[0].isdecimal()]
            for word in missing[:1]:
                yield book.house.source.objection(
                    ("words", place, "means", at),
                    f'"{word}" {NOWHERE}',
                    did_you_mean(word, known) or MEND,
                    severity="warning",
                    unquoted=(f"One of these words {NOWHERE}", MEND),
                )


def _known(book: Book) -> set[str]:
    """The words that search can find entries by."""
    texts = [*FORMS, *PRODUCT_KINDS, *PIGMENTS, *STRENGTHS]
    texts += [str(value) for name in FACETS for value in DOMAINS[name]]
    texts += [meaning for each in trade_words().words for meaning in each.means]
    for _, entry in book.entries():
        texts += [getattr(entry, "name", ""), getattr(entry, "summary", None) or ""]
        texts += getattr(entry, "other_names", ())
    return {word for text in texts for word in words_of(text)}
