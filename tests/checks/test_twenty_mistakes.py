"""A book with twenty different mistakes, all reported in one run, each at its line and column."""

import re

import pytest

from checks.small_book import (
    BLEND_FILE,
    CLASS_FILE,
    CLAY,
    DEVELOPER,
    DEVELOPER_FILE,
    FOIL,
    FOIL_FILE,
    HOUSE_FILE,
    SITUATION_FILE,
    TECHNIQUE_FILE,
    SmallBook,
)
from commands.run import run

STANDS = [
    ("blends/Second Clay.yml", "bad-file-name", ""),
    ("blends/soft-clay.yml", "zero-reading", "powder, parts: 1}"),
    ("blends/soft-clay.yml", "ratio-out-of-range", "1:3,"),
    ("blends/soft-clay.yml", "unweighable-batch", "0.5, 1]"),
    ("blends/third.yml", "unknown-id", "cley"),
    ("blends/third.yml", "wrong-kind", "powder}"),
    ("classes/first-painting.yml", "outline-does-not-add-up", "2.5 hours"),
    ("house.yml", "unknown-currency", "CDA"),
    ("products/cream.yml", "not-yaml", "\tusual: 1:1"),
    ("products/developer-20.yml", "strength-mismatch", "9 %"),
    ("products/foil.yml", "incomplete-pack", "100 g"),
    ("products/oil.yml", "duplicate-key", "name: Oil again"),
    ("products/white-powder.yml", "missing-key", "name: White powder"),
    ("products/white-powder.yml", "unknown-word", "powdr"),
    ("products/white-powder.yml", "out-of-bounds", "0"),
    ("products/white-powder.yml", "unknown-key", "colour: white"),
    ("products/white-powder.yml", "bad-amount", "1:½"),
    ("products/white-powder.yml", "wrong-unit", "5 g,"),
    ("situations/fine-hair.yml", "bad-id", "Soft Clay, technique"),
    ("techniques/painting.yml", "developer-not-in-blend", "developer-10"),
]
"""Path, code, and how the text goes on at the place of the finding; in the order of the report."""

WHITE_POWDER = """\
«missing-key»name: White powder
kind: lightener
form: «unknown-word»powdr
strength: strong
lifts: «out-of-bounds»0
«unknown-key»colour: white
mixing_ratio: {usual: «bad-amount»1:½, from: 1:1}
pack: {net: 500 g, price: «wrong-unit»5 g, priced_on: 2026-09-01}
"""

THIRD = """\
name: Third clay
lighteners:
  - {product: «unknown-id»cley, parts: 1}
developer: {ratio: 1:2, product: «wrong-kind»powder}
suits: {texture: [fine]}
reviewed: {on: 2026-10-02, by: Ines}
"""


@pytest.fixture
def spoilt(book: SmallBook) -> SmallBook:
    """The small book, spoilt in twenty places of ten files."""
    book.edit(HOUSE_FILE, "CAD", "«unknown-currency»CDA")
    book.write("products/oil.yml", CLAY + "«duplicate-key»name: Oil again\n")
    book.write("products/cream.yml", "name: Cream\nmixing_ratio:\n«not-yaml»\tusual: 1:1\n")
    book.write("products/white-powder.yml", WHITE_POWDER)
    book.edit(FOIL_FILE, "500 pieces", "«incomplete-pack»100 g")
    book.edit(DEVELOPER_FILE, "6 %", "«strength-mismatch»9 %")
    book.write("products/developer-10.yml", DEVELOPER.replace("20\n", "10\n").replace("6 %", "3 %"))
    book.edit(BLEND_FILE, "product: powder", "product: «zero-reading»powder")
    book.edit(BLEND_FILE, "1:2,", "«ratio-out-of-range»1:3,")
    book.edit(
        BLEND_FILE,
        "suits:",
        "batches:\n  oz: [«unweighable-batch?»0.5, 1]\n  g: [2, 20]\nsuits:",
    )
    book.write("blends/third.yml", THIRD)
    book.write("blends/Second Clay.yml", "«bad-file-name»" + FOIL)
    book.edit(
        TECHNIQUE_FILE,
        "blend: soft-clay",
        "blend: soft-clay\n    developer: «developer-not-in-blend»developer-10",
    )
    book.edit(SITUATION_FILE, "blend: soft-clay", "blend: «bad-id»Soft Clay")
    book.edit(CLASS_FILE, "3 hours", "«outline-does-not-add-up»2.5 hours")
    return book


def test_exactly_those_twenty_each_in_its_place(spoilt: SmallBook) -> None:
    spoilt.shows(findings=20)
    assert [(path, code) for path, _, _, code, _ in spoilt.found()] == [row[:2] for row in STANDS]
    assert len({code for _, code, _ in STANDS}) == 20


def test_check_prints_each_with_its_line_and_a_caret(spoilt: SmallBook) -> None:
    result = run("check", recipes=spoilt.root)
    assert result.exit_code == 1
    assert result.stdout.endswith("\n19 errors, 1 warning.\n")
    blocks = re.split(r"(?m)^(?=\S)", result.stdout)[1:-1]
    assert len(blocks) == 20
    for block, (path, code, stands) in zip(blocks, STANDS, strict=True):
        head, *rest = block.rstrip("\n").split("\n")
        found = re.fullmatch(r"(.+?):(\d+):(\d+): ([a-z-]+)( \(warning\))? (\S.*)", head)
        assert found is not None, head
        line, column = int(found[2]), int(found[3])
        assert (found[1], found[4]) == (str(spoilt.root / path), code)
        assert bool(found[5]) == (code == "unweighable-batch")
        assert rest.pop().startswith("    Mend: ")
        if code == "bad-file-name":  # the name is the mistake, not a line
            assert (line, column, rest) == (1, 1, [])
            continue
        text = (spoilt.root / path).read_text(encoding="utf-8").split("\n")[line - 1]
        shown, caret = rest
        private = "price:" in text  # what the house pays, and the value of a key that nobody knows: dots
        public, colon, hidden = text.partition("price:" if private else "colour:")
        assert shown == f"    {public}{colon}" + re.sub(r"\S", "·", hidden)
        assert text[column - 1 :].startswith(stands)
        assert caret == "    " + " " * (column - 1) + "^"


def test_a_nearest_name_is_offered(spoilt: SmallBook) -> None:
    mends = {each.code: each.mend for each in spoilt.judged()}
    assert mends["unknown-id"] == 'Did you mean "clay"?'
    assert mends["unknown-word"] == 'Did you mean "powder"?'
    assert "Write ½ as 0.5." in mends["bad-amount"]
    assert "second-clay.yml" in mends["bad-file-name"]


def test_mended_one_by_one_each_takes_its_own_finding_away(spoilt: SmallBook) -> None:
    """No mistake hides behind another, and none is reported twice."""
    left = spoilt.found()
    spoilt.edit(DEVELOPER_FILE, "9 %", "6 %")
    left = [each for each in left if each[3] != "strength-mismatch"]
    assert spoilt.found() == left
    spoilt.edit(HOUSE_FILE, "CDA", "CAD")
    left = [each for each in left if each[3] != "unknown-currency"]
    assert spoilt.found() == left
    spoilt.edit(CLASS_FILE, "2.5 hours", "3 hours")
    left = [each for each in left if each[3] != "outline-does-not-add-up"]
    assert spoilt.found() == left
    assert len(left) == 17
