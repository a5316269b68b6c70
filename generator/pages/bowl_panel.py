"""A bowl as the bench reads it: finished texts for the table, nothing left to work out."""

from dataclasses import dataclass

from generator.book.book import Book
from generator.entries.blend import Blend
from generator.figures.bowl import Bowl, Pour, ladder_of, mix
from generator.figures.rounding import decimals_of, fixed
from generator.pages.wording import Wording
from generator.reading.amount import plain


@dataclass(frozen=True, slots=True)
class PourLine:
    """One row of the bowl table. ``volume``: the developer by mL and fl oz, where its density is known."""

    id: str
    name: str
    role: str
    weigh: str
    scale_shows: str
    exact: str
    error: str
    volume: str | None
    cost: str | None


@dataclass(frozen=True, slots=True)
class Panel:
    """One size of a bowl."""

    anchor: str
    label: str
    unit: str
    step: str
    lines: tuple[PourLine, ...]
    total: str
    peroxide: str
    cost: str | None
    priced: bool
    honest: bool
    worst_error: str
    tolerance: str
    next_honest: str | None
    overs: tuple[tuple[str, tuple[str, ...], str], ...]


def panels_of(book: Book, blend: Blend, wording: Wording) -> tuple[Panel, ...]:
    """A panel for each size of the blend's ladder, ounces first."""
    return tuple(
        panel_of(mix(book, blend, unit, batch, step), wording) for unit, batch, step in ladder_of(book, blend)
    )


def panel_of(bowl: Bowl, wording: Wording) -> Panel:
    """The texts of one bowl: weights with the scale's decimals, mL to 0.1, US fl oz to 0.01."""
    places = decimals_of(bowl.step)
    whole_steps = (bowl.batch / bowl.step).denominator == 1
    size = fixed(bowl.batch, places) if whole_steps else plain(bowl.batch)
    overs = []
    for place, correction in enumerate(bowl.weighing.one_step_over):
        over = fixed(bowl.pours[place].reading.weigh + bowl.step, places)
        shown = tuple(fixed(each.must_be, places) for each in correction.pours)
        overs.append((f"{bowl.pours[place].product.name} at {over}", shown, fixed(correction.batch, places)))
    return Panel(
        anchor=f"{bowl.unit}-{size}".replace(".", "-"),
        label=f"{size} {bowl.unit}",
        unit=bowl.unit,
        step=f"{plain(bowl.step)} {bowl.unit}",
        lines=tuple(_line(each, places, wording) for each in bowl.pours),
        total=f"{fixed(bowl.total, places)} {bowl.unit}",
        peroxide=f"{fixed(bowl.peroxide, 2)} %",
        cost=wording.money(bowl.bill.total) if bowl.bill else None,
        priced=wording.priced,
        honest=bowl.honest,
        worst_error=f"{fixed(bowl.worst_error * 100, 1)} %",
        tolerance=f"{plain(bowl.tolerance * 100)} %",
        next_honest=(
            None if bowl.next_honest_batch is None else f"{fixed(bowl.next_honest_batch, places)} {bowl.unit}"
        ),
        overs=tuple(overs),
    )


def _line(each: Pour, places: int, wording: Wording) -> PourLine:
    volume = None
    if each.millilitres is not None and each.us_fluid_ounces is not None:
        volume = f"{fixed(each.millilitres, 1)} mL · {fixed(each.us_fluid_ounces, 2)} fl oz (US)"
    return PourLine(
        id=each.product.id,
        name=each.product.name,
        role=each.role,
        weigh=fixed(each.reading.weigh, places),
        scale_shows=fixed(each.scale_shows, places),
        exact=plain(each.reading.exact, 4),
        error=f"{fixed(each.reading.error * 100, 1)} %",
        volume=volume,
        cost=wording.money(each.cost),
    )
