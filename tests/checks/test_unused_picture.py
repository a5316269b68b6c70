"""unused-picture: a picture in the folder that no entry shows."""

from checks.small_book import TECHNIQUE_FILE, SmallBook
from photographs import write_photograph


def test_one_that_a_broken_entry_may_show(book: SmallBook) -> None:
    write_photograph(book.root, "back.jpg")
    book.add(TECHNIQUE_FILE, "placement: «unknown-word»somewhere\n")
    book.shows(findings=1)
