"""A small sound site, made by hand, to publish and to spoil."""

import json
import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

from click.testing import Result

from bowlbook.site.manifest import without_empty_folders, write_manifest
from checks.small_book import SmallBook
from commands.run import invoke

ROOT = Path(__file__).parents[2]
PATHS = os.pathsep.join(map(str, (ROOT / "tests" / "site", ROOT / "tests", ROOT / "generator")))
"""The PYTHONPATH of a driver that is run by itself from this folder."""

PAGE = """\
<!doctype html><html><head><title>{title}</title><link rel="stylesheet" href="{up}style.css"></head>
<body><nav><a href="{up}./">Home</a></nav><article><h1 id="top">{title}</h1>{body}</article></body></html>
"""


def search_data(*addresses: str) -> dict[str, str]:
    """The files of a search index that leads to these addresses."""
    entries = [[address, "Name", 0, ""] for address in addresses]
    return {
        "data/names.json": json.dumps({"search": "search-1.json"}),
        "data/search-1.json": json.dumps({"entries": entries}),
    }


Build = Callable[[Path], None]


def small_site(word: str = "first", *, more: dict[str, str] | None = None, audience: str = "team") -> Build:
    """A build that writes a sound site of two pages; ``more`` adds files or writes others in their place."""

    def build(folder: Path) -> None:
        link = '<a href="soft/#top">Soft</a>'
        files = {
            "index.html": PAGE.format(title="Home", up="", body=f"<p>{word}</p>{link}"),
            "soft/index.html": PAGE.format(title="Soft", up="../", body='<a href="#top">Up</a>'),
            "404.html": '<html><body><a href="/nowhere/">lost</a></body></html>',
            "style.css": "body {}",
            **search_data("soft/#top", ""),
            **(more or {}),
        }
        for name, text in files.items():
            path = folder / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text, encoding="utf-8")
        write_manifest(folder, audience, without_empty_folders(folder))

    return build


def build(book: SmallBook, config: Path, *words: str) -> Result:
    """``bowlbook build`` of a book, into the folder site beside it."""
    where = (f"--recipes={book.root}", f"--config={config}", f"--site={book.root.parent / 'site'}")
    return invoke(["build", *where, *words])


def bytes_of(folder: Path) -> dict[str, bytes]:
    """Every file under a folder with its content."""
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }


def python(
    *words: str, cwd: Path | None = None, seconds: float | None = None, **environment: str
) -> subprocess.CompletedProcess[str]:
    """Python run with these words in a process of its own, which may take so many seconds."""
    return subprocess.run(
        [sys.executable, *words],
        cwd=cwd,
        env={**os.environ, "PYTHONPATH": PATHS, **environment},
        timeout=seconds,
        capture_output=True,
        text=True,
        check=False,
    )


def house_config(book: SmallBook) -> Path:
    """A house's own ``mkdocs.yml`` beside the small book, with one page by hand: half the work of ours."""
    folder = book.root.parent
    (folder / "docs").mkdir()
    (folder / "docs" / "safety.md").write_text("# Safety\n\nRead the label.\n", encoding="utf-8")
    path = folder / "mkdocs.yml"
    path.write_text(
        f"site_name: A book\ntheme: {{name: material, font: false}}\n"
        f"plugins: [{{bowlbook: {{recipes: {book.root}}}}}]\n",
        encoding="utf-8",
    )
    return path


def config_for(book: SmallBook) -> Path:
    """The project's own ``mkdocs.yml`` beside the small book, for it."""
    path = book.root.parent / "mkdocs.yml"
    path.write_text(
        f"INHERIT: {ROOT / 'mkdocs.yml'}\n"
        f"docs_dir: {ROOT / 'docs'}\n"
        f"plugins: [{{bowlbook: {{recipes: {book.root}, manual: true}}}}]\n",
        encoding="utf-8",
    )
    return path
