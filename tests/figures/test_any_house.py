"""Services and kits of generated houses: no traceback, every sum adds up, nothing vanishes without a word."""

from dataclasses import replace
from fractions import Fraction as F
from math import ceil
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bowlbook.book.book import Book
from bowlbook.entries.entry import Entry
from bowlbook.entries.hair_amount import DENSITIES, LENGTHS, DensityFactors, HairAmounts, LengthFactors
from bowlbook.entries.house import ScaleSteps
from bowlbook.entries.ladder import Ladder
from bowlbook.figures.batching import MOST_WEIGH_OUTS
from bowlbook.figures.cost import minor_units
from bowlbook.figures.kit import kit, kit_plan
from bowlbook.figures.rounding import half_up
from bowlbook.figures.service import CannotPlan, Service, plan
from bowlbook.pages.kit_table import kit_table, planned_kit
from bowlbook.pages.service_sheet import service_page, sheets_of
from bowlbook.reading.amount import Mass
from bowlbook.wording.locale_format import LocaleFormat
from checks.small_book import SmallBook
from figures.richer_book import enrich


@pytest.fixture(scope="module")
def base(tmp_path_factory: pytest.TempPathFactory) -> Book:
    """The richer small book: two blends, a toner, an additive, two techniques and a class."""
    return enrich(SmallBook(tmp_path_factory.mktemp("any") / "recipes")).read()


def sizes(most: int) -> st.SearchStrategy[tuple[F, ...]]:
    """Sizes to mix, even or with up to six decimals as uneven as they may be written; or none."""
    even = st.integers(1, most * 4).map(lambda n: F(n, 4))
    uneven = st.integers(10_000, most * 10**6).map(lambda n: F(n, 10**6))
    return st.lists(st.one_of(even, uneven), max_size=4, unique=True).map(
        lambda found: tuple(sorted([*found, F(most)]))
    )


def mostly(usual: st.SearchStrategy[Any], rarely: Any = None) -> st.SearchStrategy[Any]:
    """What a field usually holds, and one time in eight what leaves a plan without it."""
    return st.integers(0, 7).flatmap(lambda n: usual if n else st.just(rarely))


factors = mostly(st.integers(1, 40).map(lambda n: F(n, 10)))
steps = mostly(st.sampled_from([F(1, 100), F(1, 20), F(1, 10), F(1), F(7, 10)]))
ladders = (
    st.tuples(mostly(sizes(4), ()), mostly(sizes(90), ()))
    .filter(any)
    .map(lambda found: Ladder(oz=found[0], g=found[1]))
)
houses = st.fixed_dictionaries(
    {
        "batches": ladders,
        "scale_step": st.builds(ScaleSteps, oz=steps, g=steps),
        "hair_amounts": mostly(
            st.builds(
                HairAmounts,
                length=st.builds(LengthFactors, **dict.fromkeys(LENGTHS, factors)),
                density=st.builds(DensityFactors, **dict.fromkeys(DENSITIES, factors)),
            ),
        ),
        "waste_allowance": st.sampled_from([None, F(0), F(5), F(33, 2), F(100)]),
        "any_batch": st.booleans(),
        "currency": st.sampled_from(["JPY", "CAD", "KWD"]),
    }
)
bowls = st.fixed_dictionaries(
    {
        "sections": st.integers(1, 80),
        "mix_per_section": st.one_of(
            st.builds(Mass, st.integers(1, 12_000).map(lambda n: F(n, 1000)), st.just("g")),
            st.builds(Mass, st.integers(1, 400).map(lambda n: F(n, 1000)), st.just("oz")),
        ),
        "minutes_per_section": st.one_of(st.none(), st.integers(1, 9).map(F), st.just(F(50))),
        "zones": st.sampled_from([("1",), ("1", "2"), ("2", "3")]),
        "by_turns": st.sampled_from([None, True]),
    }
)


def changed(entry: Any, **values: Any) -> Any:
    """An entry with other values, in the place of the first."""
    found = replace(entry, **values)
    if isinstance(entry, Entry):
        found.placed(entry.id, entry.source)
    return found


@st.composite
def books(draw: st.DrawFn, base: Book) -> Book:
    """The base with another house, other amounts in its techniques, and some prices gone."""
    techniques = {
        key: changed(
            technique,
            bowls=tuple(replace(bowl, **draw(mostly(bowls, {"sections": None}))) for bowl in technique.bowls),
            hands=draw(st.sampled_from([1, 2])),
            supplies=tuple(
                replace(each, by_sections=draw(st.sampled_from([None, True]))) for each in technique.supplies
            ),
        )
        for key, technique in base.techniques.items()
    }
    products = {
        key: changed(product, pack=draw(mostly(st.just(product.pack))))
        for key, product in base.products.items()
    }
    house = changed(base.house, **draw(houses))
    return replace(base, house=house, techniques=techniques, products=products)


@given(st.data())
def test_every_house_has_a_plan_or_a_reason(base: Book, data: st.DataObject) -> None:
    book = data.draw(books(base))
    for technique in book.techniques.values():
        for length, density in (("short", "thin"), ("extra_long", "thick"), ("medium", "medium")):
            try:
                service = plan(book, technique, length, density)
            except CannotPlan as refusal:
                assert refusal.reason.endswith(".") and refusal.mend.endswith(".")
                continue
            adds_up(book, service)
            covers(service)


@given(st.data())
def test_every_house_has_sheets_and_a_kit_or_a_sentence(base: Book, data: st.DataObject) -> None:
    """Each measured head has a sheet: figures, or why there are none. So has the class."""
    book = data.draw(books(base))
    formats = LocaleFormat(book.house)
    measured = book.house.hair_amounts.heads if book.house.hair_amounts else {}
    for technique in book.techniques.values():
        found = sheets_of(book, technique, formats)
        assert found.refusal or [(each.length, each.density) for each in found.sheets] == list(measured)
        for sheet in found.sheets:
            assert bool(sheet.refusal) != bool(sheet.bowls)
            for mixing in (mixing for bowl in sheet.bowls for mixing in bowl.mixings):
                assert bool(mixing.cannot) != bool(mixing.weigh_outs)
        if found.sheets:
            assert service_page(technique, found).body
    planned = planned_kit(book, book.classes["first-painting"])
    if isinstance(planned, str):
        assert planned.endswith(".")
        return
    assert planned is not None
    table = kit_table(planned, planned.notes.learners, formats)
    assert bool(table.cannot) == any(service.unweighed for service in planned.services)


@given(st.data(), st.integers(1, 500))
def test_every_kit_adds_up(base: Book, data: st.DataObject, learners: int) -> None:
    book = data.draw(books(base))
    try:
        found = kit(kit_plan(book, book.classes["first-painting"]), learners)
    except CannotPlan:
        return
    costs = [line.cost for line in found.lines if line.cost is not None]
    assert found.known == (sum(costs) if costs else None)
    exact = sum(
        (line.product.pack.price * line.containers for line in found.lines if line.cost is not None), F(0)
    )
    assert found.known is None or found.known == half_up(exact * 10 ** minor_units(book.house.currency))
    assert (found.cost is None) == bool(found.unpriced or found.unweighed)
    assert {each.id for each in found.unpriced} == {
        line.product.id for line in found.lines if book.products[line.product.id].pack is None
    }


def adds_up(book: Book, service: Service) -> None:
    """The lines add up to what is known, which is the exact sum rounded once; prices that miss are named."""
    lines = [*service.bowl_costs, *(line.cost for line in service.supplies)]
    known = [line for line in lines if line is not None]
    assert service.known == (sum(known) if known else None)
    exact, waste, left_over, without = F(0), F(0), F(0), set()
    for fresh in (fresh for bowl in service.bowls for fresh in bowl.fresh):
        cost = F(0)
        for pour in (pour for bowl in fresh.weigh_outs for pour in bowl.pours):
            price = price_of(pour.product, service.unit)
            if price is None:
                without.add(pour.product.id)
            else:
                cost += price * pour.reading.weigh
        exact += cost
        if fresh.weigh_outs:
            waste += cost * fresh.waste / fresh.weighed
            left_over += cost * fresh.left_over / fresh.weighed
    for each in service.technique.supplies:
        pack = book.products[each.product].pack
        if pack is None:
            without.add(each.product)
        else:
            exact += F(pack.price) * taken_of(service, each) / pack.net.number
    scale = 10 ** minor_units(book.house.currency)
    assert service.known is None or service.known == half_up(exact * scale)
    assert {each.id for each in service.unpriced} == without
    assert (service.total is None) == bool(without or service.unweighed)
    if service.total is not None:
        assert service.products + service.supply_cost == service.total
        assert (service.waste_cost, service.left_over_cost) == (
            half_up(waste * scale), half_up(left_over * scale),
        )  # fmt: skip


GRAMS = {"g": F(1), "oz": F("28.349523125"), "fl oz": F("29.5735295625"), "mL": F(1), "L": F(1000)}
"""Ounce: NIST Special Publication 811, appendix B.8. US fluid ounce: 231 cubic inches over 128, in mL."""


def price_of(product: Any, unit: str) -> F | None:
    """What one ``unit`` of a product costs, by its pack and density."""
    if product.pack is None:
        return None
    net = product.pack.net
    weight = net.number * GRAMS[net.unit] * (1 if isinstance(net, Mass) else product.density)
    found: F = product.pack.price * GRAMS[unit] / weight
    return found


def taken_of(service: Service, supply: Any) -> int:
    """Pieces of a supply: as written, or in proportion to all sections, rounded up."""
    written = [each.sections for each in service.technique.bowls if (each.sections or 1) > 1]
    if not supply.by_sections or not written:
        return int(supply.count)
    taken = sum(ceil(each * service.factors.density) for each in written)
    return ceil(F(supply.count * taken, sum(written)))


def covers(service: Service) -> None:
    """Sections shared evenly, each share covered by sizes of the house, in a few weigh-outs."""
    for planned in service.bowls:
        shares = [fresh.sections for fresh in planned.fresh]
        written = planned.bowl.sections
        assert sum(shares) == (ceil(written * service.factors.density) if written > 1 else 1)
        assert shares == sorted(shares, reverse=True) and shares[0] - shares[-1] <= 1
        for fresh in planned.fresh:
            assert 1 <= len(fresh.batches) <= MOST_WEIGH_OUTS
            assert sum(fresh.batches) >= fresh.lightener
            assert (fresh.cannot is None) == bool(fresh.weigh_outs)
            assert len(fresh.weigh_outs) in (0, len(fresh.batches))
