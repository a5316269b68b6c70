"""A class's kit as a table, and for every number of learners as data for the page's script."""

from fractions import Fraction
from typing import Any, NamedTuple

from bowlbook.book.book import Book
from bowlbook.entries.class_notes import ClassNotes
from bowlbook.entries.house import House
from bowlbook.entries.product import Supply
from bowlbook.figures.bowl_plan import CannotPlan
from bowlbook.figures.kit import MOST_LEARNERS, KitLine, KitPlan, kit, kit_plan
from bowlbook.figures.unit import weight_text
from bowlbook.reading.amount import counted, plain
from bowlbook.wording.amount import measure_words, shown_amount
from bowlbook.wording.cost import without_phrase
from bowlbook.wording.listing import both
from bowlbook.wording.locale_format import LocaleFormat
from bowlbook.wording.service import cannot_remarks


class KitRow(NamedTuple):
    """One product: its name, what is needed and left over, how many containers of what, and the cost."""

    name: str
    needs: str
    take: str
    cost: str


class KitTable(NamedTuple):
    """A kit in finished texts. ``without``: what is not in the cost; ``cannot``: bowls not in the lines."""

    heads: str
    lines: tuple[KitRow, ...]
    cost: str
    each: str
    priced: bool
    without: str
    cannot: tuple[str, ...]

    @property
    def says(self) -> str:
        """What is in the kit, for a shut fold."""
        count = counted(len(self.lines), "product")
        return f"{count}, {self.cost}{self.without}" if self.priced else count


def most_learners(notes: ClassNotes) -> int:
    """The largest number of learners that can be chosen on the page."""
    # Rows for every number are part of the page: enough to plan with, without making it heavy.
    return min(MOST_LEARNERS, max(30, 2 * notes.learners))


def kit_rows(planned: KitPlan, formats: LocaleFormat) -> list[list[Any]]:
    """The kit for one learner, two, and so on: heads, lines, cost and cost for each learner."""
    rows: list[list[Any]] = []
    for learners in range(1, most_learners(planned.notes) + 1):
        table = kit_table(planned, learners, formats)
        lines = [[line.needs, line.take, line.cost] for line in table.lines]
        rows.append([table.heads, lines, table.cost, table.each])
    return rows


def planned_kit(book: Book, notes: ClassNotes) -> KitPlan | str | None:
    """A class's kit plan; None where the class uses nothing, a sentence where it cannot be planned."""
    if not notes.demonstrations and not notes.for_each_learner:
        return None
    try:
        return kit_plan(book, notes)
    except CannotPlan as refusal:
        return refusal.reason


def kit_table(planned: KitPlan, learners: int, formats: LocaleFormat) -> KitTable:
    """The kit for so many learners."""
    found = kit(planned, learners)
    names = [planned.book.techniques[each.technique].name for each in planned.notes.demonstrations]
    heads = [f"{counted(count, 'head')} for {name}" for count, name in zip(found.heads, names, strict=True)]
    said = counted(learners, "learner")
    shared = f", {found.all_heads} in all" if found.all_heads < sum(found.heads) else ""
    return KitTable(
        f"For {said}: {both(heads)}{shared}." if heads else f"For {said}.",
        tuple(_row(line, formats, planned.book.house) for line in found.lines),
        formats.money(found.known) or "no price",
        formats.money(found.cost_per_learner) or "not all priced",
        formats.priced,
        without_phrase(found.unpriced, [bowl.blend for _, bowl in found.unweighed]),
        tuple(cannot_remarks(bowl for _, bowl in found.unweighed)),
    )


def _row(line: KitLine, formats: LocaleFormat, house: House) -> KitRow:
    pack = line.product.pack

    def amount(number: Fraction) -> str:
        return plain(number) if isinstance(line.product, Supply) else weight_text(house, number, 0)

    needs = f"needs {amount(line.need)}"
    if not isinstance(line.product, Supply):
        measure = measure_words(house.measures, line.product, line.need)
        needs += f" ({measure})" if measure else ""
    if line.left_over is not None:
        needs += f", {amount(line.left_over)} left over"
    take = "no pack"
    if pack is not None and line.containers is not None:
        take = f"{line.containers} × {shown_amount(pack.net)}"
    return KitRow(line.product.name, needs, take, formats.money(line.cost) or "no price")
