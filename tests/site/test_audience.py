"""The public's copy: nothing private in any byte of it, the packs for the phone unpacked."""

import gzip
import re
from dataclasses import replace
from pathlib import Path

import pytest

from generator.book.audience import copy_for
from generator.checks.judge import Judgement
from generator.entries.entry import part, said
from generator.site.engine import build_into

ROOT = Path(__file__).parents[2]
STAFF, NOTE, SUPPLIER = "Zqstaffmark", "Zqnotemark", "Zqsuppliermark"


def marked(book):
    """The demo book with a marker in every note, reviewer, supplier and price."""
    kinds = {}
    for name in ("products", "blends", "techniques", "situations", "classes"):
        kinds[name] = {}
        for number, (entry_id, entry) in enumerate(getattr(book, name).items()):
            changes = {"private": f"{NOTE}{number}"}
            if entry.reviewed is not None:
                changes["reviewed"] = replace(entry.reviewed, by=f"{STAFF}{number}")
            if getattr(entry, "pack", None) is not None:
                changes["pack"] = replace(entry.pack, supplier=f"{SUPPLIER}{number}")
            made = replace(entry, **changes)
            made.placed(entry.id, entry.source)
            kinds[name][entry_id] = made
    house = replace(book.house, private=NOTE)
    house.placed(book.house.id, book.house.source)
    return replace(book, house=house, **kinds)


def test_no_marker_in_any_byte(demo_book, tmp_path: Path) -> None:
    judgement = Judgement(marked(demo_book), [])
    warnings: list[str] = []
    build_into(tmp_path / "site", ROOT / "mkdocs.yml", judgement, warnings.append, audience="public")
    assert warnings == []
    files = [path for path in sorted((tmp_path / "site").rglob("*")) if path.is_file()]
    assert len(files) > 200
    for path in files:
        content = path.read_bytes()
        if path.suffix == ".pack":
            content = gzip.decompress(content)
        for mark in (STAFF, NOTE, SUPPLIER):
            for form in (mark, mark.lower(), mark.upper(), mark[::-1]):
                assert form.encode() not in content, (path, mark)
        if path.suffix == ".html" and "reference" not in path.parts:
            assert not re.search(rb"\$\s?[0-9]", content), path  # no price, no cost
    assert not (tmp_path / "site" / "reports" / "costs").exists()


def test_the_teams_copy_has_them_all(demo_book) -> None:
    book = marked(demo_book)
    assert copy_for(book, "team") is book
    assert book.priced and not copy_for(book, "public").priced


def test_a_new_field_is_private_until_it_is_said_to_be_public(demo_book) -> None:
    from generator.book.audience import _public

    @part
    class Later:
        shown: str = said("For all.", public=True)
        new: str | None = said("Not declared.", default=None)

    assert _public(Later(shown="a", new="b")) == Later(shown="a", new=None)

    @part
    class Careless:
        amount: int = said("Private, and with nothing to stand in its place.")

    with pytest.raises(TypeError, match="must have a default"):
        _public(Careless(amount=1))
