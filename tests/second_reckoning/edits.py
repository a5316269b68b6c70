"""Random edits of a book: some that change a figure, some that only write the same value otherwise."""

from collections.abc import Callable
from copy import deepcopy
from random import Random

from tests.second_reckoning.books import DENSITIES, LENGTHS, Book, Entry, money


def house_of(book: Book) -> Entry:
    """The house's entry."""
    return book["house"]["house"]


def ratio(random: Random, book: Book) -> None:
    """Another developer ratio."""
    random.choice(list(book["blends"].values()))["developer"]["ratio"] = random.choice(
        ["1:1", "1:1.75", "1:2", "1:3"]
    )


def same_ratio(random: Random, book: Book) -> None:
    """The same ratio in other numbers."""
    developer = random.choice(list(book["blends"].values()))["developer"]
    left, right = developer["ratio"].split(":")
    developer["ratio"] = f"{float(left) * 2:g}:{float(right) * 2:g}"


def parts(random: Random, book: Book) -> None:
    """Another share of the first lightener."""
    blend = random.choice(list(book["blends"].values()))
    (blend.get("lighteners") or blend["toners"])[0]["parts"] = random.choice(["1", "2", "4", "2.5"])


def same_parts(random: Random, book: Book) -> None:
    """The same shares in other numbers."""
    blend = random.choice(list(book["blends"].values()))
    for each in blend.get("lighteners") or blend["toners"]:
        each["parts"] = f"{float(each['parts']) * 3:g}"


def developer(random: Random, book: Book) -> None:
    """The first of its other developers in place of its own."""
    chosen = book["blends"][random.choice(["one", "three", "root"])]["developer"]
    chosen["product"], chosen["also"] = chosen["also"][0], [chosen["product"], *chosen["also"][1:]]


def additives(random: Random, book: Book) -> None:
    """No additive any more."""
    random.choice(list(book["blends"].values())).pop("additives", None)


def fresh_for(random: Random, book: Book) -> None:
    """Fresh for another time."""
    random.choice(list(book["blends"].values()))["fresh_for"] = random.choice(
        ["15 minutes", "20 minutes", "3 minutes"]
    )


def sizes(random: Random, book: Book) -> None:
    """Other sizes of the house in one of its units."""
    batches = house_of(book)["batches"]
    unit = random.choice(list(batches))
    batches[unit] = random.choice(
        [["0.5", "1", "2"], ["1.25", "2.5"]] if unit == "oz" else [["15", "40"], ["43", "60"], ["2", "4"]]
    )


def tolerance(random: Random, book: Book) -> None:
    """Another tolerance."""
    house_of(book)["rounding_tolerance"] = random.choice(["3 %", "10 %"])


def step(random: Random, book: Book) -> None:
    """Another step of the scale."""
    steps = house_of(book)["scale_step"]
    unit = random.choice(list(steps))
    steps[unit] = random.choice(["0.1", "0.01", "0.005"] if unit == "oz" else ["0.1", "2", "0.5"])


def hair(random: Random, book: Book) -> None:
    """Another factor, perhaps of hair that was not measured before."""
    amounts = house_of(book)["hair_amounts"]
    for which, factors in (("length", LENGTHS), ("density", DENSITIES)):
        amounts[which][random.choice(list(factors))] = random.choice(["0.9", "1.1", "1.25"])
        amounts[which] = {name: amounts[which][name] for name in factors if name in amounts[which]}


def waste(random: Random, book: Book) -> None:
    """Another allowance for waste."""
    house_of(book)["waste_allowance"] = random.choice(["6 %", "9.5 %"])


def any_batch(random: Random, book: Book) -> None:
    """One exact batch in place of sizes."""
    house_of(book)["any_batch"] = "yes"


def scalp_limit(random: Random, book: Book) -> None:
    """Another limit for developers on the scalp."""
    house_of(book)["on_scalp_developer_limit"] = random.choice(["20 volume", "25 volume", "30 volume"])


def price(random: Random, book: Book) -> None:
    """Another price, or one where there was none."""
    product = random.choice([each for each in book["products"].values() if "pack" in each])
    product["pack"] |= {"price": money(random, house_of(book)["currency"], 9, 60), "priced_on": "2026-11-02"}


def no_price(random: Random, book: Book) -> None:
    """No price any more."""
    product = random.choice([each for each in book["products"].values() if "pack" in each])
    product["pack"] = {"net": product["pack"]["net"]}


def net(random: Random, book: Book) -> None:
    """A smaller pack."""
    product = book["products"][random.choice(["clay", "powder", "cream"])]
    if "pack" in product:
        product["pack"]["net"] = random.choice(["40 g", "0.25 kg"])


def same_net(random: Random, book: Book) -> None:
    """The same net content in another unit."""
    for product in book["products"].values():
        same = {"1 L": "1000 mL", "450 g": "0.45 kg", "0.5 kg": "500 g", "1 lb": "16 oz"}
        if "pack" in product:
            product["pack"]["net"] = same.get(product["pack"]["net"], product["pack"]["net"])


def density(random: Random, book: Book) -> None:
    """Another density."""
    product = random.choice([each for each in book["products"].values() if "density" in each])
    product["density"] = random.choice(["1.1 g/mL", "0.95 g/mL"])


def mix(random: Random, book: Book) -> None:
    """Another amount on a section, or other sections."""
    bowl = random.choice(random.choice(list(book["techniques"].values()))["bowls"])
    bowl |= random.choice([{"mix_per_section": "6 g"}, {"sections": "24"}, {"mix_per_section": "0.45 oz"}])


def supplies(random: Random, book: Book) -> None:
    """Another supply."""
    technique = random.choice(list(book["techniques"].values()))
    technique["supplies"] = [
        {"product": random.choice(["foil", "gloves", "strips"]), "count": str(random.randint(1, 50))}
    ]


def learners(random: Random, book: Book) -> None:
    """Other learners."""
    random.choice(list(book["classes"].values()))["learners"] = str(random.randint(2, 40))


def currency(random: Random, book: Book) -> None:
    """Another currency, with no fewer decimals than the prices have."""
    if house_of(book)["currency"] != "JPY":
        house_of(book)["currency"] = "KWD"


def renamed(random: Random, book: Book) -> None:
    """Another id of a blend, and of whatever names it."""
    book["blends"]["two-again"] = book["blends"].pop("two") | {"formerly": ["two"]}
    for technique in book["techniques"].values():
        for bowl in technique["bowls"]:
            bowl["blend"] = "two-again" if bowl["blend"] == "two" else bowl["blend"]
    for each in book["situations"]["fine-hair"]["take"]:
        each["blend"] = "two-again" if each["blend"] == "two" else each["blend"]


def new_blend(random: Random, book: Book) -> None:
    """One blend more."""
    book["blends"]["four"] = deepcopy(book["blends"]["one"]) | {"name": "Blend four"}


def class_gone(random: Random, book: Book) -> None:
    """One class less."""
    book["classes"].pop("second", None)


EDITS: list[Callable[[Random, Book], None]] = [
    *(
        ratio,
        same_ratio,
        parts,
        same_parts,
        developer,
        additives,
        fresh_for,
        sizes,
        tolerance,
        step,
        hair,
        waste,
    ),
    *(
        any_batch,
        scalp_limit,
        price,
        no_price,
        net,
        same_net,
        density,
        mix,
        supplies,
        learners,
        currency,
        renamed,
        new_blend,
        class_gone,
    ),
]


def edited(book: Book, random: Random) -> Book:
    """A copy of a book with a few edits."""
    copy = deepcopy(book)
    for edit in random.sample(EDITS, random.randint(1, 4)):
        edit(random, copy)
    return copy
