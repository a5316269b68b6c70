"""missing-cautions: a recipe whose use needs a caution of its own.

Which uses do is common practice, no published source.
"""

import pytest

from checks.small_book import (
    BLEND_FILE,
    CLAY_FILE,
    DEVELOPER,
    DEVELOPER_FILE,
    POWDER_FILE,
    TECHNIQUE_FILE,
    SmallBook,
)

RISKS = [
    "area: [scalp regrowth]",
    "area: [lengths, hairline]",
    "history: [virgin, previously lightened]",
    "lift: 3-4",
    "lift: 1-7",
]
CAUTION = "cautions: [Check every five minutes.]\n"


def suit(book: SmallBook, path: str, facet: str) -> None:
    if path == BLEND_FILE and facet.startswith("lift"):
        book.edit(path, "lift: 1-3", facet)
    else:
        book.edit(path, "suits:\n", f"suits:\n  {facet}\n")


@pytest.mark.parametrize("path", [BLEND_FILE, TECHNIQUE_FILE])
@pytest.mark.parametrize("facet", RISKS)
def test_a_use_that_needs_one(book: SmallBook, path: str, facet: str) -> None:
    suit(book, path, facet)
    name = book.texts[path].split("\n")[0]
    book.edit(path, name, name.replace("name: ", "name: «missing-cautions»"))
    book.shows(findings=1)
    book.add(path, CAUTION)
    assert book.found() == []


@pytest.mark.parametrize("path", [BLEND_FILE, TECHNIQUE_FILE])
@pytest.mark.parametrize("facet", ["area: [lengths, ends]", "history: [virgin]", "lift: 3"])
def test_a_use_that_needs_none(book: SmallBook, path: str, facet: str) -> None:
    suit(book, path, facet)
    book.shows(findings=0)


@pytest.mark.parametrize(("volume", "needs"), [("29", False), ("30", True), ("40", True)])
def test_30_volume_or_more(book: SmallBook, volume: str, needs: bool) -> None:
    book.edit(DEVELOPER_FILE, "name: Developer 20", "name: Clear developer")
    book.edit(DEVELOPER_FILE, "volume: 20\nperoxide: 6 %", f"volume: {volume}")
    if needs:
        book.edit(BLEND_FILE, "name: ", "name: «missing-cautions»")
        book.edit(TECHNIQUE_FILE, "name: ", "name: «missing-cautions»")
    book.shows(findings=2 if needs else 0)


def test_30_volume_that_may_stand_in(book: SmallBook) -> None:
    book.write("products/developer-30.yml", DEVELOPER.replace("20\n", "30\n").replace("6 %", "9 %"))
    book.edit(BLEND_FILE, "developer-20}", "developer-20, also: [developer-30]}")
    book.edit(BLEND_FILE, "name: ", "name: «missing-cautions»")
    book.shows(findings=1)  # and none for the technique, which mixes it with 20


def test_the_scalp(book: SmallBook) -> None:
    for path in (CLAY_FILE, POWDER_FILE, BLEND_FILE):
        book.edit(path, "placement: [open-air", "placement: [on-scalp, open-air")
    book.edit(BLEND_FILE, "name: ", "name: «missing-cautions»")
    book.edit(TECHNIQUE_FILE, "name: ", "name: «missing-cautions»")
    book.edit(TECHNIQUE_FILE, "placement: open-air", "placement: on-scalp")
    book.shows(findings=2)
    book.add(BLEND_FILE, CAUTION)
    book.add(TECHNIQUE_FILE, CAUTION)
    assert book.found() == []
