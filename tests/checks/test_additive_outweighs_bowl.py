"""additive-outweighs-bowl: an additive of which there would be more than of lightener and developer together.

Both ways of writing a share, and equal weights of bleach mix and shampoo as the most: common practice, no
published source.
"""

import pytest

from checks.small_book import BLEND_FILE, SmallBook

BOND = "name: Bond drops\nkind: additive\ndoes: Mends bonds.\n"
PEARL = "name: Pearl\nkind: toner\nform: gel\ntone: [cool]\nmixing_ratio: {usual: 1:2}\n"
ASKED = "«additive-outweighs-bowl?»"


def add(book: SmallBook, ratio: str, dose: str = "") -> None:
    """The small book's blend of 1:2 with an additive."""
    book.write("products/bond.yml", BOND + (f"dose: {dose}\n" if dose else ""))
    book.add(BLEND_FILE, f"additives: [{{product: bond, ratio: {ratio}}}]\n")


@pytest.mark.parametrize("ratio", ["1:20", "2:40", "1:8", "1:3.01"])
@pytest.mark.parametrize("dose", ["", "1:20"])
def test_more_than_the_rest_of_the_bowl_whatever_the_dose(book: SmallBook, ratio: str, dose: str) -> None:
    add(book, ASKED + ratio, dose)
    book.shows(findings=1)


def test_as_much_as_the_rest_of_the_bowl_passes(book: SmallBook) -> None:
    add(book, "1:3")
    book.shows(findings=0)


def test_what_is_over_the_dose_is_said_once(book: SmallBook) -> None:
    add(book, "«additive-over-dose»1:20", "20:1")
    book.shows(findings=1)


@pytest.mark.parametrize(("dose", "asked"), [("", ASKED), ("1:10", "")])
def test_a_toning_bowl_is_thinned_as_far_as_the_dose_says(book: SmallBook, dose: str, asked: str) -> None:
    add(book, f"{asked}1:10", dose)
    book.write("products/pearl.yml", PEARL)
    text = book.texts[BLEND_FILE]
    start = text.index("lighteners:")
    text = text[:start] + "toners: [{product: pearl, parts: 1}]\n" + text[text.index("developer:") :]
    book.write(BLEND_FILE, text.replace("  lift: 1-3\n", ""))
    codes = {each.code for each in book.judged()} - {"unused-entry"}  # both lighteners are left over
    assert codes == ({"additive-outweighs-bowl"} if asked else set())
