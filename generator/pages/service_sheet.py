"""What a service takes for common hair amounts: the batches of each bowl in order, and the cost."""

from dataclasses import dataclass

from generator.book.book import Book
from generator.entries.technique import Technique
from generator.figures.bowl import CannotWeigh
from generator.figures.rounding import decimals_of, fixed
from generator.figures.service import CannotPlan, FreshBowl, Service, plan
from generator.pages.wording import Wording

COMMON = (("short", "medium"), ("medium", "medium"), ("long", "medium"), ("long", "thick"))
"""The hair amounts that most heads are near to: length and density."""


@dataclass(frozen=True, slots=True)
class ServiceRow:
    """One hair amount: each fresh bowl as ``blend: batch + batch``, and the costs."""

    hair: str
    bowls: tuple[str, ...]
    cost: str | None
    left_over: str | None


def service_rows(book: Book, technique: Technique, wording: Wording) -> list[ServiceRow]:
    """A row for each common hair amount that the house has measured; none where nothing can be planned."""
    unit = "oz" if book.house.scale_step.oz is not None else "g"
    rows = []
    for length, density in COMMON:
        try:
            service = plan(book, technique, length, density, unit)
        except (CannotPlan, CannotWeigh, ValueError):
            continue
        rows.append(
            ServiceRow(
                f"{length.capitalize()} hair, {density} density",
                _bowls(service),
                wording.money(service.total),
                wording.money(service.left_over_cost),
            )
        )
    return rows


def _bowls(service: Service) -> tuple[str, ...]:
    return tuple(f"{each.blend.name}: {_batches(fresh)}" for each in service.bowls for fresh in each.fresh)


def _batches(fresh: FreshBowl) -> str:
    """The batches of one fresh bowl, largest first, as ``2.40 oz + 0.60 oz, for 16 sections``."""
    sizes = [f"{fixed(bowl.batch, decimals_of(bowl.step))} {bowl.unit}" for bowl in fresh.weigh_outs]
    sections = "1 section" if fresh.sections == 1 else f"{fresh.sections} sections"
    return f"{' + '.join(sizes)}, for {sections}"
