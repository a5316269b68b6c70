"""A technique's service sheet: by hair amount the bowls in order, weighed out, with minutes and cost."""

from dataclasses import dataclass

from generator.book.book import Book
from generator.entries.hair_amount import DENSITIES, LENGTHS
from generator.entries.technique import Technique
from generator.figures.bowl import Bowl, CannotWeigh
from generator.figures.rounding import decimals_of, fixed
from generator.figures.service import BowlPlan, CannotPlan, FreshBowl, Service, plan
from generator.pages.address import entry_address, relative
from generator.pages.caution import USUAL_CAUTIONS
from generator.pages.page import Heading, Page
from generator.pages.render import render
from generator.pages.wording import Wording, length_word
from generator.reading.amount import Count, counted, plain

FIRST = ("medium", "medium")
"""The hair amount that a sheet opens with."""


@dataclass(frozen=True, slots=True)
class WeighOut:
    """One batch weighed out, ``times`` over: (role, name, weigh, scale shows) down the list."""

    times: int
    batch: str
    unit: str
    lines: tuple[tuple[str, str, str, str], ...]
    total: str


@dataclass(frozen=True, slots=True)
class Mixing:
    """One fresh bowl: what it is for, and its weigh-outs."""

    what: str
    need: str
    weigh_outs: tuple[WeighOut, ...]
    left_over: str


@dataclass(frozen=True, slots=True)
class SheetBowl:
    """A bowl of the technique: name, link, where it goes, and each time it is mixed."""

    name: str
    href: str
    where: str
    developer: str
    mixings: tuple[Mixing, ...]


@dataclass(frozen=True, slots=True)
class Sheet:
    """The service for one hair amount."""

    length: str
    density: str
    hair: str
    factor: str
    bowls: tuple[SheetBowl, ...]
    supplies: tuple[tuple[str, str], ...]
    minutes: tuple[tuple[str, str], ...]
    costs: tuple[tuple[str, str], ...]
    total: str | None
    left_over: str | None


def sheets_of(book: Book, technique: Technique, wording: Wording) -> list[Sheet]:
    """A sheet for each hair amount that the house has measured; none where nothing can be planned."""
    unit = book.house.scale_step.first
    sheets = []
    for length in LENGTHS:
        for density in DENSITIES:
            try:
                service = plan(book, technique, length, density, unit)
            except (CannotPlan, CannotWeigh, ValueError):
                continue
            sheets.append(_sheet(book, service, wording))
    return sheets


def service_address(technique: Technique) -> str:
    """The address of a technique's service sheet."""
    return f"{entry_address('technique', technique.id)}service/"


def service_page(technique: Technique, sheets: list[Sheet]) -> Page:
    """The finished sheet, the hair amount to be chosen on it."""
    address = service_address(technique)
    opened = next((each for each in sheets if (each.length, each.density) == FIRST), sheets[0])
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
        usual=USUAL_CAUTIONS,
    )
    headings = (Heading("hair", "Whose hair?"), Heading("cautions", "Cautions"))
    return Page(address, title, f"What {technique.name} takes, bowl by bowl.", body, headings, None)


def _sheet(book: Book, service: Service, wording: Wording) -> Sheet:
    bowls = tuple(_bowl(each, service) for each in service.bowls)
    supplies = [(book.products[line.product].name, line) for line in service.supplies]
    costs: list[tuple[str, str]] = []
    if service.total is not None and service.bowl_costs is not None:
        pairs = [(bowl.name, cost) for bowl, cost in zip(bowls, service.bowl_costs, strict=True)]
        pairs += [(f"{name}, {Count(line.count)}", line.cost or 0) for name, line in supplies]
        costs = [(name, wording.money(cost) or "") for name, cost in pairs]
    minutes = []
    if service.applying is not None:
        minutes.append(("Applying", counted(service.applying, "minute")))
    minutes.append(("Processing, at most", counted(service.technique.processing.minutes, "minute")))
    return Sheet(
        service.length,
        service.density,
        f"{length_word(service.length).capitalize()} hair, {service.density} density",
        plain(service.factor),
        bowls,
        tuple((name, str(Count(line.count))) for name, line in supplies),
        tuple(minutes),
        tuple(costs),
        wording.money(service.total),
        wording.money(service.left_over_cost),
    )


def _bowl(planned: BowlPlan, service: Service) -> SheetBowl:
    start = service_address(service.technique)
    many = len(planned.fresh) > 1
    mixings = tuple(
        _mixing(fresh, f"Bowl {number} of {len(planned.fresh)}, mixed fresh" if many else "One bowl")
        for number, fresh in enumerate(planned.fresh, 1)
    )
    return SheetBowl(
        planned.blend.name,
        relative(entry_address("blend", planned.blend.id), start),
        planned.bowl.where,
        planned.developer.name,
        mixings,
    )


def _mixing(fresh: FreshBowl, what: str) -> Mixing:
    said = [what, counted(fresh.sections, "section")]
    if fresh.minutes is not None:
        said.append(f"{counted(fresh.minutes, 'minute')} to apply")
    batches = [bowl.batch for bowl in fresh.weigh_outs]
    first = {bowl.batch: bowl for bowl in reversed(fresh.weigh_outs)}
    weigh_outs = tuple(_weigh_out(first[batch], batches.count(batch)) for batch in dict.fromkeys(batches))
    places = decimals_of(fresh.weigh_outs[0].step)
    return Mixing(
        ", ".join(said),
        f"{fixed(fresh.need, places)} {fresh.unit}",
        weigh_outs,
        f"{fixed(fresh.left_over, places)} {fresh.unit}",
    )


def _weigh_out(bowl: Bowl, times: int) -> WeighOut:
    places = decimals_of(bowl.step)
    lines = tuple(
        (
            each.role,
            each.product.name,
            fixed(each.reading.weigh, places),
            fixed(each.scale_shows, places),
        )
        for each in bowl.pours
    )
    return WeighOut(times, fixed(bowl.batch, places), bowl.unit, lines, fixed(bowl.total, places))
