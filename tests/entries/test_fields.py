"""Every field explains itself, is private until said public, and stands in the schema and the field page."""

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
    assert private == {"price", "priced_on", "supplier", "article", "private", "by", "products_from", "words"}


def test_every_field_is_in_the_schema() -> None:
    found = schemas()
    assert set(found) == set(ENTRY_CLASSES)
    text = str(found)
    for cls, way, spec in every_field():
        assert spec.metadata["description"] in text or way[-1] == "kind", (cls, way)


def test_every_field_is_on_the_field_page_and_no_other(demo_site: Path) -> None:
    import re

    text = (demo_site / "reference" / "fields" / "index.html").read_text(encoding="utf-8")
    shown = set(re.findall(r'<th scope="row"><code>([^<]+)</code>', text))
    assert shown == {".".join(way) for _, way, _ in every_field()}
