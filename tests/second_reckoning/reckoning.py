"""Bowls and corrections reckoned a second time, from the documented rules alone.

Rules: "How the figures are made" and "Added too much?" in pages/manual/commands.md. Nothing of the program
is used: the standard library only, exact fractions until the one place where a rule says rounded. Answers
have the shape of the JSON of the commands, with the keys that are reckoned here.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field
from fractions import Fraction
from math import ceil, floor
from typing import Any

from tests.second_reckoning.books import DECIMALS, Book, Entry

GRAMS = {
    "g": Fraction(1),
    "kg": Fraction(1000),
    "oz": Fraction("28.349523125"),
    "lb": 16 * Fraction("28.349523125"),
}
"""Grams in a unit of weight; the ounce by NIST Handbook 44, Appendix C."""
MILLILITRES = {"mL": Fraction(1), "L": Fraction(1000), "fl oz": Fraction("29.5735295625")}
MILLILITRES["imperial fl oz"] = Fraction("28.4130625")
"""Millilitres in a unit of volume; the US fluid ounce is 231 cubic inches in 128 parts (NIST Handbook 44,
Appendix C), the imperial one 4546.09 mL in 160 parts."""


class CannotWeigh(Exception):
    """Something in the bowl reads zero on this scale."""


def half_up(value: Fraction) -> int:
    """The nearest whole number, a half upwards."""
    return floor(value + Fraction(1, 2))


def decimal(value: Fraction, places: int) -> str:
    """Rounded half up, with all its places."""
    units = half_up(value * 10**places)
    digits = f"{units:0{places + 1}d}"
    return digits if places == 0 else f"{digits[:-places]}.{digits[-places:]}"


def trimmed(value: Fraction, places: int) -> str:
    """Rounded half up, without zeros at its end."""
    text = decimal(value, places)
    return text.rstrip("0").rstrip(".") if "." in text else text


def places_of(value: Fraction) -> int:
    """How many decimals a value has."""
    return next(places for places in range(12) if (value * 10**places).denominator == 1)


def amount(text: str) -> tuple[Fraction, str]:
    """A number and its unit: "16 fl oz" is 16 and "fl oz"."""
    number, _, unit = text.partition(" ")
    return Fraction(number), unit


def grams(text: str) -> Fraction:
    """A weight in grams."""
    number, unit = amount(text)
    return number * GRAMS[unit]


def ratio(text: str) -> tuple[Fraction, Fraction]:
    """The two sides of a ratio."""
    left, right = text.split(":")
    return Fraction(left), Fraction(right)


def per_cent(text: str) -> Fraction:
    """A percentage as a share of one."""
    return amount(text)[0] / 100


def shared(total: int, weights: list[Fraction]) -> list[int]:
    """A whole total shared by largest remainder; ties to the first listed."""
    whole = sum(weights, Fraction(0))
    quotas = [total * weight / whole for weight in weights]
    shares = [floor(quota) for quota in quotas]
    order = sorted(range(len(quotas)), key=lambda at: (shares[at] - quotas[at], at))
    for at in order[: total - sum(shares)]:
        shares[at] += 1
    return shares


@dataclass
class Pour:
    """One pour; weights in the bowl's unit."""

    product: str
    role: str
    exact: Fraction
    reading: Fraction


@dataclass
class Bowl:
    """One weigh-out of a blend; weights in its unit."""

    blend: str
    unit: str
    batch: Fraction
    step: Fraction
    developer: str
    pours: list[Pour] = field(default_factory=list)

    @property
    def lightener(self) -> Fraction:
        """Lightener or toner as weighed."""
        return sum((pour.reading for pour in self.pours if pour.role in ("lightener", "toner")), Fraction(0))

    @property
    def total(self) -> Fraction:
        """Everything on the scale."""
        return sum((pour.reading for pour in self.pours), Fraction(0))

    @property
    def worst(self) -> Fraction:
        """The worst rounding error, as a share of the exact weight."""
        return max(abs(pour.reading - pour.exact) / pour.exact for pour in self.pours)


def parts_of(blend: Entry) -> list[tuple[str, Fraction]]:
    """What a batch consists of, with its parts."""
    return [(each["product"], Fraction(each["parts"])) for each in blend.get("lighteners") or blend["toners"]]


def added_to_lightener(blend: Entry, developer: str) -> Iterator[tuple[str, str, Fraction]]:
    """Product, role and weight to one of lightener, of the developer and the additives."""
    of_lightener, of_developer = ratio(blend["developer"]["ratio"])
    yield developer, "developer", of_developer / of_lightener
    for each in blend.get("additives", []):
        of_lightener, of_additive = ratio(each["ratio"])
        yield each["product"], "additive", of_additive / of_lightener


def weigh_out(
    book: Book, name: str, unit: str, batch: Fraction, step: Fraction, developer: str | None = None
) -> Bowl:
    """Weigh a bowl out, or raise `CannotWeigh`."""
    blend = book["blends"][name]
    developer = developer or blend["developer"]["product"]
    bowl = Bowl(name, unit, batch, step, developer)
    parts = parts_of(blend)
    whole = sum(share for _, share in parts)
    steps = shared(half_up(batch / step), [share for _, share in parts])
    role = "lightener" if "lighteners" in blend else "toner"
    for (product, share), reading in zip(parts, steps, strict=True):
        bowl.pours.append(Pour(product, role, batch * share / whole, reading * step))
    lightener = bowl.lightener
    for product, role, weight in added_to_lightener(blend, developer):
        wanted = weight * lightener
        bowl.pours.append(Pour(product, role, wanted, half_up(wanted / step) * step))
    if any(pour.reading == 0 for pour in bowl.pours):
        raise CannotWeigh(name)
    return bowl


def within_tolerance(book: Book, bowl: Bowl) -> bool:
    """Whether rounding stays within the house's tolerance."""
    return bowl.worst <= per_cent(book["house"]["house"]["rounding_tolerance"])


def next_weighable(book: Book, bowl: Bowl) -> Fraction:
    """The smallest batch in whole steps, at or above this one, whose rounding stays within the tolerance."""
    steps = ceil(bowl.batch / bowl.step)
    while True:
        try:
            found = weigh_out(book, bowl.blend, bowl.unit, steps * bowl.step, bowl.step, bowl.developer)
        except CannotWeigh:
            pass
        else:
            if within_tolerance(book, found):
                return found.batch
        steps += 1


def density(product: Entry) -> Fraction | None:
    """Grams in a millilitre, where the product says."""
    return amount(product["density"])[0] if "density" in product else None


def net_content(product: Entry) -> tuple[Fraction, str] | None:
    """A pack's net content in grams or pieces, and which of the two; none where that cannot be known."""
    if "pack" not in product:
        return None
    number, unit = amount(product["pack"]["net"])
    if unit == "pieces":
        return number, "pieces"
    if unit in GRAMS:
        return number * GRAMS[unit], "g"
    weight = density(product)
    return None if weight is None else (number * MILLILITRES[unit] * weight, "g")


def price_of_one(product: Entry, measure: str) -> Fraction | None:
    """Price of a gram or of a piece; none where it is not known."""
    net = net_content(product)
    if net is None or net[1] != measure or "price" not in product["pack"]:
        return None
    return Fraction(product["pack"]["price"]) / net[0]


def pour_costs(book: Book, bowl: Bowl) -> list[Fraction | None]:
    """The exact cost of each reading; none without a price."""
    found = []
    for pour in bowl.pours:
        price = price_of_one(book["products"][pour.product], "g")
        found.append(None if price is None else price * pour.reading * GRAMS[bowl.unit])
    return found


def known(costs: list[Fraction | None]) -> list[Fraction]:
    """The costs that are known."""
    return [cost for cost in costs if cost is not None]


def minor_units(book: Book, cost: Fraction) -> int:
    """A cost in whole minor units of the house's currency."""
    return half_up(cost * 10 ** DECIMALS[book["house"]["house"]["currency"]])


def money(book: Book, units: int) -> str:
    """Whole minor units, as money is written."""
    places = DECIMALS[book["house"]["house"]["currency"]]
    return decimal(Fraction(units, 10**places), places)


def lines_and_total(book: Book, costs: list[Fraction | None]) -> tuple[list[str | None], str | None]:
    """Lines that share the rounded total of what is known by largest remainder."""
    exact = known(costs)
    if not exact:
        return [None for _ in costs], None
    total = minor_units(book, sum(exact, Fraction(0)))
    shares = iter(shared(total, exact))
    return [None if cost is None else money(book, next(shares)) for cost in costs], money(book, total)


def peroxide(book: Book, bowl: Bowl) -> Fraction:
    """Per cent of hydrogen peroxide in the bowl, the developer's own, by weight."""
    product = book["products"][bowl.developer]
    nominal = Fraction(product["volume"]) * 3 / 10
    strength = amount(product["peroxide"])[0] if "peroxide" in product else nominal
    return strength * next(pour.reading for pour in bowl.pours if pour.role == "developer") / bowl.total


def over_dose(book: Book, bowl: Bowl) -> list[dict[str, str]]:
    """Additives of which the scale reads more than their maker allows to this lightener."""
    found = []
    for pour in bowl.pours:
        if pour.role == "additive" and "dose" in book["products"][pour.product]:
            of_lightener, of_additive = ratio(book["products"][pour.product]["dose"])
            most = bowl.lightener * of_additive / of_lightener
            if pour.reading > most:
                reading = decimal(pour.reading, places_of(bowl.step))
                found.append({"product": pour.product, "weigh": reading, "most": trimmed(most, 6)})
    return found


def bowl_cost(book: Book, bowl: Bowl) -> tuple[list[str | None], str | None]:
    """What each pour costs, and the bowl does: nothing where the price of a pour is missing."""
    lines, known = lines_and_total(book, pour_costs(book, bowl))
    return lines, None if None in lines else known


def millilitres(book: Book, bowl: Bowl, pour: Pour) -> str | None:
    """A reading as a volume, to a tenth; none without a density."""
    weight = density(book["products"][pour.product])
    return None if weight is None else decimal(pour.reading * GRAMS[bowl.unit] / weight, 1)


def bowl_answer(book: Book, bowl: Bowl) -> dict[str, Any]:
    """The figures of `bowlbook mix`."""
    places = places_of(bowl.step)
    lines, total = bowl_cost(book, bowl)
    shown = Fraction(0)
    pours = []
    for pour, line in zip(bowl.pours, lines, strict=True):
        shown += pour.reading
        answer: dict[str, str | None] = {"product": pour.product, "role": pour.role}
        answer["exact"] = trimmed(pour.exact, 6)
        answer |= {"weigh": decimal(pour.reading, places), "scale_shows": decimal(shown, places)}
        pours.append(answer | {"millilitres": millilitres(book, bowl, pour), "cost": line})
    most = grams(book["house"]["house"].get("largest_batch", "500 g"))
    return {
        "blend": bowl.blend,
        "batch": f"{trimmed(bowl.batch, 6)} {bowl.unit}",
        "step": f"{trimmed(bowl.step, 6)} {bowl.unit}",
        "pours": pours,
        "bowl_total": decimal(bowl.total, places),
        "peroxide_percent": decimal(peroxide(book, bowl), 2),
        "worst_error_percent": decimal(bowl.worst * 100, 2),
        "within_tolerance": within_tolerance(book, bowl),
        "next_weighable_batch": decimal(next_weighable(book, bowl), places),
        "cost": total,
        "known_cost": lines_and_total(book, pour_costs(book, bowl))[1],
        "without_price": [pour.product for pour, line in zip(bowl.pours, lines, strict=True) if line is None],
        "currency": book["house"]["house"]["currency"],
        "developer": bowl.developer,
        "volume": book["products"][bowl.developer]["volume"],
        "over_dose": over_dose(book, bowl),
        "over_bowl": bowl.batch * GRAMS[bowl.unit] > most,
    }


def in_the_bowl(
    bowl: Bowl, poured: dict[str, Fraction], shows: Fraction | None, after: str | None
) -> list[Fraction]:
    """What is in: as planned before the last pour named, as said where it is named, nothing after it."""
    names = [pour.product for pour in bowl.pours]
    last = max(names.index(each) for each in [*poured, *([after] if after else [])])
    found = [poured.get(pour.product, pour.reading) for pour in bowl.pours[: last + 1]]
    if shows is not None and after is not None:
        at = names.index(after)
        found[at] = shows - sum(found[:at], Fraction(0))
    return found + [Fraction(0)] * (len(names) - last - 1)


def corrected(book: Book, bowl: Bowl, inside: list[Fraction]) -> dict[str, Any]:
    """The smallest bowl of the recipe, not below the batch, in whole steps, that holds what is in."""
    steps = half_up(bowl.batch / bowl.step)
    while True:
        try:
            found = weigh_out(book, bowl.blend, bowl.unit, steps * bowl.step, bowl.step, bowl.developer)
        except CannotWeigh:
            pass
        else:
            if all(pour.reading >= weight for pour, weight in zip(found.pours, inside, strict=True)):
                break
        steps += 1
    shows = sum(inside, Fraction(0))
    pours = []
    for pour, weight in zip(found.pours, inside, strict=True):
        shows += pour.reading - weight
        answer = {
            "in_bowl": weight,
            "must_be": pour.reading,
            "add": pour.reading - weight,
            "scale_shows": shows,
        }
        pours.append({"product": pour.product} | answer)
    return {"batch": found.batch, "pours": pours}
