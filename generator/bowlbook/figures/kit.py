"""The kit of a class: what N learners and the educator use up, in whole containers, and what that costs."""

from collections import defaultdict
from collections.abc import Mapping
from fractions import Fraction
from math import ceil
from typing import NamedTuple

from bowlbook.book.book import Book
from bowlbook.entries.class_notes import ClassNotes
from bowlbook.entries.house import House
from bowlbook.entries.product import Product, Supply
from bowlbook.entries.technique import Technique
from bowlbook.figures.bowl import density_of
from bowlbook.figures.bowl_plan import BowlPlan, CannotPlan, service_unit
from bowlbook.figures.cost import bill, known_total, minor_units
from bowlbook.figures.rounding import half_up
from bowlbook.figures.service import Service, plan
from bowlbook.figures.unit import GRAMS_PER, weight_of, weight_text
from bowlbook.reading.amount import Count, counted

MOST_LEARNERS = 500


class KitLine(NamedTuple):
    """One product of a kit. ``need`` and ``left_over`` in grams, or in pieces for a supply.

    ``containers`` and ``left_over`` are None where no net content is written; ``cost`` in minor units of the
    house's currency, None without a price.
    """

    product: Product
    need: Fraction
    containers: int | None
    left_over: Fraction | None
    cost: int | None


class Kit(NamedTuple):
    """A kit for so many learners: lines by kind of product, and the costs in minor units.

    ``heads`` of each demonstration, ``all_heads`` together: practice heads that are used again count once.
    The lines with a cost add up to ``known``, which is None where no line has one. ``unweighed``: the bowls
    that cannot be weighed out and are not in the lines, each with its technique.
    """

    learners: int
    heads: tuple[int, ...]
    all_heads: int
    lines: tuple[KitLine, ...]
    known: int | None
    unweighed: tuple[tuple[Technique, BowlPlan], ...]

    @property
    def unpriced(self) -> tuple[Product, ...]:
        """The products without a price or a net content."""
        return tuple(line.product for line in self.lines if line.cost is None)

    @property
    def cost(self) -> int | None:
        """What the kit costs; None where a price is missing or a bowl cannot be weighed out."""
        return None if self.unpriced or self.unweighed else self.known or 0

    @property
    def cost_per_learner(self) -> int | None:
        """`cost` over the learners, rounded half up to the minor unit; None where that is."""
        return None if self.cost is None else half_up(Fraction(self.cost, self.learners))


class KitPlan(NamedTuple):
    """What each head of each demonstration and each learner uses up, by product id; made once a class."""

    book: Book
    notes: ClassNotes
    services: tuple[Service, ...]
    per_head: tuple[dict[str, Fraction], ...]


def kit_plan(book: Book, notes: ClassNotes, unit: str | None = None) -> KitPlan:
    """Plan the services of a class's demonstrations, each for its own hair amount.

    ``unit``: of the scale that the bowls are weighed on, oz or g; if left out, `service_unit` of all of them
    together, grams first, since packs hold grams. Raises `CannotPlan`.
    """
    techniques = [book.techniques[each.technique] for each in notes.demonstrations]
    blends = [book.blends[bowl.blend] for each in techniques for bowl in each.bowls]
    unit = unit or service_unit(book, blends, ("g", "oz"))
    services = tuple(
        plan(book, book.techniques[each.technique], each.length, each.density, unit)
        for each in notes.demonstrations
    )
    return KitPlan(book, notes, services, tuple(map(used_in, services)))


def shared_with(notes: ClassNotes, index: int) -> int | None:
    """The place of the earlier demonstration whose practice heads this one uses again.

    None where it names none, or none that has practice heads of its own.
    """
    technique = notes.demonstrations[index].shares_heads_with
    for place, each in enumerate(notes.demonstrations[:index]):
        if each.technique == technique and each.learners_per_head:
            return place
    return None


def practice_heads(notes: ClassNotes, index: int, learners: int) -> int:
    """Practice heads of a demonstration: one for every so many learners, rounded up; or those it shares."""
    shared = shared_with(notes, index)
    each = notes.demonstrations[index if shared is None else shared].learners_per_head
    return ceil(Fraction(learners, each)) if each else 0


def kit(planned: KitPlan, learners: int) -> Kit:
    """The kit for so many learners: 1 to `MOST_LEARNERS`. Raises `CannotPlan` for any other number."""
    if not 1 <= learners <= MOST_LEARNERS:
        raise CannotPlan(f"A class has 1 to {MOST_LEARNERS} learners.", "Give another number of learners.")
    book, notes = planned.book, planned.notes
    practice = [practice_heads(notes, index, learners) for index in range(len(notes.demonstrations))]
    heads = tuple(each.heads + more for each, more in zip(notes.demonstrations, practice, strict=True))
    again = sum(more for index, more in enumerate(practice) if shared_with(notes, index) is not None)
    lines = kit_lines(book, kit_needs(planned, learners))
    unweighed = tuple(
        (service.technique, bowl)
        for service, count in zip(planned.services, heads, strict=True)
        for bowl in service.unweighed
        if count
    )
    known = known_total(line.cost for line in lines)
    return Kit(learners, heads, sum(heads) - again, lines, known, unweighed)


def kit_lines(
    book: Book, need: Mapping[str, Fraction], products: Mapping[str, Product] | None = None
) -> tuple[KitLine, ...]:
    """What is needed, grams or pieces by product id, in whole containers, in the order of the products.

    The exact prices are added up and rounded once, half up, to the minor unit; the lines share that total by
    largest remainder. ``products``: where other packs of them are taken than the book's first.
    """
    taken = book.products if products is None else {**book.products, **products}
    ids = [entry_id for entry_id in book.products if need.get(entry_id)]
    packs = [containers_of(taken[entry_id], need[entry_id]) or (None, None) for entry_id in ids]
    exact = [_price(taken[entry_id], count) for entry_id, (count, _) in zip(ids, packs, strict=True)]
    costs = bill(exact, minor_units(book.house.currency)).lines
    return tuple(
        KitLine(taken[entry_id], need[entry_id], count, left_over, cost)
        for entry_id, (count, left_over), cost in zip(ids, packs, costs, strict=True)
    )


def kit_needs(planned: KitPlan, learners: int) -> dict[str, Fraction]:
    """What a class of so many learners uses up: grams or pieces by product id.

    What is worn counts by person, not by head.
    """
    need: dict[str, Fraction] = defaultdict(Fraction)
    for place, (each, used) in enumerate(zip(planned.notes.demonstrations, planned.per_head, strict=True)):
        heads = practice_heads(planned.notes, place, learners)
        people = each.heads + (learners if heads else 0)
        for product, amount in used.items():
            entry = planned.book.products[product]
            worn = isinstance(entry, Supply) and entry.per_person
            need[product] += amount * (people if worn else each.heads + heads)
    for given in planned.notes.for_each_learner:
        need[given.product] += given.count * learners
    return need


def used_in(service: Service) -> dict[str, Fraction]:
    """What one service uses up: grams as weighed, pieces as counted."""
    used: dict[str, Fraction] = defaultdict(Fraction)
    for bowl in (bowl for each in service.bowls for fresh in each.fresh for bowl in fresh.weigh_outs):
        for pour in bowl.pours:
            used[pour.product.id] += pour.reading.weigh * GRAMS_PER[bowl.unit]
    for line in service.supplies:
        used[line.product] += line.count
    return used


def need_text(house: House, line: KitLine) -> str:
    """What a line needs: pieces, or the weight as the house reads it, to 0.1 g or 0.01 oz, half up."""
    if isinstance(line.product, Supply):
        return counted(line.need, "piece")
    return weight_text(house, line.need, 1)


def containers_of(product: Product, need: Fraction) -> tuple[int, Fraction] | None:
    """Whole containers that hold the need, and what is left over in grams or pieces."""
    if product.pack is None:
        return None
    net = product.pack.net
    if isinstance(product, Supply) != isinstance(net, Count):
        return None
    holds = Fraction(net.number) if isinstance(net, Count) else weight_of(net, density_of(product))
    if holds is None:
        return None
    containers = ceil(need / holds)
    return containers, containers * holds - need


def _price(product: Product, containers: int | None) -> Fraction | None:
    if containers is None or product.pack is None or product.pack.price is None:
        return None
    return product.pack.price * containers
