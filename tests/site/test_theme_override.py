"""A house's own template over the theme: it extends ours, and a template that drops our scripts is named."""

from pathlib import Path

import pytest
from test_plain_mkdocs import plain_build

from checks.small_book import SmallBook

pytestmark = pytest.mark.long


@pytest.fixture
def theme(book: SmallBook, config: Path) -> Path:
    """The folder of the house's templates, named by its configuration."""
    folder = config.parent / "theme"
    folder.mkdir()
    with config.open("a", encoding="utf-8") as file:
        file.write("theme: {name: material, font: false, custom_dir: theme}\n")
    return folder


def template(folder: Path, block: str, text: str) -> None:
    """An ordinary override, as the theme's own documentation shows it."""
    text = f'{{% extends "base.html" %}}\n{{% block {block} %}}{text}{{% endblock %}}\n'
    (folder / "main.html").write_text(text, encoding="utf-8")


def test_an_ordinary_template_keeps_the_scripts(config: Path, theme: Path) -> None:
    """Under plain MkDocs, which looks nothing over: scripts, policy and menu are there, and the block too."""
    template(theme, "announce", "Closed on Monday")
    site = config.parent / "site"
    code, said = plain_build(config, site)
    assert code == 0 and "keep the book's scripts" not in said, said
    for name in ("index.html", "blends/soft-clay/index.html", "safety/index.html"):
        page = (site / name).read_text(encoding="utf-8")
        for wanted in ("/site.js", "Content-Security-Policy", "Closed on Monday", 'id="bb-menu"'):
            assert wanted in page, (name, wanted)
