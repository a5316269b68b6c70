"""cut-by-hash: a # that cuts a text off is found, a remark is not; held against PyYAML's own scanner.

The library's scanner in Python says where remarks are; ours is the C parser's, read event by event.
"""

import random
import re
from typing import NamedTuple

import pytest
import yaml
from yaml.reader import Reader
from yaml.scanner import Scanner

from bowlbook.reading.document import read_text
from bowlbook.reading.finding import Finding
from seeds import seeds


def cut_in(text: str) -> list[tuple[int, int]]:
    return [(f.place.line, f.place.column) for f in findings_of(text) if f.code == "cut-by-hash"]


def findings_of(text: str) -> list[Finding]:
    return read_text(text, "entry.yml", frozenset())[1]


CUT = [
    ("a: Never above volume #2 on coils.\n", 23),
    ("a:\n  - Never above volume #2 on coils.\n", 24),
    ("a: Shade #5 warm\n", 10),
    ("a: Shade # five warm\n", 10),
    ("a: Shade  #5 warm\n", 11),
    ("a: Shade  #warm\n", 11),
    ("a: Shade  # 5 warm\n", 11),
    ("a: Shade\t# warm\n", 10),
    ("a: Shade  #\n", 11),
    ("a: [fine #2, medium]\n", 10),
    ("a: {b: fine #2}\n", 13),
    ("a: [fine, #2\n  medium]\n", 11),
    ("a: #5\n", 4),
    ("a: #5 warm\n  and cool\n", 4),
    ("a:\n  - #5\n", 5),
    ('a: "Shade" #5 warm\n', 12),
    ("a: 'Shade' #5\n", 12),
    ("a: [fine] #5\n", 11),
    ("a: one\n  two #3\n", 7),
    ("a: Never above\n  #2 on coils\nb: c\n", 3),
    ("a: Never above\n\n  #2 on coils\n", 3),
    ("a:\n  - Never above\n    #2 on coils\n", 5),
    ("a: Never above\n  # 2 on coils\n", 3),
    ('a: "Shade"#5\n', 11),
    ("a: [fine]#5\n", 10),
]


@pytest.mark.parametrize(("text", "column"), CUT, ids=[text for text, _ in CUT])
def test_a_text_that_is_cut_is_one_finding_at_its_hash(text: str, column: int) -> None:
    line = next(number for number, each in enumerate(text.split("\n"), 1) if "#" in each)
    assert [(f.code, f.place.line, f.place.column) for f in findings_of(text)] == [
        ("cut-by-hash", line, column)
    ]


NOT_CUT = [
    "# a line of its own\na: b\n",
    "a:\n  # 5 indented\n  b: c\n",
    "a: b\n#c: d\n",
    "a: b\n  # a remark below\nc: d\n",
    "a:\n  b: c\n  #d: e\n",
    "a:\n  - b\n  #- c\n",
    "a: [b,\n  #c\n  d]\n",
    'a: "b"\n  #c\n',
    "a: b  # a remark\n",
    "a: b          # über alles # and more\n",
    "a: b  #  two spaces\n",
    "a: [fine, medium] # or coarse\n",
    "a: [fine, # the usual\n  medium]\n",
    'a: "Shade #5 warm"\n',
    "a: 'Shade #5 warm' # said so\n",
    'a: "one\n  # two #3\n  four"\n',
    "a: # which\n  b: c\n",
    "a: Shade#5\n",
    "a: http://x/#y\n",
    "a: |\n  Shade #5\n  # a heading\n",
    "a: >-\n  Shade #5 warm\n\n  #2\nb: c\n",
    "a: | # folded below\n  Shade #5\n",
    '"a #b": c\n',
]


@pytest.mark.parametrize("text", NOT_CUT)
def test_a_remark_or_a_text_in_quotes_is_none(text: str) -> None:
    assert findings_of(text) == []


@pytest.mark.parametrize(
    ("text", "codes"),
    [
        ("a: {b: Never above #2, c: d}\n", ["cut-by-hash"]),
        ("a: [fine #2, medium]\nb: c\n", ["cut-by-hash"]),
        ("a: Never above #2\n  on coils\nb: c\n", ["cut-by-hash"]),
        ("a: [fine #2\nb: c\n", ["cut-by-hash", "not-yaml"]),
        ('a: b #5\nc: "open\n', ["cut-by-hash", "not-yaml"]),
        ('a: {b: x, "c # d\n', ["not-yaml"]),
    ],
)
def test_what_follows_from_a_cut_is_not_said_as_well(text: str, codes: list[str]) -> None:
    assert sorted(each.code for each in findings_of(text)) == codes


class Remark(NamedTuple):
    """One remark: where it begins, from 0, and its text."""

    index: int
    text: str


class Reference(Reader, Scanner):
    """PyYAML's scanner in Python, which also keeps what it passes over as remarks."""

    def __init__(self, text: str) -> None:
        self.remarks: list[Remark] = []
        self.whole = text
        Reader.__init__(self, text)
        Scanner.__init__(self)

    def scan_to_next_token(self) -> None:
        begin = self.index
        super().scan_to_next_token()
        for found in re.finditer("#[^\n]*", self.whole[begin : self.index]):
            self.remarks.append(Remark(begin + found.start(), found[0]))


def reference(text: str) -> list[tuple[int, int]] | None:
    """Where the rule of the docs is broken, by the reference's tokens; None where it is no YAML."""
    scanner = Reference(text)
    plain_ends = {}
    try:
        while scanner.check_token():
            token = scanner.get_token()
            if isinstance(token, yaml.ScalarToken) and token.plain:
                plain_ends[token.end_mark.index] = token.start_mark.line
    except yaml.YAMLError:
        return None
    found = []
    for index, remark in scanner.remarks:
        line_start = text.rfind("\n", 0, index) + 1
        before = text[line_start:index]
        if not before.strip():
            began = plain_ends.get(len(text[:index].rstrip()))
            if began is None or len(before) <= re.match(" *", text.split("\n")[began]).end():
                continue
        end = line_start + len(before.rstrip())
        wide_enough = end not in plain_ends or index - end >= 2
        if not (wide_enough and re.match(r"# +[^\W\d_]", remark)):
            found.append((text.count("\n", 0, index) + 1, index - line_start + 1))
    return sorted(found)


PIECES = (
    " #", "  # ", " # x", "#5", " #5 x", "  # word", "# ", ": ", ":\n  ", "\n", "\n  ", "\n- ", "- ", ", ",
    "[", "]", "{", "}", '"', "'", "|\n  ", ">-\n  ", "a", "bc", "name", "5", "x y", "\t# z", "\n# line\n",
)  # fmt: skip


@pytest.mark.parametrize("seed", seeds(6))
def test_any_text_is_cut_where_the_reference_says(seed: int) -> None:
    draw = random.Random(seed)
    compared = cut = 0
    for _ in range(2500):
        rows = ["".join(draw.choices(PIECES, k=draw.randint(1, 7))) for _ in range(draw.randint(1, 3))]
        text = "".join(f"k{number}: {row}\n" for number, row in enumerate(rows))
        source, findings = read_text(text, "entry.yml", frozenset())
        expected = reference(text)
        if source.data is None or expected is None or any(f.code == "yaml-feature" for f in findings):
            continue
        compared += 1
        found = sorted(cut_in(text))
        cut += bool(found)
        assert found == expected, text
    assert compared > 300 and cut > 50


@pytest.mark.parametrize("seed", seeds(2))
def test_nothing_is_lost_from_an_entry_without_a_finding(recipes, seed: int) -> None:
    """A # put anywhere into the demo's entries is a remark, stays in a text, or is found."""
    draw = random.Random(seed)
    paths = sorted(recipes.rglob("*.yml"))
    for _ in range(400):
        text = draw.choice(paths).read_text(encoding="utf-8")
        place = draw.randrange(len(text))
        mutated = text[:place] + draw.choice([" #", " #5 ", "  # ", " # "]) + text[place:]
        if findings_of(mutated):
            continue
        expected = reference(mutated)
        assert expected == []
