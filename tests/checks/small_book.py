"""A small book without a finding, to be spoilt in one place: the place is marked in the text itself.

``«code»`` before a value says that an error of that code is expected there, ``«code?»`` a warning. The
marks are taken out before the file is written, so the expected lines and columns owe nothing to the
program. House, people, products and prices are invented.
"""

import re
from datetime import date
from pathlib import Path
from types import ModuleType

from bowlbook import checks
from bowlbook.book.book import Book
from bowlbook.book.read_book import read_book
from bowlbook.checks.judge import judge
from bowlbook.reading.finding import Finding

DAY = date(2026, 11, 25)
"""The day that the small book is judged on."""

MARK = re.compile(r"«([a-z-]+)(\??)»")
KEY = re.compile(r"^([a-z_]+):", re.M)
TOP_LEVEL = re.compile(r"^(?=[a-z_]+:)", re.M)


def found_by(check: ModuleType, book: Book, day: date = DAY) -> list[Finding]:
    """What one check finds in a book."""
    if not hasattr(check, "KINDS"):
        return list(checks.found_by(check, book, day))
    entries = [entry for kind in check.KINDS for entry in book.of_kind(kind).values()]
    return [finding for entry in entries for finding in checks.found_by(check, book, entry, day)]


Found = tuple[str, int, int, str, str]
"""Path within the book, line, column, code and severity of a finding."""

Edit = tuple[str, str, str]
"""Path within the book, the text that stands there once, and what it becomes."""

HOUSE = """\
title: Small book
currency: CAD
locale: en-CA
notice: An invented house.
batches: {oz: [1, 2], g: [20, 40]}
scale_step: {oz: 0.05, g: 1}
rounding_tolerance: 5 %
on_scalp_developer_limit: 20 volume
longest_on_scalp: 60 minutes
review_after: 180 days
hair_amounts: {length: {short: 0.7, medium: 1}, density: {thin: 0.8, medium: 1}}
"""
HAIR = HOUSE.split("\n")[-2] + "\n"
"""The house's line without which no service is planned."""

CLAY = """\
name: Plain clay
kind: lightener
form: clay
strength: medium
lifts: 5
mixing_ratio: {usual: 1:2, from: 1:1.5, to: 1:2.5}
placement: [open-air]
developer_limit: 40 volume
pack: {net: 450 g, price: 39.00, priced_on: 2026-09-01}
"""

POWDER = """\
name: Violet powder
kind: lightener
form: powder
strength: strong
lifts: 7
pigment: blue-violet
mixing_ratio: {usual: 1:2, from: 1:1, to: 1:3}
placement: [open-air, foil]
pack: {net: 250 g, price: 47.50, priced_on: 2026-09-01}
"""

DEVELOPER = """\
name: Developer 20
kind: developer
volume: 20
peroxide: 6 %
density: 1.02 g/mL
pack: {net: 1 L, price: 14.50, priced_on: 2026-09-01}
"""

FOIL = """\
name: Foil, wide
kind: supply
size: 12 cm wide
pack: {net: 500 pieces, price: 19.00, priced_on: 2026-09-01}
"""

BLEND = """\
name: Soft clay three to one
lighteners:
  - {product: clay, parts: 3}
  - {product: powder, parts: 1}
developer: {ratio: 1:2, product: developer-20}
suits:
  natural_level: 6-10
  lift: 1-3
  texture: [fine, medium]
  placement: [open-air]
reviewed: {on: 2026-10-02, by: Ines}
"""

TECHNIQUE = """\
name: Open painting
placement: open-air
section_pattern: Four quarters.
bowls:
  - blend: soft-clay
    where: Lengths and ends.
    zones: [2, 3]
    sections: 12
    mix_per_section: 5 g
    minutes_per_section: 2 minutes
steps:
  - Paint from the ends upwards.
processing: {minutes: 35 minutes, check_every: 5 minutes, stop_when: Two levels up.}
supplies:
  - {product: foil, count: 10}
suits:
  natural_level: 6-10
  texture: [fine, medium]
reviewed: {on: 2026-10-02, by: Ines}
"""

SITUATION = """\
name: Fine hair, a little lighter
hair: {natural_level: 7, texture: [fine], lift: 2}
take:
  - {blend: soft-clay, technique: painting, because: It is gentle.}
advice: Paint thinly.
reviewed: {on: 2026-10-02, by: Ines}
"""

CLASS = """\
name: First painting
outcomes: [Paints a quarter of a head evenly.]
learners: 6
duration: 3 hours
outline:
  - {minutes: 60 minutes, what: Theory.}
  - {minutes: 120 minutes, what: Painting., technique: painting}
demonstrations:
  - {technique: painting, heads: 1}
handout: Paint from the ends upwards.
reviewed: {on: 2026-10-02, by: Ines}
"""

TROUBLE = """\
name: Burning scalp
at_risk: person
signs: [She says that it burns.]
now: [Rinse with much lukewarm water.]
doctor: [Blisters, or pain after rinsing.]
advice_from: common practice, no published source
reviewed: {on: 2026-10-02, by: Ines}
"""
TROUBLE_FILE = "troubles/burning-scalp.yml"
"""Not in the small book, for which it need not be: a test that is about troubles writes it."""

FILES = {
    "house.yml": HOUSE,
    "products/clay.yml": CLAY,
    "products/powder.yml": POWDER,
    "products/developer-20.yml": DEVELOPER,
    "products/foil.yml": FOIL,
    "blends/soft-clay.yml": BLEND,
    "techniques/painting.yml": TECHNIQUE,
    "situations/fine-hair.yml": SITUATION,
    "classes/first-painting.yml": CLASS,
}
HOUSE_FILE, CLAY_FILE, POWDER_FILE, DEVELOPER_FILE, FOIL_FILE = list(FILES)[:5]
BLEND_FILE, TECHNIQUE_FILE, SITUATION_FILE, CLASS_FILE = list(FILES)[5:]


class SmallBook:
    """The small book in a folder of its own; ``write`` and ``edit`` spoil or mend a file of it."""

    def __init__(self, root: Path) -> None:
        self.root = root
        self.texts: dict[str, str] = {}
        for path, text in FILES.items():
            self.write(path, text)

    def write(self, path: str, text: str) -> None:
        """Write a whole file; the marks in its text say what is expected."""
        self.texts[path] = text
        file = self.root / path
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(MARK.sub("", text), encoding="utf-8")

    def edit(self, path: str, old: str, new: str) -> None:
        """Put ``new`` where ``old`` stands, which must be in one place only."""
        assert self.texts[path].count(old) == 1, (path, old)
        self.write(path, self.texts[path].replace(old, new))

    def add(self, path: str, text: str) -> None:
        """Write more keys at the end of a file; one that it has already goes."""
        keys = set(KEY.findall(text))
        blocks = TOP_LEVEL.split(self.texts[path])
        self.write(path, "".join(block for block in blocks if block.partition(":")[0] not in keys) + text)

    def expected(self) -> list[Found]:
        """What the marks ask for, sorted as findings are."""
        found = []
        for path, text in self.texts.items():
            for number, line in enumerate(text.split("\n"), 1):
                taken = 0
                for mark in MARK.finditer(line):
                    severity = "warning" if mark[2] else "error"
                    found.append((path, number, mark.start() - taken + 1, mark[1], severity))
                    taken += len(mark[0])
        return sorted(found)

    def read(self, *edits: Edit) -> Book:
        """The book as it is read and linked after these edits: whole."""
        for edit in edits:
            self.edit(*edit)
        reading = read_book(self.root)
        assert reading.book is not None and reading.book.whole, reading.findings
        return reading.book

    def judged(self) -> list[Finding]:
        """Every finding of the book, reading and linking included."""
        return judge(self.root, DAY).findings

    def found(self) -> list[Found]:
        """`judged`, as tuples to compare with `expected`."""
        return sorted(map(self._found, self.judged()))

    def _found(self, each: Finding) -> Found:
        path = Path(each.place.path).relative_to(self.root).as_posix()
        return path, each.place.line, each.place.column, each.code, each.severity

    def shows(self, *edits: Edit, findings: int) -> list[Finding]:
        """Assert that after these edits it has the findings that are marked in it, so many, and no other."""
        for edit in edits:
            self.edit(*edit)
        expected = self.expected()
        assert len(expected) == findings
        judged = self.judged()
        assert sorted(map(self._found, judged)) == expected
        return judged
