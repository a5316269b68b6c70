"""The files of the theme, without its thousands of icons, which no build looks for by listing them."""

from pathlib import Path
from typing import Any

from jinja2 import Environment, FileSystemLoader

from bowlbook.site.manifest import files_under

ICONS = ".icons"
"""The theme's folder of icons: pictures that a template takes in by their names, and no templates."""


class ListedWithoutIcons(FileSystemLoader):
    """Loads whatever the folders hold, and lists all of it but the icons."""

    def list_templates(self) -> list[str]:
        """The name of every file, once, sorted."""
        return sorted({name for folder in self.searchpath for name in files_under(Path(folder), ICONS)})


def list_without_icons(theme: Any) -> None:
    """Let MkDocs list a theme's files without its icons.

    MkDocs publishes no hidden file of a theme, but would hold each of them against its patterns to find that.
    """
    made: Any = theme.get_env

    def get_env() -> Environment:
        env: Environment = made()
        env.loader = ListedWithoutIcons(theme.dirs)
        return env

    theme.get_env = get_env
