"""Links into the house's repository: where an entry is edited, and where a new blend is proposed."""

import re
from pathlib import Path
from types import SimpleNamespace
from typing import Any, cast

import pytest
from small_site import ROOT

from bowlbook.checks.judge import judge
from bowlbook.site.engine import build_into
from bowlbook.site.options import repository_of
from bowlbook.site.repository import Repository
from checks.small_book import DAY, SmallBook
from seeds import with_long

REPO = "https://git.salon.example/house/book"


def repository(top: Path, recipes: str = "recipes", new_file: str = "", **settings: str) -> Repository:
    """The repository of a book under ``top``, with these settings of ``mkdocs.yml``."""
    config = SimpleNamespace(
        config_file_path=str(top / "mkdocs.yml"),
        docs_dir=str(top / "docs"),
        **{key: settings.get(key) for key in ("repo_url", "edit_uri", "edit_uri_template")},
    )
    options = SimpleNamespace(new_file=new_file)
    return repository_of(cast(Any, config), cast(Any, options), top / recipes)


@pytest.mark.parametrize(
    "settings, edit",
    [
        ({"repo_url": REPO, "edit_uri": "edit/main/docs/"}, f"{REPO}/edit/main/recipes/blends/a.yml"),
        ({"repo_url": f"{REPO}/", "edit_uri": "-/edit/a/docs/"}, f"{REPO}/-/edit/a/recipes/blends/a.yml"),
        ({"repo_url": REPO, "edit_uri": "?query=main/docs/"}, f"{REPO}?query=main/recipes/blends/a.yml"),
        (
            {"edit_uri_template": f"{REPO}/open?file=docs/{{path}}&line=1"},
            f"{REPO}/open?file=recipes/blends/a.yml&line=1",
        ),
        ({"repo_url": REPO}, None),
        ({"edit_uri": "edit/main/docs/"}, None),  # it leads nowhere without a repository
        ({"repo_url": REPO, "edit_uri": ""}, None),
    ],
)  # fmt: skip
def test_an_entry_is_edited_where_mkdocs_would_edit_a_page(
    tmp_path: Path, settings: dict[str, str], edit: str | None
) -> None:
    assert repository(tmp_path, **settings).edit("blends/a.yml") == edit


def test_a_new_file_is_begun_beside_the_others(tmp_path: Path) -> None:
    known = repository(tmp_path, repo_url=REPO, edit_uri="edit/main/docs/")
    assert known.propose("blends") == f"{REPO}/new/main/recipes/blends?filename={{name}}&value={{text}}"
    other = repository(tmp_path, repo_url=REPO, edit_uri="src/main/docs/")
    assert other.propose("blends") is None
    said = repository(tmp_path, new_file=f"{REPO}/begin?in={{folder}}&name={{name}}&with={{text}}")
    assert said.propose("blends") == f"{REPO}/begin?in=recipes/blends&name={{name}}&with={{text}}"


def test_a_book_elsewhere_on_this_machine_has_no_links_and_shows_no_way_to_it(tmp_path: Path) -> None:
    (tmp_path / "site").mkdir()
    found = repository(tmp_path / "site", "../elsewhere/recipes", repo_url=REPO, edit_uri="edit/main/docs/")
    assert found.edit("blends/a.yml") is None
    assert found.from_top == "recipes"


@pytest.mark.parametrize("audience", with_long(["public"], ["team"]))
def test_each_entry_page_of_the_team_leads_to_its_file(tmp_path: Path, audience: str) -> None:
    book = SmallBook(tmp_path / "recipes")
    config = tmp_path / "mkdocs.yml"
    config.write_text(
        f"INHERIT: {ROOT / 'mkdocs.yml'}\ndocs_dir: docs\nrepo_url: {REPO}\n"
        f"edit_uri_template: edit/main/docs/{{path}}\nplugins: [bowlbook: {{recipes: recipes}}]\n"
        "nav: [Blends: blends/index.md]\n",
        encoding="utf-8",
    )
    for name in ("site", "docs"):
        (tmp_path / name).mkdir()
    build_into(tmp_path / "site", config, judge(book.root, DAY), print, audience=audience)
    links = {
        page.parent.relative_to(tmp_path / "site").as_posix(): re.findall(
            'class="bb-edit"><a href="([^"]*)"', page.read_text(encoding="utf-8")
        )
        for page in (tmp_path / "site").rglob("index.html")
    }
    entries = [path.relative_to(book.root).with_suffix("").as_posix() for path in book.root.glob("*/*.yml")]
    assert len(entries) > 5
    assert {page for page, found in links.items() if found} == (set(entries) if audience == "team" else set())
    assert all(links[page][0].endswith(f"/recipes/{page}.yml") for page in entries if audience == "team")
