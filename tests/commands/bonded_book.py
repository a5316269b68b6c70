"""The small book with a second blend: an additive of a known dose, two developers, cautions. Invented."""

from pathlib import Path

from checks.small_book import BLEND_FILE, CLAY, DEVELOPER, SmallBook

BOND = """\
name: Bond drops
kind: additive
does: Mends bonds.
dose: 8:1
pack: {net: 250 g, price: 48.00, priced_on: 2026-09-01}
"""
LONG_NAMES = """\
name: Everything in one bowl
lighteners:
  - {product: clay, parts: 5}
  - {product: long-one, parts: 2}
  - {product: powder, parts: 2}
developer: {ratio: 1:1.75, product: developer-20, also: [developer-40]}
additives: [{product: bond, ratio: 10:1}, {product: pearl, ratio: 20:1}]
suits: {natural_level: 6-10, lift: 1-3, texture: [fine], placement: [open-air]}
cautions: [40 volume never near a scalp.]
reviewed: {on: 2026-10-02, by: Ines}
"""
PEARL = "name: Pearl\nkind: toner\nform: gel\ntone: cool\nmixing_ratio: {usual: 1:2}\n"


def bonded(root: Path) -> SmallBook:
    """The small book in ``root``, with ``blends/bonded.yml``: 3:1, 1:1.5, bond drops 8:1."""
    book = SmallBook(root)
    strong = DEVELOPER.replace("20\n", "40\n").replace("6 %", "12 %")
    book.write("products/developer-40.yml", strong.replace("name: Developer 40", "name: Strong cream"))
    book.write("products/bond.yml", BOND)
    text = book.texts[BLEND_FILE].replace("Soft clay", "Bonded clay")
    text = text.replace("1:2, product: developer-20", "1:1.5, product: developer-20, also: [developer-40]")
    text += "additives: [{product: bond, ratio: 8:1}]\ncautions: [Never on hair that was stretched.]\n"
    book.write("blends/bonded.yml", text)
    return book


def long_names(root: Path) -> SmallBook:
    """`bonded`, with ``blends/everything.yml``: six pours, one of a very long name."""
    book = bonded(root)
    book.write(
        "products/long-one.yml", CLAY.replace("Plain clay", "Unscented half-strength clay, blue-violet")
    )
    book.write("products/pearl.yml", PEARL)
    book.write("blends/everything.yml", LONG_NAMES)
    return book
