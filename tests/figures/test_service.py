"""How much to mix for a service: worked by hand, split into fresh bowls, adding up, refused where need be."""

from dataclasses import replace
from fractions import Fraction as F
from itertools import product
from pathlib import Path

import pytest
from checks.small_book import BLEND_FILE, FOIL_FILE, HOUSE_FILE, TECHNIQUE_FILE, SmallBook
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.book.book import Book
from generator.book.read_book import read_book
from generator.entries.ladder import Ladder
from generator.figures.service import MOST_WEIGH_OUTS, CannotPlan, Service, SupplyLine, hair_factor, plan
from generator.figures.unit import GRAMS_PER
from generator.reading.amount import Mass


def test_worked_by_hand(demo_book) -> None:
    """Triangle in two foils on long, thick hair: 16 sections of 7 g x 1.4 x 1.3, 5 % on top, at 1:2 one third
    of it lightener: 16 x 7 x 1.82 x 1.05 / 3 = 71.344 g = 2.5166 oz, so batches of 2 and 1 oz."""
    service = plan(demo_book, demo_book.techniques["triangle-in-two-foils"], "long", "thick")
    first = service.bowls[0].fresh[0]
    assert service.factor == F("1.82")
    assert first.lightener * GRAMS_PER["oz"] == F(16) * 7 * F("1.82") * F("1.05") / 3
    assert first.batches.batches == (F(2), F(1))
    assert [bowl.total for bowl in first.weigh_outs] == [F(6), F(3)]
    assert first.left_over == 9 - F(16) * 7 * F("1.82") * F("1.05") / GRAMS_PER["oz"]


def test_costs_add_up(demo_book) -> None:
    for technique in demo_book.techniques.values():
        for length in ("short", "medium", "long", "extra_long"):
            for unit in ("oz", "g"):
                service = plan(demo_book, technique, length, "medium", unit)
                assert service.bowl_costs is not None
                assert sum(service.bowl_costs) == service.products
                assert sum(line.cost for line in service.supplies) == service.supply_cost
                assert service.products + service.supply_cost == service.total
                assert 0 <= service.left_over_cost <= service.products
                for bowl in service.bowls:
                    assert sum(fresh.sections for fresh in bowl.fresh) == bowl.bowl.sections
                    for fresh in bowl.fresh:
                        assert sum(fresh.batches.batches) == fresh.lightener + fresh.batches.left_over


def test_fresh_bowls_where_applying_takes_longer(demo_book) -> None:
    """60 sections of one minute in a mix that stays fresh for 45: two bowls of 30 sections."""
    service = plan(demo_book, demo_book.techniques["fine-weaves"], "medium", "medium")
    shared = [(fresh.sections, fresh.minutes) for fresh in service.bowls[0].fresh]
    assert shared == [(30, 30), (30, 30)]
    for fresh in service.bowls[0].fresh:
        assert fresh.minutes <= demo_book.blends["foil-fine"].fresh_for


def test_one_exact_batch_where_the_house_allows_any_size(demo_book) -> None:
    house = replace(demo_book.house, any_batch=True)
    service = plan(replace(demo_book, house=house), demo_book.techniques["dark-paint"], "medium", "medium")
    fresh = service.bowls[0].fresh[0]
    assert len(fresh.batches.batches) == 1
    assert 0 <= fresh.batches.left_over < F("0.01")
    assert (fresh.batches.batches[0] / F("0.01")).denominator == 1


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


def test_refusals(demo_book) -> None:
    technique = demo_book.techniques["dark-paint"]
    with pytest.raises(CannotPlan, match="hair_amounts"):
        hair_factor(replace(demo_book, house=replace(demo_book.house, hair_amounts=None)), "long", "thick")
    amounts = demo_book.house.hair_amounts
    unmeasured = replace(amounts, length=replace(amounts.length, extra_long=None))
    with pytest.raises(CannotPlan, match="extra_long"):
        plan(
            replace(demo_book, house=replace(demo_book.house, hair_amounts=unmeasured)),
            technique,
            "extra_long",
            "medium",
        )
    bare = replace(technique, bowls=tuple(replace(bowl, mix_per_section=None) for bowl in technique.bowls))
    with pytest.raises(CannotPlan, match="no amounts"):
        plan(demo_book, bare, "long", "medium")
    slow = replace(
        technique, bowls=tuple(replace(bowl, minutes_per_section=F(60)) for bowl in technique.bowls)
    )
    with pytest.raises(CannotPlan, match="longer than"):
        plan(demo_book, slow, "long", "medium")
    large = replace(
        technique, bowls=tuple(replace(bowl, mix_per_section=Mass(F(100), "kg")) for bowl in technique.bowls)
    )
    with pytest.raises(CannotPlan) as refusal:
        plan(demo_book, large, "long", "medium")
    assert "weigh-outs in one bowl: look at sections and mix_per_section, or give it larger" in str(
        refusal.value
    )


amounts = st.tuples(
    st.integers(1, 60),
    st.integers(4, 80).map(lambda tenths: F(tenths, 10)),
    st.sampled_from([None, F(1), F(3, 2), F(2), F(5)]),
)
ladders = st.lists(st.sampled_from([F(n, 5) for n in range(1, 16)]), min_size=1, max_size=3, unique=True)


def best_by_hand(need: F, ladder: list[F]) -> tuple[F, int]:
    """The least left over and then the fewest weigh-outs: every count of every batch tried."""
    found = []
    counts = [range(int(-(-need // batch)) + 1) for batch in ladder]
    for chosen in product(*counts):
        left = sum((count * batch for count, batch in zip(chosen, ladder, strict=True)), F(0)) - need
        if left >= 0:
            found.append((left, sum(chosen)))
    return min(found)


@settings(max_examples=500)
@given(
    st.sampled_from(["dark-paint", "fine-weaves", "triangle-in-two-foils"]),
    amounts,
    ladders,
    st.sampled_from(["short", "medium", "long", "extra_long"]),
    st.sampled_from(["thin", "medium", "thick"]),
)
def test_five_hundred_plans_equal_brute_force(demo_book, name, amount, ladder, length, density) -> None:
    sections, grams, minutes = amount
    technique = demo_book.techniques[name]
    own = technique.bowls[0]
    blend = demo_book.blends[own.blend]
    changed = replace(blend, batches=Ladder(oz=tuple(sorted(ladder))), fresh_for=F(45))
    changed.placed(blend.id, blend.source)
    book = replace(demo_book, blends={**demo_book.blends, blend.id: changed})
    bowl = replace(own, sections=sections, mix_per_section=Mass(grams, "g"), minutes_per_section=minutes)
    house = book.house.hair_amounts
    factor = getattr(house.length, length) * getattr(house.density, density)
    need = sections * grams * factor * F("1.05") / F("28.349523125")
    try:
        service = plan(book, replace(technique, bowls=(bowl,)), length, density)
    except CannotPlan as refusal:
        assert "weigh-outs in one bowl" in str(refusal)
        return
    fresh = service.bowls[0].fresh
    assert sum(each.sections for each in fresh) == sections
    assert sum(each.need for each in fresh) == need
    if minutes is None:
        assert len(fresh) == 1
    else:
        fit = 45 // minutes
        assert len(fresh) == -(-sections // fit)  # as few fresh bowls as the time allows
    whole = 1 + blend.developer.ratio.value + sum(each.ratio.value for each in blend.additives)
    for each in fresh:
        wanted = each.need / whole
        left, count = best_by_hand(wanted, ladder)
        assert each.batches.left_over == left
        assert len(each.weigh_outs) == count


def small(tmp_path: Path, *edits: tuple[str, str, str]) -> Book:
    """The small book, edited, with hair amounts measured."""
    book = SmallBook(tmp_path / "recipes")
    book.add(HOUSE_FILE, "hair_amounts:\n  length: {medium: 1}\n  density: {medium: 1}\n")
    for path, old, new in edits:
        book.edit(path, old, new)
    found = read_book(book.root, keep=False).book
    assert found is not None and found.whole
    return found


def planned(book: Book, unit: str = "g") -> Service:
    return plan(book, book.techniques["painting"], "medium", "medium", unit)


def test_a_house_without_a_waste_allowance_mixes_what_is_needed(tmp_path: Path) -> None:
    """12 sections of 5 g: 60 g, at 1:2 a third of it lightener."""
    [bowl] = planned(small(tmp_path)).bowls
    assert (bowl.fresh[0].need, bowl.fresh[0].lightener) == (60, 20)


@pytest.mark.parametrize(
    ("fresh_for", "shared"), [(24, [12]), (23, [6, 6]), (5, [2] * 6), (7, [3, 3, 3, 3]), (2, [1] * 12)]
)
def test_sections_are_shared_over_bowls_that_stay_fresh(
    tmp_path: Path, fresh_for: int, shared: list[int]
) -> None:
    """Two minutes a section: 24 minutes hold all twelve; 7 minutes hold three, not three and a half."""
    fresh = (BLEND_FILE, "reviewed:", f"fresh_for: {fresh_for} minutes\nreviewed:")
    [bowl] = planned(small(tmp_path, fresh)).bowls
    assert [each.sections for each in bowl.fresh] == shared


def test_a_section_that_takes_longer_than_a_bowl_stays_fresh(tmp_path: Path) -> None:
    book = small(
        tmp_path,
        (BLEND_FILE, "reviewed:", "fresh_for: 1 minute\nreviewed:"),
    )
    with pytest.raises(
        CannotPlan, match=r"^One section takes longer than Soft clay three to one stays fresh\.$"
    ):
        planned(book)


def test_the_developer_of_the_technique_goes_into_the_bowl(tmp_path: Path) -> None:
    book = small(tmp_path)
    weak = replace(book.products["developer-20"], volume=F(10), peroxide=F(3))
    weak.placed("developer-10", book.products["developer-20"].source)
    technique = book.techniques["painting"]
    changed = replace(technique, bowls=(replace(technique.bowls[0], developer="developer-10"),))
    changed.placed(technique.id, technique.source)
    book = replace(book, products={**book.products, "developer-10": weak}, techniques={"painting": changed})
    [bowl] = planned(book).bowls
    assert bowl.developer is weak
    assert {each.developer.id for fresh in bowl.fresh for each in fresh.weigh_outs} == {"developer-10"}


def test_a_supply_without_a_price(tmp_path: Path) -> None:
    pack = "pack: {net: 500 pieces, price: 19.00, priced_on: 2026-09-01}\n"
    found = planned(small(tmp_path, (FOIL_FILE, pack, "")))
    assert found.supplies == (SupplyLine("foil", 10, None),)
    assert (found.supply_cost, found.total) == (None, None)


def test_supplies_in_a_currency_of_three_decimals(tmp_path: Path) -> None:
    """Ten of 500 pieces for 19.000: 0.380, in a thousandth each (ISO 4217: KWD has three decimals)."""
    found = planned(small(tmp_path, (HOUSE_FILE, "currency: CAD", "currency: KWD")))
    assert found.supplies == (SupplyLine("foil", 10, 380),)


@pytest.mark.parametrize(
    ("edit", "unit"),
    [
        ((HOUSE_FILE, "scale_step: {oz: 0.05, g: 1}", "scale_step: {oz: 0.05}"), "g"),
        ((HOUSE_FILE, "batches: {oz: [1, 2], g: [20, 40]}", "batches: {g: [20, 40]}"), "oz"),
    ],
)
def test_a_unit_that_the_house_does_not_weigh_in(
    tmp_path: Path, edit: tuple[str, str, str], unit: str
) -> None:
    with pytest.raises(CannotPlan, match=rf"^The house has no batch sizes and scale step in {unit}\.$"):
        planned(small(tmp_path, edit), unit)


def test_as_many_weigh_outs_as_anybody_would_do_and_one_more(tmp_path: Path) -> None:
    """Batches of 20 g only: 24 of them are 480 g of lightener, 1,440 g at 1:2, 120 g for each section."""
    one_size = (HOUSE_FILE, "g: [20, 40]", "g: [20]")
    book = small(tmp_path / "a", one_size, (TECHNIQUE_FILE, "mix_per_section: 5 g", "mix_per_section: 120 g"))
    assert len(planned(book).bowls[0].fresh[0].weigh_outs) == MOST_WEIGH_OUTS == 24
    book = small(tmp_path / "b", one_size, (TECHNIQUE_FILE, "mix_per_section: 5 g", "mix_per_section: 121 g"))
    with pytest.raises(CannotPlan, match="would take 25 weigh-outs"):
        planned(book)
