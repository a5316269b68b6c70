"""A technique's service sheet: by hair amount the bowls in order, weighed out, with minutes and cost."""

from collections.abc import Sequence
from itertools import groupby
from typing import NamedTuple

from bowlbook.book.book import Book
from bowlbook.entries.hair_amount import DENSITIES, LENGTHS
from bowlbook.entries.technique import Technique
from bowlbook.figures.bowl import Bowl
from bowlbook.figures.rounding import decimals_of, fixed
from bowlbook.figures.service import BowlPlan, CannotPlan, FreshBowl, Service, ServicePlanner
from bowlbook.figures.withdrawn import retired_in
from bowlbook.pages.address import entry_address, relative
from bowlbook.pages.page import Page
from bowlbook.pages.render import render
from bowlbook.reading.amount import Count, counted, plain
from bowlbook.wording import time_on_hair
from bowlbook.wording.amount import length_word
from bowlbook.wording.cost import without_phrase
from bowlbook.wording.entry import name_of
from bowlbook.wording.listing import both
from bowlbook.wording.locale_format import LocaleFormat
from bowlbook.wording.service import cannot_remark, rounding_remark

FIRST = ("medium", "medium")
"""The hair amount that a sheet opens with."""


class WeighOut(NamedTuple):
    """One batch weighed out, ``times`` over: (role, name, weigh, scale shows) down the list.

    ``again``: another batch is in the bowl already, so the scale is tared again before this one.
    """

    again: bool
    times: int
    batch: str
    unit: str
    lines: tuple[tuple[str, str, str, str], ...]
    remark: str | None


class Mixing(NamedTuple):
    """One fresh bowl: which it is, what it is for, and its weigh-outs; ``cannot`` says why there are none."""

    which: str
    share: str
    need: str
    weigh_outs: tuple[WeighOut, ...]
    left_over: str
    cannot: str | None


class SheetBowl(NamedTuple):
    """A bowl of the technique: name, link, where it goes, its blend's cautions, and each time it is mixed.

    ``times``: how much more or less mix than as written; empty where it is as written.
    """

    name: str
    href: str
    where: str
    times: str
    developer: str
    cautions: tuple[str, ...]
    mixings: tuple[Mixing, ...]


class Sheet(NamedTuple):
    """The service for one hair amount; ``refusal`` says why it is not planned.

    ``costs`` and ``total`` are of what has a price, and ``without`` names the rest. ``of_total``: the part of
    the total that is allowed for waste, and what is left over. ``minutes`` is the time on the hair,
    ``warning`` what is wrong with it. ``spent``: what is used of the bowls, the supplies, and what is for
    waste or left over, in minor units; None where nothing has a price.
    """

    length: str
    density: str
    hair: str
    refusal: str | None = None
    warning: str | None = None
    bowls: tuple[SheetBowl, ...] = ()
    supplies: tuple[tuple[str, str], ...] = ()
    minutes: tuple[tuple[str, str], ...] = ()
    timer: time_on_hair.TimerStart | None = None
    costs: tuple[tuple[str, str], ...] = ()
    total: str | None = None
    without: str = ""
    of_total: tuple[tuple[str, str], ...] = ()
    spent: tuple[int, int, int] | None = None


class Sheets(NamedTuple):
    """A technique's sheets, one for each hair amount that the house has measured.

    ``refusal``: why there is none. ``unmeasured``: which hair the house has not measured.
    """

    sheets: tuple[Sheet, ...]
    waste: str | None = None
    refusal: str | None = None
    unmeasured: str | None = None


def sheets_of(book: Book, technique: Technique, formats: LocaleFormat) -> Sheets:
    """The service sheets of a technique: one that cannot be planned says why, and none is left out."""
    retired = retired_in(book, technique)
    if retired:
        kind, entry_id = retired[0]
        return Sheets((), refusal=f"{name_of(book.of_kind(kind)[entry_id])} is retired.")
    amounts = book.house.hair_amounts
    heads = list(amounts.heads) if amounts else []
    if not heads:
        return Sheets((), refusal="The house has not measured hair amounts.")
    lengths, densities = ({each[place] for each in heads} for place in (0, 1))
    left_out = [f"{length_word(each)} hair" for each in LENGTHS if each not in lengths]
    left_out += [f"{each} density" for each in DENSITIES if each not in densities]
    unmeasured = f"The house has not measured {both(left_out)}." if left_out else None
    try:
        writer = _Writer(book, technique, formats)
    except CannotPlan as refusal:
        return Sheets((), None, refusal.reason, unmeasured)
    sheets = tuple([writer.sheet(length, density) for length, density in heads])
    waste = book.house.waste_allowance
    refusals = {each.refusal for each in sheets}
    if len(refusals) == 1 and None not in refusals:
        return Sheets((), None, refusals.pop(), unmeasured)
    return Sheets(sheets, f"{plain(waste)} %" if waste else None, None, unmeasured)


def service_address(technique: Technique) -> str:
    """The address of a technique's service sheet."""
    return f"{entry_address('technique', technique.id)}service/"


def opened_first(sheets: Sequence[Sheet]) -> Sheet:
    """The sheet that is shown first."""
    return next((each for each in sheets if (each.length, each.density) == FIRST), sheets[0])


def service_page(technique: Technique, found: Sheets) -> Page:
    """The finished sheet, the hair amount to be chosen on it. ``found`` has sheets."""
    address = service_address(technique)
    sheets = found.sheets
    opened = opened_first(sheets)
    title = f"Service sheet: {technique.name}"
    lengths = list(dict.fromkeys(each.length for each in sheets))
    densities = list(dict.fromkeys(each.density for each in sheets))
    body = render(
        "service.html",
        address,
        technique=technique,
        href=relative(entry_address("technique", technique.id), address),
        lengths=[(each, length_word(each).capitalize(), each == opened.length) for each in lengths],
        densities=[(each, each.capitalize(), each == opened.density) for each in densities],
        sheets=sheets,
        waste=found.waste,
        unmeasured=found.unmeasured,
        section=time_on_hair.section_word(technique),
    )
    return Page(address, title, f"What {technique.name} takes, bowl by bowl.", body)


_Timing = tuple[str | None, tuple[tuple[str, str], ...], time_on_hair.TimerStart]
"""What a sheet says of time: ``warning``, ``minutes`` and ``timer`` of a `Sheet`."""


class _Writer:
    """Writes the sheets of one technique: what several heads have in common is written once."""

    def __init__(self, book: Book, technique: Technique, formats: LocaleFormat) -> None:
        self._book, self._technique, self._formats = book, technique, formats
        self._planner = ServicePlanner(book, technique)
        self._address = service_address(technique)
        self._timings: dict[str, _Timing] = {}
        self._weigh_outs: dict[tuple[int, tuple[int, ...]], tuple[WeighOut, ...]] = {}

    def sheet(self, length: str, density: str) -> Sheet:
        """The sheet for one hair amount."""
        hair = f"{length_word(length).capitalize()} hair, {density} density"
        try:
            return self._sheet(hair, self._planner.plan(length, density))
        except CannotPlan as refusal:
            return Sheet(length, density, hair, refusal.reason)

    def _sheet(self, hair: str, service: Service) -> Sheet:
        bowls = tuple([self._bowl(place, each) for place, each in enumerate(service.bowls)])
        supplies = [(self._book.products[line.product].name, line) for line in service.supplies]
        money = self._formats.money
        costs: list[tuple[str, str]] = []
        if service.known is not None:
            pairs = [(bowl.name, cost) for bowl, cost in zip(bowls, service.bowl_costs, strict=True)]
            pairs += [(f"{name}, {Count(line.count)}", line.cost) for name, line in supplies]
            costs = [(name, money(cost) or "no price") for name, cost in pairs]
        warning, minutes, timer = self._timing(service)
        return Sheet(
            *(service.length, service.density, hair),
            warning=warning,
            bowls=bowls,
            supplies=tuple((name, str(Count(line.count))) for name, line in supplies),
            minutes=minutes,
            timer=timer,
            costs=tuple(costs),
            total=money(service.known),
            without=without_phrase(service.unpriced, [each.blend for each in service.unweighed]),
            of_total=tuple(
                (what, money(cost) or "")
                for what, cost in (("for waste", service.waste_cost), ("left over", service.left_over_cost))
                if cost
            ),
            spent=_spent(service),
        )

    def _timing(self, service: Service) -> _Timing:
        """The same for every length of hair."""
        if service.density not in self._timings:
            technique, time = service.technique, service.time
            self._timings[service.density] = (
                time_on_hair.time_warning(self._book, technique, service.factors.density, time),
                tuple(time_on_hair.time_facts(technique, time, service.hands)),
                time_on_hair.timer_start(technique, time),
            )
        return self._timings[service.density]

    def _bowl(self, place: int, planned: BowlPlan) -> SheetBowl:
        count = len(planned.fresh)
        # How much more or less mix this hair takes than the head it was measured on.
        times = f"{plain(planned.factor)} times the mix of the head it was measured on."
        mixings = tuple(
            self._mixing(
                place, planned, fresh, f"Bowl {number} of {count}, mixed fresh" if count > 1 else "One bowl"
            )
            for number, fresh in enumerate(planned.fresh, 1)
        )
        return SheetBowl(
            planned.blend.name,
            relative(entry_address("blend", planned.blend.id), self._address),
            planned.bowl.where,
            "" if planned.factor == 1 else times,
            planned.developer.name,
            planned.blend.cautions,
            mixings,
        )

    def _mixing(self, place: int, planned: BowlPlan, fresh: FreshBowl, which: str) -> Mixing:
        share = counted(fresh.sections, "section")
        if fresh.minutes is not None:
            share += f", {time_on_hair.whole_minutes(fresh.minutes)} to apply"
        if (place, fresh.multiples) not in self._weigh_outs:
            self._weigh_outs[place, fresh.multiples] = _weigh_outs(fresh)
        places = decimals_of(fresh.step)
        need = f"{fixed(fresh.need, places)} {fresh.unit} of mix"
        left_over = f"{fixed(fresh.left_over, places)} {fresh.unit} left over"
        if fresh.waste:
            left_over = f"{fixed(fresh.waste, places)} {fresh.unit} of it for waste, {left_over}"
        weigh_outs = self._weigh_outs[place, fresh.multiples]
        return Mixing(which, share, need, weigh_outs, left_over, cannot_remark(planned.blend, fresh))


def _spent(service: Service) -> tuple[int, int, int] | None:
    """What is used, the supplies, and what is for waste or left over; together what is known of the total."""
    if service.known is None:
        return None
    bowls = sum(cost or 0 for cost in service.bowl_costs)
    unused = (service.waste_cost or 0) + (service.left_over_cost or 0)
    return bowls - unused, service.known - bowls, unused


def _weigh_outs(fresh: FreshBowl) -> tuple[WeighOut, ...]:
    found: list[WeighOut] = []
    for _, alike in groupby(fresh.weigh_outs, key=lambda bowl: bowl.batch):  # the largest come first
        bowl, *others = alike
        found.append(_weigh_out(bowl, 1 + len(others), again=bool(found)))
    return tuple(found)


def _weigh_out(bowl: Bowl, times: int, *, again: bool) -> WeighOut:
    places = decimals_of(bowl.step)
    pours = zip(bowl.pours, bowl.shown, strict=True)
    lines = tuple([(each.role, each.product.name, *weights) for each, weights in pours])
    return WeighOut(again, times, fixed(bowl.batch, places), bowl.unit, lines, rounding_remark(bowl))
