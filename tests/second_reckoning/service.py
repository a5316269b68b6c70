"""Services and kits reckoned a second time, from the documented rules alone.

Rules: pages/manual/services.md. Answers have the shape of the JSON of `plan` and `kit`.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import combinations_with_replacement
from math import ceil, floor
from typing import Any

from tests.second_reckoning.books import Book, Entry
from tests.second_reckoning.reckoning import (
    GRAMS,
    Bowl,
    CannotWeigh,
    added_to_lightener,
    amount,
    bowl_answer,
    decimal,
    grams,
    half_up,
    known,
    lines_and_total,
    minor_units,
    money,
    net_content,
    per_cent,
    pour_costs,
    price_of_one,
    trimmed,
    weigh_out,
)

MOST_WEIGH_OUTS = 24


class NoPlan(Exception):
    """The service cannot be planned."""


@dataclass
class Fresh:
    """One fresh bowl; weights in the service's unit."""

    sections: int
    minutes: Fraction | None
    waste: Fraction
    need: Fraction
    lightener: Fraction
    sizes: Sequence[Fraction]
    weigh_outs: list[Bowl] | None
    """None where something in them reads zero."""

    @property
    def weighed(self) -> Fraction:
        """Everything on the scale."""
        return sum((bowl.total for bowl in self.weigh_outs or []), Fraction(0))

    @property
    def left_over(self) -> Fraction:
        """What is weighed beyond the need."""
        return max(self.weighed - self.need, Fraction(0))


@dataclass
class Service:
    """A technique planned for one head."""

    unit: str
    factor: Fraction
    bowls: list[tuple[Entry, list[Fresh]]]
    factors: list[Fraction]
    """Of each bowl's mix."""
    time: dict[str, Any]
    supplies: list[tuple[str, int]]

    def fresh(self) -> list[Fresh]:
        """All fresh bowls."""
        return [each for _, fresh in self.bowls for each in fresh]


def sizes_of(book: Book, blend: str, unit: str) -> list[Fraction]:
    """A blend's own batches in a unit, or else the house's."""
    own = book["blends"][blend].get("batches", {}).get(unit)
    return [Fraction(size) for size in own or book["house"]["house"]["batches"].get(unit, [])]


def unit_of(book: Book, techniques: list[str], order: Sequence[str]) -> str:
    """The first unit with a step in which every blend has sizes."""
    blends = [bowl["blend"] for each in techniques for bowl in book["techniques"][each]["bowls"]]
    for unit in order:
        if unit in book["house"]["house"]["scale_step"] and all(
            sizes_of(book, each, unit) for each in blends
        ):
            return unit
    raise NoPlan(f"no unit of {order}")


def choose_sizes(sizes: list[Fraction], lightener: Fraction) -> tuple[Fraction, ...]:
    """The sizes to weigh out, largest first."""
    fewest = ceil(lightener / max(sizes))
    if fewest > MOST_WEIGH_OUTS:
        raise NoPlan("more than 24 weigh-outs")
    largest_first = sorted(set(sizes), reverse=True)
    choices = [
        (sum(choice), count, [-size for size in choice], choice)
        for count in range(fewest, min(fewest + 1, MOST_WEIGH_OUTS) + 1)
        for choice in combinations_with_replacement(largest_first, count)
        if sum(choice) >= lightener
    ]
    return min(choices)[-1]


def sections_of(bowl: Entry, density: Fraction) -> int:
    """The sections of a head: "Sections and minutes of a head"."""
    written = int(bowl["sections"])
    return written if written == 1 else ceil(written * density)


def minutes_of(bowl: Entry, density: Fraction, hands: int) -> Fraction | None:
    """The minutes of one bowl on a head, without the turns of others."""
    if "minutes_per_section" not in bowl:
        return None
    each = amount(bowl["minutes_per_section"])[0]
    return each * density if bowl["sections"] == "1" else each * sections_of(bowl, density) / hands


def spans_of(bowls: list[Entry]) -> list[list[Entry]]:
    """The bowls in groups that are used by turns."""
    spans: list[list[Entry]] = []
    for bowl in bowls:
        if bowl.get("by_turns") == "yes":
            spans[-1].append(bowl)
        else:
            spans.append([bowl])
    return spans


def span_minutes(span: list[Entry], density: Fraction, hands: int) -> Fraction | None:
    """The minutes of a span; none where one of its bowls has none."""
    minutes = [minutes_of(bowl, density, hands) for bowl in span]
    return None if None in minutes else sum(minutes, Fraction(0))


def limits_on(book: Book, technique: Entry, bowls: list[Entry]) -> list[tuple[Fraction, str]]:
    """Every limit on the time and whose it is: "Time on the hair"."""
    scalp = technique["placement"] == "on-scalp"
    found = []
    for bowl in bowls:
        blend = book["blends"][bowl["blend"]]
        for part in blend.get("toners") or blend["lighteners"]:
            product = book["products"][part["product"]]
            keys = ("longest_on_scalp", "longest_on_hair") if scalp else ("longest_on_hair",)
            found += [(amount(product[key])[0], part["product"]) for key in keys if key in product]
    house = book["house"]["house"]
    if scalp and "longest_on_scalp" in house:
        found.append((amount(house["longest_on_scalp"])[0], "house"))
    return found


def time_answer(book: Book, technique: Entry, density: Fraction, hands: int) -> dict[str, Any]:
    """`time` of the answer, and in `limit_by` everybody whose limit is the least."""
    lightening = [each for each in technique["bowls"] if "lighteners" in book["blends"][each["blend"]]]
    bowls = lightening or technique["bowls"]
    spans = [span for span in spans_of(technique["bowls"]) if any(each in bowls for each in span)]
    each = [span_minutes(span, density, hands) for span in spans]
    applying = None if None in each else sum(each, Fraction(0))
    processing = amount(technique["processing"]["minutes"])[0]
    counts_from = technique["processing"].get("counts_from", "last section")
    whole = None
    if applying is not None:
        whole = max(applying, processing) if counts_from == "first section" else applying + processing
    apart = counts_from == "each section" and technique["placement"] != "on-scalp"
    longest = processing if apart or whole is None else whole
    limits = limits_on(book, technique, bowls)
    least = min((minutes for minutes, _ in limits), default=None)
    return {
        "applying": None if applying is None else trimmed(applying, 6),
        "processing": trimmed(processing, 6),
        "counts_from": counts_from,
        "first_in_to_last_rinsed": None if whole is None else trimmed(whole, 6),
        "longest_in_place": trimmed(longest, 6),
        "limit": None if least is None else trimmed(least, 6),
        "limit_by": [who for minutes, who in limits if minutes == least],
        "over": least is not None and longest > least,
    }


def taken_of(technique: Entry, supply: Entry, density: Fraction) -> int:
    """How many pieces of a supply a head takes."""
    several = [each for each in technique["bowls"] if each["sections"] != "1"]
    if supply.get("by_sections") != "yes" or not several:
        return int(supply["count"])
    here = sum(sections_of(each, density) for each in several)
    return ceil(int(supply["count"]) * Fraction(here, sum(int(each["sections"]) for each in several)))


def shares_of_sections(book: Book, bowl: Entry, sections: int, turn: Fraction | None) -> list[int]:
    """How many sections each fresh bowl covers."""
    blend = book["blends"][bowl["blend"]]
    if "fresh_for" not in blend or turn is None:
        return [sections]
    fit = floor(amount(blend["fresh_for"])[0] / turn)
    if fit == 0:
        raise NoPlan("one section takes longer than the mix stays fresh")
    count = ceil(Fraction(sections, fit))
    return [sections // count + (at < sections % count) for at in range(count)]


def fresh_bowl(
    book: Book, bowl: Entry, unit: str, share: Fraction, sections: int, minutes: Fraction | None
) -> Fresh:
    """Plan and weigh out one fresh bowl, for a share of what the bowl takes as written."""
    of_house = book["house"]["house"]
    blend = book["blends"][bowl["blend"]]
    developer = bowl.get("developer") or blend["developer"]["product"]
    bare = grams(bowl["mix_per_section"]) / GRAMS[unit] * int(bowl["sections"]) * share
    waste = bare * per_cent(of_house.get("waste_allowance", "0 %"))
    whole = 1 + sum(weight for _, _, weight in added_to_lightener(blend, developer))
    lightener = (bare + waste) / whole
    step = Fraction(of_house["scale_step"][unit])
    sizes: Sequence[Fraction] = (ceil(lightener / step) * step,)
    if of_house.get("any_batch") != "yes":
        sizes = choose_sizes(sizes_of(book, bowl["blend"], unit), lightener)
    try:
        weigh_outs = [weigh_out(book, bowl["blend"], unit, size, step, developer) for size in sizes]
    except CannotWeigh:
        weigh_outs = None
    return Fresh(sections, minutes, waste, bare + waste, lightener, sizes, weigh_outs)


def plan(
    book: Book,
    technique: str,
    length: str,
    density: str,
    unit: str | None = None,
    hands: int | None = None,
) -> Service:
    """Plan a technique for a head, or raise `NoPlan`."""
    entry = book["techniques"][technique]
    amounts = book["house"]["house"]["hair_amounts"]
    if length not in amounts["length"] or density not in amounts["density"]:
        raise NoPlan("hair not measured")
    by_length, dense = Fraction(amounts["length"][length]), Fraction(amounts["density"][density])
    hands = hands or int(entry.get("hands", "1"))
    unit = unit_of(book, [technique], (unit,) if unit else ("oz", "g"))
    bowls, factors = [], []
    for span in spans_of(entry["bowls"]):
        minutes = span_minutes(span, dense, hands)
        for bowl in span:
            sections = sections_of(bowl, dense)
            turn = None if minutes is None else minutes / sections
            factors.append(dense if bowl["zones"] == ["1"] else by_length * dense)
            fresh = []
            for count in shares_of_sections(book, bowl, sections, turn):
                share = factors[-1] * Fraction(count, sections)
                open_for = None if turn is None else turn * count
                fresh.append(fresh_bowl(book, bowl, unit, share, count, open_for))
            bowls.append((bowl, fresh))
    return Service(
        *(unit, by_length * dense, bowls, factors, time_answer(book, entry, dense, hands)),
        [(each["product"], taken_of(entry, each, dense)) for each in entry.get("supplies", [])],
    )


def fresh_costs(book: Book, fresh: Fresh) -> list[Fraction | None]:
    """The exact cost of every reading of a fresh bowl."""
    return [cost for bowl in fresh.weigh_outs or [] for cost in pour_costs(book, bowl)]


def exact_costs(book: Book, service: Service) -> tuple[list[Fraction | None], list[Fraction | None]]:
    """What is known of each bowl's line and of each supply's; none where nothing is."""
    bowls: list[Fraction | None] = []
    for _, every in service.bowls:
        costs = known([cost for fresh in every for cost in fresh_costs(book, fresh)])
        bowls.append(sum(costs, Fraction(0)) if costs else None)
    prices = [price_of_one(book["products"][product], "pieces") for product, _ in service.supplies]
    supplies = [
        None if price is None else price * count
        for price, (_, count) in zip(prices, service.supplies, strict=True)
    ]
    return bowls, supplies


def without_price(book: Book, service: Service) -> list[str]:
    """The products without a price, in the order in which they are used."""
    used = [
        (pour.product, "g")
        for fresh in service.fresh()
        for bowl in fresh.weigh_outs or []
        for pour in bowl.pours
    ] + [(product, "pieces") for product, _ in service.supplies]
    return list(
        dict.fromkeys(each for each, measure in used if price_of_one(book["products"][each], measure) is None)
    )


def all_weighed(service: Service) -> bool:
    """Whether every fresh bowl can be weighed out."""
    return all(fresh.weigh_outs is not None for fresh in service.fresh())


def service_cost(book: Book, service: Service) -> str | None:
    """The whole cost; none unless everything has a price and every bowl can be weighed out."""
    bowls, supplies = exact_costs(book, service)
    whole = all_weighed(service) and not without_price(book, service)
    return lines_and_total(book, bowls + supplies)[1] if whole else None


def shares_of_cost(book: Book, service: Service) -> tuple[str | None, str | None]:
    """What waste and what is left over cost; none unless all is weighed out and has a price."""
    waste = left_over = Fraction(0)
    for fresh in service.fresh():
        costs = fresh_costs(book, fresh)
        if not costs or None in costs:
            return None, None
        cost = sum(known(costs), Fraction(0))
        waste += cost * fresh.waste / fresh.weighed
        left_over += cost * fresh.left_over / fresh.weighed
    return money(book, minor_units(book, waste)), money(book, minor_units(book, left_over))


def fresh_answer(book: Book, fresh: Fresh, unit: str) -> dict[str, Any]:
    """One fresh bowl as `bowlbook plan` gives it."""
    weights = {
        "need": fresh.need,
        "waste": fresh.waste,
        "lightener": fresh.lightener,
        "left_over": fresh.left_over,
    }
    return {
        "sections": fresh.sections,
        "minutes": None if fresh.minutes is None else trimmed(fresh.minutes, 6),
        **{name: f"{trimmed(weight, 3)} {unit}" for name, weight in weights.items()},
        "cannot_weigh": fresh.weigh_outs is None,
        "weigh_outs": [bowl_answer(book, bowl) for bowl in fresh.weigh_outs or []],
    }


def sum_of(book: Book, lines: list[str | None], whole: bool) -> str | None:
    """The sum of lines, where all of it is known."""
    if not whole:
        return None
    return money(book, sum(minor_units(book, Fraction(line or 0)) for line in lines))


def plan_answer(
    book: Book, technique: str, length: str, density: str, unit: str | None, hands: int | None = None
) -> dict[str, Any]:
    """The answer of `bowlbook plan`; `cannot_weigh` as yes or no, for its wording is not reckoned."""
    service = plan(book, technique, length, density, unit, hands)
    bowls, supplies = exact_costs(book, service)
    lines, known_cost = lines_and_total(book, bowls + supplies)
    of_bowls, of_supplies = lines[: len(bowls)], lines[len(bowls) :]
    priceless = without_price(book, service)
    counted = {product for product, _ in service.supplies}
    waste, left_over = shares_of_cost(book, service)
    return {
        "unit": service.unit,
        "factor": trimmed(service.factor, 6),
        "time": service.time,
        "bowls": [
            {
                "blend": bowl["blend"],
                "developer": bowl.get("developer") or book["blends"][bowl["blend"]]["developer"]["product"],
                "factor": trimmed(factor, 6),
                "fresh": [fresh_answer(book, each, service.unit) for each in fresh],
                "cost": line,
            }
            for (bowl, fresh), factor, line in zip(service.bowls, service.factors, of_bowls, strict=True)
        ],
        "supplies": [
            {"product": product, "count": count, "cost": line}
            for (product, count), line in zip(service.supplies, of_supplies, strict=True)
        ],
        "products_cost": sum_of(book, of_bowls, all_weighed(service) and counted.issuperset(priceless)),
        "supplies_cost": sum_of(book, of_supplies, not counted.intersection(priceless)),
        "waste_cost": waste,
        "left_over_cost": left_over,
        "cost": service_cost(book, service),
        "known_cost": known_cost,
        "without_price": priceless,
    }


def practice_heads(shown: list[Entry], each: Entry, learners: int) -> int:
    """The practice heads of a demonstration, its own or those that it uses again."""
    if "shares_heads_with" in each:
        each = next(
            other
            for other in shown[: shown.index(each)]
            if other["technique"] == each["shares_heads_with"] and "learners_per_head" in other
        )
    return ceil(Fraction(learners, int(each["learners_per_head"]))) if "learners_per_head" in each else 0


def needed(book: Book, name: str, learners: int) -> tuple[list[int], int, dict[str, Fraction], bool]:
    """Heads of each demonstration and in all; what is needed of each product; whether all was weighed."""
    entry = book["classes"][name]
    shown = entry.get("demonstrations", [])
    unit = unit_of(book, [each["technique"] for each in shown], ("g", "oz"))
    heads, again, need, whole = [], 0, dict[str, Fraction](), True
    for each in shown:
        practice = practice_heads(shown, each, learners)
        heads.append(int(each["heads"]) + practice)
        again += practice if "shares_heads_with" in each else 0
        people = int(each["heads"]) + (learners if practice else 0)
        service = plan(book, each["technique"], each["length"], each["density"], unit)
        whole = whole and all_weighed(service)
        used = [(product, Fraction(count)) for product, count in service.supplies]
        for fresh in service.fresh():
            for bowl in fresh.weigh_outs or []:
                used += [(pour.product, pour.reading * GRAMS[unit]) for pour in bowl.pours]
        for product, weight in used:
            times = people if book["products"][product].get("per_person") == "yes" else heads[-1]
            need[product] = need.get(product, Fraction(0)) + weight * times
    for each in entry.get("for_each_learner", []):
        need[each["product"]] = need.get(each["product"], Fraction(0)) + int(each["count"]) * learners
    return heads, sum(heads) - again, dict(sorted(need.items())), whole


def kit_line(product: str, entry: Entry, need: Fraction) -> tuple[dict[str, Any], Fraction | None]:
    """Whole packs of a product, and what they cost; neither where no pack fits or none has a price."""
    measure = "pieces" if entry["kind"] == "supply" else "g"
    places = 0 if measure == "pieces" else 1
    line: dict[str, Any] = {"product": product, "need": f"{decimal(need, places)} {measure}"}
    net = net_content(entry)
    if net is None or net[1] != measure:
        return line | {"containers": None, "left_over": None}, None
    packs = ceil(need / net[0])
    line |= {"containers": packs, "left_over": f"{decimal(packs * net[0] - need, places)} {measure}"}
    return line, Fraction(entry["pack"]["price"]) * packs if "price" in entry["pack"] else None


def kit_answer(book: Book, name: str, learners: int | None = None) -> dict[str, Any]:
    """The answer of `bowlbook kit`; `cannot_weigh` as yes or no, for its wording is not reckoned."""
    learners = learners or int(book["classes"][name]["learners"])
    heads, all_heads, need, whole = needed(book, name, learners)
    lines = [kit_line(product, book["products"][product], weight) for product, weight in need.items()]
    costs = [cost for _, cost in lines]
    shares, total = lines_and_total(book, costs)
    complete = whole and None not in costs
    each = half_up(Fraction(minor_units(book, sum(known(costs), Fraction(0))), learners))
    return {
        "class": name,
        "learners": learners,
        "heads": heads,
        "all_heads": all_heads,
        "lines": [line | {"cost": share} for (line, _), share in zip(lines, shares, strict=True)],
        "cannot_weigh": not whole,
        "cost": total if complete else None,
        "cost_per_learner": money(book, each) if complete else None,
        "known_cost": total,
        "without_price": [line["product"] for line, cost in lines if cost is None],
    }
