"""A product that stands in the place of a shared one, and allows more than that one or warns of less.

Why: a limit that is lowered once for every book must not go on being higher in one of them.
Source: the shared product's own fields, from its maker's instructions.
Wrong: a shared `developer_limit: 20 volume`, and 40 volume in the product in its place.
Right: the shared limits and hazards, or stricter ones; a pack, a name and notes of one's own.
"""

from collections.abc import Callable, Iterator
from datetime import date
from fractions import Fraction
from typing import Any

from bowlbook.book.book import Book
from bowlbook.entries.product import Product
from bowlbook.reading.amount import Ratio, plain
from bowlbook.reading.finding import Finding
from bowlbook.reading.source import Loc


def find(book: Book, today: date) -> Iterator[Finding]:
    """Findings at each field that is looser, at the entry where the field is left out."""
    for shared in book.shared.values():
        own = book.products.get(shared.id)
        if own is None or own is shared:
            continue
        for loc, said in _looser(own, shared):
            message = f"The shared {shared.name} is stricter: {said}."
            mend = "Write what it says, or give this product an id of its own."
            yield own.source.objection(loc, message, mend)


def _looser(own: Product, shared: Product) -> Iterator[tuple[Loc, str]]:
    """Each field that is looser in ``own``, with what ``shared`` says there."""
    if own.kind != shared.kind:
        yield ("kind",), f"kind: {shared.kind}"
        return
    for loc, differs in FIELDS.items():
        theirs = _value(shared, loc)
        if theirs not in (None, ()) and differs(_value(own, loc), theirs):
            yield loc, f"{': '.join(map(str, loc))}: {_shown(theirs, loc)}"
    gone = [hazard for hazard in shared.hazards if hazard not in own.hazards]
    if gone:
        yield ("hazards",), f"it warns: {' '.join(gone)}"


def _value(product: Product, loc: Loc) -> Any:
    value: Any = product
    for key in loc:
        value = getattr(value, "from_" if key == "from" else str(key), None)
    return value


def _shown(value: Any, loc: Loc) -> str:
    if isinstance(value, Fraction):
        unit = {"developer_limit": " volume", "peroxide": " %"}.get(str(loc[-1]), "")
        return plain(value) + unit
    return ", ".join(value) if isinstance(value, tuple) else str(value)


def _more(own: Any, shared: Any) -> bool:
    return own is None or _number(own) > _number(shared)


def _less(own: Any, shared: Any) -> bool:
    return own is None or _number(own) < _number(shared)


def _another(own: Any, shared: Any) -> bool:
    return bool(own != shared)


def _elsewhere(own: Any, shared: Any) -> bool:
    """Whether a product may be used where the shared one may not; none named means anywhere."""
    return not own or not set(own) <= set(shared)


def _number(value: Any) -> Fraction:
    return value.value if isinstance(value, Ratio) else Fraction(value)


FIELDS: dict[Loc, Callable[[Any, Any], bool]] = {
    ("placement",): _elsewhere,
    ("developer_limit",): _more,
    ("lifts",): _more,
    ("mixing_ratio", "from"): _less,
    ("mixing_ratio", "to"): _more,
    ("dose",): _more,
    ("volume",): _another,
    ("peroxide",): _another,
    ("density",): _another,
    ("form",): _another,
    ("levels",): _elsewhere,
}
"""What of a product is a limit or a strength, and when one's own is looser."""
