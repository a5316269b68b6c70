"""Files written by hand that cannot be published: each named with the reason, before anything is written."""

import os
import shutil
from pathlib import Path

import pytest
from mkdocs.config import load_config
from small_site import ROOT, build, bytes_of, small_site
from test_plain_mkdocs import plain_build

from bowlbook.site.docs_folder import files_by_hand
from checks.small_book import SmallBook
from systems import needs_links, needs_names, needs_pipes

LATIN = "café".encode("latin-1")
"""ISO/IEC 8859-1 text; its last byte cannot end a text in UTF-8 (RFC 3629)."""


def write(path: bytes | str, content: bytes) -> None:
    Path(os.fsdecode(path)).write_bytes(content)


@pytest.fixture
def house(tmp_path: Path) -> Path:
    """A configuration with one page and a folder of its own for the theme."""
    for name in ("docs", "theme"):
        (tmp_path / name).mkdir()
    write(f"{tmp_path}/docs/index.md", b"# Home\n")
    write(
        f"{tmp_path}/mkdocs.yml",
        b"site_name: A book\nexclude_docs: /drafts/\ntheme: {name: material, custom_dir: theme}\n",
    )
    return tmp_path


def faults(house: Path) -> list[str]:
    return files_by_hand(load_config(str(house / "mkdocs.yml")))[1]


@pytest.mark.parametrize("ending", ["md", "html", "htm", "css", "svg", "xml", "json", "js", "CSS"])
@pytest.mark.parametrize("folder", ["docs", "theme"])
def test_a_text_that_is_not_utf_8(house: Path, folder: str, ending: str) -> None:
    name = f"a.{ending}"
    write(f"{house}/{folder}/{name}", b"one\ntwo " + LATIN)
    assert faults(house) == [
        f"{folder}/{name}: this file is not UTF-8 text (line 2); save it again with the encoding UTF-8."
    ]


@pytest.mark.parametrize(
    ("name", "content"),
    [
        ("a.md", "café".encode()),
        ("a.md", b"\xef\xbb\xbf# With a mark"),
        ("a.png", LATIN),
        ("a.txt", LATIN),
        ("a.svg", b""),
        ("drafts/a.css", LATIN),
        (".hidden.css", LATIN),
        ("naïve Ä 日本.png", b""),
    ],
)
def test_no_fault(house: Path, name: str, content: bytes) -> None:
    path = house / "docs" / name
    path.parent.mkdir(exist_ok=True)
    write(str(path), content)
    assert faults(house) == []


@needs_names
@pytest.mark.parametrize(
    ("name", "shown"),
    [
        (b"a\nb.png", r"a\nb.png"),
        (b"tab\there.md", r"tab\there.md"),
        (b"caf\xe9.png", r"caf\udce9.png"),
        ("rtl\u202egnp.exe".encode(), r"rtl\u202egnp.exe"),
        (b"bell\x07.css", r"bell\x07.css"),
    ],
)
def test_a_name_that_cannot_be_an_address(house: Path, name: bytes, shown: str) -> None:
    write(os.fsencode(f"{house}/docs/") + name, b"x")
    assert faults(house) == [f"docs/{shown}: the name holds a control character, or is not UTF-8; rename it."]


@needs_pipes
@needs_links
def test_what_is_no_ordinary_file(house: Path) -> None:
    os.mkfifo(house / "docs" / "pipe.txt")
    (house / "docs" / "loose.png").symlink_to("nowhere")
    assert faults(house) == [
        "docs/loose.png: this file cannot be read: no such file or directory.",
        "docs/pipe.txt: this is not an ordinary file.",
    ]


@needs_links
def test_a_link_within_the_folder_is_fine(house: Path) -> None:
    (house / "docs" / "one").mkdir()
    (house / "theme" / ".#main.html").symlink_to("nowhere")  # an editor's lock
    write(f"{house}/docs/one/page.md", b"# One\n")
    (house / "docs" / "other").symlink_to("one")
    files, found = files_by_hand(load_config(str(house / "mkdocs.yml")))
    assert found == []
    assert sorted(file.src_uri for file in files) == ["index.md", "one/page.md", "other/page.md"]


@pytest.fixture
def own_docs(book: SmallBook, config: Path) -> Path:
    """The project's own pages, copied beside the small book, and an earlier site."""
    docs = book.root.parent / "docs"
    shutil.copytree(ROOT / "docs", docs)
    text = config.read_text(encoding="utf-8").replace(str(ROOT / "docs"), "docs")
    config.write_text(text, encoding="utf-8")
    small_site()(book.root.parent / "site")
    return docs


@needs_names
@pytest.mark.parametrize("name", ["page.css", pytest.param("page\n.png", marks=pytest.mark.long)])
def test_the_earlier_site_stays(book: SmallBook, config: Path, own_docs: Path, name: str) -> None:
    """Under our own command and under plain MkDocs, which empties its folder first."""
    write(f"{own_docs}/{name}", LATIN)
    before = bytes_of(book.root.parent)
    site = book.root.parent / "site"
    result = build(book, config)
    _, plain = plain_build(config, site)
    for said in (result.stderr, plain):
        assert "docs/page" in said and "nothing was built" in said
        assert "Traceback" not in said
    assert result.exit_code == 1 and "Nothing was published." in result.stderr
    assert bytes_of(book.root.parent) == before


def test_a_template_of_the_house_with_an_error(book: SmallBook, config: Path) -> None:
    theme = config.parent / "theme"
    theme.mkdir()
    write(f"{theme}/main.html", b"{% extends \n")
    with config.open("a", encoding="utf-8") as file:
        file.write("theme: {name: material, font: false, custom_dir: theme}\n")
    result = build(book, config)
    assert result.exit_code == 1 and isinstance(result.exception, SystemExit)
    assert f"{theme / 'main.html'}, line 1: " in result.stderr
    assert not (config.parent / "site").exists()
