"""Differences against a second reckoning: all figures of both books in one table each, compared key by key.

Pairs of small books are made by edits drawn at random. Each edit says which authored field it changes;
whatever figure differs must be named, with both values, and nothing else.
"""

import random
from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path
from typing import NamedTuple

import pytest
from richer_book import enrich

from bowlbook.book.book import Book
from bowlbook.book.read_book import read_book
from bowlbook.entries.house import House
from bowlbook.figures.bowl import CannotWeigh, mix
from bowlbook.figures.cost import decimal_of
from bowlbook.figures.difference import Difference, differences
from bowlbook.figures.kit import kit, kit_plan
from bowlbook.figures.rounding import decimals_of, fixed
from bowlbook.figures.service import CannotPlan, plan
from bowlbook.reading.amount import Count, plain
from checks.small_book import (
    BLEND_FILE,
    CLASS_FILE,
    CLAY_FILE,
    DEVELOPER_FILE,
    FOIL_FILE,
    HOUSE_FILE,
    POWDER_FILE,
    TECHNIQUE_FILE,
    SmallBook,
)

FOIL_BLEND, GLOSS, FOILS = "blends/violet-foil.yml", "blends/pearl-gloss.yml", "techniques/foils.yml"
MIX = "mix_per_section: "


class Edit(NamedTuple):
    """A change of one place of one file, and the authored field that it changes; None: none by value."""

    path: str
    old: str
    new: str
    field: str | None


EDITS = [
    Edit(CLAY_FILE, "39.00", "44.10", "pack, price"),
    Edit(CLAY_FILE, "450 g", "0.45 kg", None),
    Edit(POWDER_FILE, ", price: 47.50, priced_on: 2026-09-01", "", "pack, price; pack, priced on"),
    Edit(POWDER_FILE, "250 g", "300 g", "pack, net"),
    Edit(DEVELOPER_FILE, "1.02", "1.04", "density"),
    Edit(DEVELOPER_FILE, "1 L", "1000 mL", None),
    Edit(DEVELOPER_FILE, "peroxide: 6 %", "peroxide: 6.1 %", "peroxide"),
    Edit(FOIL_FILE, "19.00", "21.00", "pack, price"),
    Edit(FOIL_FILE, "500 pieces", "250 pieces", "pack, net"),
    Edit("products/bond.yml", "price: 31.90, priced_on: 2026-09-01", "supplier: Anyone",
         "pack, price; pack, priced on; pack, supplier"),
    Edit("products/pearl.yml", "name: Pearl", "name: Pearl drops", "name"),
    Edit(BLEND_FILE, "ratio: 1:2", "ratio: 2:4", None),
    Edit(BLEND_FILE, "parts: 3}", "parts: 2}", "lighteners 1, parts"),
    Edit(BLEND_FILE, "lighteners:\n", "batches: {oz: [1, 3]}\nlighteners:\n", "batches"),
    Edit(FOIL_BLEND, "parts: 5}, {product: clay, parts: 2}", "parts: 10}, {product: clay, parts: 4}", None),
    Edit(FOIL_BLEND, "ratio: 1:1.5", "ratio: 1:2", "developer, ratio"),
    Edit(FOIL_BLEND, "ratio: 12:1", "ratio: 6:0.5", None),
    Edit(FOIL_BLEND, "fresh_for: 40", "fresh_for: 50", "fresh for"),
    Edit(GLOSS, "ratio: 1:2", "ratio: 1:2.5", "developer, ratio"),
    Edit(GLOSS, "name: Pearl gloss", "name: Pearl shine", "name"),
    Edit(TECHNIQUE_FILE, "sections: 22", "sections: 20", "bowls 1, sections"),
    Edit(TECHNIQUE_FILE, f"{MIX}5 g", f"{MIX}0.2 oz", "bowls 1, mix per section"),
    Edit(TECHNIQUE_FILE, "count: 10", "count: 12", "supplies 1, count"),
    Edit(FOILS, f"{MIX}12 g", f"{MIX}0.012 kg", None),
    Edit(CLASS_FILE, "learners: 6", "learners: 9", "learners"),
    Edit(CLASS_FILE, "technique: painting, heads: 2", "technique: painting, heads: 3",
         "demonstrations 1, heads"),
    Edit(HOUSE_FILE, "g: 1}", "g: 0.1}", "scale step, g"),
    Edit(HOUSE_FILE, "oz: 0.05", "oz: 0.02", "scale step, oz"),
    Edit(HOUSE_FILE, "tolerance: 5 %", "tolerance: 2 %", "rounding tolerance"),
    Edit(HOUSE_FILE, "oz: [0.5, 1, 2]", "oz: [1, 2, 3]", "batches, oz"),
    Edit(HOUSE_FILE, "long: 1.4,", "long: 1.6,", "hair amounts, length, long"),
    Edit(HOUSE_FILE, ", thick: 1.3", "", "hair amounts, density, thick"),
    Edit(HOUSE_FILE, "allowance: 5 %", "allowance: 8 %", "waste allowance"),
    Edit(HOUSE_FILE, "currency: CAD", "currency: JPY", "currency"),
    Edit(HOUSE_FILE, "waste", "any_batch: yes\nwaste", "any batch"),
    Edit(HOUSE_FILE, "title: Small", "title: Little", "title"),
]  # fmt: skip
ENTRY = {"house.yml": ("house", "house")}
UNITS = ("batches: {oz: [0.5, 1, 2], g: [20, 45, 60]}", "scale_step: {oz: 0.05, g: 1}")
Table = dict[tuple[str, str], dict[str, tuple[object, str | None]]]
"""Figures by entry and label: as compared, and as shown."""


def key_of(path: str) -> tuple[str, str]:
    folder, _, name = path.partition("/")
    kind = {"classes": "class"}.get(folder, folder.removesuffix("s"))
    return ENTRY.get(path) or (kind, name.removesuffix(".yml"))


def read(book: SmallBook) -> Book:
    found = read_book(book.root)
    assert found.book is not None and found.book.whole, found.findings
    return found.book


def amount(book: Book, minor: int | None) -> str | None:
    found = decimal_of(minor, book.house.currency)
    return None if found is None else f"{found} {book.house.currency}"


def table_of(book: Book) -> Table:
    """Every figure of a book."""
    found: Table = {}
    for blend in book.blends.values():
        found["blend", blend.id] = dict(figures_of_blend(book, blend))
    for technique in book.techniques.values():
        found["technique", technique.id] = dict(figures_of_technique(book, technique))
    for notes in book.classes.values():
        found["class", notes.id] = dict(figures_of_class(book, notes))
    return found


def sizes_of(book: Book, blend) -> list[tuple[str, object, object]]:  # type: ignore[no-untyped-def]
    """By hand from the house and the blend: unit, batch, step."""
    house, found = book.house, []
    for unit, step in (("oz", house.scale_step.oz), ("g", house.scale_step.g)):
        own = getattr(blend.batches, unit) if blend.batches else ()
        found += [(unit, batch, step) for batch in own or getattr(house.batches, unit) if step]
    return found


def figures_of_blend(book: Book, blend) -> Iterator[tuple[str, tuple[object, str | None]]]:  # type: ignore[no-untyped-def]
    for unit, batch, step in sizes_of(book, blend):
        size = f"{plain(batch)} {unit}"
        try:
            bowl = mix(book, blend, unit, batch, step)
        except CannotWeigh:
            yield f"batch of {size}", ("cannot", "cannot be weighed")
            continue
        places = decimals_of(step)
        for place, pour in enumerate(bowl.pours):
            text = f"{fixed(pour.reading.weigh, places)} {pour.product.name}"
            yield f"pour {place} at {size}", (pour.reading.weigh, text)
            volume = pour.millilitres and f"{fixed(pour.millilitres, 1)} mL"
            yield f"volume {place} at {size}", (volume, volume and f"{volume} {pour.product.name}")
        shown = tuple(pour.scale_shows for pour in bowl.pours)
        yield f"scale shows for {size}", (shown, ", ".join(fixed(each, places) for each in shown))
        peroxide = f"{fixed(bowl.peroxide, 2)} %"
        yield f"peroxide in {size}", (peroxide, peroxide)
        following = bowl.weighing.next_weighable_batch
        text = "within the tolerance"
        if bowl.worst_error > bowl.tolerance:
            text = "over the tolerance"
            if following is not None:
                text += f", nearest size this scale can weigh {plain(following)} {unit}"
        yield f"rounding at {size}", (text, text)
        cost = amount(book, bowl.bill.total if bowl.bill else None)
        yield f"cost at {size}", (cost, cost)


def unit_of(book: Book, wanted: str) -> str:
    has = {unit for unit in ("oz", "g") if getattr(book.house.batches, unit)}
    has &= {unit for unit in ("oz", "g") if getattr(book.house.scale_step, unit)}
    return wanted if wanted in has else {"oz": "g", "g": "oz"}[wanted]


def figures_of_technique(book: Book, technique) -> Iterator[tuple[str, tuple[object, str | None]]]:  # type: ignore[no-untyped-def]
    unit = unit_of(book, "oz")
    amounts = book.house.hair_amounts
    for length in ("short", "medium", "long", "extra_long"):
        for density in ("thin", "medium", "thick"):
            if not getattr(amounts.length, length) or not getattr(amounts.density, density):
                continue
            head = f"{length.replace('_', '-')} hair ({density})"
            try:
                service = plan(book, technique, length, density, unit)
            except (CannotPlan, CannotWeigh):
                yield f"mix for {head}", ("cannot", "cannot be planned")
                continue
            texts = []
            for bowl in service.bowls:
                fresh = [" + ".join(map(plain, each.batches.batches)) + f" {unit}" for each in bowl.fresh]
                texts.append(", then ".join(fresh))
            names = [f"{text} {bowl.blend.name}" for text, bowl in zip(texts, service.bowls, strict=True)]
            yield f"mix for {head}", (tuple(texts), "; ".join(names))
            cost = amount(book, service.total)
            yield f"cost of a service, {head}", (cost, cost)


OUNCE = Fraction("28.349523125")
"""Grams: the international avoirdupois ounce (NIST Handbook 44, Appendix C)."""


def weight_in(house: House, grams: Fraction) -> str:
    """As a house reads it: to 0.1 g, or to 0.01 oz where it has no sizes in grams."""
    return f"{fixed(grams, 1)} g" if house.batches.g else f"{fixed(grams / OUNCE, 2)} oz"


def figures_of_class(book: Book, notes) -> Iterator[tuple[str, tuple[object, str | None]]]:  # type: ignore[no-untyped-def]
    try:
        found = kit(kit_plan(book, notes, unit_of(book, "g")), notes.learners)
    except (CannotPlan, CannotWeigh):
        yield "kit", ("cannot", "cannot be planned")
        return
    for line in found.lines:
        net = line.product.pack.net
        counted = isinstance(net, Count)
        holds = {"0.45 kg": "450 g", "1000 mL": "1 L"}.get(str(net), str(net))
        need = f"{plain(line.need)} pieces" if counted else weight_in(book.house, line.need)
        packs = "" if line.containers is None else f"{line.containers} × {net}, "
        yield f"kit, {line.product.id}", ((line.containers, holds, need), f"{packs}needs {need}")
    cost = amount(book, found.cost)
    yield "cost of the kit", (cost, cost)


def expected_of(old: Table, new: Table) -> dict[tuple[str, str], dict[str, tuple[str | None, str | None]]]:
    """What must be said of each entry: label to text before and text after."""
    found = {}
    for entry in old:
        before, after = old[entry], new[entry]
        facts: dict[str, tuple[str | None, str | None]] = {}
        for label in {**before, **after}:
            one, other = before.get(label, (None, None)), after.get(label, (None, None))
            if one[0] != other[0]:
                facts[label] = (one[1], other[1])
        found[entry] = facts
    return found


def joined(facts: dict[str, tuple[str | None, str | None]]) -> dict[str, tuple[str | None, str | None]]:
    """The pours of a size as one fact: where all came or went the whole batch, else those that moved."""
    found: dict[str, tuple[str | None, str | None]] = {}
    pours: dict[str, list[tuple[str | None, str | None]]] = {}
    volumes: dict[str, list[tuple[str | None, str | None]]] = {}
    for label, pair in facts.items():
        if label.startswith("pour "):
            pours.setdefault(label.partition(" at ")[2], []).append(pair)
        elif label.startswith("volume "):
            if label.replace("volume", "pour") not in facts:
                volumes.setdefault(label.partition(" at ")[2], []).append(pair)
        else:
            found[label] = pair
    for size, pairs in pours.items():
        whole = None in pairs[0]
        sides = [", ".join(side) if side[0] else None for side in zip(*pairs, strict=True)]
        cannot = found.pop(f"batch of {size}", (None, None))
        pair = (sides[0] or cannot[0], sides[1] or cannot[1])
        found[f"batch of {size}" if whole else f"weigh for {size}"] = pair
        if whole:
            for label in ("scale shows for", "peroxide in", "rounding at"):
                del found[f"{label} {size}"]
    for size, pairs in volumes.items():
        found[f"volume for {size}"] = tuple(  # type: ignore[assignment]
            ", ".join(filter(None, side)) or None for side in zip(*pairs, strict=True)
        )
    return found


def said(each: Difference, book: Book) -> dict[str, tuple[str | None, str | None]]:
    """The facts of a difference, those of several sizes or heads taken apart, products of a kit by id."""
    found = {}
    for fact in each.facts:
        label = fact.what
        if label.startswith("cost at "):
            *listed, unit = label.removeprefix("cost at ").split(" ")
            names = [f"cost at {name.rstrip(',')} {unit}" for name in listed]
        elif "hair (" in label:
            head, _, rest = label.partition("(")
            names = [f"{head}({name})" for name in rest.rstrip(")").split(", ")]
        elif label.startswith("kit, "):
            product = next(each.id for each in book.products.values() if each.name == label[5:])
            names = [f"kit, {product}"]
        else:
            names = [label]
        many = fact.money and len(names) > 1
        sides: list[list[str | None]] = []
        for text in (fact.before, fact.after):
            parts: list[str | None] = [text] * len(names)
            if text and many:
                amounts, currency = text[:-4], text[-4:]
                parts = [f"{amount}{currency}" for amount in amounts.split(", ")]
            sides.append(parts)
        for name, before, after in zip(names, *sides, strict=True):
            assert name not in found or name == "batches, oz", name  # a size that went, and one that came
            found[name] = (before, after)
    return found


def pair_of(folder: Path, seed: int) -> tuple[Book, Book, dict[tuple[str, str], set[str]]]:
    """Two books, and which authored fields differ between them."""
    draw = random.Random(seed)
    book = enrich(SmallBook(folder / "recipes"))
    if seed % 3 == 1:  # a house that weighs in one unit only
        unit = draw.choice(["oz: [0.5, 1, 2]", "g: [20, 45, 60]"])
        step = {"o": "oz: 0.05", "g": "g: 1"}[unit[0]]
        book.edit(HOUSE_FILE, UNITS[0], f"batches: {{{unit}}}")
        book.edit(HOUSE_FILE, UNITS[1], f"scale_step: {{{step}}}")
    old = read(book)
    fields: dict[tuple[str, str], set[str]] = {}
    for edit in draw.sample(EDITS, draw.randint(1, 4)):
        if book.texts[edit.path].count(edit.old) != 1:
            continue
        book.edit(edit.path, edit.old, edit.new)
        for field in (edit.field or "").split("; "):
            fields.setdefault(key_of(edit.path), set()).add(field)
    return old, read(book), {key: names - {""} for key, names in fields.items()}


@pytest.mark.parametrize("first", [0, pytest.param(40, marks=pytest.mark.long)])
def test_every_difference_is_named_and_nothing_else(tmp_path: Path, first: int) -> None:
    named = 0
    for seed in range(first, first + (8 if first == 0 else 200)):
        old, new, fields = pair_of(tmp_path / str(seed), seed)
        expected = {
            entry: joined(facts) for entry, facts in expected_of(table_of(old), table_of(new)).items()
        }
        found = {(each.kind, each.id): said(each, new) for each in differences(old, new)}
        for entry in {*expected, *found, *fields}:
            facts = found.get(entry, {})
            authored = {label.removesuffix(", order") for label in facts} & fields.get(entry, set())
            assert authored == fields.get(entry, set()), (seed, entry)
            figures = {label: pair for label, pair in facts.items() if label not in authored}
            assert figures == expected.get(entry, {}), (seed, entry)
            named += len(facts)
    assert named > 200
