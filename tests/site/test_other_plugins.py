"""A book beneath a site that uses other plugins: each of those that are installed, before the book and after.

`pip install .[plugins]` installs them; one that is missing is skipped, and named.
"""

import os
import subprocess
import sys
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path

import pytest
from other_site import OWN, PLUGIN, add_book, other_site

from checks.small_book import SmallBook
from commands.git import commit, git

PLUGINS = {
    "mkdocs-awesome-nav": "awesome-nav",
    "mkdocs-redirects": "redirects: {redirect_maps: {old.md: recipes/blends/soft-clay/index.md}}",
    "mkdocs-macros-plugin": "macros",
    "mkdocs-minify-plugin": "minify: {minify_html: true}",
    "mkdocs-git-revision-date-plugin": "git-revision-date",
    "mkdocs-git-revision-date-localized-plugin": "git-revision-date-localized",
    "mkdocs-glightbox": "glightbox",
}
"""Distributions, and the line of each under plugins."""


def built(top: Path, line: str, before: bool) -> Path:
    """The site with the small book and a plugin; with its menu in a file for the plugin that reads one."""
    menu = not line.startswith("awesome-nav")
    config = other_site(top, menu=menu)
    if not menu:
        (top / "docs/.nav.yml").write_text("nav:\n  - Start: index.md\n  - What we mix: recipes/index.md\n")
    SmallBook(top / "book")
    add_book(config)
    at = PLUGIN if before else OWN
    config.write_text(config.read_text().replace(at, f"{at}  - {line}\n"))
    git(top, "init", "-q")
    commit(top, tag="one")
    words = (sys.executable, "-m", "bowlbook.commands", "build", "--site", "site", "--recipes", "book")
    done = subprocess.run(words, cwd=top, capture_output=True, text=True, env=dict(os.environ), check=False)
    assert done.returncode == 0, done.stdout + done.stderr
    return top / "site"


@pytest.mark.long
@pytest.mark.parametrize("before", [True, False], ids=["before the book", "after the book"])
@pytest.mark.parametrize("name", PLUGINS)
def test_a_site_with_another_plugin(tmp_path: Path, name: str, before: bool) -> None:
    try:
        version(name)
    except PackageNotFoundError:
        pytest.skip(f"{name} is not installed: pip install .[plugins]")
    site = built(tmp_path, PLUGINS[name], before)
    page = (site / "recipes/blends/soft-clay/index.html").read_text(encoding="utf-8")
    assert "Soft clay three to one" in page and "Content-Security-Policy" in page
    assert "Scale" in page and "glightbox" not in page and "<script>" not in page
    if name == "mkdocs-redirects":  # before the book it does not know the page yet
        moved = site / "old/index.html"
        assert moved.exists() == (not before)
        assert before or "recipes/blends/soft-clay" in moved.read_text(encoding="utf-8")
