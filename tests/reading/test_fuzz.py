"""Entries broken at random give findings or an entry, never an exception."""

import os
import random
import time
from pathlib import Path

import pytest

from generator.entries.validate import private_keys, validate
from generator.reading.document import read_text

KINDS = {
    "products": "product",
    "blends": "blend",
    "techniques": "technique",
    "situations": "situation",
    "classes": "class",
    "recipes": "house",
}
SCRAPS = [
    *(
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
    ),
    *(
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
    ),
    *(
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
    ),
]


def mutate(draw: random.Random, text: str) -> str:
    for _ in range(draw.randint(1, 4)):
        place = draw.randrange(len(text) + 1)
        span = draw.choice([0, 0, 1, 2, 10, 80])
        scrap = draw.choice([*SCRAPS, text[place : place + 20], ""])
        text = text[:place] + scrap + text[place + span :]
    return text


def entries(recipes: Path) -> list[tuple[str, str]]:
    return [
        (KINDS[path.parent.name], path.read_text(encoding="utf-8")) for path in sorted(recipes.rglob("*.yml"))
    ]


def run(recipes: Path, seed: int, count: int, until: float | None = None) -> int:
    draw = random.Random(seed)
    pool = entries(recipes)
    done = 0
    while done < count and (until is None or time.monotonic() < until):
        kind, text = draw.choice(pool)
        source, findings = read_text(mutate(draw, text), "entry.yml", private_keys())
        entry, more = validate(kind, "entry", source)
        assert entry is not None or findings or more
        for finding in (*findings, *more):
            assert finding.message and finding.code and finding.place.line >= 1
        done += 1
    return done


def test_some_thousand_mutations(recipes: Path) -> None:
    assert run(recipes, seed=1, count=3000) == 3000


@pytest.mark.long
def test_a_million_mutations(recipes: Path) -> None:
    """BOWLBOOK_LONG=short ends it after half a minute."""
    short = os.environ.get("BOWLBOOK_LONG") == "short"
    done = run(recipes, seed=2, count=1_000_000, until=time.monotonic() + 30 if short else None)
    assert done >= (1000 if short else 1_000_000)
