"""A folder to a book: what is out of place, what leads nowhere, what goes in circles."""

import random
from collections.abc import Mapping
from pathlib import Path

import pytest

from bowlbook.book import linking
from bowlbook.book.lazy_entries import outlines_of
from bowlbook.book.outline import Outline
from bowlbook.book.read_book import read_book
from bowlbook.entries.entry import Entry
from seeds import seeds
from systems import needs_links

HOUSE = """title: House
currency: CAD
locale: en-CA
batches: {oz: [0.5]}
scale_step: {oz: 0.05}
rounding_tolerance: 5 %
on_scalp_developer_limit: 20 volume
review_after: 180 days
"""
CLAY = """name: Clay
kind: lightener
form: clay
strength: gentle
lifts: 5
mixing_ratio: {usual: 1:2}
placement: [open-air, foil]
"""
DEVELOPER = "name: Developer\nkind: developer\nvolume: 20\n"


def blend(name: str, extra: str = "", product: str = "clay", developer: str = "dev") -> str:
    return (
        f"name: {name}\nlighteners: [{{product: {product}, parts: 1}}]\n"
        f"developer: {{ratio: 1:2, product: {developer}}}\nsuits: {{}}\n{extra}"
    )


@pytest.fixture
def book(tmp_path: Path) -> Path:
    root = tmp_path / "recipes"
    for folder in ("products", "blends"):
        (root / folder).mkdir(parents=True)
    (root / "house.yml").write_text(HOUSE, encoding="utf-8")
    (root / "products" / "clay.yml").write_text(CLAY, encoding="utf-8")
    (root / "products" / "dev.yml").write_text(DEVELOPER, encoding="utf-8")
    return root


def put(book: Path, name: str, text: str) -> None:
    (book / "blends" / f"{name}.yml").write_text(text, encoding="utf-8")


def found(book: Path) -> list[tuple[str, str, int, int]]:
    findings = read_book(book).findings
    assert findings == sorted(findings)
    return [(each.code, Path(each.place.path).name, each.place.line, each.place.column) for each in findings]


def test_a_sound_book(book: Path) -> None:
    put(book, "one", blend("One"))
    reading = read_book(book)
    assert reading.findings == []
    assert reading.book is not None and reading.book.whole
    assert reading.book.used_by[("product", "clay")] == (("blend", "one"),)


def test_dangling_with_the_nearest_name(book: Path) -> None:
    put(book, "one", blend("One", product="clai"))
    reading = read_book(book)
    assert found(book) == [("unknown-id", "one.yml", 2, 24)]
    assert 'Did you mean "clay"?' in reading.findings[0].mend
    assert reading.book is not None and "one" not in reading.book.blends


def test_wrong_in_kind(book: Path) -> None:
    put(book, "one", blend("One", product="dev"))
    assert found(book) == [("wrong-kind", "one.yml", 2, 24)]


def test_named_twice(book: Path) -> None:
    text = blend("One").replace(
        "[{product: clay, parts: 1}]", "[{product: clay, parts: 1}, {product: clay, parts: 2}]"
    )
    put(book, "one", text)
    assert found(book) == [("duplicate-reference", "one.yml", 2, 51)]


def test_what_could_not_be_read_is_not_dangling(book: Path) -> None:
    (book / "products" / "clay.yml").write_text("name: Clay\nkind: lightener\n: [", encoding="utf-8")
    put(book, "one", blend("One"))
    reading = read_book(book)
    assert [name for _, name, _, _ in found(book)] == ["clay.yml"]
    assert reading.book is not None and reading.book.blends == {} and not reading.book.whole


CIRCLE = "not_for: [{{when: {{texture: [{}]}}, because: x, instead: {}}}]\n"


def test_a_circle_for_one_head(book: Path) -> None:
    put(book, "one", blend("One", CIRCLE.format("coarse", "two")))
    put(book, "two", blend("Two", CIRCLE.format("coarse, fine", "one")))
    assert found(book) == [("circular-reference", "one.yml", 5, 60)]


def test_alternatives_for_different_heads_are_no_circle(book: Path) -> None:
    put(book, "one", blend("One", CIRCLE.format("coarse", "two")))
    put(book, "two", blend("Two", CIRCLE.format("fine", "one")))
    assert found(book) == []


def test_a_blend_instead_of_itself(book: Path) -> None:
    put(book, "one", blend("One", CIRCLE.format("coarse", "one")))
    assert found(book) == [("circular-reference", "one.yml", 5, 60)]


def test_former_ids(book: Path) -> None:
    put(book, "one", blend("One", "formerly: [two, old]\n"))
    put(book, "two", blend("Two", "formerly: [old]\n"))
    assert found(book) == [("duplicate-id", "one.yml", 5, 12), ("duplicate-id", "two.yml", 5, 12)]
    first, second = (each.message for each in read_book(book).findings)
    assert first == 'There is a blend "two" today, so that address cannot lead here.'
    assert second == 'The former id "old" already belongs to the blend "one".'


def test_a_former_id_is_listed_once_and_is_not_the_one_of_today(book: Path) -> None:
    put(book, "one", blend("One", "formerly: [old, one, old]\n"))
    assert [(each.message, each.place.column) for each in read_book(book).findings] == [
        ('"one" is the id of today.', 17),
        ('"old" is already in this list.', 22),
    ]


def test_a_former_id_of_an_entry_that_cannot_be_read_is_taken(book: Path) -> None:
    put(book, "one", blend("One", "formerly: [two]\n"))
    put(book, "two", "name: [\n")
    assert ("duplicate-id", "one.yml", 5, 12) in found(book)


def test_what_is_named_by_its_former_id_is_named_in_the_mend(book: Path) -> None:
    put(book, "new", blend("New", "formerly: [old-clay]\n"))
    put(book, "one", blend("One", CIRCLE.format("coarse", "old-clay")))
    (finding,) = read_book(book).findings
    assert (finding.code, finding.mend) == ("unknown-id", 'Write "new": that is its id now.')


@needs_links
def test_out_of_place(book: Path, tmp_path: Path) -> None:
    put(book, "one", blend("One"))
    (book / "blends" / "Two Words.yml").write_text("", encoding="utf-8")
    (book / "blends" / "three.yaml").write_text("", encoding="utf-8")
    (book / "blends" / "con.yml").write_text("", encoding="utf-8")
    (book / "blends" / "inner").mkdir()
    (book / "blendz").mkdir()
    (book / "readme.txt").write_text("", encoding="utf-8")
    (book / ".hidden").write_text("", encoding="utf-8")
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    (book / "techniques").symlink_to(elsewhere)
    (book / "blends" / "link.yml").symlink_to(book / "house.yml")
    assert sorted((code, name) for code, name, _, _ in found(book)) == [
        ("bad-file-name", "Two Words.yml"),
        ("bad-file-name", "con.yml"),
        ("bad-file-name", "three.yaml"),
        ("misplaced-file", "blendz"),
        ("misplaced-file", "inner"),
        ("misplaced-file", "readme.txt"),
        ("not-a-file", "link.yml"),
        ("not-a-file", "techniques"),
    ]


def test_no_house_and_no_book(book: Path, tmp_path: Path) -> None:
    (book / "house.yml").unlink()
    reading = read_book(book)
    assert reading.book is None
    assert [each.code for each in reading.findings] == ["no-house"]
    assert [each.code for each in read_book(tmp_path / "none").findings] == ["no-book"]


def test_progress_is_reported(book: Path) -> None:
    reported: list[tuple[int, int]] = []
    read_book(book, lambda done, of: reported.append((done, of)))
    assert reported == [(1, 3), (2, 3), (3, 3)]


def test_the_demo_book_has_no_finding(recipes: Path) -> None:
    from bowlbook.checks.day import today
    from bowlbook.checks.judge import judge

    assert judge(recipes, today()).findings == []


def drawn(draw: random.Random, book: Path) -> None:
    """Blends that name one another in every way that may be wrong, and in chains of ``instead``."""
    for path in (book / "blends").iterdir():
        path.unlink()
    ids = [f"b-{number}" for number in range(draw.randint(2, 9))]
    for each in ids:
        heads = ["{curl: [coily]}", "{texture: [fine]}", "{texture: [fine], curl: [coily]}", "{}"]
        refusals = [
            f"  - {{when: {draw.choice(heads)}, because: No., instead: {draw.choice([*ids, 'b-none'])}}}\n"
            for _ in range(draw.choice([0, 1, 1, 2]))
        ]
        extra = "not_for:\n" + "".join(refusals) if refusals else ""
        if draw.random() < 0.3:
            extra += f"formerly: [{draw.choice([*ids, 'b-old', 'b-older'])}]\n"
        if draw.random() < 0.2:
            extra += "additives: [{product: dev, ratio: 8:1}]\n"
        product, developer = (
            draw.choice(["clay", "clay", "clay", "dev", "none"]),
            draw.choice(["dev"] * 4 + ["clay"]),
        )
        text = blend(each.title(), extra, product, developer)
        if draw.random() < 0.2:
            text = text.replace("parts: 1}", "parts: 1}, {product: clay, parts: 2}")
        put(book, each, text)


@pytest.mark.parametrize("seed", seeds(3))
def test_by_outlines_all_is_found_that_is_found_one_by_one(
    book: Path, seed: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Outlines only save looking: with every entry looked at, and every chain followed, it is the same."""

    def looked_at(entries: Mapping[str, Entry]) -> dict[str, Outline]:
        return {key: each._replace(twice=True) for key, each in outlines_of(entries).items()}

    draw, codes = random.Random(seed), set()
    for _ in range(60):
        drawn(draw, book)
        short = read_book(book)
        with monkeypatch.context() as patch:
            patch.setattr(linking, "outlines_of", looked_at)
            patch.setattr(linking, "_led_into_a_circle", lambda outlines: list(outlines))
            long = read_book(book)
        assert short.findings == long.findings
        assert short.book is not None and long.book is not None
        assert short.book.used_by == long.book.used_by and short.book.blends == long.book.blends
        codes |= {each.code for each in short.findings}
    assert codes == {"unknown-id", "wrong-kind", "duplicate-reference", "duplicate-id", "circular-reference"}


def test_a_chain_as_long_as_a_large_book_is_followed_at_once(book: Path) -> None:
    """Source: none needed; a chain that ends is no circle, however long it is."""
    outlines = {
        f"b-{number}": OUTLINE._replace(instead=(f"b-{number + 1}", f"b-{number + 1}"))
        for number in range(20_000)
    }
    assert linking._led_into_a_circle(outlines) == []
    outlines["b-20000"] = OUTLINE._replace(instead=("b-19998",))
    assert len(linking._led_into_a_circle(outlines)) == 20_001


OUTLINE = Outline((), False, (), (), "", None, "", "", "", False, False, ("", 1, 1, ""))
