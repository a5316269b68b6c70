"""A record of every figure of one small, invented book, kept after each had been held against its source.

It proves nothing by itself: what is right is said in ``tests/reference`` and beside this module. It tells
when a figure changes that nobody meant to change. ``python tests/figures/test_record.py`` writes it again.
"""

import json
import sys
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import pytest

if __name__ == "__main__":
    sys.path[:0] = [str(Path(__file__).parents[1]), str(Path(__file__).parents[2])]

from richer_book import enrich

from bowlbook.book.read_book import read_book
from bowlbook.commands.diff import difference_data
from bowlbook.figures.candidate import candidates_of
from bowlbook.figures.coverage import CORNERS, coverage_of, gaps_of
from bowlbook.figures.difference import differences
from bowlbook.figures.shortlist import index_of
from checks.small_book import BLEND_FILE, CLAY_FILE, HOUSE_FILE, TECHNIQUE_FILE, SmallBook
from commands.run import run_json

RECORD = Path(__file__).with_name("record.json")
MIXES = [
    ("soft-clay", "0.5oz"),
    ("soft-clay", "47g"),
    ("soft-clay", "1.3oz", "--developer", "developer-10"),
    ("soft-clay", "33g", "--step", "0.1g"),
    ("soft-clay", "0.6oz", "--poured", "clay=0.5oz"),
    ("soft-clay", "40g", "--poured", "clay=30g", "--poured", "developer-20=90g"),
    ("violet-foil", "45g"),
    ("violet-foil", "0.9oz", "--step", "0.01oz"),
    ("violet-foil", "60g", "--poured", "bond=9g"),
    ("pearl-gloss", "20g"),
]
PLANS = [
    ("painting", "--unit", "g"),
    ("painting", "--length", "extra-long", "--density", "thick"),
    ("foils", "--length", "short", "--density", "thin"),
    ("foils", "--length", "long", "--density", "thick", "--unit", "g"),
]
HEADS = [
    (),
    ("--level", "3", "--texture", "coarse", "--tone", "cool"),
    ("--level", "7", "--texture", "fine", "--lift", "2"),
    ("--level", "4-6", "--to", "8", "--curl", "coily"),
    ("--level", "9", "--to", "4"),
    ("--texture", "medium", "--placement", "foil", "--area", "ends", "--tone", "warm"),
]


def figures_of(root: Path) -> dict[str, Any]:
    """Everything that the commands, coverage and differences make of the richer small book."""
    book = enrich(SmallBook(root / "recipes"))
    found: dict[str, Any] = {}
    for blend, batch, *more in MIXES:
        found[f"mix {blend} {batch} {' '.join(more)}"] = run_json(
            "mix", blend, "--batch", batch, *more, recipes=book.root
        )
    for technique, *more in PLANS:
        found[f"plan {technique} {' '.join(more)}"] = run_json("plan", technique, *more, recipes=book.root)
    for head in HEADS:
        found[f"match {' '.join(head)}"] = run_json("match", *head, recipes=book.root)
    for learners in ("1", "6", "7"):
        found[f"kit {learners}"] = run_json(
            "kit", "first-painting", "--learners", learners, recipes=book.root
        )
    before = read_book(book.root).book
    assert before is not None
    candidates = candidates_of(before)
    coverage = coverage_of(candidates)
    found["coverage"] = "".join(coverage.state(place)[0] for place in range(len(CORNERS)))
    found["gaps"] = [
        (len(gap.corners), gap.nearest and (gap.nearest.candidate.id, gap.nearest.misses))
        for gap in gaps_of(index_of(candidates), coverage)
    ]
    book.edit(BLEND_FILE, "ratio: 1:2", "ratio: 1:1.5")
    book.edit(CLAY_FILE, "price: 39.00", "price: 44.10")
    book.edit(HOUSE_FILE, "oz: 0.05", "oz: 0.1")
    book.edit(TECHNIQUE_FILE, "zones: [2, 3]", "zones: [3]")
    book.edit("blends/violet-foil.yml", "also: [developer-20]", "also: [developer-40]")
    book.write("products/extra.yml", "name: Extra foil\nkind: supply\n")
    after = read_book(book.root).book
    assert after is not None
    found["diff"] = [difference_data(after, each) for each in differences(before, after)]
    found["diff back"] = [difference_data(before, each) for each in differences(after, before)]
    return json.loads(json.dumps(found))  # type: ignore[no-any-return]


def test_every_figure_is_as_it_was(tmp_path: Path) -> None:
    known = json.loads(RECORD.read_text(encoding="utf-8"))
    found = figures_of(tmp_path)
    assert list(found) == list(known)
    for name in known:
        assert found[name] == known[name], name


@pytest.mark.parametrize(
    "name", ["mix soft-clay 0.5oz ", "plan painting --unit g", "kit 6", "diff", "coverage"]
)
def test_it_holds_something(name: str) -> None:
    assert len(json.dumps(json.loads(RECORD.read_text(encoding="utf-8"))[name])) > 300


if __name__ == "__main__":
    with TemporaryDirectory() as folder:
        text = json.dumps(figures_of(Path(folder)), indent=1, ensure_ascii=False)
    RECORD.write_text(text + "\n", encoding="utf-8")
