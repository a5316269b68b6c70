"""Pages read by axe-core, the accessibility engine, in light and dark."""

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser

from tests.browser.conftest import PHONE

PAGES = [
    "",
    "blends/*",
    "situations/*",
    "finder/",
    "techniques/*",
    "products/*",
    "classes/*",
    "reports/costs/",
]
IN_DARK = PAGES[:4]


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_finds_nothing(browser: Browser, address: str, demo_site, scheme: str) -> None:
    context = browser.new_context(viewport=PHONE, color_scheme=scheme)
    page = context.new_page()
    found = []
    for path in PAGES if scheme == "light" else IN_DARK:
        if path.endswith("*"):
            path = f"{path[:-1]}{sorted(p.name for p in (demo_site / path[:-2]).iterdir() if p.is_dir())[0]}/"
        page.goto(address + path)
        response = Axe().run(page, options={"runOnly": ["wcag2a", "wcag2aa", "wcag21aa", "wcag22aa"]})
        for violation in response.response["violations"]:
            nodes = [node["html"][:120] for node in violation["nodes"][:3]]
            found.append(f"{path} {violation['id']}: {nodes}")
    context.close()
    assert found == []
