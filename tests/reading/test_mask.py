"""Which signs of a text a finding shows as dots: line for line, by hand."""

import pytest

from bowlbook.reading.source import Source, mask

PRIVATE = frozenset({"price", "by"})
CASES = [
    ("name: x\nprice: 39\nother: y", ["name: x", "price: ··", "other: y"]),
    ("pack: {net: 1 g, price: 39, on: x}\nend: 1", ["pack: {net: 1 g, price: ··· ··· ··", "end: 1"]),
    ("price:\n  39\n  more: x\nend: 1", ["price:", "  ··", "  ····· ·", "end: 1"]),
    ("price: |\n  a\n\n  b\nend: 1", ["price: ·", "  ·", "", "  ·", "end: 1"]),
    ('price: "a\nend: 1\nb"\nend: 2', ["price: ··", "···· ·", "··", "end: 2"]),
    ("price: 'a\nend: 1\n' x\nend: 2", ["price: ··", "···· ·", "· ·", "end: 2"]),
    ("price: 'a\" b'\nend: 2", ["price: ··· ··", "end: 2"]),
    ('price: "it\'s\nend: 1"\nend: 2', ["price: ·····", "···· ··", "end: 2"]),
    ("price: a\nb\nend: 2", ["price: ·", "·", "end: 2"]),
    ("a:\n  price: 1\n  - x\n  next: 2", ["a:", "  price: ·", "  · ·", "  next: 2"]),
    ("a:\n  price: 1\n    deep: 2\n  next: 2", ["a:", "  price: ·", "    ····· ·", "  next: 2"]),
    ("'price': 1\n\"price\": 2\nend: 1", ["'price': ·", '"price": ·', "end: 1"]),
    ('"pri\\u0063e": 1\nend: 1', ['"pri\\u0063e": ·', "end: 1"]),
    ("- price: 1\n- by: a b\n- c: d", ["- price: ·", "- by: · ·", "- c: d"]),
    ("reprice: 1\nprice-list: 2\nby-line: x", ["reprice: 1", "price-list: 2", "by-line: x"]),
    ("price : 1\nend: 1", ["price : ·", "end: 1"]),
    ("price: 1\n\nend: 1", ["price: ·", "", "end: 1"]),
    ("price: 1\nby: 2\nprice: 3", ["price: ·", "by: ·", "price: ·"]),
    ("price:\n- 1\n- by: 2\nend: 3", ["price:", "· ·", "· ··· ·", "end: 3"]),
    ("a:\n- price: 1\n  on: x\n- c: d", ["a:", "- price: ·", "  on: x", "- c: d"]),
    ("by: ???  # Mira\nend: 1", ["by: ???  · ····", "end: 1"]),
    ("a: {by: ???, price: 3}\nby: ???x", ["a: {by: ???· ······ ··", "by: ····"]),
    ("", [""]),
]


@pytest.mark.parametrize(("text", "shown"), CASES, ids=range(len(CASES)))
def test_line_for_line(text: str, shown: list[str]) -> None:
    assert mask(text, PRIVATE) == shown
    source = Source("x.yml", text, PRIVATE)
    assert [source.excerpt(number) for number in range(1, len(shown) + 1)] == shown


def test_without_private_keys_nothing_is_hidden() -> None:
    assert mask("price: 1\nby: 2", frozenset()) == ["price: 1", "by: 2"]


def test_an_excerpt_is_a_line_of_bounded_width() -> None:
    source = Source("x.yml", "a\n" + "b" * 300 + "\nc\x1b[2Jd")
    assert (source.excerpt(0), source.excerpt(1), source.excerpt(4)) == ("", "a", "")
    assert source.excerpt(2) == "b" * 160
    assert source.excerpt(3) == "c\N{REPLACEMENT CHARACTER}[2Jd"


def test_what_lies_on_a_private_way() -> None:
    source = Source("x.yml", "", PRIVATE)
    assert source.is_private(("pack", "price")) and source.is_private(("price", 0, "x"))
    assert not source.is_private(("pack", "net")) and not source.is_private(())
