"""A house reads weights in the units that it has batch sizes in: on pages, in the kit and in the order."""

import re
from html import unescape
from pathlib import Path

import pytest

from bowlbook.book.read_book import read_book
from bowlbook.cache.cache import Cache
from bowlbook.figures.unit import weight_text
from bowlbook.pages.all_pages import makers_of
from bowlbook.site.book_pages import PageHead, pages_of
from checks.small_book import BLEND_FILE, HOUSE_FILE, SmallBook
from commands.run import run
from seeds import rows_with_long

BOTH = "batches: {oz: [1, 2], g: [20, 40]}\nscale_step: {oz: 0.05, g: 1}"
ONLY = {
    "oz": "batches: {oz: [1, 2]}\nscale_step: {oz: 0.05}",
    "g": "batches: {g: [20, 40]}\nscale_step: {g: 1}",
}
READ = {
    "g": re.compile(r"\b(?:grams?|k?g)\b(?!/mL)"),  # a density is in grams everywhere
    "oz": re.compile(r"\b(?:ounces?|oz)\b"),
}
HIDDEN = re.compile(r"<script.*?</script>|<style.*?</style>|<(?!input|label|section)[^>]*>", re.S)


def in_ounces(grams: re.Match[str]) -> str:
    return f"{int(grams[1]) / 28:.2f} oz"


def book_in(folder: Path, unit: str) -> SmallBook:
    """The small book in one unit: what somebody has written in grams is written in ounces for ounces."""
    book = SmallBook(folder)
    book.edit(HOUSE_FILE, BOTH, ONLY[unit])
    for path in folder.rglob("*.yml") if unit == "oz" else ():
        path.write_text(re.sub(r"\b([0-9]+) g\b(?!/)", in_ounces, path.read_text()))
    return book


@pytest.mark.parametrize(("unit", "other"), rows_with_long([("g", "oz")], [("oz", "g")]))
def test_no_page_says_another_unit(tmp_path: Path, unit: str, other: str) -> None:
    book = read_book(book_in(tmp_path / "recipes", unit).root).book
    assert book is not None
    found = {}
    for made in pages_of(Cache(), book, "team", makers_of(book)):
        if not isinstance(made.head, PageHead) or made.head.address.startswith("reference/"):
            continue
        text = unescape(HIDDEN.sub(" ", made.content.decode()))
        assert READ[unit].search(text) or not re.search(r"blends/[^/]+/$", made.head.address)
        if READ[other].search(text):
            found[made.head.address] = READ[other].findall(text)
    assert found == {}


def test_kit_order_and_question_are_in_ounces(tmp_path: Path) -> None:
    root = book_in(tmp_path / "recipes", "oz").root
    blend = Path(BLEND_FILE).stem
    said = [
        run(*words, recipes=root).stdout
        for words in (
            ("kit", "first-painting"),
            ("order", "--heads", "painting=40"),
            ("order", "--heads", "painting=40", "--csv"),
            ("mix", blend, "--batch", "40oz"),
        )
    ]
    assert all(" oz" in each and not READ["g"].search(each) for each in said), said
    assert "Really 40 oz of lightener? One bowl holds 17.64 oz at most." in said[-1]


def test_the_text_of_a_weight(tmp_path: Path) -> None:
    """28.349523125 g are an ounce (NIST Handbook 44, Appendix C): 100 g are 3.527 oz."""
    for unit, text in (("oz", "3.53 oz"), ("g", "100 g")):
        book = read_book(book_in(tmp_path / unit, unit).root).book
        assert book is not None and weight_text(book.house, 100, 0) == text
