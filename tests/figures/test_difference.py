"""What is reported for each kind of change, against what a reader of both files would write down."""

from collections.abc import Callable

import pytest

from bowlbook.figures.difference import Difference, Fact, differences
from checks.small_book import (
    BLEND,
    BLEND_FILE,
    CLASS_FILE,
    CLAY_FILE,
    FOIL_FILE,
    HAIR,
    HOUSE_FILE,
    SITUATION_FILE,
    TECHNIQUE_FILE,
    SmallBook,
)


@pytest.fixture
def book(book: SmallBook) -> SmallBook:
    """Without hair amounts no service has a cost that would change too."""
    book.edit(HOUSE_FILE, HAIR, "")
    return book


def diff_after(book: SmallBook, change: Callable[[], None]) -> list[Difference]:
    """What is different after a change."""
    old = book.read()
    change()
    return differences(old, book.read())


def facts(book: SmallBook, path: str, old: str, new: str) -> tuple[Fact, ...]:
    """What is reported of the one entry that an edit changes."""
    [found] = diff_after(book, lambda: book.edit(path, old, new))
    return found.facts


SUITS = "  placement: [open-air]\nreviewed"


@pytest.mark.parametrize(
    ("path", "old", "new", "expected"),
    [
        (CLASS_FILE, "name: First", "name: Next", Fact("name", "First painting", "Next painting")),
        (BLEND_FILE, ": 6-10", ": 5-10", Fact("suits, natural level", "6–10", "5–10")),
        (BLEND_FILE, "[fine, medium]", "[fine]", Fact("suits, texture", "medium", None)),
        (BLEND_FILE, SUITS, "  area: [ends]\n" + SUITS, Fact("suits, area", None, "ends")),
        (BLEND_FILE, "reviewed:", "fresh_for: 20 minutes\nreviewed:", Fact("fresh for", None, "20 minutes")),
        (
            BLEND_FILE,
            "reviewed:",
            "not_for: [{when: {lift: 1-2, texture: [coarse, fine]}, because: It stalls.}]\nreviewed:",
            Fact("not for", None, "when lift 1–2, texture fine, coarse, because It stalls."),
        ),
        (BLEND_FILE, "reviewed:", "private: Ask Ines.\nreviewed:", Fact("private", None, None)),
        (CLAY_FILE, "placement: [open-air]", "placement: [open-air, foil]", Fact("placement", None, "foil")),
        (CLAY_FILE, "lifts: 5", "lifts: 6", Fact("lifts", "5", "6")),
        (FOIL_FILE, "12 cm", "11 cm", Fact("size", "12 cm wide", "11 cm wide")),
        (TECHNIQUE_FILE, "zones: [2, 3]", "zones: [2]", Fact("bowls 1, zones", "3", None)),
        (SITUATION_FILE, "It is gentle.", "Kind.", Fact("take 1, because", "It is gentle.", "Kind.")),
        (CLASS_FILE, "Theory.", "Talk.", Fact("outline 1, what", "Theory.", "Talk.")),
    ],
)  # fmt: skip
def test_a_field(book: SmallBook, path: str, old: str, new: str, expected: Fact) -> None:
    assert facts(book, path, old, new) == (expected,)


def test_a_full_stop_is_left_out_before_a_comma(book: SmallBook) -> None:
    book.write("blends/other.yml", BLEND.replace("Soft clay", "Other clay"))
    retired = "retired: {on: 2026-10-02, because: It was dull., instead: soft-clay}\nreviewed:"
    expected = Fact("retired", None, "on 2026-10-02, because It was dull, instead soft-clay")
    assert expected in facts(book, "blends/other.yml", "reviewed:", retired)


def test_nothing(book: SmallBook) -> None:
    assert diff_after(book, lambda: None) == []
    assert diff_after(book, lambda: book.edit(BLEND_FILE, "2026-10-02", "2026-10-09")) == []


def test_a_list_in_another_order(book: SmallBook) -> None:
    book.edit(BLEND_FILE, "reviewed:", "cautions: [Watch it., Rinse it.]\nreviewed:")
    expected = Fact("cautions, order", "Watch it, Rinse it.", "Rinse it, Watch it.")
    assert facts(book, BLEND_FILE, "[Watch it., Rinse it.]", "[Rinse it., Watch it.]") == (expected,)


def test_parts_that_came_and_went(book: SmallBook) -> None:
    supplies = "  - {product: foil, count: 10}"
    book.write("products/gloves.yml", book.texts[FOIL_FILE].replace("Foil, wide", "Gloves"))
    more = "  - {product: foil, count: 11}\n  - {product: gloves, count: 2}"
    found = facts(book, TECHNIQUE_FILE, supplies, more)
    assert found[:3] == (
        Fact("supplies", "product foil, count 10", None),
        Fact("supplies", None, "product foil, count 11"),
        Fact("supplies", None, "product gloves, count 2"),
    )


def test_an_entry_of_another_kind(book: SmallBook) -> None:
    """A supply that becomes an additive: nothing else of it can be held against what it was."""
    text = book.texts[FOIL_FILE].replace("supply", "additive\ndoes: It thickens.")
    text = text.replace("size: 12 cm wide\n", "").replace("500 pieces", "500 g")
    book.edit(TECHNIQUE_FILE, "supplies:\n  - {product: foil, count: 10}\n", "")
    [found] = diff_after(book, lambda: book.write(FOIL_FILE, text))
    assert found.facts == (Fact("kind", "supply", "additive"),)


def test_a_renamed_entry(book: SmallBook) -> None:
    """Its former id first, then what else is different; those that only follow it are not reported."""

    def rename() -> None:
        text = book.texts[BLEND_FILE].replace("name: Soft", "name: Kind")
        book.write("blends/kind-clay.yml", text + "formerly: [soft-clay]\n")
        (book.root / BLEND_FILE).unlink()
        book.edit(TECHNIQUE_FILE, "blend: soft-clay", "blend: kind-clay")
        book.edit(SITUATION_FILE, "blend: soft-clay", "blend: kind-clay")

    [found] = diff_after(book, rename)
    assert (found.kind, found.id, found.was, found.state) == ("blend", "kind-clay", "soft-clay", "changed")
    assert found.facts == (
        Fact("id", "soft-clay", "kind-clay"),
        Fact("name", "Soft clay three to one", "Kind clay three to one"),
    )
    assert found.known_by == (
        ("class", "first-painting"),
        ("situation", "fine-hair"),
        ("technique", "painting"),
    )


def test_a_former_id_that_is_in_use_again_is_no_rename(book: SmallBook) -> None:
    """The old entry is still there, so the one that names it as its own is new."""
    other = book.texts[BLEND_FILE].replace("name: Soft", "name: Other")

    def add() -> None:
        book.write("blends/other.yml", other + "formerly: [never-there]\n")

    [found] = diff_after(book, add)
    assert (found.id, found.was, found.state, found.name) == ("other", None, "new", "Other clay three to one")


def test_the_house(book: SmallBook) -> None:
    found = diff_after(book, lambda: book.edit(HOUSE_FILE, "tolerance: 5 %", "tolerance: 4 %"))
    assert found[0] == Difference(
        "house", "house", "Small book", None, "changed", (Fact("rounding tolerance", "5 %", "4 %"),), ()
    )


def test_an_entry_that_is_gone(book: SmallBook) -> None:
    """Reported last, with its name."""
    book.write("blends/other.yml", book.texts[BLEND_FILE].replace("name: Soft", "name: Other"))

    def remove() -> None:
        (book.root / "blends" / "other.yml").unlink()
        book.edit(BLEND_FILE, "name: Soft", "name: Softer")

    first, second = diff_after(book, remove)
    assert (first.id, first.state) == ("soft-clay", "changed")
    assert second == Difference("blend", "other", "Other clay three to one", None, "gone", (), ())


def test_money_is_marked(book: SmallBook) -> None:
    """A dearer pack shows in the product, each bowl, the service and the class, and nowhere at the scale."""
    amounts = (
        "hair_amounts:\n  length: {short: 0.7, medium: 1, long: 1.4}\n  density: {thin: 0.8, medium: 1}\n"
    )
    book.add(HOUSE_FILE, amounts)
    found = {each.id: each.facts for each in diff_after(book, lambda: book.edit(CLAY_FILE, "39.00", "45.00"))}
    assert found["clay"] == (Fact("pack, price", "39.00", "45.00", money=True),)
    for name in ("soft-clay", "painting", "first-painting"):
        assert found[name] and all(each.money and each.before and each.after for each in found[name]), name
        assert all(each.before.endswith(" CAD") for each in found[name])
    lengths = ("short", "medium", "long")
    assert [each.what for each in found["painting"]] == [
        f"cost of a service, {length} hair (thin, medium)" for length in lengths
    ]
    assert [each.what for each in found["first-painting"]] == ["cost of the kit"]


def test_sizes_that_come_and_go(book: SmallBook) -> None:
    """Three parts of clay to one of powder, at 1:2, on 1 g: 80 g is 60 and 20, and 160 of developer."""
    [_, blend, *_] = diff_after(book, lambda: book.edit(HOUSE_FILE, "g: [20, 40]", "g: [20, 80]"))
    assert blend.id == "soft-clay"
    assert blend.facts[:2] == (
        Fact("batch of 40 g", "30 Plain clay, 10 Violet powder, 80 Developer 20", None),
        Fact("batch of 80 g", None, "60 Plain clay, 20 Violet powder, 160 Developer 20"),
    )


def test_a_new_size_that_cannot_be_weighed(book: SmallBook) -> None:
    """One gram in four parts: the powder's quarter of a gram reads zero in steps of 1 g."""
    book.edit(HOUSE_FILE, "g: [20, 40]", "g: [20]")
    [_, blend, *_] = diff_after(book, lambda: book.edit(HOUSE_FILE, "g: [20]", "g: [1, 20]"))
    assert blend.facts[0] == Fact("batch of 1 g", None, "cannot be weighed")


def test_a_size_that_can_no_longer_be_weighed(book: SmallBook) -> None:
    """In steps of 20 g the powder's 5 g read zero, and the 20 g of clay and powder are no honest bowl."""
    found = diff_after(
        book, lambda: book.edit(HOUSE_FILE, "scale_step: {oz: 0.05, g: 1}", "scale_step: {oz: 0.05, g: 20}")
    )
    blend = next(each for each in found if each.id == "soft-clay")
    expected = Fact("batch of 20 g", "15 Plain clay, 5 Violet powder, 40 Developer 20", "cannot be weighed")
    assert expected in blend.facts


def test_a_book_whose_prices_came_and_went(book: SmallBook) -> None:
    """Where a cost was not known before, it appears; the other way round it is no longer known.

    By hand for 1 oz: 0.75 oz of clay at 39.00 for 450 g, 0.25 oz of powder at 47.50 for 250 g, 2 oz of
    developer at 14.50 for 1000 mL of 1.02 g/mL: 1.8427 + 1.3466 + 0.8060 = 4.00; twice that, 7.99.
    """
    amounts = (
        "hair_amounts:\n  length: {short: 0.7, medium: 1, long: 1.4}\n  density: {thin: 0.8, medium: 1}\n"
    )
    book.add(HOUSE_FILE, amounts)
    price = "price: 39.00, priced_on: 2026-09-01"
    book.edit(CLAY_FILE, f", {price}", "")
    before, text = book.read(), f"450 g, {price}"
    facts_of = {each.id: each.facts for each in diff_after(book, lambda: book.edit(CLAY_FILE, "450 g", text))}
    assert Fact("pack, price", None, "39.00", money=True) in facts_of["clay"]
    [kit] = facts_of["first-painting"]
    assert (kit.what, kit.before, kit.money) == ("cost of the kit", None, True)
    assert kit.after is not None and kit.after.endswith(" CAD")
    ounces, grams = facts_of["soft-clay"]
    assert ounces == Fact("cost at 1, 2 oz", None, "4.00, 7.99 CAD", money=True)
    assert (grams.what, grams.before) == ("cost at 20, 40 g", None)
    back = {each.id: each.facts for each in differences(book.read(), before)}
    assert back["soft-clay"][0] == Fact("cost at 1, 2 oz", "4.00, 7.99 CAD", None, money=True)
    assert Fact("cost of the kit", kit.after, None, money=True) in back["first-painting"]


def test_what_nothing_that_changed_reaches_is_left_out(book: SmallBook) -> None:
    """The shortcut past entries that nothing touches tells what going through all of them tells."""
    book.write("blends/other.yml", book.texts[BLEND_FILE].replace("name: Soft", "name: Other"))
    book.write("products/gloves.yml", book.texts[FOIL_FILE].replace("Foil, wide", "Gloves"))
    for path, old, new in (
        (FOIL_FILE, "19.00", "29.00"),
        (CLAY_FILE, "39.00", "49.00"),
        (BLEND_FILE, "parts: 3", "parts: 2"),
        (HOUSE_FILE, "g: 1", "g: 2"),
    ):
        before = book.read()
        book.edit(path, old, new)
        after = book.read()
        quick = differences(before, after)
        with pytest.MonkeyPatch.context() as patch:
            everything = {(kind, entry.id) for kind, entry in after.entries()}
            patch.setattr("bowlbook.figures.difference._touched", lambda old, new, all_=everything: all_)
            assert differences(before, after) == quick
