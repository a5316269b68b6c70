"""One run reports every mistake that is certain, and none that only follows from another."""

import re
from itertools import product
from pathlib import Path

import pytest

from bowlbook.book.read_book import read_book
from bowlbook.entries.partial import Unread
from checks.small_book import (
    BLEND_FILE,
    CLASS_FILE,
    CLAY_FILE,
    DEVELOPER_FILE,
    FOIL_FILE,
    HOUSE_FILE,
    POWDER_FILE,
    SITUATION_FILE,
    TECHNIQUE_FILE,
    SmallBook,
)

Edit = tuple[str, str, str]

READING: dict[str, Edit] = {
    "unknown key in the blend": (BLEND_FILE, "lighteners:", "colour: white\nlighteners:"),
    "name misspelt in the blend": (BLEND_FILE, "name: Soft", "nme: Soft"),
    "bad parts": (BLEND_FILE, "parts: 3", "parts: half"),
    "bad ratio in the blend": (BLEND_FILE, "ratio: 1:2", "ratio: 1:1,5"),
    "bad word in suits": (BLEND_FILE, "[fine, medium]", "fino"),
    "no such lightener": (BLEND_FILE, "product: powder", "product: pouder"),
    "review stamp misspelt": (BLEND_FILE, "reviewed:", "reveiwed:"),
    "blend cut by a hash": (BLEND_FILE, "name: Soft clay three to one", "name: Soft #3 clay"),
    "blend with a gap": (BLEND_FILE, "lift: 1-3", "lift: ???"),
    "blend that is no YAML": (BLEND_FILE, "name: Soft", "name: [Soft"),
    "bad word in the clay": (CLAY_FILE, "form: clay", "form: clai"),
    "kind of the clay misspelt": (CLAY_FILE, "kind: lightener", "kind: lightner"),
    "bad limit of the clay": (CLAY_FILE, "developer_limit: 40 volume", "developer_limit: 40"),
    "clay that is no YAML": (CLAY_FILE, "name: Plain", "name: [Plain"),
    "bad density": (DEVELOPER_FILE, "density: 1.02 g/mL", "density: 1.02"),
    "bad step of the technique": (TECHNIQUE_FILE, "sections: 12", "sections: twelve"),
    "unknown key in the house": (HOUSE_FILE, "currency: CAD", "curency: CAD\ncurrency: CAD"),
    "bad tolerance": (HOUSE_FILE, "rounding_tolerance: 5 %", "rounding_tolerance: 5"),
    "house that is no YAML": (HOUSE_FILE, "notice: An", "notice: [An"),
}
"""Mistakes that reading or linking finds, one finding each."""

CHECKED: dict[str, Edit] = {
    "ratio out of range": (BLEND_FILE, "ratio: 1:2", "ratio: 1:2.8"),
    "a link": (BLEND_FILE, "reviewed:", "notes: See [this](there).\nreviewed:"),
    "an old review": (BLEND_FILE, "2026-10-02", "2020-10-02"),
    "a price of the future": (POWDER_FILE, "2026-09-01", "2036-09-01"),
    "a stale price": (CLAY_FILE, "2026-09-01", "2020-09-01"),
    "another strength": (DEVELOPER_FILE, "peroxide: 6 %", "peroxide: 9 %"),
    "pieces of powder": (POWDER_FILE, "net: 250 g", "net: 250 pieces"),
    "an outline too short": (CLASS_FILE, "3 hours", "4 hours"),
    "a technique of the future": (TECHNIQUE_FILE, "2026-10-02", "2036-10-02"),
    "a situation gone over too long ago": (SITUATION_FILE, "2026-10-02", "2020-10-02"),
    "no such currency": (HOUSE_FILE, "currency: CAD", "currency: CDA"),
    "foil by weight": (FOIL_FILE, "500 pieces", "100 g"),
}
"""Mistakes that checks find, one finding each."""

HIDDEN = {
    # the value itself, or what it is held against, could not be read
    ("kind of the clay misspelt", "ratio out of range"),
    ("clay that is no YAML", "ratio out of range"),
    ("review stamp misspelt", "an old review"),
    # nothing of the file could be read
    ("blend that is no YAML", "ratio out of range"),
    ("blend that is no YAML", "a link"),
    ("blend that is no YAML", "an old review"),
    ("clay that is no YAML", "a stale price"),
    # the days that a price or a review counts stand in the house
    ("house that is no YAML", "an old review"),
    ("house that is no YAML", "a stale price"),
    ("house that is no YAML", "a situation gone over too long ago"),
    ("house that is no YAML", "no such currency"),
}
"""What cannot be known for certain: because of the first the second is not found."""


def found_with(root: Path, *edits: Edit) -> set[tuple[str, str, str]] | None:
    """Path, code and message of each finding; None where the edits are of one place."""
    book = SmallBook(root)
    for path, old, new in edits:
        if book.texts[path].count(old) != 1:
            return None
        book.edit(path, old, new)
    root_of = str(book.root)
    return {(each.place.path.removeprefix(root_of), each.code, each.message) for each in book.judged()}


@pytest.mark.parametrize("every", [7, pytest.param(1, marks=pytest.mark.long)])
def test_a_mistake_hides_no_other_and_makes_none(tmp_path: Path, every: int) -> None:
    """Every pair of a mistake in reading and one for a check; in the everyday run each seventh of them."""
    alone = {
        name: found_with(tmp_path / "alone" / str(number), edit)
        for number, (name, edit) in enumerate([*READING.items(), *CHECKED.items()])
    }
    for name, found in alone.items():
        assert found is not None and len(found) == 1, (name, found)
    hidden, tried = set(), 0
    pairs = list(product(READING, CHECKED))[::every]
    for number, (one, other) in enumerate(pairs):
        both = found_with(tmp_path / str(number), READING[one], CHECKED[other])
        if both is None:
            continue
        tried += 1
        expected = alone[one] | alone[other]
        assert both <= expected, (one, other, both - expected)
        assert both >= alone[one], (one, other)
        if both != expected:
            hidden.add((one, other))
    assert tried > 200 // every
    assert hidden == HIDDEN & set(pairs)


def test_all_of_the_reading_mistakes_at_once(book: SmallBook) -> None:
    taken = [name for name in READING if not re.search("no YAML|misspelt in|kind of", name)]
    for name in taken:
        book.edit(*READING[name])
    assert len(book.judged()) == len(taken)


def test_wrong_references_of_an_entry_with_an_unknown_key(book: SmallBook) -> None:
    book.edit(BLEND_FILE, "name: Soft", "«unknown-key»colour: white\nname: Soft")
    book.edit(BLEND_FILE, "product: clay", "product: «unknown-id»cley")
    book.edit(
        BLEND_FILE, "product: developer-20", "product: «wrong-kind»foil, also: [«bad-id»A B, «unknown-id»dev]"
    )
    book.shows(findings=5)


def test_an_entry_that_failed_to_read_exists_for_references_to_it(book: SmallBook) -> None:
    book.edit(BLEND_FILE, "ratio: 1:2", "ratio: «bad-amount»2")
    book.edit(CLASS_FILE, "{technique: painting, heads: 1}", "«missing-key»{technique: painting}")
    book.shows(findings=2)


def test_a_circle_that_goes_through_an_entry_with_a_mistake(book: SmallBook) -> None:
    other = book.texts[BLEND_FILE].replace("name: Soft", "nme: Soft").replace("three to one", "again")
    refused = "not_for: [{{when: {{curl: [coily]}}, because: It breaks., instead: {}}}]\n"
    book.add(BLEND_FILE, refused.format("soft-again"))
    book.write("blends/soft-again.yml", other + refused.format("«circular-reference»soft-clay"))
    book.edit("blends/soft-again.yml", "nme: Soft", "«unknown-key»nme: Soft")
    book.shows(findings=2)


def test_an_unknown_key_whose_value_is_cut_is_two_mistakes(book: SmallBook) -> None:
    book.edit(BLEND_FILE, "name: Soft", "«unknown-key»colour: white «cut-by-hash»#5\nname: Soft")
    book.shows(findings=2)


def test_a_product_of_an_unknown_kind_is_looked_at_for_what_all_products_have(book: SmallBook) -> None:
    book.edit(CLAY_FILE, "kind: lightener", "kind: «unknown-word»lightner")
    book.edit(CLAY_FILE, "form: clay", "«unknown-key»colour: white\nform: clay")
    book.edit(CLAY_FILE, "net: 450 g", "net: «bad-amount»450")
    book.shows(findings=3)


def test_what_pages_are_made_from_has_no_entry_with_a_mistake(book: SmallBook) -> None:
    book.edit(POWDER_FILE, "pigment:", "colour: white\npigment:")
    reading = read_book(book.root)
    assert reading.book is not None and reading.unfinished is not None
    assert set(reading.book.products) == {"clay", "developer-20", "foil"}
    assert not reading.book.blends and not reading.book.techniques and not reading.book.classes
    everything, keys = reading.unfinished
    assert everything.lightener("powder").pigment == "blue-violet"
    assert {kind for kind, _ in keys} == {"product", "blend", "technique", "situation", "class"}


def test_what_could_not_be_read_raises_when_it_is_looked_at(book: SmallBook) -> None:
    book.edit(CLAY_FILE, "kind: lightener", "kind: lightner")
    book.edit(BLEND_FILE, "parts: 3", "parts: half")
    book.edit(BLEND_FILE, "lift: 1-3", "lfit: 1-3")
    unfinished = read_book(book.root).unfinished
    assert unfinished is not None
    blend = unfinished[0].blends["soft-clay"]
    assert [each.product for each in blend.lighteners] == ["clay", "powder"]
    assert blend.suits.texture == ("fine", "medium") and blend.shares == blend.lighteners
    for look in (
        lambda: blend.lighteners[0].parts,
        lambda: blend.suits.lift,
        lambda: unfinished[0].lightener("clay"),
        lambda: unfinished[0].base("clay"),
        lambda: unfinished[0].products["clay"].kind,
    ):
        with pytest.raises(Unread):
            look()
    assert "<" in repr(blend)
