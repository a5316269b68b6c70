"""No finding quotes what is private, whatever is wrong with the text around it."""

import random
from pathlib import Path

import pytest

from generator.entries.validate import private_keys, validate
from generator.reading.document import read_text

MARK = "SECRETVALUE"


def said_about(text: str, kind: str = "product") -> str:
    source, findings = read_text(text, "entry.yml", private_keys())
    _, more = validate(kind, "entry", source)
    return "\n".join(f"{each.message} {each.mend} {each.excerpt}" for each in (*findings, *more))


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
    ],
)
def test_a_private_value_is_never_quoted(text: str) -> None:
    said = said_about(text)
    assert said.strip()  # there is something wrong, and it is said
    assert MARK not in said


def test_nor_after_any_mutation(recipes: Path) -> None:
    """Private values of the demo book's entries replaced by a mark, then the text is broken at random."""
    draw = random.Random(2026)
    texts = []
    for path in sorted(recipes.rglob("*.yml")):
        text = path.read_text(encoding="utf-8")
        if "price:" in text:
            head, _, tail = text.partition("price: ")
            texts.append((path, head + "price: " + MARK + tail[tail.index(",") :]))
    assert len(texts) > 15
    for _ in range(1500):
        path, text = draw.choice(texts)
        place = draw.randrange(len(text))
        if MARK in text[max(0, place - 30) : place + 30]:
            continue  # the key itself, or the value, would be broken
        broken = text[:place] + draw.choice(":{}[]\"'#&*!|>\n\t-,@ ") + text[place + draw.choice([0, 1]) :]
        assert MARK not in said_about(broken)
