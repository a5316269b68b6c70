"""What differs in a blend's bowls between two books, at each size: weights, peroxide, rounding, costs."""

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction

from bowlbook.book.book import Book
from bowlbook.entries.blend import Blend
from bowlbook.entries.ladder import UNITS
from bowlbook.figures.bowl import Bowl, CannotWeigh, Pour, ladder_of, mix
from bowlbook.figures.cost import decimal_of
from bowlbook.figures.fact import Fact, cost_facts, if_different
from bowlbook.figures.rounding import decimals_of, fixed
from bowlbook.reading.amount import plain

CANNOT_WEIGH = "cannot be weighed"
LadderSize = tuple[str, Fraction]
"""Unit and batch."""


def changed_bowls(
    old: Book, new: Book, before: Blend, after: Blend, was: Mapping[str, str]
) -> Iterator[Fact]:
    """Facts of each batch size, ounces first and small to large, then the costs in each unit.

    Each size with the blend's own developer. ``was``: the former id of each renamed product, by its id.
    Weights are compared exactly; volumes, peroxide and costs as they are shown.
    """
    one, other = _bowls_of(old, before), _bowls_of(new, after)
    sizes = sorted({*one, *other}, key=lambda size: (UNITS.index(size[0]), size[1]))
    for size in sizes:
        label = f"{plain(size[1])} {size[0]}"
        then, now = one.get(size), other.get(size)
        if isinstance(then, Bowl) and isinstance(now, Bowl):
            yield from _changed_bowl(label, then, now, was)
        else:
            yield from if_different(f"batch of {label}", _whole(then), _whole(now))
    for unit in UNITS:
        costs = [
            (plain(batch), _cost(old, one.get((own, batch))), _cost(new, other.get((own, batch))))
            for own, batch in sizes
            if own == unit
        ]
        yield from cost_facts(f"cost at {{}} {unit}", costs, (old.house.currency, new.house.currency))


def _bowls_of(book: Book, blend: Blend) -> dict[LadderSize, Bowl | str]:
    """The blend's bowl at each of its sizes; a text for a size that cannot be weighed."""
    found: dict[LadderSize, Bowl | str] = {}
    for unit, batch, step in ladder_of(book, blend):
        try:
            found[(unit, batch)] = mix(book, blend, unit, batch, step)
        except CannotWeigh:
            found[(unit, batch)] = CANNOT_WEIGH
    return found


def _cost(book: Book, bowl: Bowl | str | None) -> str | None:
    return decimal_of(bowl.bill.total, book.house.currency) if isinstance(bowl, Bowl) and bowl.bill else None


def _whole(bowl: Bowl | str | None) -> str | None:
    return _weights(bowl, bowl.pours) if isinstance(bowl, Bowl) else bowl


def _changed_bowl(label: str, then: Bowl, now: Bowl, was: Mapping[str, str]) -> Iterator[Fact]:
    ids = [was.get(each.product.id, each.product.id) for each in now.pours]
    if ids == [each.product.id for each in then.pours]:
        pairs = list(zip(then.pours, now.pours, strict=True))
        moved = [pair for pair in pairs if pair[0].reading.weigh != pair[1].reading.weigh]
        sides = [one for one, _ in moved], [other for _, other in moved]
        yield from if_different(f"weigh for {label}", _weights(then, sides[0]), _weights(now, sides[1]))
        yield from _changed_volumes(label, [pair for pair in pairs if pair not in moved])
    else:
        yield Fact(f"weigh for {label}", _weights(then, then.pours), _weights(now, now.pours))
    if [each.scale_shows for each in then.pours] != [each.scale_shows for each in now.pours]:
        yield Fact(f"scale shows for {label}", _shown(then), _shown(now))
    strength = (f"{fixed(bowl.peroxide, 2)} %" for bowl in (then, now))
    yield from if_different(f"peroxide in {label}", *strength)
    yield from if_different(f"rounding at {label}", _rounding(then), _rounding(now))


def _changed_volumes(label: str, pairs: list[tuple[Pour, Pour]]) -> Iterator[Fact]:
    """Volumes that differ although the weight does not, because the product's density does."""
    differing = [pair for pair in pairs if _volume(pair[0]) != _volume(pair[1])]
    if differing:
        before, after = (
            ", ".join(f"{_volume(each)} {each.product.name}" for each in side if _volume(each)) or None
            for side in zip(*differing, strict=True)
        )
        yield Fact(f"volume for {label}", before, after)


def _volume(pour: Pour) -> str | None:
    return None if pour.millilitres is None else f"{fixed(pour.millilitres, 1)} mL"


def _rounding(bowl: Bowl) -> str:
    """Whether rounding to the scale stays within the house's tolerance, and else which size would do."""
    if bowl.within_tolerance:
        return "within the tolerance"
    if bowl.next_weighable_batch is None:
        return "over the tolerance"
    nearest = plain(bowl.next_weighable_batch)
    return f"over the tolerance, nearest size this scale can weigh {nearest} {bowl.unit}"


def _weights(bowl: Bowl, pours: Sequence[Pour]) -> str:
    places = decimals_of(bowl.step)
    return ", ".join(f"{fixed(each.reading.weigh, places)} {each.product.name}" for each in pours)


def _shown(bowl: Bowl) -> str:
    return ", ".join(fixed(each.scale_shows, decimals_of(bowl.step)) for each in bowl.pours)
