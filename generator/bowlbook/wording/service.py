"""What a plan and a kit say in words, on pages and on the command line: remarks on weights and on costs."""

from collections.abc import Iterable

from bowlbook.entries.blend import Blend
from bowlbook.entries.product import Product
from bowlbook.figures.bowl import Bowl
from bowlbook.figures.bowl_plan import BowlPlan, FreshBowl
from bowlbook.figures.rounding import decimals_of, fixed
from bowlbook.reading.amount import plain
from bowlbook.wording.listing import both


def rounding_remark(bowl: Bowl) -> str | None:
    """What is said of a weigh-out that rounding puts off the recipe by more than the house's tolerance."""
    if bowl.within_tolerance:
        return None
    said = f"Rounding puts this {fixed(bowl.worst_error * 100, 1)} % off the recipe"
    nearest = bowl.next_weighable_batch
    if nearest is None:
        return f"{said}."
    size = f"{fixed(nearest, decimals_of(bowl.step))} {bowl.unit}"
    return f"{said}; the nearest size this scale can weigh is {size}."


def cannot_remark(blend: Blend, fresh: FreshBowl) -> str | None:
    """What is said of a fresh bowl that cannot be weighed out: what reads zero, and which size would do."""
    if fresh.cannot is None:
        return None
    sizes = " + ".join(f"{plain(batch)} {fresh.unit}" for batch in fresh.batches.batches)
    said = f"{blend.name} cannot be weighed out for this: in {sizes} {fresh.cannot.product.name} reads zero."
    nearest = fresh.cannot.next_weighable_batch
    if nearest is None:
        return f"{said} Weigh it on a finer scale."
    return f"{said} The nearest size this scale can weigh is {plain(nearest)} {fresh.unit}."


def cannot_remarks(bowls: Iterable[BowlPlan]) -> list[str]:
    """`cannot_remark` of every fresh bowl of some bowls, each sentence once."""
    said = [cannot_remark(each.blend, fresh) for each in bowls for fresh in each.fresh]
    return list(dict.fromkeys(remark for remark in said if remark))


def without(products: Iterable[Product], unweighed: Iterable[BowlPlan] = ()) -> str:
    """The end of a cost that leaves something out, as `` without A and B, which have no price``."""
    priceless = [each.name for each in products]
    bowls = list(dict.fromkeys(f"the bowl of {each.blend.name}" for each in unweighed))
    said = []
    if priceless:
        said.append(f"{both(priceless)}, which {'has' if len(priceless) == 1 else 'have'} no price")
    if bowls:
        said.append(f"{both(bowls)}, which cannot be weighed out")
    return f" without {', and without '.join(said)}" if said else ""
