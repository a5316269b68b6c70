"""Pages by hand: rendered again where anything that they are made from has changed, and as MkDocs does."""

from pathlib import Path
from typing import Any

import pytest
from mkdocs.config import load_config
from mkdocs.structure.files import get_files
from mkdocs.structure.pages import Page

from bowlbook.cache.cache import Cache
from bowlbook.cache.store import Store
from bowlbook.site.hand_pages import HandPages, is_rendered_alone
from bowlbook.site.own_file import DocumentFile

TEXT = "# Wash\n\n## Rinse *well*\n\nTo [the glossary](words.md#a), to [nothing](gone.md), [here](#rinse).\n"
CONFIGURATION = "site_name: A\nplugins: []\nmarkdown_extensions: [tables]\n"


@pytest.fixture
def house(tmp_path: Path) -> Path:
    (tmp_path / "docs").mkdir()
    (tmp_path / "docs/wash.md").write_text(TEXT)
    (tmp_path / "docs/words.md").write_text("# Words\n")
    (tmp_path / "mkdocs.yml").write_text(CONFIGURATION)
    return tmp_path


def rendered(house: Path, through_cache: bool = True, document: str = "a.json") -> dict[str, Any]:
    """What is known of the page ``wash.md`` when it is rendered, in a site with this document."""
    config = load_config(str(house / "mkdocs.yml"))
    files = get_files(config)
    files.append(DocumentFile(document, None, config.site_dir, config.use_directory_urls))
    page = Page(None, files.src_uris["wash.md"], config)
    page.read_source(config)
    if through_cache:
        cache = Cache(Store(house / "store.sqlite"))
        HandPages(cache, config, files).render(page, config, files)
        cache.close()
    else:
        page.render(config, files)
    links = {file.src_uri: each for file, each in (page.links_to_anchors or {}).items()}
    return {
        "html": page.content,
        "contents": [(each.title, each.url, each.level) for each in page.toc],
        "title": page.title,
        "anchors": page.present_anchor_ids,
        "links": links,
    }


@pytest.fixture
def renderings(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """The pages that MkDocs renders."""
    found: list[str] = []
    render = Page.render

    def noted(page: Page, *given: Any) -> None:
        found.append(page.file.src_uri)
        render(page, *given)

    monkeypatch.setattr(Page, "render", noted)
    return found


def test_a_page_from_the_cache_is_as_mkdocs_renders_it(house, renderings, caplog) -> None:
    said = []
    for through_cache in (False, True, True):
        caplog.clear()
        said.append((rendered(house, through_cache), caplog.record_tuples))
    assert said[0] == said[1] == said[2]
    assert "not found among documentation files" in str(said[0][1])
    assert renderings == ["wash.md"] * 2


@pytest.mark.parametrize(
    ("file", "text"),
    [
        ("docs/wash.md", TEXT.replace("well", "long")),
        ("docs/gone.md", "# Found again\n"),
        ("mkdocs.yml", f"{CONFIGURATION}use_directory_urls: false\n"),
        ("mkdocs.yml", CONFIGURATION.replace("tables", "toc: {permalink: true}")),
        ("mkdocs.yml", f"{CONFIGURATION}validation: {{links: {{not_found: info}}}}\n"),
    ],
)
def test_what_a_page_is_made_from(house, renderings, caplog, file: str, text: str) -> None:
    rendered(house)
    (house / file).write_text(text)
    caplog.clear()
    found = rendered(house), caplog.record_tuples
    assert renderings == ["wash.md"] * 2
    caplog.clear()
    assert found == (rendered(house, through_cache=False), caplog.record_tuples)


def test_data_that_is_named_after_its_content_makes_no_page_again(house, renderings) -> None:
    """Every edit of figures gives the data of Pick by hair another name; a card may be linked to."""
    rendered(house)
    rendered(house, document="b.json")
    assert renderings == ["wash.md"]
    rendered(house, document="cards/b/index.html")
    assert renderings == ["wash.md"] * 2


@pytest.mark.parametrize(
    "more",
    ["hooks: [hook.py]", "extra: {a: !ENV HOME}", "INHERIT: other.yml", "plugins: [search, bowlbook]"],
)
def test_what_other_programs_may_change_is_not_kept(house, more: str) -> None:
    (house / "hook.py").write_text("")
    (house / "other.yml").write_text("site_name: B\n")
    assert is_rendered_alone(load_config(str(house / "mkdocs.yml")))
    for key in (more.split(":")[0], "markdown_extensions"):
        text = "".join(line for line in CONFIGURATION.splitlines(True) if not line.startswith(f"{key}:"))
        line = more if key != "markdown_extensions" else "markdown_extensions: [pymdownx.snippets]"
        (house / "mkdocs.yml").write_text(f"{text}{line}\n")
        assert not is_rendered_alone(load_config(str(house / "mkdocs.yml")))
