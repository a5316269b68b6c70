"""The small book with what the phone's pages must name: cautions, a stronger developer, an unreviewed bowl.

House, people, products and prices are invented.
"""

from pathlib import Path

from tests.checks.small_book import BLEND_FILE, HOUSE_FILE, TECHNIQUE_FILE, SmallBook

DEVELOPER_40 = """\
name: Strong cream
kind: developer
volume: 40
density: 1.04 g/mL
pack: {net: 1 L, price: 15.20, priced_on: 2026-09-01}
"""
VIOLET = """\
name: Violet in foil
lighteners: [{product: powder, parts: 2}, {product: clay, parts: 1}]
developer: {ratio: 1:2, product: developer-20, also: [developer-40]}
suits: {natural_level: 1-5, lift: 2-6, texture: [medium, coarse], placement: [foil], tone: [cool, neutral]}
cautions: [Open the hottest foil first.]
"""
FOILS = """\
name: Wide foils
placement: foil
section_pattern: Back to front.
bowls:
  - blend: violet
    developer: developer-40
    where: Lengths.
    zones: [2]
    sections: 1
    mix_per_section: 30 g
    minutes_per_section: 2 minutes
steps: [Lay the foils back to front.]
processing: {minutes: 45 minutes, check_every: 5 minutes, stop_when: Palest yellow.}
suits: {natural_level: 1-5, texture: [medium, coarse]}
cautions: [Keep two fingers off the scalp.]
reviewed: {on: 2026-10-02, by: Ines}
"""

HAIR = """\
hair_amounts:
  length: {short: 1, medium: 1, long: 2, extra_long: 2}
  density: {thin: 1, medium: 1, thick: 1.5}
any_batch: yes
rules:
  - when: {curl: [coily]}
    require: {developer: 1-20}
    because: Coils break.
    standing: this house
    instead: soft-clay
"""


def write_small_house(root: Path) -> SmallBook:
    """Write the book. Its strong foil technique takes 40 volume where its blend says 20."""
    book = SmallBook(root)
    book.edit("products/clay.yml", "placement: [open-air]", "placement: [open-air, foil]")
    book.write("products/developer-40.yml", DEVELOPER_40)
    book.write("blends/violet.yml", VIOLET)
    book.write("techniques/wide-foils.yml", FOILS)
    book.edit(HOUSE_FILE, "title: Small book", "title: Small house")
    book.add(HOUSE_FILE, HAIR)
    book.add(BLEND_FILE, "cautions: [Keep it damp.]\n")
    book.add(TECHNIQUE_FILE, "cautions: [Keep the brush flat.]\n")
    book.edit(TECHNIQUE_FILE, "{minutes: 35 minutes,", "{minutes: 35 minutes, counts_from: each section,")
    return book
