"""A book beneath a site of ten pages: the site's own pages stay as they were, but for the menu."""

import gzip
import json
import re
import shutil
from pathlib import Path
from typing import NamedTuple

import pytest
from mkdocs.commands.build import build as mkdocs_build
from mkdocs.config import load_config
from other_site import BOOK, NAV, OWN, PLUGIN, add_book, other_site
from small_site import bytes_of

from bowlbook.checks.judge import judge
from bowlbook.site.engine import BuildFailed, build_into
from bowlbook.site.incremental import Incremental
from bowlbook.site.manifest import MANIFEST
from bowlbook.site.publish import NotPublished, publish
from checks.small_book import BLEND_FILE, DAY, SmallBook
from seeds import with_long

NEIGHBOURS = re.compile(r'(?<=/">)\s*(?:<link rel="(?:prev|next)"[^>]*>\s*)*(?=<link rel="icon")')
"""What the theme says in a page's head of the pages beside it in the menu, and the blank lines around it."""


def without_menu(html: bytes) -> str:
    """A page without its menus, which stand in ``nav`` elements that hold others."""
    text = NEIGHBOURS.sub("", html.decode())
    kept, depth, at = [], 0, 0
    for tag in re.finditer(r"<nav\b[^>]*>|</nav>", text):
        if depth == 0:
            kept.append(text[at : tag.start()])
        depth += 1 if tag[0] != "</nav>" else -1
        at = tag.end()
    return "".join([*kept, text[at:]])


def plain(config: Path, site: Path) -> dict[str, bytes]:
    """The site without a book, by MkDocs alone."""
    loaded = load_config(str(config), site_dir=str(site))
    loaded.plugins.on_startup(command="build", dirty=False)
    mkdocs_build(loaded)
    loaded.plugins.on_shutdown()
    return bytes_of(site)


def published(config: Path, incremental: Incremental | None = None, **given: str) -> Path:
    """The site with the small book, built and looked over."""
    book, site = config.parent / "book", config.parent / "site"
    warnings: list[str] = []
    incremental = incremental or Incremental()
    publish(
        lambda folder: build_into(
            folder, config, judge(book, DAY), warnings.append, recipes=book, incremental=incremental, **given
        ),
        site,
        incremental,
    )
    assert warnings == []
    return site


class Site(NamedTuple):
    """A site with a book beneath it, as it was built, which no test changes; ``before``: without the book."""

    config: Path
    before: dict[str, bytes]
    after: dict[str, bytes]

    @property
    def folder(self) -> Path:
        return self.config.parent / "site"

    def copied(self, folder: Path) -> Path:
        """The configuration of a copy that a test may change."""
        shutil.copytree(self.config.parent, folder)
        return folder / self.config.name


@pytest.fixture(scope="module", params=with_long([True], [False]), ids=["own menu", "menu from the folders"])
def site(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Site:
    folder = tmp_path_factory.mktemp("beneath")
    SmallBook(folder / "book")
    config = other_site(folder, menu=request.param)
    before = plain(config, tmp_path_factory.mktemp("before"))
    add_book(config)
    return Site(config, before, bytes_of(published(config)))


def test_its_own_pages_are_the_same_to_the_byte_but_for_the_menu(site: Site) -> None:
    before, after = site.before, site.after
    pages = [name for name in before if name.endswith(".html")]
    assert len(pages) == 11  # and the page for lost addresses
    for name, content in before.items():
        if name in pages:
            assert without_menu(after[name]) == without_menu(content), name
            assert len(without_menu(content)) > 3000
            assert b"recipes/" in after[name]
        elif not name.startswith("sitemap.xml.gz"):
            assert after[name] == content, name
    assert gzip.decompress(after["sitemap.xml.gz"]) == gzip.decompress(before["sitemap.xml.gz"])
    assert {name for name in after.keys() - before.keys() if not name.startswith("recipes/")} == {MANIFEST}


@pytest.mark.parametrize("site", [True], ids=["own menu"], indirect=True)
def test_one_line_more_in_its_own_menu_and_nothing_else(site: Site) -> None:
    before, after = site.before, site.after
    line = re.compile(
        r'\s*<li class="md-(?:tabs|nav)__item">\s*<a href="[^"]*recipes/"(?:(?!</li>).)*</li>', re.S
    )
    blank = re.compile(r"\s+")
    pages = {name for name in before if name.endswith(".html")}
    for name in pages - {"work/page-2/index.html"}:  # which is followed by the book now
        left = NEIGHBOURS.sub("", line.sub("", after[name].decode()))
        assert blank.sub(" ", left) == blank.sub(" ", NEIGHBOURS.sub("", before[name].decode())), name


def test_the_books_pages_have_the_sites_name_and_both_menus(site: Site) -> None:
    html = site.after["recipes/blends/soft-clay/index.html"].decode()
    assert "Soft clay three to one – Salon handbook</title>" in html
    assert '<link rel="canonical" href="https://handbook.salon.example/recipes/blends/soft-clay/">' in html
    menu = html[html.index('id="bb-menu"') :]
    for address in ("../", "../../troubles/", "../../..", "../../../work/page-2/"):
        assert f'<a href="{address}"' in menu, address
    assert "https://code.salon.example/handbook" in menu
    assert "Closed on Monday." in html and "own.css" not in html
    assert re.search(r'rel="icon" href="(\.\./)*assets/images/favicon.png"', html)
    assert 'http-equiv="Content-Security-Policy"' in html


def test_search_cards_and_the_copy_are_the_books(site: Site) -> None:
    folder = site.folder / "recipes"
    names = json.loads((folder / "data/names.json").read_text(encoding="utf-8"))
    index = json.loads((folder / "data" / names["search"]).read_text(encoding="utf-8"))
    addresses = [address for address, *_ in index["entries"]]
    assert "blends/soft-clay/" in addresses and not any(each.startswith("recipes") for each in addresses)
    assert all((folder / each.partition("#")[0] / "index.html").is_file() for each in addresses)
    assert (folder / "sw.js").is_file() and not (folder.parent / "sw.js").exists()
    assert (folder / "manifest.webmanifest").is_file()
    card = (folder / "blends/soft-clay/card/index.html").read_text(encoding="utf-8")
    assert "https://handbook.salon.example/recipes/blends/soft-clay/" in card


@pytest.mark.long
def test_a_second_build_is_the_same_and_follows_an_edit(site: Site, tmp_path: Path) -> None:
    config, first = site.copied(tmp_path / "copy"), site.after
    assert bytes_of(published(config)) == first
    path = config.parent / "book" / BLEND_FILE
    path.write_text(path.read_text("utf-8").replace("Soft clay three", "Hard clay three"), encoding="utf-8")
    again = bytes_of(published(config))
    assert b"Hard clay three" in again["recipes/blends/soft-clay/index.html"]
    changed = {name for name in again if again[name] != first.get(name) and name.endswith(".html")}
    assert all(name.startswith("recipes/") for name in changed)


@pytest.mark.parametrize("site", [True], ids=["own menu"], indirect=True)
def test_spliced_pages_are_those_of_the_theme(site: Site, tmp_path: Path) -> None:
    config = site.copied(tmp_path / "copy")
    text = config.read_text(encoding="utf-8")
    config.write_text(text.replace("beneath: recipes/", "beneath: recipes/, splice: false"), encoding="utf-8")
    assert bytes_of(published(config)) == site.after


@pytest.mark.long
def test_the_sites_own_faults_are_not_the_books(tmp_path: Path) -> None:
    """A lost picture on a page of the site stops nothing; a link of an entry that leads nowhere does."""
    SmallBook(tmp_path / "book")
    config = other_site(tmp_path)
    add_book(config)
    (tmp_path / "docs/index.md").write_text('# H\n\n<img src="lost.png">\n', encoding="utf-8")
    config.write_text(config.read_text("utf-8") + "hooks: [hook.py]\n", encoding="utf-8")
    spoilt = """output.replace('</article>', '<a href="gone/">x</a></article>')"""
    hook = f"def on_post_page(output, page, config):\n    return {spoilt}\n"
    (tmp_path / "hook.py").write_text(hook, encoding="utf-8")
    with pytest.raises(NotPublished, match="gone") as refused:
        published(config)
    assert "lost.png" not in str(refused.value)


def test_a_theme_that_cannot_carry_it_is_refused_in_a_sentence(tmp_path: Path) -> None:
    SmallBook(tmp_path / "book")
    config = other_site(tmp_path)
    add_book(config)
    text = config.read_text(encoding="utf-8")
    theme = text[text.index("theme:") : text.index("extra_css")]
    config.write_text(text.replace(theme, "theme: readthedocs\n"), encoding="utf-8")
    said: list[str] = []
    with pytest.raises(BuildFailed):
        build_into(tmp_path / "site", config, judge(tmp_path / "book", DAY), said.append)
    assert said == [
        "mkdocs.yml: pages of a book need the theme material, not readthedocs. Write it under theme, name."
    ]


@pytest.mark.parametrize("value", ["/recipes/", "../x/", "a//b/", "a b/", ".hidden/", "7"])
def test_what_is_no_folder_of_a_site_is_refused(tmp_path: Path, value: str) -> None:
    SmallBook(tmp_path / "book")
    config = other_site(tmp_path)
    text = config.read_text(encoding="utf-8").replace(PLUGIN, PLUGIN + OWN.replace("recipes/", value))
    config.write_text(text, encoding="utf-8")
    with pytest.raises(BuildFailed):
        published(config)
    assert not (tmp_path / "site").exists()


def test_the_menu_of_the_trial_names_the_book_once(tmp_path: Path) -> None:
    config = other_site(tmp_path)
    add_book(config)
    assert config.read_text(encoding="utf-8").count(NAV + BOOK) == 1
