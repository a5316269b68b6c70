"""The list of a theme's files that MkDocs gets: all that it could publish, and no icon."""

from pathlib import Path

from jinja2 import FileSystemLoader
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import Files
from mkdocs.theme import Theme

from bowlbook.site.theme_files import ListedWithoutIcons, list_without_icons
from systems import needs_links


def folder_of(path: Path, *names: str) -> str:
    for name in names:
        (path / name).parent.mkdir(parents=True, exist_ok=True)
        (path / name).write_text(name, encoding="utf-8")
    return str(path)


@needs_links
def test_all_is_listed_but_icons(tmp_path: Path) -> None:
    """Against the loader of Jinja2 itself."""
    own = folder_of(tmp_path / "own", "main.html", "style/own.css", ".icons/own/a.svg")
    theirs = folder_of(tmp_path / "theirs", "main.html", "assets/b.js", ".icons/c.svg", "part/.icons/d.svg")
    (tmp_path / "own" / "gone.css").symlink_to("nowhere")
    expected = [
        name for name in FileSystemLoader([own, theirs]).list_templates() if ".icons" not in name.split("/")
    ]
    assert ListedWithoutIcons([own, theirs]).list_templates() == expected
    assert {"main.html", "style/own.css", "assets/b.js"} <= set(expected)


def test_mkdocs_publishes_the_same_files() -> None:
    config = MkDocsConfig()
    config.load_dict({"site_name": "A book", "theme": {"name": "material"}})
    config.validate()

    def published(theme: Theme) -> list[str]:
        files = Files([])
        files.add_files_from_theme(theme.get_env(), config)
        return [file.src_uri for file in files]

    before = published(config.theme)
    list_without_icons(config.theme)
    assert published(config.theme) == before != []
