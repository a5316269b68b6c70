"""A real Chromium and a web server for the demo site. Without Chromium the tests are skipped by name."""

import functools
import http.server
import os
import shutil
import threading
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, contextmanager
from datetime import date
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, ConsoleMessage, Error, Page, Request, sync_playwright
from tests.browser.bench_site import build_bench_site
from tests.browser.shared_pages import Open, SharedPages, forget
from tests.browser.small_house import write_small_house
from tests.conftest import Shared

from bowlbook.book.book import Book
from bowlbook.book.read_book import read_book
from bowlbook.checks.judge import judge
from bowlbook.site.engine import build_into
from bowlbook.site.publish import publish

ROOT = Path(__file__).parents[2]
BLOCKED = "Service Worker registration blocked"
"""What the driver says where a test keeps no copy; the copy has tests of its own."""
PHONE = {"width": 390, "height": 844}
DESK = {"width": 1280, "height": 900}
A_PHONE = {"viewport": PHONE, "device_scale_factor": 2, "is_mobile": True, "has_touch": True}
"""What makes a browser's context a phone."""


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    for item in items:
        if Path(__file__).parent in item.path.parents:
            item.add_marker(pytest.mark.browser)


def chromium() -> str | None:
    """The path of the Chromium that tests drive: CHROMIUM, else the system's, if it has one.

    The build without windows comes first: it is the same engine, and a test takes half the processor time.
    """
    return os.environ.get("CHROMIUM") or shutil.which("chromium-headless-shell") or shutil.which("chromium")


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    path = chromium()
    if path is None:
        how = "no Chromium: apt-get install chromium-headless-shell or chromium, or set CHROMIUM to its path"
        if os.environ.get("BOWLBOOK_BROWSER") == "required":
            pytest.fail(how)
        pytest.skip(how)
    with sync_playwright() as playwright:
        launched = playwright.chromium.launch(executable_path=path, args=["--no-sandbox"])
        yield launched
        launched.close()


class Quiet(http.server.SimpleHTTPRequestHandler):
    def log_message(self, *args: object) -> None:
        pass


@contextmanager
def served(folder: Path) -> Iterator[str]:
    """Where a folder is served, until the block ends."""
    handler = functools.partial(Quiet, directory=str(folder))
    with http.server.ThreadingHTTPServer(("127.0.0.1", 0), handler) as server:
        threading.Thread(target=server.serve_forever, daemon=True).start()
        yield f"http://127.0.0.1:{server.server_port}/"
        server.shutdown()


@pytest.fixture(scope="session")
def address(demo_site: Path) -> Iterator[str]:
    """Where the demo site is served: under a sub-folder, as a house might put it."""
    with served(demo_site.parent) as found:
        yield f"{found}{demo_site.name}/"


@pytest.fixture(scope="session")
def small_book(tmp_path_factory: pytest.TempPathFactory) -> Book:
    """The book of `small_house`."""
    book = read_book(write_small_house(tmp_path_factory.mktemp("small") / "recipes").root).book
    assert book is not None
    return book


def built(recipes: Path, site: Path, config: Path = ROOT / "mkdocs.yml", audience: str | None = None) -> None:
    """Build a book without errors into a new folder."""
    judgement = judge(recipes, date(2026, 11, 25))
    assert [each for each in judgement.findings if each.severity == "error"] == []
    warnings: list[str] = []
    publish(
        lambda into: build_into(into, config, judgement, warnings.append, audience=audience, recipes=recipes),
        site,
    )
    assert warnings == []


@pytest.fixture(scope="session")
def small_address(shared: Shared) -> Iterator[str]:
    """Where the site of `small_house` is served."""
    folder = shared("small", lambda made: built(write_small_house(made / "recipes").root, made / "site"))
    with served(folder / "site") as found:
        yield found


@pytest.fixture(scope="session")
def bench_folder(shared: Shared) -> Path:
    """The folder of `bench_site`: the book in ``recipes``, its site in ``site``."""
    return shared("bench", build_bench_site)


@pytest.fixture(scope="session")
def bench_address(bench_folder: Path) -> Iterator[str]:
    """Where the site of `bench_site` is served."""
    with served(bench_folder / "site") as found:
        yield found


@pytest.fixture(scope="session")
def asset_address(address: str) -> str:
    """Where the demo site's own scripts are."""
    from bowlbook.pages.asset import asset_folder

    return f"{address}{asset_folder()}/"


@pytest.fixture(scope="session")
def shared_pages(browser: Browser) -> SharedPages:
    """The pages that the tests of a worker share."""
    return SharedPages(browser)


@pytest.fixture
def open_page(shared_pages: SharedPages) -> Iterator[Open]:
    """Opens a page of a size, with nothing stored; see `SharedPages.open`."""
    yield shared_pages.open
    shared_pages.clear()


@pytest.fixture
def phone(browser: Browser) -> Iterator[BrowserContext]:
    """A phone of its own, for a test that adds scripts, sets the clock or keeps a copy."""
    context = browser.new_context(**A_PHONE, service_workers="block")
    yield context
    context.close()


LISTENING = """
window.notes = []; window.shaken = 0;
class Context {
  constructor() { this.state = 'suspended'; this.currentTime = 0; this.destination = {}; }
  resume() { this.state = 'running'; return Promise.resolve(); }
  createGain() {
    return { gain: { setValueAtTime() {}, linearRampToValueAtTime() {} }, connect: (to) => to };
  }
  createOscillator() {
    const start = function () { window.notes.push(this.frequency.value); };
    return { frequency: {}, connect: (to) => to, stop() {}, start };
  }
}
window.AudioContext = Context;
Object.defineProperty(navigator, 'vibrate', { value: () => { window.shaken += 1; return true; } });
"""
"""Records every tone and every shake: a headless browser makes neither."""


PhoneAt = Callable[[str, str], AbstractContextManager[Page]]


@pytest.fixture(scope="session")
def clocked(browser: Browser) -> Iterator[Page]:
    """A phone with a clock that tests set, which records its tones."""
    context = browser.new_context(**A_PHONE, service_workers="block")
    context.add_init_script(LISTENING)
    yield context.new_page()
    context.close()


@pytest.fixture
def phone_at(clocked: Page) -> PhoneAt:
    """Opens an address at a time, on a phone with nothing stored; no fault of the page is let pass."""

    @contextmanager
    def opened(address: str, time: str) -> Iterator[Page]:
        watched = Watched(clocked)
        clocked.clock.install(time=time)
        clocked.goto(address)
        yield clocked
        watched.stop()
        forget(clocked, address)
        assert watched.faults == []

    return opened


def wait_for_timers(page: Page) -> None:
    """Wait for the timers' script, which a page fetches by itself where something was timed before."""
    page.evaluate(
        "import(document.querySelector('script[src$=\"/site.js\"]').src.replace('site.js', 'timer_bar.js'))"
    )


class Watched:
    """A page that records what went wrong in it and which addresses it asked for."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.faults: list[str] = []
        self.requests: list[str] = []
        page.on("console", self._console)
        page.on("pageerror", self._error)
        page.on("request", self._request)

    def opened(self, address: str) -> Page:
        """The page, at an address."""
        self.page.goto(address)
        return self.page

    def stop(self) -> None:
        """Watch no longer: the page is used again by another test."""
        self.page.remove_listener("console", self._console)
        self.page.remove_listener("pageerror", self._error)
        self.page.remove_listener("request", self._request)

    def _error(self, error: Error) -> None:
        self.faults.append(str(error))

    def _request(self, request: Request) -> None:
        self.requests.append(request.url)

    def _console(self, message: ConsoleMessage) -> None:
        if message.type in ("error", "warning") and not message.text.startswith(BLOCKED):
            self.faults.append(message.text)


@pytest.fixture
def watched(open_page: Open) -> Iterator[Watched]:
    """A phone's page that is shared with other tests: no scripts and no clock may be added to it."""
    made = Watched(open_page(PHONE, touch=True))
    yield made
    made.stop()
