"""A mixed bowl as plain data and as text for the terminal; every figure comes from `bowlbook.figures`."""

from typing import Any

from bowlbook.book.book import Book
from bowlbook.figures.bowl import Bowl, Pour, largest_batch
from bowlbook.figures.correction import Correction
from bowlbook.figures.cost import decimal_of
from bowlbook.figures.developer import limits_passed
from bowlbook.figures.rounding import decimals_of, fixed
from bowlbook.figures.unit import GRAMS_PER, weight_text, weight_units
from bowlbook.reading.amount import plain
from bowlbook.wording.cost import without_phrase
from bowlbook.wording.developer import developer_name
from bowlbook.wording.service import rounding_remark


def bowl_data(
    book: Book, bowl: Bowl, correction: Correction | None = None, after: Bowl | None = None
) -> dict[str, Any]:
    """The bowl as plain data: amounts are decimal strings in the batch's unit.

    ``correction``: the bowl as corrected, and ``after``: a bowl of the corrected batch.
    """
    places = decimals_of(bowl.step)
    nearest = bowl.next_weighable_batch
    currency = book.house.currency
    known = None if len(bowl.unpriced) == len(bowl.pours) else bowl.known.total
    data: dict[str, Any] = {
        "blend": bowl.blend.id,
        "batch": f"{plain(bowl.batch)} {bowl.unit}",
        "step": f"{plain(bowl.step)} {bowl.unit}",
        "pours": [_pour_data(each, places, currency) for each in bowl.pours],
        "bowl_total": fixed(bowl.total, places),
        "peroxide_percent": fixed(bowl.peroxide, 2),
        "worst_error_percent": fixed(bowl.worst_error * 100, 2),
        "within_tolerance": bowl.within_tolerance,
        "next_weighable_batch": None if nearest is None else fixed(nearest, places),
        "cost": decimal_of(bowl.bill.total if bowl.bill else None, currency),
        "currency": currency,
        "developer": bowl.developer.id,
        "volume": plain(bowl.developer.volume),
        "cautions": list(bowl.blend.cautions),
        "over_limits": _over_limits(book, bowl),
        "over_dose": [
            {"product": each.product.id, "weigh": fixed(each.weigh, places), "most": plain(each.most)}
            for each in bowl.over_dose
        ],
        "over_bowl": bowl.over_bowl or (after is not None and after.over_bowl),
        "known_cost": decimal_of(known, currency),
        "without_price": [each.id for each in bowl.unpriced],
    }
    if correction is not None:
        data["corrected"] = _corrected(bowl, correction)
    return data


def _pour_data(pour: Pour, places: int, currency: str) -> dict[str, Any]:
    return {
        "product": pour.product.id,
        "role": pour.role,
        "exact": plain(pour.reading.exact),
        "weigh": fixed(pour.reading.weigh, places),
        "scale_shows": fixed(pour.scale_shows, places),
        "millilitres": None if pour.millilitres is None else fixed(pour.millilitres, 1),
        "cost": decimal_of(pour.cost, currency),
    }


def _corrected(bowl: Bowl, correction: Correction) -> dict[str, Any]:
    """A corrected bowl. Weights with the scale's decimals, or more where a poured weight has more."""
    # What somebody read off another scale keeps its decimals: rounded, it would not add up.
    step = decimals_of(bowl.step)
    places = max(step, *(decimals_of(each.in_bowl) for each in correction.pours))
    return {
        "batch": f"{fixed(correction.batch, step)} {bowl.unit}",
        "pours": [
            {
                "product": each.product.id,
                "in_bowl": fixed(now.in_bowl, places),
                "must_be": fixed(now.must_be, places),
                "add": fixed(now.add, places),
                "scale_shows": fixed(now.scale_shows, places),
            }
            for each, now in zip(bowl.pours, correction.pours, strict=True)
        ],
    }


def _over_limits(book: Book, bowl: Bowl) -> list[str]:
    """A sentence for each limit that the developer of this bowl is over."""
    passed = limits_passed(book, bowl)
    volume = f"{plain(bowl.developer.volume)} volume"
    found = [
        f"{volume} is over the limit of {each.name}: {plain(each.developer_limit)} volume at most."
        for each in passed.bases
        if each.developer_limit is not None
    ]
    if passed.on_scalp:
        most = plain(book.house.on_scalp_developer_limit)
        found.append(f"{volume} is over the house's limit on the scalp: {most} volume at most there.")
    found += [
        f"{fixed(bowl.peroxide, 2)} % peroxide in the bowl is over {plain(each.peroxide)} % "
        f"({each.jurisdiction}, since {each.since.isoformat()}: {each.source})."
        for each in passed.legal
    ]
    return found


def bowl_text(book: Book, bowl: Bowl, correction: Correction | None, after: Bowl | None) -> str:
    """The bowl as the terminal shows it; arguments as for `bowl_data`."""
    data = bowl_data(book, bowl, correction, after)
    width = max(len(each.product.name) for each in bowl.pours)
    developer = developer_name(bowl.developer)
    lines = [
        f"{bowl.blend.name}: batch {data['batch']}, {developer}, scale steps of {data['step']}",
        *_too_large(book, bowl),
        f"  {'':{width}}  {'weigh':>8}  scale shows",
    ]
    for each, row in zip(bowl.pours, data["pours"], strict=True):
        volume = f"  ({row['millilitres']} mL)" if row["millilitres"] else ""
        lines.append(f"  {each.product.name:{width}}  {row['weigh']:>8}  {row['scale_shows']:>11}{volume}")
    lines.append(f"In the bowl: {data['bowl_total']} {bowl.unit}, {data['peroxide_percent']} % peroxide.")
    lines += data["over_limits"] + _remarks(bowl)
    if data["known_cost"] is not None:
        lines.append(f"Cost: {data['known_cost']} {data['currency']}{without_phrase(bowl.unpriced)}")
    if correction is not None and after is not None:
        lines += _corrected_lines(book, bowl, data["corrected"], width, after)
    # Last, next to the prompt: that is what stays in view.
    lines += [f"Mind: {caution}" for caution in data["cautions"]]
    lines.append("Follow the makers' instructions first; gloves, ventilation, strand test.")
    return "\n".join(lines)


def _too_large(book: Book, bowl: Bowl) -> list[str]:
    if not bowl.over_bowl:
        return []
    size = f"{plain(bowl.batch)} {bowl.unit}"
    if bowl.unit == "oz" and "g" in weight_units(book.house):
        size += f" ({fixed(bowl.batch * GRAMS_PER['oz'], 0)} g)"
    largest = weight_text(book.house, largest_batch(book.house), 0)
    what = "toner" if bowl.blend.tones else "lightener"
    return [f"Really {size} of {what}? One bowl holds {largest} at most."]


def _remarks(bowl: Bowl) -> list[str]:
    """A remark on a rounding error over the house's tolerance, and on each additive over its maker's dose."""
    rounding = rounding_remark(bowl, 2)
    return [*([rounding] if rounding else []), *map(str, bowl.over_dose)]


def _corrected_lines(book: Book, bowl: Bowl, corrected: dict[str, Any], width: int, after: Bowl) -> list[str]:
    """What is in the bowl, what to add now, and what the scale shows after each pour."""
    rows = [(each.product.name, now) for each, now in zip(bowl.pours, corrected["pours"], strict=True)]
    inside = "; ".join(f"{now['in_bowl']} {name}" for name, now in rows if float(now["in_bowl"]))
    lines = [
        f"In the bowl now: {inside or 'nothing'}. Take nothing out; make it a batch of {corrected['batch']}:",
        *(
            f"  {name:{width}}  add {now['add']}, the scale shows {now['scale_shows']}"
            for name, now in rows
            if float(now["add"])
        ),
    ]
    if after.batch != bowl.batch:
        lines += _too_large(book, after) + _remarks(after)
    return lines
