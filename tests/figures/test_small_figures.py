"""Figures of the small book and the demo book by hand: the cases that others do not meet."""

from dataclasses import replace
from fractions import Fraction as F

import pytest

from bowlbook.book.book import Book
from bowlbook.entries.product import Pack
from bowlbook.figures.bowl import ladder_of, mix, unweighable_sizes
from bowlbook.figures.candidate import candidates_of
from bowlbook.figures.correction import correct, over_by_one
from bowlbook.figures.cost import decimal_of, price_per_piece
from bowlbook.figures.kit import kit_plan
from bowlbook.figures.peroxide import alligation
from bowlbook.figures.ruling import OWN, Clause
from bowlbook.figures.service import CannotPlan, ServicePlanner, hair_factors, plan
from bowlbook.figures.weigh_out import ReadsZero, in_steps
from bowlbook.figures.weighing import Weighing, weighing_of
from bowlbook.reading.amount import Count
from checks.small_book import BLEND_FILE, HAIR, HOUSE_FILE, TECHNIQUE_FILE, SmallBook

MEASURED = "hair_amounts: {length: {short: 0.7, medium: 1, long: 1.4}, density: {thin: 0.8, medium: 1}}\n"


def test_what_is_refused_says_why() -> None:
    with pytest.raises(ValueError, match=r"^the strength wanted must lie between the two at hand$"):
        alligation(F(3), F(6), F(7))
    with pytest.raises(ValueError, match=r"^a pour weighs nothing or more$"):
        correct(F(20), [F(1)], [F(2)], F(1), {0: F(-1)})


def test_a_pour_that_reads_zero_is_named_by_its_place() -> None:
    """Parts first, then the ratios, in the order of the list."""
    for place, (parts, ratios) in enumerate([([1, 9], [1]), ([9, 1], [1]), ([1, 1], [F(1, 9)])]):
        with pytest.raises(ReadsZero) as zero:
            in_steps(2 if place == 2 else 1, list(map(F, parts)), list(map(F, ratios)))
        assert zero.value.index == place


@pytest.mark.parametrize(("currency", "text"), [("JPY", "1234"), ("CAD", "12.34"), ("KWD", "1.234")])
def test_an_amount_has_the_decimals_of_its_currency(currency: str, text: str) -> None:
    """ISO 4217: none for JPY, two for CAD, three for KWD."""
    assert decimal_of(1234, currency) == text
    assert decimal_of(None, currency) is None


def test_pieces_without_a_price_have_none() -> None:
    assert price_per_piece(Pack(net=Count(5))) is None
    assert price_per_piece(Pack(net=Count(5), price=F(20))) == 4


def test_a_bowl_in_a_currency_of_three_decimals(small: SmallBook) -> None:
    """15 g of clay at 39 for 450 g are 1.300; 5 g of powder at 47.50 for 250 g 0.950; 40 g of developer at
    14.50 for 1,020 g 0.56863: 2.819 in all."""
    small.edit(HOUSE_FILE, "currency: CAD", "currency: KWD")
    book = small.read()
    bowl = mix(book, book.blends["soft-clay"], "g", F(20), F(1))
    assert bowl.bill is not None
    assert (bowl.bill.lines, bowl.bill.total) == ((1300, 950, 569), 2819)


def test_a_bowl_by_volume_too(small: SmallBook) -> None:
    """40 g at 1.02 g/mL are 39.2157 mL, and 1.3260 US fl oz of 29.5735295625 mL (NIST Handbook 44)."""
    book = small.read()
    clay, powder, developer = mix(book, book.blends["soft-clay"], "g", F(20), F(1)).pours
    assert clay.millilitres is None and clay.us_fluid_ounces is None and powder.us_fluid_ounces is None
    assert developer.millilitres == F(40) / F("1.02")
    assert developer.us_fluid_ounces == F(40) / F("1.02") / F("29.5735295625")


def test_blends_of_the_same_proportions_share_their_weighing(small: SmallBook) -> None:
    small.write("blends/other.yml", small.texts[BLEND_FILE].replace("name: Soft", "name: Other"))
    book = small.read()
    soft, other = book.blends["soft-clay"], book.blends["other"]
    bowl = mix(book, soft, "g", F(20), F(1))
    assert mix(book, other, "g", F(20), F(1)).weighing is bowl.weighing
    for batch, step in ((F(40), F(1)), (F(20), F(1, 2))):
        assert mix(book, soft, "g", batch, step).weighing is not bowl.weighing
    assert unweighable_sizes(book, soft) is unweighable_sizes(book, other)


def test_another_tolerance_is_another_weighing(small: SmallBook) -> None:
    """30 g as 22 and 8 g (exactly 22.5 and 7.5) is 6.7 % off: memoised results keep the tolerance apart."""
    book = small.read()
    blend = book.blends["soft-clay"]
    bowls = []
    for per_cent in (5, 7, 5):
        house = replace(book.house, rounding_tolerance=F(per_cent))
        bowls.append(mix(replace(book, house=house), blend, "g", F(30), F(1)))
    assert [each.within_tolerance for each in bowls] == [False, True, False]
    assert [each.tolerance for each in bowls] == [F(5, 100), F(7, 100), F(5, 100)]


def test_a_plan_mixes_each_batch_once(demo_book: Book) -> None:
    """The plans of a technique for all hair amounts share their bowls; a plan made alone is the same."""
    technique = next(each for each in demo_book.techniques.values() if each.bowls[0].sections)
    planner = ServicePlanner(demo_book, technique)
    assert demo_book.house.hair_amounts is not None
    plans = [planner.plan(*each) for each in demo_book.house.hair_amounts.heads]
    bowls: dict[tuple[str, F], set[int]] = {}
    for fresh in [fresh for service in plans for each in service.bowls for fresh in each.fresh]:
        for bowl in fresh.weigh_outs:
            bowls.setdefault((bowl.blend.id, bowl.batch), set()).add(id(bowl))
    assert bowls and all(len(ids) == 1 for ids in bowls.values())
    assert plans == [plan(demo_book, technique, *each) for each in demo_book.house.hair_amounts.heads]


def test_weights_that_differ_are_weighed_apart(small: SmallBook) -> None:
    """A part more is not a ratio more: 3:1 at 1:1 with 1:1 of an additive, and 3:1:1 at 1:1."""
    book = small.read()
    blend = book.blends["soft-clay"]
    first, second = blend.lighteners
    more = replace(blend, lighteners=(replace(first, parts=F(2)), second))
    more.placed(blend.id, blend.source)
    assert mix(book, more, "g", F(30), F(1)).weighing is not mix(book, blend, "g", F(30), F(1)).weighing
    assert [each.reading.weigh for each in mix(book, more, "g", F(30), F(1)).pours] == [20, 10, 60]


def test_a_house_that_has_not_measured_hair_says_what_to_add(small: SmallBook) -> None:
    small.edit(HOUSE_FILE, HAIR, "")
    add = r"^The house has not measured hair amounts\. Add hair_amounts to house\.yml\.$"
    with pytest.raises(CannotPlan, match=add):
        hair_factors(small.read(), "medium", "medium")
    small.add(HOUSE_FILE, MEASURED)
    book = small.read()
    for length, density, hair, key in (
        ("extra_long", "medium", "extra-long hair", "extra_long"),
        ("medium", "thick", "thick density", "thick"),
    ):
        with pytest.raises(CannotPlan) as refusal:
            hair_factors(book, length, density)
        assert refusal.value.reason == f"The house has not measured {hair}."
        assert refusal.value.mend == f"Add {key} to hair_amounts in house.yml."
    for length, density in (("endless", "medium"), ("medium", "endless")):  # no such word
        with pytest.raises(CannotPlan, match="endless"):
            hair_factors(book, length, density)
    assert hair_factors(book, "long", "thin") == (F("1.4"), F("0.8"))


def test_a_service_without_prices_has_no_costs(small: SmallBook) -> None:
    book = small.read()
    bare = {key: replace(each, pack=None) for key, each in book.products.items()}
    for key, each in bare.items():
        each.placed(key, book.products[key].source)
    found = plan(replace(book, products=bare), book.techniques["painting"], "medium", "medium", "g")
    costs = (
        found.bowl_costs,
        found.products,
        found.waste_cost,
        found.left_over_cost,
        found.known,
        found.total,
    )
    assert costs == ((None,), None, None, None, None, None)


def test_a_kit_plan_has_the_services_of_its_demonstrations(small: SmallBook) -> None:
    book = small.read()
    planned = kit_plan(book, book.classes["first-painting"])
    assert [each.technique.id for each in planned.services] == ["painting"]


REFUSED = "not_for: [{{when: {{texture: [{}]}}, because: It stalls., instead: {}}}]\nreviewed:"


def usual(clause: Clause) -> bool:
    return clause.standing.startswith("usual")


def test_a_pair_refuses_what_either_refuses_and_says_what_instead(small: SmallBook) -> None:
    """A blend for a blend, a technique for a technique; nothing where nothing was said."""
    small.write("blends/other.yml", small.texts[BLEND_FILE].replace("name: Soft", "name: Other"))
    small.write("techniques/sweep.yml", small.texts[TECHNIQUE_FILE].replace("name: Open", "name: Sweep"))
    small.edit(BLEND_FILE, "reviewed:", REFUSED.format("coarse", "other"))
    small.edit(TECHNIQUE_FILE, "reviewed:", REFUSED.format("medium", "sweep"))
    rule = "rules:\n  - {when: {texture: [fine]}, exclude: {form: [clay]}, because: X., "
    small.add(HOUSE_FILE, rule + "standing: published source, source: A book, instead: other}\n")
    found = {(each.kind, each.id, each.within): each for each in candidates_of(small.read())}
    pair = found["pair", "soft-clay", "painting"]
    assert [(each.instead, each.standing) for each in pair.excluded_by if not usual(each)] == [
        (("blend", "other"), OWN),
        (("technique", "sweep"), OWN),
        (("blend", "other"), "published: A book"),
    ]
    refused = [each for each in found["technique", "sweep", None].excluded_by if not usual(each)]
    own, house = refused[0], refused[1]  # what refuses its bowl refuses the technique
    assert (own.of, own.instead) == (
        "Soft clay three to one",
        ("blend", "other"),
    )  # what refuses its bowl refuses it
    assert house.standing == "published: A book"


def test_a_refusal_without_another_choice_names_none(small: SmallBook) -> None:
    refused = "not_for: [{when: {texture: [coarse]}, because: It stalls.}]\nreviewed:"
    small.edit(BLEND_FILE, "reviewed:", refused)
    rule = (
        "rules:\n  - {when: {texture: [fine]}, exclude: {form: [clay]}, because: X., standing: this house}\n"
    )
    small.add(HOUSE_FILE, rule)
    blend = next(each for each in candidates_of(small.read()) if each.kind == "blend")
    assert [each.instead for each in blend.excluded_by if not usual(each)] == [None, None]


def test_a_technique_that_only_tones_is_passed_over(demo_book: Book) -> None:
    """And those after it are not."""
    toning = [each for each in demo_book.blends.values() if each.tones]
    technique = next(iter(demo_book.techniques.values()))
    bowl = replace(technique.bowls[-1], blend=toning[0].id)
    only = replace(technique, bowls=(bowl,))
    only.placed("a-first", technique.source)
    book = replace(demo_book, techniques={"a-first": only, **demo_book.techniques})
    assert candidates_of(book) == candidates_of(demo_book)


def test_candidates_of_one_name_stand_in_the_order_of_their_techniques(demo_book: Book) -> None:
    pairs = [each for each in candidates_of(demo_book) if each.kind == "pair"]
    by_blend: dict[str, list[str]] = {}
    for each in pairs:
        by_blend.setdefault(each.id, []).append(each.within or "")
    assert any(len(within) > 1 for within in by_blend.values())
    assert all(within == sorted(within) for within in by_blend.values())


def test_every_size_of_the_ladder_is_in_one_of_the_units(small: SmallBook) -> None:
    book = small.read()
    sizes = [(unit, batch) for unit, batch, _ in ladder_of(book, book.blends["soft-clay"])]
    assert sizes == [("oz", 1), ("oz", 2), ("g", 20), ("g", 40)]


def test_a_batch_that_reads_zero_is_reported_with_what_would_do() -> None:
    """Three parts to one, 1 g in steps of 1 g: the second part is a quarter of a gram. 48 g are 36 and 12,
    and the additive 0.96 g, read as 1 g: 4.2 % off. Of 47 g it is 0.94 g, and that is 6.4 % off."""
    parts, ratios = (F(3), F(1)), (F(2), F(1, 50))
    found = weighing_of(F(1), parts, ratios, F(1), F(5, 100))
    assert found == Weighing(F(1), parts, ratios, F(1), F(5, 100), (), (), F(0), F(48), 1)
    found = weighing_of(F(4), parts, ratios, F(1), F(5, 100))  # the additive: a fiftieth of 4 g
    assert found == Weighing(F(4), parts, ratios, F(1), F(5, 100), (), (), F(0), F(48), 3)
    assert weighing_of(F(4), parts, (F(1, 50),), F(1), F(5, 100)).reads_zero == 2


def test_one_step_over_says_what_is_in_the_bowl() -> None:
    """On a scale of half grams: 15 and 5 g, and 15.5 g poured of the first; then 5.5 g of the second."""
    first, second, third = over_by_one(F(20), (F(3), F(1)), (F(2),), F(1, 2))
    assert [each.in_bowl for each in first.pours] == [F("15.5"), 0, 0]
    assert [each.in_bowl for each in second.pours] == [15, F("5.5"), 0]
    assert [each.in_bowl for each in third.pours] == [15, 5, F("40.5")]
