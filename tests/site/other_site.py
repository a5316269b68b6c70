"""A site of ten pages with settings of its own, to put a book beneath."""

from pathlib import Path

CONFIG = """\
site_name: Salon handbook
site_url: https://handbook.salon.example/
repo_url: https://code.salon.example/handbook
repo_name: handbook
copyright: The handbook is ours.
theme:
  name: material
  custom_dir: own
  logo: logo.svg
  font: {text: Lato}
  features: [navigation.tabs, navigation.footer, navigation.instant]
  palette:
    - {scheme: default, primary: teal, accent: pink, toggle: {icon: material/weather-night, name: Dark}}
    - {scheme: slate, primary: brown, accent: lime, toggle: {icon: material/weather-sunny, name: Light}}
extra_css: [own.css]
extra_javascript: [own.js]
extra: {social: [{icon: material/phone, link: 'https://salon.example/phone'}]}
"""
NAV = """\
nav:
  - Start: index.md
  - Work:
      - Hours: work/page-1.md
      - Deep: [{Further: work/page-2.md}]
"""
BOOK = "  - What we mix: recipes/index.md\n"
PLUGIN = "plugins:\n  - search\n"
OWN = "  - bowlbook: {recipes: book, beneath: recipes/}\n"
MAIN = '{% extends "base.html" %}{% block announce %}Closed on Monday.{% endblock %}\n'


def other_site(folder: Path, *, menu: bool = True) -> Path:
    """Write the site; returns its configuration, without a book."""
    for name, text in {
        "own/main.html": MAIN,
        "docs/own.css": "body { --own: 1; }\n",
        "docs/own.js": "window.own = 1;\n",
        "docs/logo.svg": '<svg xmlns="http://www.w3.org/2000/svg"></svg>\n',
        "docs/index.md": "# Handbook\n\nOur hours, our people. [Hours](work/page-1.md)\n",
    }.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    for number in range(1, 10):
        path = folder / "docs" / ("work" if number < 5 else "people") / f"page-{number}.md"
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(f"# Page {number}\n\nAbout {number}.\n\n## Further\n\nMore.\n", encoding="utf-8")
    config = folder / "mkdocs.yml"
    config.write_text(CONFIG + (NAV if menu else "") + PLUGIN, encoding="utf-8")
    return config


def add_book(config: Path) -> None:
    """Put the book into the configuration, and a line for it at the end of the menu where there is one."""
    text = config.read_text(encoding="utf-8").replace(PLUGIN, PLUGIN + OWN)
    config.write_text(text.replace(NAV, NAV + BOOK), encoding="utf-8")
