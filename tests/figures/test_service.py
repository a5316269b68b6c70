"""How much to mix for a service: worked by hand, split into fresh bowls, adding up, refused where need be."""

import os
from dataclasses import replace
from fractions import Fraction as F
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bowlbook.book.book import Book
from bowlbook.entries.ladder import Ladder
from bowlbook.figures.batching import MOST_WEIGH_OUTS
from bowlbook.figures.service import CannotPlan, Service, SupplyLine, plan
from bowlbook.figures.unit import GRAMS_PER
from bowlbook.reading.amount import Mass
from checks.small_book import (
    BLEND_FILE,
    DEVELOPER_FILE,
    FOIL_FILE,
    HOUSE_FILE,
    TECHNIQUE_FILE,
    SmallBook,
)


def test_worked_by_hand(demo_book) -> None:
    """Triangle in two foils on long, thick hair: 16 sections of 7 g x 1.4 x 1.3, 5 % on top, at 1:2 one third
    of it lightener: 16 x 7 x 1.82 x 1.05 / 3 = 71.344 g. 16 sections x 1.3 are 20.8, so 21, in pairs of 2 and
    1.5 minutes: fresh for 45 minutes are 12 pairs, so two bowls, 11 and 10 of them. The first takes 11/21 of
    71.344 g, 37.371 g = 1.3182 oz: batches of 1 and 0.5 oz."""
    service = plan(demo_book, demo_book.techniques["triangle-in-two-foils"], "long", "thick")
    first = service.bowls[0].fresh[0]
    lightener = F(16) * 7 * F("1.82") * F("1.05") / 3 * F(11, 21)
    assert service.factor == F("1.82")
    assert [(each.sections, each.minutes) for each in service.bowls[0].fresh] == [(11, F("38.5")), (10, 35)]
    assert first.lightener * GRAMS_PER["oz"] == lightener
    assert first.batches == (F(1), F("0.5"))
    assert [bowl.total for bowl in first.weigh_outs] == [F(3), F("1.5")]
    assert first.left_over == F("4.5") - lightener * 3 / GRAMS_PER["oz"]


def test_fresh_bowls_where_applying_takes_longer(demo_book) -> None:
    """60 sections of one minute in a mix that stays fresh for 45: two bowls of 30 sections."""
    technique = demo_book.techniques["fine-weaves"]
    service = plan(demo_book, technique, "medium", "medium", hands=1)
    shared = [(fresh.sections, fresh.minutes) for fresh in service.bowls[0].fresh]
    assert shared == [(30, 30), (30, 30)]
    two = plan(demo_book, technique, "medium", "medium", hands=2).bowls[0].fresh
    assert [(fresh.sections, fresh.minutes) for fresh in two] == [(60, 30)]
    for fresh in service.bowls[0].fresh:
        assert fresh.minutes <= demo_book.blends["foil-fine"].fresh_for


def test_one_exact_batch_where_the_house_allows_any_size(demo_book) -> None:
    house = replace(demo_book.house, any_batch=True)
    service = plan(replace(demo_book, house=house), demo_book.techniques["dark-paint"], "medium", "medium")
    fresh = service.bowls[0].fresh[0]
    assert len(fresh.batches) == 1
    assert 0 <= fresh.batches[0] - fresh.lightener < F("0.01")
    assert (fresh.batches[0] / F("0.01")).denominator == 1


def test_more_hair_never_takes_less(demo_book) -> None:
    for technique in demo_book.techniques.values():
        needs = [
            sum(
                fresh.need
                for bowl in plan(demo_book, technique, length, "medium").bowls
                for fresh in bowl.fresh
            )
            for length in ("short", "medium", "long", "extra_long")
        ]
        assert needs == sorted(needs)


def test_a_technique_without_amounts_cannot_be_planned(small: SmallBook) -> None:
    with pytest.raises(CannotPlan, match="no amounts"):
        planned(small.read((TECHNIQUE_FILE, "    mix_per_section: 5 g\n", "")))


amounts = st.tuples(
    st.integers(1, 60),
    st.integers(4, 80).map(lambda tenths: F(tenths, 10)),
    st.sampled_from([None, F(1), F(3, 2), F(2), F(5)]),
)
ladders = st.lists(st.sampled_from([F(n, 5) for n in range(1, 16)]), min_size=1, max_size=3, unique=True)


def best_by_hand(need: F, ladder: list[F]) -> tuple[F, int]:
    """At most one weigh-out more than the fewest; the least left over, then the fewest. All counts tried."""
    fewest = -(-need // max(ladder))
    found = []
    counts = [range(min(fewest + 1, -(-need // batch)) + 1) for batch in ladder]
    for chosen in product(*counts):
        left = sum((count * batch for count, batch in zip(chosen, ladder, strict=True)), F(0)) - need
        if left >= 0 and sum(chosen) <= fewest + 1:
            found.append((left, sum(chosen)))
    return min(found)


@pytest.mark.more
@settings(max_examples=500 if os.environ.get("BOWLBOOK_LONG") else 120)
@given(
    st.sampled_from(["dark-paint", "fine-weaves", "triangle-in-two-foils"]),
    amounts,
    ladders,
    st.sampled_from(["short", "medium", "long", "extra_long"]),
    st.sampled_from(["thin", "medium", "thick"]),
)
def test_plans_equal_brute_force(demo_book, name, amount, ladder, length, density) -> None:
    sections, grams, minutes = amount
    technique = demo_book.techniques[name]
    own = technique.bowls[0]
    blend = demo_book.blends[own.blend]
    changed = replace(blend, batches=Ladder(oz=tuple(sorted(ladder))), fresh_for=F(45))
    changed.placed(blend.id, blend.source)
    book = replace(demo_book, blends={**demo_book.blends, blend.id: changed})
    bowl = replace(own, sections=sections, mix_per_section=Mass(grams, "g"), minutes_per_section=minutes)
    house = book.house.hair_amounts
    dense = getattr(house.density, density)
    factor = getattr(house.length, length) * dense
    need = sections * grams * factor * F("1.05") / F("28.349523125")
    try:
        service = plan(book, replace(technique, bowls=(bowl,), hands=1), length, density)
    except CannotPlan as refusal:
        assert "weigh-outs in one bowl" in str(refusal)
        return
    fresh = service.bowls[0].fresh
    taken = -(-sections * dense // 1) if sections > 1 else 1
    assert sum(each.sections for each in fresh) == taken
    assert sum(each.need for each in fresh) == need
    if minutes is None:
        assert len(fresh) == 1
    else:
        fit = 45 // (minutes if sections > 1 else minutes * dense)
        assert len(fresh) == -(-taken // fit)  # as few fresh bowls as the time allows
    whole = 1 + blend.developer.ratio.value + sum(each.ratio.value for each in blend.additives)
    for each in fresh:
        wanted = each.need / whole
        left, count = best_by_hand(wanted, ladder)
        assert sum(each.batches) - wanted == left
        assert len(each.weigh_outs) == count


def planned(book: Book, unit: str = "g") -> Service:
    return plan(book, book.techniques["painting"], "medium", "medium", unit)


def test_a_house_without_a_waste_allowance_mixes_what_is_needed(small: SmallBook) -> None:
    """12 sections of 5 g: 60 g, at 1:2 a third of it lightener."""
    [bowl] = planned(small.read()).bowls
    assert (bowl.fresh[0].need, bowl.fresh[0].lightener) == (60, 20)


@pytest.mark.parametrize(
    ("fresh_for", "shared"), [(24, [12]), (23, [6, 6]), (5, [2] * 6), (7, [3, 3, 3, 3]), (2, [1] * 12)]
)
def test_sections_are_shared_over_bowls_that_stay_fresh(
    small: SmallBook, fresh_for: int, shared: list[int]
) -> None:
    """Two minutes a section: 24 minutes hold all twelve; 7 minutes hold three, not three and a half."""
    fresh = (BLEND_FILE, "reviewed:", f"fresh_for: {fresh_for} minutes\nreviewed:")
    [bowl] = planned(small.read(fresh)).bowls
    assert [each.sections for each in bowl.fresh] == shared


def test_a_section_that_takes_longer_than_a_bowl_stays_fresh(small: SmallBook) -> None:
    book = small.read((BLEND_FILE, "reviewed:", "fresh_for: 1 minute\nreviewed:"))
    with pytest.raises(
        CannotPlan, match=r"^One section takes longer than Soft clay three to one stays fresh\. Take smaller "
    ):
        planned(book)


def test_the_developer_of_the_technique_goes_into_the_bowl(small: SmallBook) -> None:
    book = small.read()
    weak = replace(book.products["developer-20"], volume=F(10), peroxide=F(3))
    weak.placed("developer-10", book.products["developer-20"].source)
    technique = book.techniques["painting"]
    changed = replace(technique, bowls=(replace(technique.bowls[0], developer="developer-10"),))
    changed.placed(technique.id, technique.source)
    book = replace(book, products={**book.products, "developer-10": weak}, techniques={"painting": changed})
    [bowl] = planned(book).bowls
    assert bowl.developer is weak
    assert {each.developer.id for fresh in bowl.fresh for each in fresh.weigh_outs} == {"developer-10"}


def test_a_supply_without_a_price(small: SmallBook) -> None:
    pack = "pack: {net: 500 pieces, price: 19.00, priced_on: 2026-09-01}\n"
    found = planned(small.read((FOIL_FILE, pack, "")))
    assert found.supplies == (SupplyLine("foil", 10, None),)
    assert (found.supply_cost, found.total) == (None, None)


def test_supplies_in_a_currency_of_three_decimals(small: SmallBook) -> None:
    """Ten of 500 pieces for 19.000: 0.380, in a thousandth each (ISO 4217: KWD has three decimals)."""
    found = planned(small.read((HOUSE_FILE, "currency: CAD", "currency: KWD")))
    assert found.supplies == (SupplyLine("foil", 10, 380),)


@pytest.mark.parametrize(
    ("edit", "unit", "other"),
    [
        ((HOUSE_FILE, "scale_step: {oz: 0.05, g: 1}", "scale_step: {oz: 0.05}"), "g", "oz"),
        ((HOUSE_FILE, "batches: {oz: [1, 2], g: [20, 40]}", "batches: {g: [20, 40]}"), "oz", "g"),
    ],
)
def test_a_unit_that_the_house_does_not_weigh_in(
    small: SmallBook, edit: tuple[str, str, str], unit: str, other: str
) -> None:
    """Asked for in that unit it is refused; not asked for, the unit that has sizes and a step is used."""
    book = small.read(edit)
    with pytest.raises(CannotPlan, match=rf"^The house does not mix in {unit}\. It mixes in {other}; "):
        planned(book, unit)
    assert plan(book, book.techniques["painting"], "medium", "medium").unit == other


def test_as_many_weigh_outs_as_anybody_would_do_and_one_more(small: SmallBook) -> None:
    """Batches of 20 g only: 24 of them are 480 g of lightener, 1,440 g at 1:2, 120 g for each section."""
    one_size = (HOUSE_FILE, "g: [20, 40]", "g: [20]")
    book = small.read(one_size, (TECHNIQUE_FILE, "section: 5 g", "section: 120 g"))
    assert len(planned(book).bowls[0].fresh[0].weigh_outs) == MOST_WEIGH_OUTS == 24
    book = small.read((TECHNIQUE_FILE, "section: 120 g", "section: 121 g"))
    with pytest.raises(CannotPlan, match=r"would take 25 weigh-outs in one bowl\. .* give it larger batches"):
        planned(book)


GRAMS_ONLY = (HOUSE_FILE, "batches: {oz: [1, 2], g: [20, 40]}", "batches: {g: [20, 40]}")


def test_sizes_in_grams_and_steps_in_both_units(small: SmallBook) -> None:
    """The unit that has sizes, not the first that has a step: 20 g of lightener read 15, 20 and 60."""
    book = small.read(GRAMS_ONLY)
    service = plan(book, book.techniques["painting"], "medium", "medium")
    [weighed] = service.bowls[0].fresh[0].weigh_outs
    assert (service.unit, [pour.scale_shows for pour in weighed.pours]) == ("g", [15, 20, 60])


def test_mix_written_in_ounces_for_a_house_that_weighs_in_grams(small: SmallBook) -> None:
    """12 sections of 0.2 oz are 2.4 oz; the ounce is 28.349523125 g (NIST SP 811, appendix B.8)."""
    edit = (TECHNIQUE_FILE, "mix_per_section: 5 g", "mix_per_section: 0.2 oz")
    book = small.read(GRAMS_ONLY, edit)
    [bowl] = plan(book, book.techniques["painting"], "medium", "medium").bowls
    assert bowl.fresh[0].need == F("2.4") * F("28.349523125")


def test_one_bowl_that_reads_zero_leaves_the_others(small: SmallBook) -> None:
    """1 g of lightener in steps of 1 g: a quarter of it is no powder. 4 g would do, as 3 and 1."""
    second = (
        "  - blend: soft-clay\n    where: The hairline.\n    zones: [1]\n    sections: 1\n"
        "    mix_per_section: 3 g\nsteps:"
    )
    book = small.read(
        (HOUSE_FILE, "review_after", "any_batch: yes\nreview_after"),
        (TECHNIQUE_FILE, "steps:", second),
    )
    service = planned(book)
    first, hairline = service.bowls
    assert [bowl.total for bowl in first.fresh[0].weigh_outs] == [60]
    [fresh] = hairline.unweighed
    assert (fresh.weigh_outs, fresh.left_over) == ((), 0)
    assert (fresh.cannot.product.id, fresh.cannot.next_weighable_batch) == ("powder", 4)
    assert service.unweighed == (hairline,)
    # 15 g of clay, 5 of powder, 40 of developer: 1.30 + 0.95 + 40 x 14.50 / 1020 = 2.8186; ten foils 0.38.
    assert (service.known, service.bowl_costs, service.total) == (320, (282, None), None)


def test_what_is_known_is_added_up_and_what_is_missing_is_named(small: SmallBook) -> None:
    """15 g of clay at 39.00 for 450 g, 5 g of powder at 47.50 for 250 g: 1.30 and 0.95; ten foils 0.38."""
    pack = "pack: {net: 1 L, price: 14.50, priced_on: 2026-09-01}\n"
    service = planned(small.read((DEVELOPER_FILE, pack, "")))
    assert (service.bowl_costs, service.known, service.total) == ((225,), 263, None)
    assert [each.name for each in service.unpriced] == ["Developer 20"]
    assert (service.products, service.waste_cost, service.left_over_cost) == (None, None, None)


def test_a_cost_is_rounded_once(small: SmallBook) -> None:
    """In yen, which has no minor unit (ISO 4217): 2.8186 for the bowl and 0.38 for foils are 3.1986, so 3;
    by largest remainder the bowl's share of it, 2.643, is 3, and the foils' 0.356 nothing. By hand."""
    service = planned(small.read((HOUSE_FILE, "currency: CAD", "currency: JPY")))
    assert (service.bowl_costs, service.supplies[0].cost, service.total) == ((3,), 0, 3)


def test_waste_and_what_is_left_over_cost_their_share(small: SmallBook) -> None:
    """Need 60 g and a tenth for waste, 66 g, 22 g of it lightener: a batch of 40 g, 120 g of mix, so 54 g
    are left over. It costs 2 x 2.81863 = 5.63725; of it 6/120 is 0.28186 and 54/120 is 2.53676. By hand."""
    book = small.read((HOUSE_FILE, "review_after", "waste_allowance: 10 %\nreview_after"))
    service = planned(book)
    [fresh] = service.bowls[0].fresh
    assert (fresh.need, fresh.waste, fresh.left_over, fresh.batches) == (66, 6, 54, (40,))
    assert (service.products, service.waste_cost, service.left_over_cost) == (564, 28, 254)


def test_a_blend_with_sizes_of_its_own_brings_its_unit(small: SmallBook) -> None:
    """The house has sizes in grams only; the one blend of the technique has its own in ounces."""
    own = (BLEND_FILE, "reviewed:", "batches: {oz: [1.5]}\nreviewed:")
    book = small.read(GRAMS_ONLY, own)
    service = plan(book, book.techniques["painting"], "medium", "medium")
    assert (service.unit, service.bowls[0].fresh[0].batches) == ("oz", (F("1.5"),))
