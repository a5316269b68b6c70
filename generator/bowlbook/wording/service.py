"""Remarks on the weights of a plan or a kit."""

from collections.abc import Iterable

from bowlbook.entries.blend import Blend
from bowlbook.figures.bowl import Bowl
from bowlbook.figures.bowl_plan import BowlPlan, FreshBowl
from bowlbook.figures.rounding import decimals_of, fixed
from bowlbook.reading.amount import plain


def rounding_remark(bowl: Bowl, places: int = 1) -> str | None:
    """The remark on a weigh-out whose rounding error is over the house's tolerance; None where it is not.

    ``places``: decimals of the error in per cent.
    """
    if bowl.within_tolerance:
        return None
    sentence = f"Rounding puts this {fixed(bowl.worst_error * 100, places)} % off the recipe"
    nearest = bowl.next_weighable_batch
    if nearest is None:
        return f"{sentence}."
    size = f"{fixed(nearest, decimals_of(bowl.step))} {bowl.unit}"
    return f"{sentence}; the nearest size this scale can weigh is {size}."


def cannot_remark(blend: Blend, fresh: FreshBowl) -> str | None:
    """The remark on a fresh bowl that cannot be weighed out: what reads zero, and the nearest size."""
    if fresh.cannot is None:
        return None
    sizes = " + ".join(f"{plain(batch)} {fresh.unit}" for batch in fresh.batches)
    sentence = (
        f"{blend.name} cannot be weighed out for this: in {sizes} {fresh.cannot.product.name} reads zero."
    )
    nearest = fresh.cannot.next_weighable_batch
    if nearest is None:
        return f"{sentence} Weigh it on a finer scale."
    return f"{sentence} The nearest size this scale can weigh is {plain(nearest)} {fresh.unit}."


def cannot_remarks(bowls: Iterable[BowlPlan]) -> list[str]:
    """`cannot_remark` of every fresh bowl of ``bowls``, each sentence once."""
    remarks = [cannot_remark(each.blend, fresh) for each in bowls for fresh in each.fresh]
    return list(dict.fromkeys(remark for remark in remarks if remark))
