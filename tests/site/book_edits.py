"""Edits of a generated book and of its house, of every kind that a day brings, each leaving no error."""

import random
import re
from collections.abc import Callable
from pathlib import Path

from bench.synthetic import write_book

Edit = Callable[[Path, random.Random], None]


def changed(path: Path, old: str, new: str) -> None:
    """Put one text in the place of another, which must stand there."""
    text = path.read_text(encoding="utf-8")
    assert old in text, (path, old)
    path.write_text(text.replace(old, new, 1), encoding="utf-8")


def _one(root: Path, kind: str, draw: random.Random) -> Path:
    return draw.choice(sorted((root / kind).iterdir()))


def _retitled(root: Path, draw: random.Random) -> None:
    kind = draw.choice(["blends", "techniques", "situations", "products"])
    path = _one(root, kind, draw)
    changed(path, "name: ", f"name: Newly {draw.randint(1, 99)} ")


def _other_ratio(root: Path, draw: random.Random) -> None:
    path = _one(root, "blends", draw)
    text = re.sub(r"parts: \d", f"parts: {draw.randint(1, 3)}", path.read_text(encoding="utf-8"), count=1)
    path.write_text(text, encoding="utf-8")


def _other_heads(root: Path, draw: random.Random) -> None:
    path = _one(root, draw.choice(["blends", "techniques"]), draw)
    levels = f"natural_level: {draw.randint(1, 4)}-{draw.randint(5, 9)}"
    text = re.sub(r"suits: {natural_level: [\d-]+", f"suits: {{{levels}", path.read_text(encoding="utf-8"))
    path.write_text(text, encoding="utf-8")


def _other_notes(root: Path, draw: random.Random) -> None:
    changed(_one(root, "blends", draw), "notes: |\n", f"notes: |\n  Watch it for {draw.randint(5, 50)}.\n")


def _renamed(root: Path, draw: random.Random) -> None:
    path = _one(root, "blends", draw)
    other = path.with_name(f"renamed-{draw.randint(1, 10**6)}.yml")
    for each in root.rglob("*.yml"):
        text = each.read_text(encoding="utf-8")
        for end in (",", "}"):
            text = text.replace(f": {path.stem}{end}", f": {other.stem}{end}")
        each.write_text(text, encoding="utf-8")
    path.rename(other)


def _deleted(root: Path, draw: random.Random) -> None:
    situations = sorted((root / "situations").iterdir())
    if len(situations) > 1:
        draw.choice(situations).unlink()


def _added(root: Path, draw: random.Random) -> None:
    path = _one(root, "blends", draw)
    text = path.read_text(encoding="utf-8").replace("name: ", "name: Again ", 1)
    (root / "blends" / f"again-{draw.randint(1, 10**6)}.yml").write_text(text, encoding="utf-8")


def _other_price(root: Path, draw: random.Random) -> None:
    changed(root / "products" / "cream-lightener.yml", "price: ", f"price: {draw.randint(1, 9)}")


def _other_house(root: Path, draw: random.Random) -> None:
    changed(root / "house.yml", "title: ", f"title: {draw.choice(['Old', 'New', 'Other'])} ")


def _other_rule(root: Path, draw: random.Random) -> None:
    changed(root / "house.yml", "because: ", f"because: Since {draw.randint(1, 99)} ")


def _other_words(root: Path, draw: random.Random) -> None:
    path = root / "house.yml"
    kept = [line for line in path.read_text(encoding="utf-8").splitlines() if not line.startswith("words: ")]
    words = f"words: [{{typed: [stuff{draw.randint(1, 99)}], means: [lightener]}}]"
    path.write_text("\n".join([*kept, words, ""]), encoding="utf-8")


EDITS = (
    *(_retitled, _other_ratio, _other_heads, _other_notes, _renamed, _deleted, _added),
    *(_other_price, _other_house, _other_rule, _other_words),
)


CONFIG = """\
site_name: A book
docs_dir: docs
theme: {name: material, font: false, custom_dir: own}
plugins: [{bowlbook: {recipes: recipes}}]
markdown_extensions: [tables]
nav:
  - Home: index.md
  - Blends: blends/index.md
  - words.md
"""


def write_house(house: Path, recipes: int, seed: int = 1) -> None:
    """A folder with a book, pages written by hand, and a house's own part of the theme."""
    write_book(house / "recipes", recipes, seed=seed)
    for name, text in {
        "own/partials/footer.html": "<footer>ours</footer>",
        "docs/words.md": "# Words\n\nOne [home](blends/index.md).\n",
        "docs/picture.svg": "<svg></svg>",
        "mkdocs.yml": CONFIG,
    }.items():
        (house / name).parent.mkdir(parents=True, exist_ok=True)
        (house / name).write_text(text, encoding="utf-8")


def _page_edited(house: Path, draw: random.Random) -> None:
    changed(house / "docs" / "words.md", "One", f"One {draw.randint(1, 99)}")


def _page_retitled(house: Path, draw: random.Random) -> None:
    """Every page shows it in the navigation."""
    changed(house / "docs" / "words.md", "# Words", f"# Words {draw.randint(1, 99)}")


def page_added(house: Path, draw: random.Random) -> None:
    (house / "docs" / f"page-{draw.randint(1, 999)}.md").write_text("# More\n\nText.\n", encoding="utf-8")


def _page_deleted(house: Path, draw: random.Random) -> None:
    for path in sorted((house / "docs").glob("page-*.md"))[:1]:
        path.unlink()


def _picture_changed(house: Path, draw: random.Random) -> None:
    (house / "docs" / "picture.svg").write_text(f"<svg>{draw.random()}</svg>", encoding="utf-8")


def _other_nav(house: Path, draw: random.Random) -> None:
    changed(house / "mkdocs.yml", "  - Blends", f"  - Blends {draw.randint(1, 99)}")


def _other_option(house: Path, draw: random.Random) -> None:
    changed(house / "mkdocs.yml", "site_name:", f"copyright: Ours {draw.randint(1, 999)}\nsite_name:")
    text = (house / "mkdocs.yml").read_text(encoding="utf-8").split("\n")
    kept = [line for place, line in enumerate(text) if place == 0 or not line.startswith("copyright")]
    (house / "mkdocs.yml").write_text("\n".join(kept), encoding="utf-8")


def _other_theme(house: Path, draw: random.Random) -> None:
    changed(house / "own" / "partials" / "footer.html", "ours", f"ours {draw.randint(1, 99)}")


def theme_that_lists_all_pages(house: Path, draw: random.Random) -> None:
    text = "<footer>{% for file in pages %}{{ file.page.title }} {% endfor %}ours</footer>"
    (house / "own" / "partials" / "footer.html").write_text(text, encoding="utf-8")


def _of_the_book(edit: Edit) -> Edit:
    def of_the_book(house: Path, draw: random.Random) -> None:
        edit(house / "recipes", draw)

    of_the_book.__name__ = edit.__name__
    return of_the_book


BOOK_EDITS = tuple(map(_of_the_book, EDITS))
"""`EDITS` of the book in a house's folder."""
HOUSE_EDITS = (
    *(_page_edited, _page_retitled, page_added, _page_deleted, _picture_changed, _other_nav, _other_option),
    _other_theme,
)
"""Edits of what stands beside the book."""
