"""No finding quotes what is private, whatever is wrong with the text around it."""

import os
import random
from collections.abc import Iterator
from pathlib import Path

import pytest

from bowlbook.entries.validate import known_keys, private_keys, validate
from bowlbook.reading.document import read_text
from bowlbook.reading.finding import Finding
from bowlbook.reading.source import Loc

MARK = "SECRETVALUE"


def said_about(text: str, kind: str = "product") -> str:
    return "\n".join(f"{each.message} {each.mend} {each.excerpt}" for each in found_in(text, kind))


def shown_about(text: str, kind: str = "product") -> str:
    """The same as the author sees it at her terminal."""
    return "\n".join(
        f"{each.message} {each.mend} {each.excerpt}"
        for each in (finding.unmasked() for finding in found_in(text, kind))
    )


def ways_in(value: object, way: Loc = ()) -> Iterator[Loc]:
    """The way to every value in a value, its own first."""
    yield way
    inside = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for step, inner in inside:
        yield from ways_in(inner, (*way, step))


def found_in(text: str, kind: str) -> list[Finding]:
    source, findings = read_text(text, "entry.yml", private_keys(), known_keys())
    entry, more = validate(kind, "entry", source)
    later = [source.finding(way, "any", "Any.", "") for way in ways_in(source.data)] if entry else []
    return [*findings, *more, *later] if findings or more else []


def test_the_private_keys() -> None:
    assert private_keys() >= {"price", "priced_on", "supplier", "private", "by"}
    assert not private_keys() & {"name", "parts", "ratio", "net"}


@pytest.mark.parametrize(
    "text",
    [
        "name: x\nkind: lightener\npack: {net: bad, price: SECRETVALUE, priced_on: SECRETVALUE}\n",
        "kind: supply\nname: x\npack: {net: 5, supplier: SECRETVALUE, other: 1}\n",
        "kind: supply\nname: x\npack: {price: SECRETVALUE\n",
        "kind: supply\nprivate: |\n  SECRETVALUE\n  SECRETVALUE: more\n bad\n",
        "kind: supply\nprivate: SECRETVALUE: x\n",
        "kind: supply\nprivate: >\n   SECRETVALUE\n\n   SECRETVALUE\nname: [\n",
        'kind: supply\n"private": "SECRETVALUE\nSECRETVALUE\n',
        '{kind: supply, name: x, "private": "SECRETVALUE\nSECRETVALUE", what: 1}\n',
        'kind: supply\n"pri\\u0076ate": SECRETVALUE: x\n',
        "kind: supply\nname: x\nreviewed: {on: never, by: SECRETVALUE}\n",
        "kind: supply\nname: x\nprivate: [SECRETVALUE, {a: SECRETVALUE}]\n",
        "kind: supply\nname: x\nprivate: &a SECRETVALUE\n",
        "kind: supply\nname: x\nprivate: !SECRETVALUE x\n",
        "kind: supply\nname: x\nprivate:\n  - SECRETVALUE\n",
        "kind: supply\nname: x\nprivate:\n- SECRETVALUE: x\n- SECRETVALUE\n",
        "kind: supply\nname: x\nprivate: {SECRETVALUE: 1, SECRETVALUE: 2}\n",
        "kind: supply\nname: x #5\nprivate: SECRETVALUE #5\n",
        "kind: supply\nname: x\nprivate SECRETVALUE\n",
        "kind: supply\nname: x\nprivate=SECRETVALUE\n",
        "kind: supply\nname: x\nprivate = SECRETVALUE\n",
        "kind: supply\nname: x\npack:\n  net: 5\n  price SECRETVALUE\n",
        "kind: supply\nname: x\npack: SECRETVALUE\n",
        "pack: SECRETVALUE\nkind: supply\nname: x\n",
        "kind: supply\nname: x\npack: [5, SECRETVALUE]\n",
        "kind: supply\nname: x\npack:\n  - SECRETVALUE\n",
        "kind: supply\nname: x\nreviewed: SECRETVALUE\n",
        "kind: supply\nname: x\nreviewed: [SECRETVALUE, 2026-01-01]\n",
    ],
)
def test_a_private_value_is_never_quoted(text: str) -> None:
    said = said_about(text)
    assert said.strip()  # there is something wrong, and it is said
    assert MARK not in said


AMOUNTS = [
    ("price: 7391,00", "7391"),
    ("price: 7391,123", "7391"),
    ("price: .7391", "7391"),
    ("price: 7391–7392", "739"),
    ("price: 7391739.5", "7391739"),
    ("price: 7391 7391", "7391"),
    ("price: 7391½", "½"),
    ("priced_on: 1973-09-01", "1973"),
    ("price: half", "half"),
]


@pytest.mark.parametrize(("row", "value"), AMOUNTS)
@pytest.mark.parametrize("flow", [True, False])
def test_nor_repeated_by_the_mend(row: str, value: str, flow: bool) -> None:
    """The author sees at her terminal what would mend it; what travels repeats nothing of a price."""
    pack = f"pack: {{net: 1 L, {row}}}\n" if flow else f"pack:\n  net: 1 L\n  {row}\n"
    text = f"kind: supply\nname: x\n{pack}"
    assert said_about(text).strip() and value not in said_about(text)
    assert value in shown_about(text)


UNKNOWN = [
    "suplier: SECRETVALUE",
    "suplier: [SECRETVALUE, a]",
    "suplier:\n- SECRETVALUE\n- b: SECRETVALUE",
    "suplier:\n  - SECRETVALUE",
    "suplier: |\n  SECRETVALUE\n\n  SECRETVALUE: x",
    "suplier: >-\n  SECRETVALUE\n  SECRETVALUE",
    'suplier: "SECRETVALUE\n\n  name: SECRETVALUE"',
    "suplier: SECRETVALUE\n  SECRETVALUE",
    "suplier: {SECRETVALUE: 1, SECRETVALUE: 2}",
    "suplier: {a: SECRETVALUE,\n  name: SECRETVALUE}",
    '"suplier": SECRETVALUE',
    '"supli\\u0065r": SECRETVALUE',
    "su'plier: SECRETVALUE",
    "? suplier\n: SECRETVALUE",
    "suplier : SECRETVALUE",
    "suplier: SECRETVALUE #5",
    "suplier: SECRETVALUE: x",
    "suplier: [SECRETVALUE",
    'suplier: "SECRETVALUE',
    "suplier: SECRETVALUE, name: SECRETVALUE",
    "pack: {net: 5, suplier: SECRETVALUE, SECRETVALUE}",
    "pack: {net: 5, suplier: SECRETVALUE",
    "pack: {suplier: SECRETVALUE, price: 5 g}",
    "pack:\n  net: 5\n  suplier: SECRETVALUE",
    "reviewed: {on: never, By: SECRETVALUE}",
    "Private: SECRETVALUE",
    "lifts: SECRETVALUE",
    "private notes: SECRETVALUE",
    "name: y\nsuplier: SECRETVALUE",
    "suplier:SECRETVALUE",
    "- suplier: SECRETVALUE",
    "suplier SECRETVALUE",
    "suplier=SECRETVALUE",
]


@pytest.mark.parametrize("row", UNKNOWN)
def test_the_value_of_a_key_that_no_entry_has_is_shown_to_nobody(row: str) -> None:
    """It may be a private key, misspelt: not even at a terminal."""
    for text in (f"kind: supply\nname: x\n{row}\n", f"{row}\nkind: supply\nname: x\n"):
        said = said_about(text)
        assert said.strip()
        assert MARK not in said and MARK not in shown_about(text), text


def test_the_author_sees_what_is_her_own() -> None:
    shown = shown_about("kind: supply\nname: x\npack: {net: 5, price: SECRETVALUE, supplier: Mira, x: 1}\n")
    assert "price: SECRETVALUE, supplier: Mira, x: ··" in shown


@pytest.mark.parametrize(
    "row", ["private SECRETVALUE", "pack: SECRETVALUE", "reviewed: [SECRETVALUE]", "private: [SECRETVALUE]"]
)
def test_she_sees_it_also_where_its_shape_is_wrong(row: str) -> None:
    text = f"kind: supply\nname: x\n{row}\n"
    assert MARK in shown_about(text) and MARK not in said_about(text)


def test_a_gap_is_not_hidden_and_a_public_value_of_the_wrong_shape_neither() -> None:
    assert "reviewed: ???" in said_about("kind: supply\nname: x\nreviewed: ???\n")
    assert "mixing_ratio: 1:2" in said_about("kind: lightener\nname: x\nmixing_ratio: 1:2\n")
    assert "size 12" in said_about("kind: supply\nname: x\nsize 12\n")


def test_texts_with_colons_are_shown_where_only_their_texts_are_concerned() -> None:
    said = said_about('kind: supply\nname: <b>\nnotes: "First: stir"\nsize: 5\n')
    assert 'notes: "First: stir"' in said


@pytest.mark.more
def test_nor_after_any_mutation(recipes: Path) -> None:
    """Private values of the demo book's entries replaced by a mark, then the text is broken at random."""
    draw = random.Random(2026)
    texts = []
    for path in sorted(recipes.rglob("*.yml")):
        text = path.read_text(encoding="utf-8")
        if "price:" in text:
            head, _, tail = text.partition("price: ")
            texts.append((path, head + "price: " + MARK + tail[tail.index(",") :]))
            texts.append((path, f"{head}pricce: {MARK}{tail[tail.index(',') :]}"))
    assert len(texts) > 15
    for _ in range(600 if os.environ.get("BOWLBOOK_LONG") else 200):
        path, text = draw.choice(texts)
        place = draw.randrange(len(text))
        if MARK in text[max(0, place - 30) : place + 30]:
            continue  # the key itself, or the value, would be broken
        broken = text[:place] + draw.choice(":{}[]\"'#&*!|>\n\t-,@ ") + text[place + draw.choice([0, 1]) :]
        assert MARK not in said_about(broken)
        if "pricce" in text:
            assert MARK not in shown_about(broken)
