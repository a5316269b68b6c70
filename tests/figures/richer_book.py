"""The small book with more in it: for figures that need several of a kind. Invented, like all of it."""

from checks.small_book import BLEND_FILE, CLASS_FILE, HOUSE_FILE, TECHNIQUE_FILE, SmallBook

STRONG = """\
name: Developer {volume}
kind: developer
volume: {volume}
density: 1.0{digit} g/mL
pack: {{net: 33 fl oz, price: 11.70, priced_on: 2026-09-01}}
"""
ADDITIVE = """\
name: Bond drops
kind: additive
does: Holds the hair together while it lifts.
dose: 8:1
density: 0.95 g/mL
pack: {net: 100 mL, price: 31.90, priced_on: 2026-09-01}
"""
TONER = """\
name: Pearl
kind: toner
form: gel
tone: cool
mixing_ratio: {usual: 1:2}
pack: {net: 60 mL, price: 9.20, priced_on: 2026-09-01}
density: 1.01 g/mL
"""
FOIL_BLEND = """\
name: Violet in foil
lighteners: [{product: powder, parts: 5}, {product: clay, parts: 2}]
developer: {ratio: 1:1.5, product: developer-30, also: [developer-20]}
additives: [{product: bond, ratio: 12:1}]
fresh_for: 40 minutes
suits: {natural_level: 1-6, lift: 2-6, texture: [medium, coarse], tone: [cool, neutral], area: [lengths]}
not_for:
  - {when: {texture: [fine]}, because: It is too strong., instead: soft-clay}
cautions: [Check every five minutes.]
reviewed: {on: 2026-10-02, by: Ines}
"""
GLOSS = """\
name: Pearl gloss
toners: [{product: pearl, parts: 1}]
developer: {ratio: 1:2, product: developer-20}
suits: {tone: [cool]}
reviewed: {on: 2026-10-02, by: Ines}
"""
FOILS = """\
name: Wide foils
placement: foil
section_pattern: Back to front.
bowls:
  - blend: violet-foil
    where: Lengths.
    zones: [2]
    sections: 30
    mix_per_section: 7 g
    minutes_per_section: 3 minutes
  - blend: pearl-gloss
    where: All over.
    zones: [1, 2, 3]
    sections: 4
    mix_per_section: 12 g
    minutes_per_section: 2 minutes
steps: [Foil from the nape upwards.]
processing: {minutes: 45 minutes, check_every: 5 minutes, stop_when: Four levels up.}
supplies: [{product: foil, count: 30}]
suits: {natural_level: 1-7, texture: [medium, coarse], area: [lengths]}
cautions: [Off the scalp.]
reviewed: {on: 2026-10-02, by: Ines}
"""
RULES = """\
hair_amounts:
  length: {short: 0.7, medium: 1, long: 1.4, extra_long: 1.8}
  density: {thin: 0.8, medium: 1, thick: 1.3}
waste_allowance: 5 %
rules:
  - when: {texture: [coarse], natural_level: 1-3}
    exclude: {strength: [gentle], placement: [open-air]}
    because: It does not get there.
    standing: this house
  - when: {tone: [cool]}
    prefer: {pigment: [blue-violet]}
    because: It holds the yellow.
    standing: common practice
  - when: {curl: [coily]}
    require: {developer: 1-20}
    because: Coils break.
    standing: this house
    instead: soft-clay
"""


def enrich(book: SmallBook) -> SmallBook:
    """Write more into the small book: developers, an additive, a toner, two blends, a technique, rules."""
    for volume, digit in ((10, 0), (30, 3), (40, 4)):
        book.write(f"products/developer-{volume}.yml", STRONG.format(volume=volume, digit=digit))
    book.write("products/bond.yml", ADDITIVE)
    book.write("products/pearl.yml", TONER)
    book.write("blends/violet-foil.yml", FOIL_BLEND)
    book.write("blends/pearl-gloss.yml", GLOSS)
    book.write("techniques/foils.yml", FOILS)
    book.edit(BLEND_FILE, "developer-20}", "developer-20, also: [developer-10]}")
    book.edit(HOUSE_FILE, "batches: {oz: [1, 2], g: [20, 40]}", "batches: {oz: [0.5, 1, 2], g: [20, 45, 60]}")
    book.add(HOUSE_FILE, RULES)
    book.edit(TECHNIQUE_FILE, "sections: 12", "sections: 22")
    book.edit(CLASS_FILE, "heads: 1}", "heads: 2}\n  - {technique: foils, heads: 1, learners_per_head: 2}")
    return book
