"""Random houses, the same for the same seed: valid books as plain data, and written out as YAML.

A book is a mapping from kind (house, products, blends, techniques, situations, classes) to entries, and an
entry a mapping from field to what its author would write. House, people, products and prices are invented.
"""

from pathlib import Path
from random import Random
from typing import Any

Entry = dict[str, Any]
Book = dict[str, dict[str, Entry]]

DECIMALS = {"CAD": 2, "EUR": 2, "CHF": 2, "KWD": 3, "JPY": 0}
"""Minor units by ISO 4217."""

LENGTHS = {"short": "0.7", "medium": "1", "long": "1.45", "extra_long": "1.8"}
DENSITIES = {"thin": "0.85", "medium": "1", "thick": "1.3"}
CAUTIONS = ["Check often."]
REVIEWED = {"on": "2026-10-02", "by": "Ines"}
FOLDERS = ("products", "blends", "techniques", "situations", "classes")


def money(random: Random, currency: str, low: int, high: int) -> str:
    """A price with all decimals of its currency; low and high in whole units of the Canadian dollar."""
    decimals = DECIMALS[currency]
    units = random.randint(low * 100, high * 100)
    return str(units) if decimals == 0 else f"{units / 100:.{decimals}f}"


def pack(random: Random, currency: str, nets: list[str], gaps: float) -> Entry | None:
    """A pack of one of these net contents; a share of them has no price, and half as many are left out."""
    if random.random() < gaps / 2:
        return None
    found: Entry = {"net": random.choice(nets)}
    if random.random() >= gaps:
        found |= {"price": money(random, currency, 9, 60), "priced_on": "2026-09-01"}
    return found


def house(random: Random) -> Entry:
    """A house with sizes in ounces, in grams or in both, and perhaps more steps than sizes."""
    units = random.choice([("oz",), ("g",), ("oz", "g"), ("oz", "g")])
    steps = {
        "oz": random.choice(["0.05", "0.01", "0.02", "0.005", "0.125"]),
        "g": random.choice(["1", "0.1", "0.5", "0.2", "3"]),
    }
    sizes = {
        "oz": random.choice([["0.5", "1", "2"], ["0.7", "1.3"], ["0.85", "1.7", "3.1"], ["1.25"]]),
        "g": random.choice([["15", "30", "60"], ["17", "31.5", "64"], ["25", "40"], ["43"]]),
    }
    lengths = random.sample(list(LENGTHS), random.randint(2, 4))
    densities = random.sample(list(DENSITIES), random.randint(1, 3))
    entry: Entry = {
        "title": "Second house",
        "currency": random.choice(list(DECIMALS)),
        "locale": random.choice(["en-CA", "en-GB", "en-IE"]),
        "notice": "An invented house.",
        "batches": {unit: sizes[unit] for unit in units},
        "scale_step": {unit: steps[unit] for unit in (("oz", "g") if random.random() < 0.7 else units)},
        "rounding_tolerance": random.choice(["5 %", "2 %", "2.5 %", "8 %", "0.5 %"]),
        "on_scalp_developer_limit": "20 volume",
        "review_after": "180 days",
        "hair_amounts": {
            "length": {name: LENGTHS[name] for name in LENGTHS if name in lengths},
            "density": {name: DENSITIES[name] for name in DENSITIES if name in densities},
        },
    }
    if random.random() < 0.7:
        entry["waste_allowance"] = random.choice(["5 %", "7.5 %", "12 %"])
    if random.random() < 0.6:
        entry["any_batch"] = random.choice(["yes", "no", "no"])
    if random.random() < 0.6:
        entry["longest_on_scalp"] = random.choice(["40 minutes", "55 minutes"])
    if random.random() < 0.3:
        entry["largest_batch"] = random.choice(["80 g", "3 oz", "55.5 g"])
    return entry


def products(random: Random, currency: str) -> dict[str, Entry]:
    """Lighteners, developers, toners, additives and supplies."""
    gaps = random.choice([0, 0, 0.15])
    everywhere = ["open-air", "foil", "on-scalp"]
    ratio = {"usual": "1:2", "from": "1:0.5", "to": "1:4"}
    shelf: dict[str, Entry] = {}
    for ident, form in (("clay", "clay"), ("powder", "powder"), ("cream", "cream"), ("oil", "oil")):
        shelf[ident] = {
            "name": f"Plain {ident}",
            "kind": "lightener",
            "form": form,
            "strength": "medium",
            "lifts": "7",
        }
        shelf[ident] |= {"mixing_ratio": ratio, "placement": everywhere, "developer_limit": "40 volume"}
        if random.random() < 0.4:
            shelf[ident]["longest_on_hair"] = random.choice(["50 minutes", "72.5 minutes"])
        if random.random() < 0.4:
            shelf[ident]["longest_on_scalp"] = random.choice(["45 minutes", "60 minutes"])
        nets = ["450 g", "1 lb", "0.5 kg", "16 oz", "397 g"]
        if form == "oil" and random.random() < 0.7:
            shelf[ident]["density"] = random.choice(["0.93 g/mL", "0.91 g/mL"])
            nets = ["500 mL", "12 fl oz"]
        shelf[ident]["pack"] = pack(random, currency, nets, gaps)
    for volume in (5, 10, 20, 30, 40):
        entry: Entry = {"name": f"Developer {volume}", "kind": "developer", "volume": str(volume)}
        if random.random() < 0.5:
            entry["peroxide"] = f"{volume * 0.3:g} %"
        nets = ["900 g", "32 oz"]
        if random.random() < 0.8:
            entry["density"] = random.choice(["1.02 g/mL", "1.009 g/mL", "0.997 g/mL"])
            nets = ["1 L", "16 fl oz", "946 mL", "900 g", "35 imperial fl oz"]
        entry["pack"] = pack(random, currency, nets, gaps)
        shelf[f"developer-{volume}"] = entry
    for ident in ("pearl", "smoke"):
        shelf[ident] = {"name": f"{ident.title()} toner", "kind": "toner", "form": "liquid", "tone": ["cool"]}
        shelf[ident] |= {"mixing_ratio": ratio, "density": "1.01 g/mL"}
        shelf[ident]["pack"] = pack(random, currency, ["60 mL", "2 fl oz"], gaps)
    for ident in ("drops", "balm"):
        shelf[ident] = {"name": f"Bond {ident}", "kind": "additive", "does": "Cushions the hair."}
        if random.random() < 0.7:
            shelf[ident]["dose"] = random.choice(["8:1", "10:1", "12:1"])
        if random.random() < 0.5:
            shelf[ident]["density"] = "1.05 g/mL"
        nets = ["250 mL", "8 fl oz"] if "density" in shelf[ident] else ["250 g"]
        shelf[ident]["pack"] = pack(random, currency, nets, gaps)
    for ident in ("foil", "gloves", "strips"):
        shelf[ident] = {"name": ident.title(), "kind": "supply"}
        shelf[ident]["pack"] = pack(random, currency, ["500 pieces", "100 pieces", "144 pieces"], gaps)
    if random.random() < 0.6:
        shelf["gloves"]["per_person"] = "yes"
    return {
        ident: {key: value for key, value in entry.items() if value is not None}
        for ident, entry in shelf.items()
    }


def own_batches(random: Random, of_house: Entry) -> Entry:
    """Sizes of a blend's own, in units for which the house has a step."""
    sizes = {
        "oz": random.choice([["0.9"], ["1.2", "2.4"], ["0.1", "1.15", "2"]]),
        "g": random.choice([["24", "48"], ["4", "33"], ["3"]]),
    }
    units = [unit for unit in of_house["scale_step"] if random.random() < 0.7]
    return {unit: sizes[unit] for unit in units}


def blend(random: Random, of_house: Entry, ident: str) -> Entry:
    """A lightening bowl, or, where its id begins with gloss, a toning one."""
    tones = ident.startswith("gloss")
    shelf = ["pearl", "smoke"] if tones else ["clay", "powder", "cream", "oil"]
    chosen = random.sample(shelf, random.randint(1, 2 if tones else 3))
    parts = [
        {"product": product, "parts": random.choice(["1", "2", "3", "1.5", "5", "0.5", "0.33"])}
        for product in chosen
    ]
    developers = random.sample(["developer-5", "developer-10", "developer-20"], 3)
    if not tones:
        developers = random.sample(["developer-10", "developer-20", "developer-30", "developer-40"], 3)
    ratio = random.choice(["1:1", "1:1.5", "1:2", "1:2.5", "1:0.75", "2:3", "1:1.25", "3:4"])
    entry: Entry = {
        "name": f"Blend {ident}",
        "toners" if tones else "lighteners": parts,
        "developer": {"ratio": ratio, "product": developers[0], "also": developers[1 : random.randint(2, 3)]},
    }
    if random.random() < 0.6:
        chosen = random.sample(["drops", "balm"], random.randint(1, 2))
        entry["additives"] = [
            {"product": each, "ratio": random.choice(["12:1", "16:1", "20:1", "15:1"])} for each in chosen
        ]
    own = own_batches(random, of_house) if random.random() < 0.4 else {}
    if own:
        entry["batches"] = own
    if random.random() < 0.7:
        entry["fresh_for"] = random.choice(["30 minutes", "25 minutes", "47.5 minutes"])
    entry["suits"] = (
        {"target_level": "8-10"} if tones else {"natural_level": "4-9", "placement": ["open-air", "foil"]}
    )
    return entry | {"cautions": CAUTIONS, "reviewed": REVIEWED}


def technique(random: Random, blends: dict[str, Entry], ident: str) -> Entry:
    """One or two lightening bowls, then perhaps a toning one."""
    chosen = random.sample(["one", "two", "three"], random.randint(1, 2))
    if random.random() < 0.6:
        chosen.append("gloss-one")
    bowls = []
    for each in chosen:
        bowl: Entry = {"blend": each, "where": "Where it goes.", "zones": ["2", "3"]}
        if random.random() < 0.3:
            bowl["developer"] = random.choice(blends[each]["developer"]["also"])
        bowl |= {
            "sections": str(random.randint(1, 19)),
            "mix_per_section": random.choice(["5 g", "7.5 g", "0.25 oz", "4 g", "0.3 oz"]),
        }
        if each.startswith("gloss"):
            bowl |= {"sections": "1", "mix_per_section": random.choice(["45 g", "1.5 oz"])}
        if random.random() < 0.8:
            bowl["minutes_per_section"] = random.choice(
                ["2 minutes", "3.5 minutes", "1.5 minutes", "4 minutes"]
            )
        if bowls and not each.startswith("gloss") and random.random() < 0.6:
            bowl["by_turns"] = "yes"
        bowls.append(bowl)
    supplies = random.sample(["foil", "gloves", "strips"], random.randint(0, 3))
    entry: Entry = {
        "name": f"Technique {ident}",
        "placement": random.choice(["open-air", "foil"]),
        "section_pattern": "Four quarters.",
        "bowls": bowls,
        "steps": ["Paint from the ends upwards."],
        "processing": {"minutes": "35 minutes", "check_every": "5 minutes", "stop_when": "Two levels up."},
    }
    if random.random() < 0.4:
        entry["hands"] = random.choice(["1", "2"])
    if random.random() < 0.6:
        counts_from = ["first section", "each section", "each section", "last section"]
        entry["processing"]["counts_from"] = random.choice(counts_from)
    if supplies:
        entry["supplies"] = [{"product": each, "count": str(random.randint(1, 30))} for each in supplies]
        for each in entry["supplies"]:
            if random.random() < 0.5:
                each["by_sections"] = random.choice(["yes", "yes", "no"])
    return entry | {"suits": {"natural_level": "4-9"}, "cautions": CAUTIONS, "reviewed": REVIEWED}


def on_scalp(blends: dict[str, Entry], techniques: dict[str, Entry]) -> None:
    """Turn the last technique and one blend of its own into regrowth on the scalp, with 20 volume at most."""
    blends["root"] |= {
        "developer": blends["root"]["developer"] | {"product": "developer-20", "also": ["developer-10"]},
        "suits": {"natural_level": "4-9", "area": ["scalp regrowth"], "placement": ["on-scalp"]},
    }
    bowl = {
        "blend": "root",
        "where": "On the regrowth.",
        "zones": ["1"],
        "sections": "14",
        "mix_per_section": "3 g",
    }
    techniques["regrowth"] |= {
        "placement": "on-scalp",
        "bowls": [bowl | {"minutes_per_section": "1.5 minutes"}],
    }


def class_notes(random: Random, of_house: Entry, ident: str) -> Entry:
    """Class notes that show one or two techniques on hair that the house has measured."""
    amounts = of_house["hair_amounts"]
    demonstrations = []
    for each in random.sample(["painting", "foiling", "regrowth"], random.randint(1, 2)):
        shown: Entry = {"technique": each, "heads": str(random.randint(1, 2))}
        if demonstrations and "learners_per_head" in demonstrations[0] and random.random() < 0.7:
            shown["shares_heads_with"] = demonstrations[0]["technique"]
        elif random.random() < 0.6:
            shown["learners_per_head"] = random.choice(["2", "3"])
        shown |= {
            "length": random.choice(list(amounts["length"])),
            "density": random.choice(list(amounts["density"])),
        }
        demonstrations.append(shown)
    entry: Entry = {
        "name": f"Class {ident}",
        "outcomes": ["Paints evenly."],
        "learners": str(random.randint(3, 13)),
        "duration": "3 hours",
        "outline": [
            {"minutes": "180 minutes", "what": "Painting.", "technique": demonstrations[0]["technique"]}
        ],
        "demonstrations": demonstrations,
    }
    if random.random() < 0.7:
        entry["for_each_learner"] = [{"product": "gloves", "count": str(random.randint(1, 4))}]
    return entry | {"handout": "Paint from the ends upwards.", "reviewed": REVIEWED}


def random_book(seed: int) -> Book:
    """The book of a seed."""
    random = Random(seed)
    of_house = house(random)
    blends = {each: blend(random, of_house, each) for each in ("one", "two", "three", "gloss-one", "root")}
    techniques = {each: technique(random, blends, each) for each in ("painting", "foiling", "regrowth")}
    on_scalp(blends, techniques)
    take = [
        {
            "blend": techniques["painting"]["bowls"][0]["blend"],
            "technique": "painting",
            "because": "It is gentle.",
        }
    ]
    situation = {"name": "Fine hair", "hair": {"natural_level": "7"}, "take": take, "advice": "Paint thinly."}
    return {
        "house": {"house": of_house},
        "products": products(random, of_house["currency"]),
        "blends": blends,
        "techniques": techniques,
        "situations": {"fine-hair": situation | {"reviewed": REVIEWED}},
        "classes": {each: class_notes(random, of_house, each) for each in ("first", "second")},
    }


def flow(value: Any) -> str:
    """A value in YAML's flow style; no text of these books needs quotes."""
    if isinstance(value, dict):
        return "{" + ", ".join(f"{key}: {flow(each)}" for key, each in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(map(flow, value)) + "]"
    return str(value)


def write_book(book: Book, folder: Path) -> None:
    """Write a book's files, one key a line."""
    for kind, entries in book.items():
        for ident, entry in entries.items():
            file = folder / "house.yml" if kind == "house" else folder / kind / f"{ident}.yml"
            file.parent.mkdir(parents=True, exist_ok=True)
            lines = [f"{key}: {flow(value)}\n" for key, value in entry.items()]
            file.write_text("".join(lines), encoding="utf-8")
