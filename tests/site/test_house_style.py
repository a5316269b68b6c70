"""A house's name, colours, logo and icon in mkdocs.yml, as any site of this theme sets them."""

import json
import re
from pathlib import Path

from mkdocs.config import load_config
from small_site import build, house_config

from bowlbook.pages.app_manifest import home_icon
from bowlbook.pages.asset import ASSETS
from bowlbook.pages.house_colours import HouseColours
from bowlbook.site.house_style import house_style, set_by
from checks.small_book import SmallBook


def style_of(folder: Path, palette: object, **sheets: str) -> HouseColours:
    """The house's style of a configuration with a palette, and with style sheets by name."""
    docs = folder / "docs"
    docs.mkdir()
    names = [f"{name}.css" for name in sheets]
    for name, text in sheets.items():
        (docs / f"{name}.css").write_text(text, encoding="utf-8")
    theme = {"name": "material", **({"palette": palette} if palette is not None else {})}
    config = load_config(docs_dir=str(docs), site_name="Quiet", theme=theme, extra_css=names, plugins=[])
    return house_style(config)


def test_no_palette_and_custom_alone_change_nothing(tmp_path: Path) -> None:
    assert style_of(tmp_path, {"scheme": "default", "primary": "custom", "accent": "custom"}) == ("", [])


def test_named_colours_are_the_themes_in_light_and_in_dark(tmp_path: Path) -> None:
    """The theme says that deep purple is #7e56c2, and that links of it in dark are #a47bea (Material 9.7)."""
    palette = [
        {"media": "(prefers-color-scheme)", "toggle": {"name": "Light"}},
        {"media": "(prefers-color-scheme: light)", "scheme": "default", "primary": "deep purple"},
        {
            "media": "(prefers-color-scheme: dark)",
            "scheme": "slate",
            "primary": "Deep-Purple",
            "accent": "teal",
        },
    ]
    style, warnings = style_of(tmp_path, palette)
    assert [each.split(":")[1].strip() for each in warnings] == [
        "deep purple (#7e56c2) cannot be read in light"
    ]
    assert "--act:#a47bea" in style.partition("dark")[2] and "--focus:#00bda4" in style


def test_an_unknown_name_is_warned_of_with_the_nearest(tmp_path: Path) -> None:
    style, [warning] = style_of(tmp_path, {"primary": "teel"})
    assert style == "" and warning.endswith("the theme knows no colour teel. Did you mean teal?")


def test_custom_colours_come_from_the_sites_own_style_sheets(tmp_path: Path) -> None:
    own = """
    :root { --md-primary-fg-color: #6a1b6e; /* ours: { } */ --md-accent-fg-color: hsl(210, 80%, 40%) }
    @media (min-width: 40em) { .md-header { --md-primary-fg-color: #123456 } }
    [data-md-color-scheme="slate"] { --md-primary-fg-color: #e0a0e4 }
    @media print { :root { --md-primary-fg-color: #000 } }
    """
    style, warnings = style_of(tmp_path, {"primary": "custom", "accent": "custom"}, brand=own)
    light, _, dark = style.partition("dark")
    assert warnings == []
    assert "--act:#6a1b6e" in light and "--focus:#1466b8" in light and "--act:#e0a0e4" in dark


def test_a_custom_colour_that_is_not_understood_is_warned_of(tmp_path: Path) -> None:
    style, [warning] = style_of(
        tmp_path, {"primary": "custom"}, own=":root{--md-primary-fg-color: var(--brand)}"
    )
    assert style == "" and "--md-primary-fg-color is var(--brand) and is not shown" in warning


def test_a_style_sheet_that_sets_the_looks_own_values_is_checked(tmp_path: Path) -> None:
    own = ':root { --ink-soft: #999; --care: tan } :root[data-scheme="dark"] { --ground: #555555 }'
    style, warnings = style_of(tmp_path, None, own=own)
    assert style == ""
    assert warnings[0] == "own.css: --care is tan in light: not checked, as it is not #rrggbb."
    assert warnings[1] == (
        "own.css: in light second text (ink-soft) on the page (ground) is 2.7, and needs 4.5 "
        "(WCAG 2.2, 1.4.3). It is shown as it is: choose another."
    )
    assert any("in dark second text (ink-soft) on the page (ground) is" in each for each in warnings)


def test_what_holds_in_which_scheme() -> None:
    found = set_by(
        '@import "x.css"; :root{--a:1} html[data-scheme="light"]{--b:2}'
        "@media (prefers-color-scheme: dark){:root:not([data-scheme=light]){--c:3}}"
        ".box{--d:4} :root .e{--e:5}"
    )
    assert found == {"any": {"a": "1"}, "light": {"b": "2"}, "dark": {"c": "3"}}


def test_a_built_site_shows_the_houses_colours_logo_and_icon(book: SmallBook) -> None:
    config = house_config(book)
    docs = config.parent / "docs"
    for name in ("logo.svg", "icon.svg"):
        (docs / name).write_text('<svg xmlns="http://www.w3.org/2000/svg"></svg>\n', encoding="utf-8")
    theme = "theme: {name: material, palette: {primary: teal}, logo: logo.svg, favicon: icon.svg}\n"
    config.write_text(re.sub("theme: .*\n", theme, config.read_text(encoding="utf-8")), encoding="utf-8")
    site = config.parent / "site"
    result = build(book, config)
    assert result.exit_code == 0, result.output
    assert result.stderr.count("primary: teal (#009485) cannot be read in light") == 1
    [sheet] = (site / "assets").glob("house-*.css")
    page = (site / "index.html").read_text(encoding="utf-8")
    ours, own = page.index("bowlbook.css"), page.index(sheet.name)
    assert ours < own and 'src="logo.svg"' in page and '<link rel="icon" href="icon.svg">' in page
    manifest = json.loads((site / "manifest.webmanifest").read_text(encoding="utf-8"))
    assert [icon["src"] for icon in manifest["icons"]] == ["icon.svg"]


def test_an_icon_for_the_home_screen_is_large_enough() -> None:
    ours = Path(ASSETS / "every_page" / "icon-192.png").read_bytes()
    found = home_icon("icon.png", ours)
    assert found is not None and found["sizes"] == "192x192"
    small = ours[:16] + (64).to_bytes(4, "big") * 2 + ours[24:]
    assert home_icon("icon.png", small) is None
    assert home_icon("icon.ico", b"") is None
