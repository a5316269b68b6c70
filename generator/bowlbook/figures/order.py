"""An order: what classes and a number of heads take together, in whole containers, by supplier."""

from collections import defaultdict
from collections.abc import Sequence
from fractions import Fraction
from typing import NamedTuple

from bowlbook.book.book import Book
from bowlbook.entries.class_notes import ClassNotes
from bowlbook.entries.product import Product, packs_of, with_pack
from bowlbook.entries.technique import Technique
from bowlbook.figures.bowl_plan import BowlPlan
from bowlbook.figures.cost import known_total
from bowlbook.figures.kit import KitLine, containers_of, kit, kit_lines, kit_needs, kit_plan, used_in
from bowlbook.figures.service import plan
from bowlbook.reading.bare_name import bare_name


class SupplierOrder(NamedTuple):
    """What is bought from one supplier; ``supplier`` is empty where the packs name none.

    ``cost``: of the lines that have one, in minor units of the house's currency; None where none has.
    """

    supplier: str
    lines: tuple[KitLine, ...]
    cost: int | None


class Order(NamedTuple):
    """An order by supplier, by name, those without one last. ``unweighed``: bowls that are not in it."""

    suppliers: tuple[SupplierOrder, ...]
    unweighed: tuple[tuple[Technique, BowlPlan], ...]

    @property
    def cost(self) -> int | None:
        """What all suppliers together cost, as far as prices are known; None where none is."""
        return known_total(each.cost for each in self.suppliers)


def order(
    book: Book,
    classes: Sequence[tuple[ClassNotes, int]],
    heads: Sequence[tuple[Technique, int]],
    hair: tuple[str, str] = ("medium", "medium"),
    suppliers: Sequence[str] = (),
    cheapest: bool = False,
) -> Order:
    """The order for classes, each with its learners, and for so many heads of each technique.

    Every head is of one hair amount, ``hair``: length and density. What all of them use up is added up first
    and rounded up to whole containers once, so that two classes share a tub. Raises `CannotPlan`.

    Each product is bought in its first pack; or from the first of ``suppliers``, by name, that sells it; or,
    with ``cheapest``, in the pack of which as many as are needed cost least: of two the first.
    """
    need: dict[str, Fraction] = defaultdict(Fraction)
    unweighed: list[tuple[Technique, BowlPlan]] = []
    for notes, learners in classes:
        planned = kit_plan(book, notes)
        unweighed += kit(planned, learners).unweighed  # refuses a number of learners that cannot be
        for product, amount in kit_needs(planned, learners).items():
            need[product] += amount
    for technique, count in heads:
        service = plan(book, technique, *hair)
        unweighed += [(technique, bowl) for bowl in service.unweighed]
        for product, amount in used_in(service).items():
            need[product] += amount * count
    by_supplier: dict[str, tuple[str, list[KitLine]]] = {}
    chosen = {
        entry_id: _chosen(book.products[entry_id], amount, suppliers, cheapest)
        for entry_id, amount in need.items()
    }
    for line in kit_lines(book, need, chosen):
        pack = line.product.pack
        supplier = (pack.supplier if pack else None) or ""
        by_supplier.setdefault(bare_name(supplier), (supplier, []))[1].append(line)
    found = [_from(*by_supplier[name]) for name in sorted(by_supplier, key=lambda name: (not name, name))]
    return Order(tuple(found), tuple(unweighed))


def _chosen(product: Product, need: Fraction, suppliers: Sequence[str], cheapest: bool) -> Product:
    """The product in the pack that is ordered."""
    offers = [(pack, with_pack(product, ("pack",), pack)) for _, pack in packs_of(product)]
    for name in suppliers:
        for pack, offered in offers:
            if bare_name(pack.supplier or "") == bare_name(name):
                return offered
    priced = []
    for pack, offered in offers:
        bought = containers_of(offered, need)
        if bought and pack.price is not None:
            priced.append((pack.price * bought[0], offered))
    return min(priced, key=lambda each: each[0])[1] if cheapest and priced else product


def _from(supplier: str, lines: list[KitLine]) -> SupplierOrder:
    return SupplierOrder(supplier, tuple(lines), known_total(line.cost for line in lines))
