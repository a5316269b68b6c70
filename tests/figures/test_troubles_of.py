"""Which troubles belong to an entry: by what is said of where they come from, and the gravest first."""

import pytest

from bowlbook.figures.trouble import gravest_first, troubles_of
from checks.small_book import BLEND_FILE, TECHNIQUE_FILE, TROUBLE, SmallBook


def named(book: SmallBook, origin: str, kind: str, entry_id: str) -> bool:
    """Whether a trouble that comes from there is one of the entry's."""
    book.write("troubles/it.yml", TROUBLE + origin)
    read = book.read()
    return [each.id for each in troubles_of(read, read.of_kind(kind)[entry_id])] == ["it"]  # type: ignore[arg-type]


ANYWHERE, OPEN, FOIL = "", "comes_from: {placement: open-air}\n", "comes_from: {placement: foil}\n"
BLEND, TECHNIQUE = "comes_from: {blends: [soft-clay]}\n", "comes_from: {techniques: [painting]}\n"
POWDER, DEVELOPER = "comes_from: {products: [powder]}\n", "comes_from: {products: [developer-20]}\n"
SUPPLY = "comes_from: {products: [foil]}\n"


@pytest.mark.parametrize("origin", [ANYWHERE, OPEN, BLEND, TECHNIQUE, POWDER, DEVELOPER])
def test_a_technique_has_those_of_its_placement_its_blends_and_what_is_in_them(
    book: SmallBook, origin: str
) -> None:
    assert named(book, origin, "technique", "painting")


@pytest.mark.parametrize("origin", [FOIL, SUPPLY])
def test_a_technique_has_no_others(book: SmallBook, origin: str) -> None:
    assert not named(book, origin, "technique", "painting")


@pytest.mark.parametrize(
    ("origin", "expected"),
    [(ANYWHERE, True), (OPEN, True), (BLEND, True), (POWDER, True), (TECHNIQUE, False), (FOIL, False)],
)
def test_a_blend_has_those_of_the_placements_it_is_for_and_of_its_products(
    book: SmallBook, origin: str, expected: bool
) -> None:
    assert named(book, origin, "blend", "soft-clay") is expected


@pytest.mark.parametrize("origin", [OPEN, FOIL])
def test_a_blend_that_names_no_placement_may_be_placed_in_any_way(book: SmallBook, origin: str) -> None:
    book.edit(BLEND_FILE, "  placement: [open-air]\n", "")
    assert named(book, origin, "blend", "soft-clay")


@pytest.mark.parametrize(("origin", "expected"), [(POWDER, True), (ANYWHERE, False), (OPEN, False)])
def test_a_product_has_those_that_name_it(book: SmallBook, origin: str, expected: bool) -> None:
    assert named(book, origin, "product", "powder") is expected


def test_an_origin_that_names_nothing_is_anywhere(book: SmallBook) -> None:
    assert named(book, "comes_from: {}\n", "technique", "painting")


def test_the_person_first_then_the_hair_then_the_bowl(book: SmallBook) -> None:
    for entry_id, risk in (("a", "bowl"), ("b", "hair"), ("c", "person"), ("d", "hair")):
        text = TROUBLE.replace("at_risk: person", f"at_risk: {risk}").replace(
            "Burning scalp", f"No {entry_id}"
        )
        book.write(f"troubles/{entry_id}.yml", text)
    assert [each.id for each in gravest_first(book.read())] == ["c", "b", "d", "a"]
    assert TECHNIQUE_FILE in book.texts
