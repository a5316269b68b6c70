"""no-time-on-scalp: a technique on the scalp without a limit, or without the minutes that applying takes."""

from checks.small_book import CLAY_FILE, HOUSE_FILE, TECHNIQUE_FILE, SmallBook
from checks.test_too_long_on_hair import regrowth


def test_nobody_says_how_long_it_may_stay(book: SmallBook) -> None:
    regrowth(book, 12, "2 minutes", 20)
    book.shows(findings=0)
    book.edit(HOUSE_FILE, "longest_on_scalp: 60 minutes\n", "")
    book.edit(TECHNIQUE_FILE, "placement: on-scalp", "placement: «no-time-on-scalp?»on-scalp")
    found = book.shows(findings=1)
    assert "nothing says how long" in found[0].message


def test_the_maker_says_how_long_it_may_stay(book: SmallBook) -> None:
    regrowth(book, 12, "2 minutes", 20)
    book.edit(HOUSE_FILE, "longest_on_scalp: 60 minutes\n", "")
    book.add(CLAY_FILE, "longest_on_scalp: 50 minutes\n")
    book.shows(findings=0)


def test_off_the_scalp_nothing_is_asked(book: SmallBook) -> None:
    book.edit(HOUSE_FILE, "longest_on_scalp: 60 minutes\n", "")
    book.edit(TECHNIQUE_FILE, "    minutes_per_section: 2 minutes\n", "")
    book.shows(findings=0)
