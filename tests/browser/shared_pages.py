"""Pages that tests share: a new page starts processes of Chromium, which take a second."""

from typing import Any, Protocol
from urllib.parse import urljoin

from playwright.sync_api import Browser, Frame, Page, ViewportSize

EMPTY = '<!doctype html><link rel="icon" href="data:,">'


class Open(Protocol):
    """`SharedPages.open`."""

    def __call__(
        self, viewport: ViewportSize, at: str = "", *, touch: bool = False, scripts: bool = True, **media: Any
    ) -> Page: ...


class SharedPages:
    """One page for each kind of device; `clear` takes back what a test did in it.

    A script (``add_init_script``) and a clock cannot be taken back, and are refused: a test that needs
    one, or permissions, makes a context of its own (fixture ``phone``).
    """

    def __init__(self, browser: Browser) -> None:
        self._browser = browser
        self._pages: dict[tuple[bool, bool], Page] = {}
        self._visited: dict[Page, set[str]] = {}

    def open(
        self, viewport: ViewportSize, at: str = "", *, touch: bool = False, scripts: bool = True, **media: Any
    ) -> Page:
        """A page of this size in CSS px, at an address or empty; ``media`` goes to ``Page.emulate_media``."""
        kind = (touch, scripts)
        if kind not in self._pages:
            self._pages[kind] = self._new(touch, scripts)
        page = self._pages[kind]
        page.set_viewport_size(viewport)
        page.emulate_media(**media)
        if at:
            page.goto(at)
        return page

    def clear(self) -> None:
        """Empty every page that was used: nothing loaded, stored or emulated."""
        for page, visited in self._visited.items():
            for origin in sorted(visited):
                forget(page, origin)
            visited.clear()
            page.emulate_media(media="null", color_scheme="null", reduced_motion="null", forced_colors="null")

    def _new(self, touch: bool, scripts: bool) -> Page:
        size = {"device_scale_factor": 2, "is_mobile": True, "has_touch": True} if touch else {}
        context = self._browser.new_context(java_script_enabled=scripts, service_workers="block", **size)
        page = context.new_page()
        page.add_init_script = context.add_init_script = page.clock.install = _refused
        visited = self._visited[page] = set()

        def visit(frame: Frame) -> None:
            if frame.url.startswith("http"):
                visited.add(urljoin(frame.url, "/"))

        page.on("framenavigated", visit)
        return page


def forget(page: Page, origin: str) -> None:
    """Clear what an address has stored on a phone; the page then has no script.

    The driver answers with an empty page: one that the server does not have would be an error in the console,
    which arrives late, in the next test. The page names an icon, or Chromium asks for ``favicon.ico``.
    """
    empty = urljoin(origin, "an-empty-page")
    page.route(empty, lambda route: route.fulfill(body=EMPTY, content_type="text/html"))
    page.goto(empty)
    page.unroute(empty)
    page.evaluate("localStorage.clear(); sessionStorage.clear()")


def _refused(*_args: object, **_options: object) -> None:
    raise AssertionError("this page is shared by many tests: take the fixture `phone` for scripts and clocks")
