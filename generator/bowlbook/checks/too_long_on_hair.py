"""A technique, as written, leaves something on hair or scalp longer than its maker or the house allows.

Why: lightener that stays too long breaks hair and burns skin, and the first section waits while the last is
applied.
Source: the product's own `longest_on_hair` and `longest_on_scalp`, from its maker; the house's own
`longest_on_scalp`. How the time is counted: `pages/manual/services.md`, common practice, no published
source.
Wrong: 32 sections of one minute, then 45 minutes of processing from the last section, on the scalp, with
a lightener whose maker allows 50 there: the first parting can sit for 77.
Right: two people (`hands: 2`) and 30 minutes of processing: 46 in all. Or processing that counts from the
first section, where the last ones still get enough of it.
"""

from collections.abc import Iterator
from datetime import date

from bowlbook.book.book import Book
from bowlbook.entries.technique import Technique
from bowlbook.figures.time_on_hair import time_on_hair
from bowlbook.figures.too_long import allowed, stay
from bowlbook.reading.finding import Finding

KINDS = ("technique",)


def find(book: Book, technique: Technique, today: date) -> Iterator[Finding]:
    """Findings at the processing time, for the head that the technique was measured on."""
    time = time_on_hair(book, technique)
    if time.over and time.limit:
        message = f"{stay(time)}; {allowed(time.limit)}."
        mend = "Shorten it, take fewer or quicker sections, or write hands: 2 where two people apply."
    elif time.no_time_for_the_last:
        message = f"{stay(time)}: the first section is due before the last has had its time."
        mend = "Take fewer or quicker sections, or hands: 2; or count from each section, or from the last."
    else:
        return
    yield technique.source.objection(("processing", "minutes"), message, mend)
