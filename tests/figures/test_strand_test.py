"""The bowl of a strand test: 10 g, or the nearest larger size that the scale weighs truly. Worked by hand."""

from contextlib import suppress
from fractions import Fraction

from bowlbook.book.book import Book
from bowlbook.figures.asked_bowl import strand_test_bowl
from bowlbook.figures.bowl import CannotWeigh, mix
from checks.small_book import BLEND_FILE, HOUSE_FILE, SmallBook


def size(book: Book, blend: str) -> tuple[Fraction, str]:
    bowl = strand_test_bowl(book, book.blends[blend])
    assert bowl is not None
    return bowl.batch, bowl.unit


def test_three_to_one_in_whole_grams(book: SmallBook) -> None:
    """10 g is 7.5 and 2.5, read as 8 and 2: off by a fifth. 11 g is 8.25 and 2.75, read as 8 and 3: off by an
    eleventh. 12 g is 9 and 3, exact.
    """
    assert size(book.read(), "soft-clay") == (Fraction(12), "g")


def test_one_lightener_needs_no_more(book: SmallBook) -> None:
    book.edit(BLEND_FILE, "  - {product: powder, parts: 1}\n", "")
    assert size(book.read(), "soft-clay") == (Fraction(10), "g")


def test_a_finer_scale_weighs_ten_grams(book: SmallBook) -> None:
    """On a scale of 0.1 g: 7.5 and 2.5."""
    book.add(HOUSE_FILE, "scale_step: {oz: 0.05, g: 0.1}\n")
    assert size(book.read(), "soft-clay") == (Fraction(10), "g")


def test_a_house_of_ounces(book: SmallBook) -> None:
    """10 g are 0.3527 oz (28.349523125 g each); the next step of 0.05 is 0.40: 0.30 and 0.10, exact."""
    book.add(HOUSE_FILE, "batches: {oz: [1, 2]}\nscale_step: {oz: 0.05}\n")
    assert size(book.read(), "soft-clay") == (Fraction("0.4"), "oz")


def test_every_size_below_it_is_off(demo_book: Book) -> None:
    """Each blend of the demo book: no smaller whole step from 10 g up is within the house's tolerance."""
    step = demo_book.house.scale_step.g
    assert step is not None
    for blend in demo_book.blends.values():
        batch, unit = size(demo_book, blend.id)
        assert unit == "g" and batch >= 10
        smaller = Fraction(10)
        while smaller < batch:
            with suppress(CannotWeigh):
                assert not mix(demo_book, blend, "g", smaller, step).within_tolerance
            smaller += step
        assert mix(demo_book, blend, "g", batch, step).within_tolerance
