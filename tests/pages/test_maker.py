"""A maker's digest covers whatever its function gets, and a maker that could get more is refused."""

import os
import subprocess
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from pathlib import Path
from typing import Any, NamedTuple

import pytest

from bowlbook.pages.maker import Maker, Output, value_digest
from bowlbook.pages.page import Document, Page
from bowlbook.pages.render import render

ROOT = Path(__file__).parents[2]


@dataclass(frozen=True, slots=True)
class Size:
    weight: Fraction
    unit: str


@dataclass(frozen=True, slots=True)
class Batch:
    weight: Fraction
    unit: str


@dataclass(frozen=True)
class Open:
    """Has a ``__dict__``, in which more than its fields may be stored."""

    weight: int


class Pair(NamedTuple):
    first: object
    second: object


def written(book: Any, *inputs: object) -> Iterator[Output]:
    yield Document("all.txt", repr(inputs))


def of_pieces(book: Any, word: str, pieces: list[object]) -> Iterator[Output]:
    yield Document("pieces.txt", f"{word} {pieces}")


def returns_nothing(book: Any) -> Any:
    return None


WRITTEN, OF_PIECES = f"{__name__}:written", f"{__name__}:of_pieces"


@pytest.mark.parametrize(
    "value",
    [
        {"a", "b"},
        frozenset("ab"),
        ({"a"},),
        {"a": [{"b"}]},
        Pair(1, {"a"}),
        object(),
        written,
        Open(1),
        Path(),
    ],
)
def test_what_has_no_certain_digest_is_refused(value: object) -> None:
    with pytest.raises(TypeError, match=r"The maker home: a .* has no digest"):
        Maker("home", WRITTEN, value)


def test_a_book_is_refused(demo_book) -> None:
    """A book among the inputs would not record what is looked up in it."""
    with pytest.raises(TypeError, match=r"Book has no digest"):
        Maker("home", WRITTEN, demo_book)


VALUES: list[object] = [
    *(None, False, True, 0, 1, 1.0, "", "1", b"1", Fraction(1), date(2026, 9, 1), "2026-09-01"),
    *((), [], {}, (1,), [1], (True,), ((1,),), (1, 2), (2, 1), ("ab",), ("a", "b")),
    *({"a": 1}, {"a": 2}, {"b": 1}, {"a": 1, "b": 2}, {"b": 2, "a": 1}, (("a", 1),)),
    *(Pair(1, 2), Pair(2, 1), Pair((1,), 2), Pair(1, None)),
    *(Size(Fraction(1), "g"), Size(Fraction(1, 2), "g"), Size(Fraction(1), "oz"), Batch(Fraction(1), "g")),
    *([["tuple", 1]], {"list": (1,)}, {"dict": ()}, ["fractions.Fraction", "1"]),
    *({"fractions.Fraction": "1"}, {f"{__name__}.Pair": (1, 2)}, {f"{__name__}.Size": (Fraction(1), "g")}),
]


def test_values_that_differ_have_digests_that_differ() -> None:
    makers = [Maker("home", WRITTEN, each).digest for each in VALUES]
    assert len(set(makers)) == len(VALUES)
    assert Maker("home", OF_PIECES, 1).digest not in makers
    assert Maker("home", WRITTEN, 1, 2).digest != Maker("home", WRITTEN, (1, 2)).digest


def test_equal_values_have_one_digest_whichever_objects_they_are() -> None:
    one = "".join(["a", "bc"])
    assert value_digest((one, one, [one])) == value_digest(("abc", "".join(["ab", "c"]), ["abc"]))
    assert Maker("home", WRITTEN, (1, one)).digest == Maker("home", WRITTEN, (1, "abc")).digest


def test_the_function_gets_the_inputs_and_the_pieces() -> None:
    assert list(Maker("home", WRITTEN, 1, (2,)).make(None)) == [Document("all.txt", "(1, (2,))")]  # type: ignore[arg-type]
    needing = Maker("home", OF_PIECES, "a", needs=[("blend/x", "weight")])
    assert list(needing.make(None, [3])) == [Document("pieces.txt", "a [3]")]  # type: ignore[arg-type]


def test_a_function_that_returns_nothing_is_named_with_its_maker() -> None:
    with pytest.raises(TypeError, match=r"^The maker shelf: .*:returns_nothing returns no page"):
        Maker("shelf", f"{__name__}:returns_nothing").make(None)  # type: ignore[arg-type]


@pytest.mark.parametrize("function", ["no_such_module:shelf", f"{__name__}:no_such_function"])
def test_a_function_that_is_not_there_is_named_with_its_maker(function: str) -> None:
    with pytest.raises(TypeError, match=r"^The maker shelf: .*no_such_"):
        Maker("shelf", function).make(None)  # type: ignore[arg-type]


def test_an_address_without_its_slash_is_refused() -> None:
    with pytest.raises(ValueError, match=r'slash, and "shelf" has none$'):
        Page("shelf", "Shelf", "", "")


@pytest.mark.parametrize(("template", "said"), [("no.html", "no.html"), ("list.html", "undefined")])
def test_a_template_that_cannot_be_rendered_is_named(template: str, said: str) -> None:
    with pytest.raises(ValueError, match=rf"^The template {template} cannot be rendered: .*{said}"):
        render(template, "shelf/")


DIGESTS = """
from pathlib import Path
from bowlbook.book.read_book import read_book
from bowlbook.figures.difference import Difference
from bowlbook.figures.fact import Fact
from bowlbook.pages.all_pages import makers_of
from bowlbook.pages.release_page import Since
changed = Difference("blend", "a", "A", None, "changed", (Fact("a", None, "b"),), (("class", "c"),))
for maker in makers_of(read_book(Path("recipes")).book, Since("v1", (changed,)), "https://example.org/"):
    print(maker.name, maker.digest.hex())
"""


@pytest.mark.long
def test_the_digests_are_the_same_in_every_run() -> None:
    """Two runs whose sets have other orders (PYTHONHASHSEED): all makers of the demo book."""
    runs = {
        subprocess.run(
            [sys.executable, "-c", DIGESTS],
            cwd=ROOT,
            env={**os.environ, "PYTHONHASHSEED": seed, "PYTHONPATH": str(ROOT / "generator")},
            capture_output=True,
            text=True,
            check=True,
        ).stdout
        for seed in ("1", "2")
    }
    assert len(runs) == 1 and runs.pop().count("\n") > 100
