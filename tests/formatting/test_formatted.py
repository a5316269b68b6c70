"""Formatting changes how an entry is written and nothing that it says.

Source: ruamel.yaml, another reader of YAML 1.2, finds the same data in the text before and after.
"""

import io
import random
import re
from pathlib import Path
from typing import Any

import pytest
from ruamel.yaml import YAML

from bowlbook.book.folder import FOLDERS
from bowlbook.entries.validate import ENTRY_CLASSES, validate
from bowlbook.formatting.formatted import formatted
from bowlbook.formatting.order import class_of, keys_in_order
from bowlbook.reading.document import read_text

TEXTS = ["1:2", "no", "20", "0.5 oz", "6-10", "2026-10-02", "soft-clay", "Two words", "~tilde", "a#b", "???"]
QUOTED = ['"a: b"', '"# no comment"', "'it''s'", "'plain'", '"say \\"it\\""', '"20"', "'???'"]
IN_BRACKETS = ["1:2", "no", "20", '"a, b"', "fine", "'x'"]


class Drawn:
    """Writes an entry's text by chance, with a comment that names its place where it likes."""

    def __init__(self, seed: int) -> None:
        self.chance = random.Random(seed)
        self.beside: dict[str, str] = {}
        self.above: dict[str, str] = {}

    def flip(self) -> bool:
        return self.chance.randrange(4) == 0

    def entry(self, cls: type[Any]) -> str:
        head = self.chance.choice(["", "# head\n\n", "# head\n# more\n\n", "\n"])
        keys = list(keys_in_order(cls))[:9]
        self.chance.shuffle(keys)
        end = self.chance.choice(["", "# end\n", "\n# end\n", "\n\n"])
        return head + self.mapping(keys, "", "", 2) + end

    def mapping(self, keys: list[str], indent: str, way: str, depth: int) -> str:
        lines = ""
        for key in keys:
            here = f"{way}.{key}"
            if self.flip():
                lines += "\n" * self.chance.randint(0, 2)
            if self.flip() and (lines or not indent):  # over the first key of a list's item there is no place
                self.above[f"above {here}"] = key
                lines += f"{indent}# above {here}\n"
            lines += f"{indent}{key}:" + self.value(key, indent, here, depth)
        return lines

    def comment(self, key: str, here: str) -> str:
        if not self.flip():
            return "\n"
        self.beside[f"beside {here}"] = key
        return " " * self.chance.randint(2, 9) + f"# beside {here}\n"

    def value(self, key: str, indent: str, here: str, depth: int) -> str:
        form = self.chance.randint(0, 7 if depth else 3)
        deeper = indent + " " * self.chance.choice([2, 3, 4])
        if form == 0:
            return f" {self.chance.choice(TEXTS)}" + self.comment(key, here)
        if form == 1:
            return f"   {self.chance.choice(QUOTED)}" + self.comment(key, here)
        if form == 2:
            inner = [self.chance.choice(IN_BRACKETS) for _ in range(self.chance.randint(0, 3))]
            return (
                " ["
                + self.chance.choice([",", " , ", ",\n" + deeper]).join(inner)
                + "]"
                + self.comment(key, here)
            )
        if form == 3:
            return (
                f" {{b: {self.chance.choice(IN_BRACKETS)},  a:   {self.chance.choice(IN_BRACKETS)} }}"
                + self.comment(key, here)
            )
        if form == 4:
            sign = self.chance.choice(["|", ">", "|-", ">-", "|+"])
            blank = self.chance.choice(["", "\n", f"{deeper}  deeper\n", "\n\n"])
            return f" {sign}" + self.comment(key, here) + f"{deeper}one # of it\n{blank}{deeper}two\n{blank}"
        if form == 5:
            return f" folded plain\n{deeper}text that goes on" + self.comment(key, here)
        if form == 6:
            keys = ["k1", "k2", "k3"][: self.chance.randint(1, 3)]
            return self.comment(key, here) + self.mapping(keys, deeper, here, depth - 1)
        dash = indent + self.chance.choice(["", "  "])
        lines = self.comment(key, here)
        for place in range(self.chance.randint(1, 3)):
            if self.flip():
                lines += f"{dash}- {self.chance.choice(TEXTS)}\n"
            else:
                text = self.mapping(["m1", "m2"], dash + "  ", f"{here}.{place}", 0)
                lines += f"{dash}- {text.lstrip()}"
        return lines


def data_of(text: str) -> Any:
    """The data as ruamel.yaml reads it, every value as its text."""
    loader = YAML(typ="base", pure=True)
    return loader.load(io.StringIO(text))


@pytest.mark.parametrize("seed", range(120))
def test_only_the_writing_changes(seed: int) -> None:
    """The same data, every comment at its place, keys in order, and nothing to do the second time."""
    kind = ("house", "blend", "technique", "situation", "class", "product")[seed % 6]
    cls = class_of(kind, None)
    drawn = Drawn(seed)
    text = drawn.entry(cls)
    source, wrong = read_text(text, "x.yml", frozenset())
    made, findings = formatted(text, kind, "x.yml")
    if wrong:
        assert made == text and findings
        return
    assert not findings, text
    assert data_of(made) == data_of(text)
    assert read_text(made, "x.yml", frozenset())[0].data == source.data
    assert formatted(made, kind, "x.yml") == (made, [])
    lines = made.split("\n")
    for comment, key in drawn.beside.items():
        line = next(line for line in lines if line.endswith(f"# {comment}"))
        assert line.lstrip(" -").startswith(f"{key}:")
    for comment, key in drawn.above.items():
        at = next(number for number, line in enumerate(lines) if line.strip() == f"# {comment}")
        following = next(
            line for line in lines[at + 1 :] if line.strip() and not line.strip().startswith("#")
        )
        assert following.lstrip(" -").startswith(f"{key}:")
    order = [key for key in keys_in_order(cls) if key in source.data]
    assert re.findall(r"(?m)^([a-z_]+):", made) == order


@pytest.mark.long
def test_the_demo_book_says_the_same_when_formatted(recipes: Path) -> None:
    """Every entry of it, with the same values."""
    for path in sorted(recipes.rglob("*.yml")):
        kind = FOLDERS.get(path.parent.name, "house")
        text = path.read_text(encoding="utf-8")
        made, findings = formatted(text, kind, path.name)
        assert not findings
        entries = [
            validate(kind, path.stem, read_text(each, path.name, frozenset())[0]) for each in (text, made)
        ]
        assert entries[0][0] == entries[1][0] and not entries[0][1] and not entries[1][1]
        assert data_of(made) == data_of(text)


MESSY = """\
# yaml-language-server: $schema=../../.bowlbook/schema/blend.json
# Ours.

reviewed: {by:  Noor,on: 2026-11-01}   # at the bench
# how much developer
developer:
    product: developer-20
    ratio:    1:2  # never 2:1
lighteners:
- product: clay
  parts: 2
# the violet takes the yellow
- parts: 1
  product: violet   # pale
suits:
  tone: [cool,
    neutral]
  # density: thick
name: 'Soft'

notes:   |
     Mixed so because
       the clay is thick.

"""
NEAT = """\
# yaml-language-server: $schema=../../.bowlbook/schema/blend.json
# Ours.

name: "Soft"
lighteners:
  - product: clay
    parts: 2
  # the violet takes the yellow
  - product: violet  # pale
    parts: 1
# how much developer
developer:
  ratio: 1:2       # never 2:1
  product: developer-20
suits:
  tone: [cool, neutral]
  # density: thick

notes: |
  Mixed so because
    the clay is thick.
reviewed: {on: 2026-11-01, by: Noor}   # at the bench
"""


def test_a_messy_entry() -> None:
    """What a person reads: the order of the fields, and every comment with what it was written for."""
    assert formatted(MESSY, "blend", "soft.yml") == (NEAT, [])
    assert formatted(NEAT, "blend", "soft.yml") == (NEAT, [])


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("name: [\n", "not-yaml"),
        ("name: a\nname: b\n", "duplicate-key"),
        ("name: a # b\n", "cut-by-hash"),
        ("name: &a b\n", "yaml-feature"),
        ("name: a\nnotes: |2\n   b\n", "not-formatted"),
        ("", "empty-file"),
    ],
)
def test_left_alone_where_something_could_be_lost(text: str, code: str) -> None:
    made, findings = formatted(text, "blend", "x.yml")
    assert made == text and code in [each.code for each in findings]


def test_every_kind_has_an_order() -> None:
    """No authored key is missing from it, and none is in it twice."""
    for kind in ENTRY_CLASSES:
        for word in (
            ("lightener", "developer", "toner", "additive", "supply") if kind == "product" else (None,)
        ):
            keys = list(keys_in_order(class_of(kind, word)))
            assert keys[0] in ("name", "title") and len(set(keys)) == len(keys)
            assert keys[-1] == "private" or kind == "house"
