"""The page for lost addresses: a page of the site at any depth, under its own folder and under another."""

import http.server
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from playwright.sync_api import Browser
from tests.browser.conftest import PHONE, ROOT, Quiet, built
from tests.browser.small_house import write_small_house

pytestmark = pytest.mark.long

DEPTHS = ("gone", "blends/gone/", "blends/gone/card/nowhere/", "a/b/c/d/e")
STYLED = """() => getComputedStyle(document.querySelector('.bb-header')).display === 'flex'
  && getComputedStyle(document.querySelector('.bb-links a')).display === 'block'
  && getComputedStyle(document.documentElement).colorScheme === 'dark'"""


@contextmanager
def host(site: Path, folder: str) -> Iterator[str]:
    """Serves a site in a folder of a host; what is not there is answered by 404.html, as hosts do."""

    class Handler(Quiet):
        def do_GET(self) -> None:
            path = self.path.partition("?")[0]
            file = site / path.removeprefix(folder) if path.startswith(folder) else site / "404.html"
            file = file / "index.html" if file.is_dir() else file
            found = path.startswith(folder) and file.is_file()
            file = file if found else site / "404.html"
            self.send_response(200 if found else 404)
            self.send_header("Content-Type", self.guess_type(file))
            self.send_header("X-Content-Type-Options", "nosniff")
            self.end_headers()
            self.wfile.write(file.read_bytes())

    with http.server.ThreadingHTTPServer(("127.0.0.1", 0), Handler) as server:
        threading.Thread(target=server.serve_forever, daemon=True).start()
        yield f"http://127.0.0.1:{server.server_port}{folder}"
        server.shutdown()


def site_for(base: Path, address: str) -> Path:
    """The small house built for an address."""
    recipes, config = write_small_house(base / "recipes").root, base / "mkdocs.yml"
    config.write_text(
        f"INHERIT: {ROOT / 'mkdocs.yml'}\nsite_url: '{address}'\ndocs_dir: {ROOT / 'docs'}\n",
        encoding="utf-8",
    )
    built(recipes, base / "site", config)
    return base / "site"


@pytest.fixture(scope="module")
def in_a_folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return site_for(tmp_path_factory.mktemp("folder"), "https://host.example/north/book/")


@pytest.fixture(scope="module")
def without(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return site_for(tmp_path_factory.mktemp("without"), "")


@pytest.mark.parametrize(
    "site, folder",
    [
        ("in_a_folder", "/elsewhere/"),
        ("without", "/a/b/"),
        ("in_a_folder", "/north/book/"),
        ("without", "/"),
    ],
)
def test_a_lost_address_leads_on(
    browser: Browser, request: pytest.FixtureRequest, site: str, folder: str
) -> None:
    context = browser.new_context(viewport=PHONE, service_workers="block", color_scheme="dark")
    page = context.new_page()
    faults: list[str] = []
    page.on("pageerror", lambda error: faults.append(str(error)))
    with host(request.getfixturevalue(site), folder) as address:
        for depth in DEPTHS:
            assert page.goto(address + depth).status == 404
            page.wait_for_function(STYLED)
            links = page.locator("article a, .bb-menu a, .bb-home").evaluate_all(
                "all => all.map(each => each.href)"
            )
            assert len(links) > 25
            for link in dict.fromkeys(links):
                assert link.startswith(address), (depth, link)
                if depth == "blends/gone/":
                    assert page.request.get(link).status == 200, link
        page.goto(address + "blends/gone/")
        page.get_by_role("link", name="Pick by hair").last.click()
        page.locator("h1", has_text="Pick by hair").wait_for()
        page.goto(address + "blends/gone/")
        page.get_by_role("link", name="Search By any word").click()
        page.get_by_label("Search the book").wait_for()
        assert faults == []
    context.close()


def test_without_scripts_the_configured_address_does(browser: Browser, in_a_folder: Path) -> None:
    context = browser.new_context(viewport=PHONE, java_script_enabled=False)
    page = context.new_page()
    with host(in_a_folder, "/north/book/") as address:
        assert page.goto(address + "techniques/gone/now/").status == 404
        assert page.locator("h1").inner_text() == "This page is not here"
        page.locator("article").get_by_role("link", name="Techniques").click()
        assert page.url == address + "techniques/"
    context.close()
