"""The kit of a class: whole containers, costs that add up, and practice heads that grow with the learners."""

from dataclasses import replace
from fractions import Fraction as F
from itertools import pairwise
from math import ceil

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bowlbook.book.book import Book
from bowlbook.figures.kit import kit, kit_plan, practice_heads
from bowlbook.figures.service import CannotPlan
from bowlbook.pages.kit_table import kit_table
from bowlbook.reading.amount import Count, Mass
from bowlbook.wording.locale_format import LocaleFormat
from checks.small_book import (
    CLASS_FILE,
    CLAY_FILE,
    DEVELOPER_FILE,
    FOIL_FILE,
    HOUSE_FILE,
    TECHNIQUE_FILE,
    SmallBook,
)


def test_worked_by_hand(demo_book) -> None:
    """Two heads of practice for every four learners, used for both techniques; foils by the box of 500."""
    notes = demo_book.classes["open-air-or-foil"]
    planned = kit_plan(demo_book, notes)
    found = kit(planned, 8)
    assert found.heads == (5, 5)  # one live head each, and one practice head for every two of eight learners
    assert found.all_heads == 6  # two live ones, and four practice heads that are used twice
    by_id = {line.product.id: line for line in found.lines}
    # Film sheets: 16 a service, five heads; foils: 32, five heads. Gloves by person: one at each live head
    # and all eight learners, 2 for the one technique and 4 for the other. Neck strips by head.
    assert by_id["film-sheet"].need == 5 * 16
    assert by_id["foil-long"].need == 5 * 32
    assert by_id["gloves"].need == (1 + 8) * 2 + (1 + 8) * 4
    assert by_id["neck-strip"].need == 5 + 5
    # Triangles: 18 x 5 g x 1.05 = 94.5 g at 1:2, so 31.5 g of clay: 30 + 15 of the ladder, two to one of it.
    assert by_id["violet-clay"].need == 5 * 30 and by_id["soft-clay"].need == 5 * 15
    pack = demo_book.products["violet-clay"].pack
    assert by_id["violet-clay"].cost == pack.price * 100 * by_id["violet-clay"].containers


@given(st.integers(1, 500))
def test_whole_containers_and_sums(demo_book, learners: int) -> None:
    for notes in demo_book.classes.values():
        found = kit(kit_plan(demo_book, notes), learners)
        assert found.cost == sum(line.cost for line in found.lines)
        assert abs(found.cost_per_learner * learners - found.cost) * 2 <= learners
        for line in found.lines:
            net = line.product.pack.net
            if isinstance(net, Mass | Count):
                holds = (
                    F(net.number)
                    if isinstance(net, Count)
                    else F(net.number) * {"g": 1, "kg": 1000}[net.unit]
                )
                assert line.containers == ceil(line.need / holds)
            assert line.left_over >= 0
            if line.containers > 1:
                holds = (line.need + line.left_over) / line.containers
                assert line.left_over < holds  # not one container more than is needed


def test_more_learners_never_need_less(demo_book) -> None:
    planned = kit_plan(demo_book, demo_book.classes["hairlines-and-coils"])
    needs = [[line.need for line in kit(planned, learners).lines] for learners in range(1, 20)]
    assert all(a <= b for one, other in pairwise(needs) for a, b in zip(one, other, strict=True))


def test_practice_heads_are_rounded_up(demo_book) -> None:
    notes = demo_book.classes["open-air-or-foil"]
    assert [practice_heads(notes, 0, learners) for learners in (1, 2, 3, 10)] == [1, 1, 2, 5]
    assert [practice_heads(notes, 1, learners) for learners in (1, 2, 3, 10)] == [1, 1, 2, 5]
    alone = replace(notes.demonstrations[0], learners_per_head=None)
    assert practice_heads(replace(notes, demonstrations=(alone,)), 0, 10) == 0


def test_heads_are_shared_with_an_earlier_demonstration_that_has_some(small: SmallBook) -> None:
    """Six learners in pairs: three practice heads, and a live one for the second. Ten foils a head, 3 + 4; 4
    heads in all. The gloves, four a person, for six learners, and for six and the one at the live head."""
    shown = "  - {technique: painting, heads: 0, learners_per_head: 2}\n"
    shown += "  - {technique: painting, heads: 1, shares_heads_with: painting}"
    gloves = small.texts[FOIL_FILE].replace("Foil, wide", "Gloves") + "per_person: yes\n"
    small.write("products/gloves.yml", gloves)
    small.edit(TECHNIQUE_FILE, "count: 10}", "count: 10}\n  - {product: gloves, count: 4}")
    small.edit(CLASS_FILE, "  - {technique: painting, heads: 1}", shown)
    book = small.read()
    found = kit(kit_plan(book, book.classes["first-painting"]), 6)
    assert (found.heads, found.all_heads) == ((3, 4), 4)
    need = {line.product.id: line.need for line in found.lines}
    assert (need["foil"], need["gloves"]) == (70, 4 * 6 + 4 * 7)


@pytest.mark.parametrize("learners", [0, -1, 501])
def test_refused_numbers_of_learners(demo_book, learners: int) -> None:
    with pytest.raises(CannotPlan, match="1 to 500"):
        kit(kit_plan(demo_book, demo_book.classes["open-air-or-foil"]), learners)


def needs(book: Book, unit: str, learners: int = 6) -> dict[str, F]:
    planned = kit_plan(book, book.classes["first-painting"], unit)
    return {line.product.id: line.need for line in kit(planned, learners).lines}


def test_a_kit_weighed_in_ounces_is_given_in_grams(small: SmallBook) -> None:
    """12 sections of 5 g at 1:2 take 20 g of lightener: 1 oz of the ladder, 0.75 and 0.25, and 2 oz of
    developer. The ounce is 28.349523125 g (NIST Special Publication 811, appendix B.8)."""
    ounce = F("28.349523125")
    found = needs(small.read(), "oz")
    assert found == {
        "clay": F("0.75") * ounce,
        "powder": F("0.25") * ounce,
        "developer-20": 2 * ounce,
        "foil": 10,
    }


def test_what_each_learner_takes_is_added_to_what_the_services_take(small: SmallBook) -> None:
    """Ten foils a head, one head; four more for each of six learners, shown on two lines."""
    each = "for_each_learner: [{product: foil, count: 3}]\nhandout:"
    assert needs(small.read((CLASS_FILE, "handout:", each)), "g")["foil"] == 10 + 3 * 6


def test_a_product_that_only_learners_take(small: SmallBook) -> None:
    """And in a currency of three decimals: 19.000 for 500 pieces, one container."""
    book = small.read(
        (CLASS_FILE, "handout:", "for_each_learner: [{product: foil, count: 3}]\nhandout:"),
        (TECHNIQUE_FILE, "supplies:\n  - {product: foil, count: 10}\n", ""),
        (HOUSE_FILE, "currency: CAD", "currency: KWD"),
    )
    planned = kit_plan(book, book.classes["first-painting"])
    line = next(line for line in kit(planned, 6).lines if line.product.id == "foil")
    assert (line.need, line.containers, line.left_over, line.cost) == (18, 1, 482, 19_000)


def test_a_product_without_a_pack_has_no_containers_and_no_cost(small: SmallBook) -> None:
    pack = "pack: {net: 450 g, price: 39.00, priced_on: 2026-09-01}\n"
    book = small.read((CLAY_FILE, pack, ""))
    found = kit(kit_plan(book, book.classes["first-painting"]), 6)
    line = next(line for line in found.lines if line.product.id == "clay")
    assert (line.containers, line.left_over, line.cost, found.cost) == (None, None, None, None)


def test_a_pack_of_the_wrong_kind_has_no_price_for_what_is_needed(small: SmallBook) -> None:
    """Clay is weighed; a pack of so many pieces says nothing of a gram's price."""
    book = small.read()
    clay = book.products["clay"]
    pieces = replace(clay, pack=replace(clay.pack, net=Count(20)))
    pieces.placed(clay.id, clay.source)
    book = replace(book, products={**book.products, "clay": pieces})
    found = kit(kit_plan(book, book.classes["first-painting"]), 6)
    line = next(line for line in found.lines if line.product.id == "clay")
    assert (line.containers, line.cost) == (None, None)


@pytest.mark.parametrize(
    ("edit", "clay"),
    [
        (("batches: {oz: [1, 2], g: [20, 40]}", "batches: {oz: [1, 2]}"), F("0.75") * F("28.349523125")),
        (("scale_step: {oz: 0.05, g: 1}", "scale_step: {oz: 0.05}"), F("0.75") * F("28.349523125")),
        (("batches: {oz: [1, 2], g: [20, 40]}", "batches: {g: [20, 40]}"), 15),
        (("scale_step: {oz: 0.05, g: 1}", "scale_step: {g: 1}"), 15),
    ],
)
def test_a_house_of_one_unit_has_a_kit_in_it(small: SmallBook, edit: tuple[str, str], clay: F) -> None:
    """20 g of lightener: 1 oz of the sizes, or 20 g, three quarters of it clay."""
    book = small.read((HOUSE_FILE, *edit))
    found = kit(kit_plan(book, book.classes["first-painting"]), 6)
    assert next(line.need for line in found.lines if line.product.id == "clay") == clay


def test_uneven_sizes(small: SmallBook) -> None:
    """Sizes of six decimals once ended in a traceback: their common measure is a millionth of a gram."""
    sizes = (HOUSE_FILE, "g: [20, 40]", "g: [20.000001, 40.000003, 2000]")
    book = small.read(sizes, (TECHNIQUE_FILE, "section: 5 g", "section: 400 g"))
    found = kit(kit_plan(book, book.classes["first-painting"]), 6)
    assert found.cost is not None and found.cost == sum(line.cost for line in found.lines)


def test_a_bowl_that_reads_zero_is_named_and_the_rest_is_in_the_kit(small: SmallBook) -> None:
    second = (
        "  - blend: soft-clay\n    where: The hairline.\n    zones: [1]\n    sections: 1\n"
        "    mix_per_section: 3 g\nsteps:"
    )
    book = small.read(
        (HOUSE_FILE, "review_after", "any_batch: yes\nreview_after"),
        (TECHNIQUE_FILE, "steps:", second),
    )
    planned = kit_plan(book, book.classes["first-painting"])
    on_the_page = kit_table(planned, planned.notes.learners, LocaleFormat(book.house))
    (said,) = on_the_page.cannot
    assert said.startswith(
        "Soft clay three to one cannot be weighed out for this: in 1 g Violet powder reads "
    )
    found = kit(planned, 6)
    assert [(technique.id, bowl.bowl.where) for technique, bowl in found.unweighed] == [
        ("painting", "The hairline.")
    ]
    assert {line.product.id: line.need for line in found.lines}["clay"] == 15
    assert found.cost is None and found.known == sum(line.cost for line in found.lines)


def test_what_has_no_price_is_named_and_the_rest_is_added_up(small: SmallBook) -> None:
    """One pack of clay 39.00, of powder 47.50, of foils 19.00; six learners, 17.58 each."""
    pack = "pack: {net: 1 L, price: 14.50, priced_on: 2026-09-01}\n"
    book = small.read((DEVELOPER_FILE, pack, ""))
    found = kit(kit_plan(book, book.classes["first-painting"]), 6)
    assert (found.known, found.cost_per_learner, found.cost) == (10_550, None, None)
    assert [each.name for each in found.unpriced] == ["Developer 20"]
