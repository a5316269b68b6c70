"""Entries broken at random give findings or an entry, never an exception, and never take long."""

import os
import random
import time
from pathlib import Path

import pytest
from entry_text import KINDS, LARGEST, take

from systems import needs_limits

FOLDERS = {"products": "product", "blends": "blend", "techniques": "technique"}
FOLDERS |= {"situations": "situation", "classes": "class", "recipes": "house", "troubles": "trouble"}
SCRAPS = [
    ":",
    "{",
    "}",
    "[",
    "]",
    '"',
    "'",
    "#",
    "&a ",
    "*a",
    "!!x ",
    "|",
    ">",
    "\n",
    "\t",
    "- ",
    ",",
    "@",
    "%",
    "?",
    "\x00",
    "\u202e",
    "½",
    "1e9",
    "-1",
    "0",
    "nan",
    "null",
    "~",
    "<<: ",
    "---\n",
    "...\n",
    "\r",
    "\ud7ff",
    "é",
    "  ",
    "\n\n",
    "0,5",
    "99999999999999999999",
    "1:2:3",
    "</script>",
    "\\",
    '"\\',
    "'''",
    "{{}}",
    "[[[[[[",
]


def mutate(draw: random.Random, text: str) -> str:
    for _ in range(draw.randint(1, 4)):
        place = draw.randrange(len(text) + 1)
        span = draw.choice([0, 0, 1, 2, 10, 80])
        scrap = draw.choice([*SCRAPS, text[place : place + 20], ""])
        text = text[:place] + scrap + text[place + span :]
    return text


def entries(recipes: Path) -> list[bytes]:
    """The demo book's entries as `take` wants them."""
    return [
        bytes([KINDS.index(FOLDERS[path.parent.name])]) + path.read_bytes()
        for path in sorted(recipes.rglob("*.yml"))
    ]


def run(recipes: Path, seed: int, count: int, until: float | None = None) -> int:
    """How many mutated entries were taken; `take` holds each to what must be."""
    draw = random.Random(seed)
    pool = [(each[:1], each[1:].decode()) for each in entries(recipes)]
    done = 0
    while done < count and (until is None or time.monotonic() < until):
        kind, text = draw.choice(pool)
        take(kind + mutate(draw, text).encode("utf-8", "surrogatepass"))
        done += 1
    return done


def test_some_hundred_mutations(recipes: Path) -> None:
    assert run(recipes, seed=1, count=600) == 600


@pytest.mark.long
@needs_limits
@pytest.mark.parametrize("part", range(4))
def test_a_million_mutations(recipes: Path, part: int) -> None:
    """In four parts, for as many processes. BOWLBOOK_LONG=short ends each after ten seconds."""
    import resource  # not on Windows

    short = os.environ.get("BOWLBOOK_LONG") == "short"
    before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    done = run(recipes, seed=2 + part, count=250_000, until=time.monotonic() + 10 if short else None)
    assert done >= (500 if short else 250_000)
    assert resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before < LARGEST // 1024
