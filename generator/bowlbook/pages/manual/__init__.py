"""The manual: pages for whoever writes recipes, which come with the program."""

from functools import cache
from pathlib import Path

HERE = Path(__file__).parent
ADDRESS = "reference/"
"""Where the manual is in a site that has it."""
FINDINGS, FIELDS = f"{ADDRESS}findings/", f"{ADDRESS}fields/"
"""The pages that are made from the program."""
TITLES = {
    "begin": "Begin a book",
    "write": "Write a recipe",
    "spreadsheet": "From a spreadsheet",
    "commands": "Commands",
    "services": "How services are reckoned",
    "publish": "Publish the site",
    "host": "Any store and network",
    "group": "A group of salons",
    "speed": "How long it takes",
}
"""The pages written by hand, by the names of their files, with their titles in a menu."""


@cache  # asked for each page that is rendered
def manual_files() -> dict[str, Path]:
    """The pages written by hand: the path from the site's top, and the file."""
    return {f"{ADDRESS}{name}.md": HERE / f"{name}.md" for name in TITLES}


def manual_menu() -> list[tuple[str, str]]:
    """Titles and files of the whole manual, in a menu's order."""
    listed = [(title, f"{ADDRESS}{name}.md") for name, title in TITLES.items()]
    made = [("Every field", f"{FIELDS}index.md"), ("Findings", f"{FINDINGS}index.md")]
    return listed[:3] + made + listed[3:]
