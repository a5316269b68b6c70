"""The copy on the phone: the whole book without a network, under a sub-folder; updates come whole or not."""

import functools
import http.server
import io
import os
import shutil
import threading
from collections.abc import Iterator
from pathlib import Path
from typing import BinaryIO

import pytest
from playwright.sync_api import Browser, BrowserContext, Page
from tests.browser.conftest import PHONE, Quiet, Watched

from bowlbook.site.manifest import files_under
from bowlbook.site.offline import write_copy
from bowlbook.site.plugin import WORKER

LONG = bool(os.environ.get("BOWLBOOK_LONG"))


class Fresh(Quiet):
    """Gives a file whole each time: ``Last-Modified`` does not tell two sites of one second apart."""

    def send_head(self) -> io.BytesIO | BinaryIO | None:
        del self.headers["If-Modified-Since"]
        return super().send_head()


class Host:
    """A web server for a folder that can be changed, and cut off."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.server = http.server.ThreadingHTTPServer(
            ("127.0.0.1", 0), functools.partial(Fresh, directory=str(folder))
        )
        threading.Thread(target=self.server.serve_forever, daemon=True).start()
        self.address = f"http://127.0.0.1:{self.server.server_port}/salon/book/"

    def close(self) -> None:
        """No network any more."""
        self.server.shutdown()
        self.server.server_close()

    @property
    def site(self) -> Path:
        return self.folder / "salon" / "book"


@pytest.fixture
def host(demo_site: Path, tmp_path: Path) -> Iterator[Host]:
    made = Host(tmp_path)
    made.site.parent.mkdir()
    shutil.copytree(demo_site, made.site)
    yield made
    made.close()


@pytest.fixture
def visitor(browser: Browser) -> Iterator[BrowserContext]:
    context = browser.new_context(viewport=PHONE)
    yield context
    context.close()


def visit(context: BrowserContext, host: Host, path: str = "") -> Page:
    """A first visit, until the copy stands."""
    page = context.new_page()
    page.goto(host.address + path)
    page.evaluate("async () => { await navigator.serviceWorker.ready; }")
    page.wait_for_function("() => navigator.serviceWorker.controller !== null")
    return page


@pytest.fixture(scope="module")
def newer(demo_site: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo site after a change: other figures on one page, other data, and one page withdrawn."""
    site = tmp_path_factory.mktemp("newer") / "site"
    shutil.copytree(demo_site, site, ignore=shutil.ignore_patterns("copy", "sw.js"))
    page = site / "blends" / "cool-foil-coarse" / "index.html"
    page.write_text(page.read_text(encoding="utf-8").replace(">1.50<", ">1.25<"), encoding="utf-8")
    shutil.rmtree(site / "situations" / "level-8-soft-sweep")
    data = next((site / "data").glob("pick-*.json"))
    data.rename(data.with_name("pick-0123456789.json"))
    page_of_it = site / "pick" / "index.html"
    page_of_it.write_text(
        page_of_it.read_text(encoding="utf-8").replace(data.name, "pick-0123456789.json"), encoding="utf-8"
    )
    write_copy(site, files_under(site), WORKER.read_text(encoding="utf-8"))
    return site


def deploy(host: Host, site: Path, page: Page, fault: str = "") -> None:
    """Put a site in the host's place at once, as the browser may ask for it at any moment.

    ``page``: where `update` is asked for next. ``fault``: how one of the new parts arrived: "old", "missing"
    or "short".
    """
    fresh = host.folder / "fresh"
    shutil.copytree(site, fresh)
    if fault:
        olds = sorted(path.name for path in (host.site / "copy").iterdir())
        parts = sorted(path for path in (fresh / "copy").iterdir() if path.name not in olds)
        assert len(parts) >= 3
        part = parts[0]
        if fault == "missing":
            part.unlink()
        else:
            spoilt = (host.site / "copy" / olds[0]).read_bytes()
            part.write_bytes(spoilt if fault == "old" else part.read_bytes()[:-20])
    page.evaluate("async () => { window.before = (await navigator.serviceWorker.ready).active; }")
    host.site.rename(host.folder / "last")
    fresh.rename(host.site)
    shutil.rmtree(host.folder / "last")


def update(page: Page) -> str:
    """Ask for a newer worker until one is found; returns the state that it ends in, "none" after ten seconds.

    More than once: the browser asks by itself after a visit, and a request meanwhile gets the same answer.
    It may also have found one before anybody asked.
    """
    state: str = page.evaluate(
        """async () => {
          const soon = () => new Promise(done => setTimeout(done, 20));
          const registration = await navigator.serviceWorker.ready;
          let worker = registration.installing;
          if (!worker && registration.active !== window.before) worker = registration.active;
          registration.addEventListener('updatefound', () => { worker = registration.installing; });
          const end = Date.now() + 10000;
          while (!worker && Date.now() < end) { await registration.update().catch(() => null); await soon(); }
          const ended = () => ['redundant', 'activated'].includes(worker.state);
          while (worker && !ended() && Date.now() < end) await soon();
          return worker ? worker.state : 'none';
        }"""
    )
    return state


@pytest.mark.more
def test_every_page_without_a_network(visitor: BrowserContext, host: Host) -> None:
    page = visit(visitor, host)
    pages = sorted(path.parent.relative_to(host.site).as_posix() for path in host.site.rglob("index.html"))
    assert len(pages) > 150
    host.close()
    paths = ["" if path == "." else f"{path}/" for path in pages]
    asked = paths if LONG else paths[::12]
    ask = "async (all) => Promise.all(all.map(async (url) => { const a = await fetch(url);"
    ask += " return a.status === 200 && (await a.text()).includes('</html>'); }))"
    had = page.evaluate(ask, [host.address + path for path in asked])
    assert [path for path, whole in zip(asked, had, strict=True) if not whole] == []
    for path in paths[:: 15 if LONG else 120]:
        answer = page.goto(host.address + path)
        assert answer is not None and answer.status == 200, path
        assert answer.from_service_worker
    page.goto(host.address + "blends/cool-foil-coarse/")
    page.locator("#bb-any > summary").click()
    page.locator("#bench-batch").fill("0.5")
    page.locator("#bench-step").fill("0.05")
    shown = page.locator(".bb-panel:visible .bb-pours .bb-shows")
    assert shown.all_inner_texts() == ["0.35", "0.50", "1.50"]
    page.goto(host.address + "pick/?natural_level=4&texture=coarse&tone=cool")
    page.locator("#bb-none").click()
    page.locator("#bb-first b").last.wait_for()
    assert page.locator("#bb-first b").all_inner_texts() == ["0.33 oz", "0.50 oz", "1.50 oz"]
    page.get_by_role("button", name="Search").click()
    page.get_by_label("Search the book").fill("bleach")
    page.locator(".bb-search-list a").first.wait_for()
    page.locator("#bb-age", has_text="received").wait_for()
    gone = page.goto(host.address + "blends/never-was/")
    assert gone is not None and gone.status == 404


@pytest.mark.long
def test_an_update_arrives_whole_and_says_so(visitor: BrowserContext, host: Host, newer: Path) -> None:
    page = visit(visitor, host, "blends/cool-foil-coarse/")
    page.goto(host.address + "blends/cool-foil-coarse/")
    assert page.locator(".bb-panel .bb-shows").all_inner_texts()[:3] == ["0.33", "0.50", "1.50"]
    deploy(host, newer, page)
    assert update(page) == "activated"
    page.get_by_text("A new copy of the book has arrived.").wait_for()
    page.get_by_role("button", name="Show it").click()
    page.wait_for_load_state("load")
    assert page.locator(".bb-panel .bb-shows").all_inner_texts()[:3] == ["0.33", "0.50", "1.25"]
    gone = page.goto(host.address + "situations/level-8-soft-sweep/")  # withdrawn: gone at the next contact
    assert gone is not None and gone.status == 404
    assert len(page.evaluate("async () => await caches.keys()")) == 1  # no old copy left


@pytest.mark.long
@pytest.mark.parametrize("fault", ["old", "missing", "short"])
def test_an_update_half_deployed_is_refused_whole(
    visitor: BrowserContext, host: Host, newer: Path, fault: str
) -> None:
    """Three ways of half: a part of the old site in the place of a part, a part missing, a part cut short."""
    page = visit(visitor, host, "blends/cool-foil-coarse/")
    deploy(host, newer, page, fault)
    assert update(page) == "redundant"
    page.goto(host.address + "blends/cool-foil-coarse/")
    assert page.locator(".bb-panel .bb-shows").all_inner_texts()[:3] == ["0.33", "0.50", "1.50"]
    still = page.goto(host.address + "situations/level-8-soft-sweep/")
    assert still is not None and still.status == 200
    page.wait_for_function("async () => (await caches.keys()).length === 1")
    deploy(host, newer, page)  # mended, and it arrives
    while update(page) == "redundant":  # begun before it was mended
        pass
    page.get_by_text("A new copy of the book has arrived.").wait_for()


@pytest.mark.long
def test_an_old_page_never_has_new_data(visitor: BrowserContext, host: Host, newer: Path) -> None:
    """A page from before the update asks for its own data by their content, and gets no others."""
    page = visit(visitor, host, "pick/")
    mine = page.locator("#bb-pick").get_attribute("data-pick")
    deploy(host, newer, page)
    assert update(page) == "activated"
    page.get_by_text("A new copy of the book has arrived.").wait_for()
    status = page.evaluate("async (name) => (await fetch(name, {cache: 'no-store'})).status", mine)
    assert status == 404


def test_manifest_for_the_home_screen(watched: Watched, address: str) -> None:
    page = watched.opened(address)
    found = page.evaluate(
        "async () => { const link = document.querySelector('link[rel=manifest]').href;"
        "return [await (await fetch(link)).json(), link]; }"
    )
    manifest, link = found
    assert manifest["name"] == "The Quiet Bowl" and manifest["display"] == "standalone"
    sizes = set()
    for icon in manifest["icons"]:
        assert (
            page.evaluate(
                "async (url) => (await fetch(url)).status", link.rsplit("/", 1)[0] + "/" + icon["src"]
            )
            == 200
        )
        sizes.add(icon["sizes"])
    assert sizes == {"192x192", "512x512"}
