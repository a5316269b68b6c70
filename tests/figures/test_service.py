"""How much to mix for a service: worked by hand, split into fresh bowls, adding up, refused where need be."""

from dataclasses import replace
from fractions import Fraction as F

import pytest

from generator.figures.service import CannotPlan, hair_factor, plan
from generator.figures.unit import GRAMS_PER
from generator.reading.amount import Mass


def test_worked_by_hand(demo_book) -> None:
    """Triangle in two foils on long, thick hair: 16 sections of 7 g x 1.4 x 1.3, 5 % on top, at 1:2 one third
    of it lightener: 16 x 7 x 1.82 x 1.05 / 3 = 71.344 g = 2.5166 oz, so 2.40 and 0.60 from the ladder."""
    service = plan(demo_book, demo_book.techniques["triangle-in-two-foils"], "long", "thick")
    first = service.bowls[0].fresh[0]
    assert service.factor == F("1.82")
    assert first.lightener * GRAMS_PER["oz"] == F(16) * 7 * F("1.82") * F("1.05") / 3
    assert first.batches.batches == (F("2.4"), F("0.6"))
    assert [bowl.total for bowl in first.weigh_outs] == [F("7.2"), F("1.8")]
    assert first.left_over == 9 - F(16) * 7 * F("1.82") / GRAMS_PER["oz"]


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
    assert 0 <= fresh.batches.left_over < F("0.05")


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
    with pytest.raises(CannotPlan, match="weigh-outs in one bowl"):
        plan(demo_book, large, "long", "medium")
