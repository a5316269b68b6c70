"""The site's own scripts and styles: ordered by page in the source, side by side in the site."""

import re

from bowlbook.pages.asset import ASSETS, STYLE, STYLES, asset_paths, assets


def test_every_file_is_published_once_under_its_own_name() -> None:
    names = [path.name for path in asset_paths()]
    assert len(names) == len(set(names)) > 20
    assert {path.parent.parent for path in asset_paths()} == {ASSETS}


def test_the_style_sheet_is_its_source_without_comments() -> None:
    source = "".join((ASSETS / "look" / f"{name}.css").read_text(encoding="utf-8") for name in STYLES)
    style = assets()[STYLE].decode()
    assert "/*" in source and "/*" not in style and "*/" not in style
    assert style.count("{") == style.count("}") and source.split()[-1] == style.split()[-1]
    selectors = [line for line in source.splitlines() if line.startswith(".bb-")]
    assert len(selectors) > 200 and {line.split("/*")[0].rstrip() for line in selectors} <= {
        line.rstrip() for line in style.splitlines()
    }


def test_a_script_imports_what_is_published_beside_it() -> None:
    names = {path.name for path in asset_paths()}
    imported = {
        (path.name, found)
        for path in asset_paths()
        if path.suffix == ".js"
        for found in re.findall(r'(?:from|import|import\()\s*"\./([^"]+)"', path.read_text(encoding="utf-8"))
    }
    assert len(imported) > 15
    assert {found for _, found in imported} <= names
