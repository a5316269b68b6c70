"""Every field explains itself, is private until said public, and stands in the schema and the field page."""

import ast
import re
from pathlib import Path

from bowlbook.entries.schema import schemas
from bowlbook.entries.validate import ENTRY_CLASSES, classes_of, walk_fields


def every_field() -> list[tuple[str, tuple[str, ...], object]]:
    return [
        (cls.__name__, way, spec)
        for kind in ENTRY_CLASSES
        for cls in classes_of(kind)
        for way, spec in walk_fields(cls)
    ]


def test_every_field_has_a_sentence() -> None:
    fields = every_field()
    assert len(fields) > 150
    for cls, way, spec in fields:
        text = spec.metadata["description"]
        assert text.endswith(".") and len(text) >= 4, (cls, way)


def test_private_is_the_default() -> None:
    private = {way[-1] for _, way, spec in every_field() if not spec.metadata["public"]}
    assert private == {
        *("price", "priced_on", "supplier", "article", "other_packs"),
        *("private", "by", "products_from", "words"),
    }


def test_every_field_is_in_the_schema() -> None:
    found = schemas()
    assert set(found) == set(ENTRY_CLASSES)
    text = str(found)
    for cls, way, spec in every_field():
        assert spec.metadata["description"] in text or way[-1] == "kind", (cls, way)


def test_every_field_is_on_the_field_page_and_no_other(demo_site: Path) -> None:
    import re

    text = (demo_site / "reference" / "fields" / "index.html").read_text(encoding="utf-8")
    shown = set(re.findall(r'<li class="bb-find-row"><b><code>([^<]+)</code></b>', text))
    assert shown == {".".join(way) for _, way, _ in every_field()}


PACKAGE = Path(__file__).parents[2] / "generator" / "bowlbook"
READ_AS_A_KEY = {"products_from"}
"""What is looked for in the text of the house, before that is an entry."""


def names_read() -> set[str]:
    """Every attribute that the program reads of anything, but where entries are declared or imported."""
    found: set[str] = set()
    for folder in PACKAGE.iterdir():
        if folder.is_dir() and folder.name not in ("entries", "importing"):
            for path in folder.rglob("*.py"):
                tree = ast.parse(path.read_text(encoding="utf-8"))
                found |= {node.attr for node in ast.walk(tree) if isinstance(node, ast.Attribute)}
            for path in folder.rglob("*.html"):
                found |= set(re.findall(r"\.([a-z_]+)", path.read_text(encoding="utf-8")))
    return found


def test_every_field_of_an_entry_is_read_somewhere() -> None:
    """A field that is declared and nowhere shown would take an author's words and lose them."""
    read = names_read() | READ_AS_A_KEY
    assert not {(cls, *way) for cls, way, spec in every_field() if len(way) == 1 and spec.name not in read}
