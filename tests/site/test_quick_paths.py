"""The quick ways of building against the slow one, which is the reference: the same site, to the byte."""

from pathlib import Path

import pytest
from small_site import ROOT, bytes_of, python

from bench.synthetic import write_book

pytestmark = pytest.mark.long
BUILD = """
import sys
from pathlib import Path
from bowlbook.checks.day import today
from bowlbook.checks.judge import judge
from bowlbook.site.engine import build_into
warnings = []
build_into(Path(sys.argv[2]), Path(sys.argv[3]), judge(Path(sys.argv[1]), today()), warnings.append)
assert warnings == [], warnings
"""


def built(recipes: Path, folder: Path, *, quick: bool, more: str = "") -> dict[str, bytes]:
    """A site built by two processes with the theme spliced, or by one with the theme rendered each time."""
    folder.mkdir()
    config = folder / "mkdocs.yml"
    config.write_text(
        f"INHERIT: {ROOT / 'mkdocs.yml'}\ndocs_dir: {ROOT / 'docs'}\n"
        f"plugins: [{{bowlbook: {{recipes: {recipes}, manual: true, splice: {str(quick).lower()}}}}}]\n"
        f"{more}",
        encoding="utf-8",
    )
    words = ("-c", BUILD, str(recipes), str(folder / "site"), str(config))
    done = python(*words, BOWLBOOK_PROCESSES="3" if quick else "1")
    assert done.returncode == 0, done.stderr
    return bytes_of(folder / "site")


def same(recipes: Path, tmp_path: Path, more: str = "", files: int = 150) -> dict[str, bytes]:
    """The files of a site that both ways build, more than so many."""
    slow = built(recipes, tmp_path / "slow", quick=False, more=more)
    quick = built(recipes, tmp_path / "quick", quick=True, more=more)
    assert sorted(slow) == sorted(quick)
    assert [name for name in slow if slow[name] != quick[name]] == []
    assert len(quick) > files
    return quick


def test_the_demo_book(recipes: Path, tmp_path: Path) -> None:
    same(recipes, tmp_path, files=300)


ASKS = [
    "<p>{{ page.url }} {{ page.title | upper }}</p>",
    "<p>{{ page.file.src_uri }}</p>",
    "<p>{{ page.content | length }} {{ page.meta.description }}</p>",
    "<p>{{ nav.pages | length }}{% for item in page.toc %}{{ item.title }}{% endfor %}</p>",
]


@pytest.mark.parametrize("template", ASKS)
def test_with_a_theme_that_asks_for_more(tmp_path: Path, template: str) -> None:
    """A house's own template sees each page as it is: such a shape is not spliced."""
    write_book(tmp_path / "recipes", 9)
    own = tmp_path / "own"
    (own / "partials").mkdir(parents=True)
    text = f"{{% if page %}}{template}{{% endif %}}"  # the page for what is not found has none
    (own / "partials" / "footer.html").write_text(text, encoding="utf-8")
    theme = f"theme: {{name: material, font: false, custom_dir: {own}}}\n"
    same(tmp_path / "recipes", tmp_path, theme)


HOOK = """
def on_page_content(html, page, config, files):
    return f"{html}<p>Added to {page.url}.</p>"

def on_env(env, config, files):
    for file in files:
        if file.src_uri.startswith("data/pick-"):
            file.content_bytes = file.content_bytes + b" "
"""


def test_with_another_plugin_that_changes_pages_and_documents(tmp_path: Path) -> None:
    write_book(tmp_path / "recipes", 9)
    (tmp_path / "hook.py").write_text(HOOK, encoding="utf-8")
    quick = same(tmp_path / "recipes", tmp_path, f"hooks: [{tmp_path / 'hook.py'}]\n")
    page = next(name for name in quick if name.startswith("blends/") and name.count("/") == 2)
    address = page.removesuffix("index.html")
    assert f"<p>Added to {address}.</p>".encode() in quick[page]
    assert all(text.endswith(b" ") for name, text in quick.items() if name.startswith("data/pick-"))


@pytest.mark.parametrize("seed", range(3))
def test_generated_books(tmp_path: Path, seed: int) -> None:
    write_book(tmp_path / "recipes", 40, seed=seed)
    same(tmp_path / "recipes", tmp_path, files=200)
