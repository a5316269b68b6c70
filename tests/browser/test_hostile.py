"""Hostile entries in a real browser: all that a stranger writes comes out as text, or is refused."""

import os
import re
import shutil
from collections.abc import Iterator
from html.parser import HTMLParser
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page
from tests.browser.conftest import ROOT, served
from tests.browser.hostile import EVERY
from tests.browser.hostile_book import write_hostile_book

from bowlbook.checks.day import today
from bowlbook.checks.judge import judge
from bowlbook.site.engine import build_into
from bowlbook.site.publish import publish

LONG = os.environ.get("BOWLBOOK_LONG", "")
TEXTS = EVERY[::6] if LONG == "short" else EVERY
WATCH = """
window.ran = [];
window.hit = what => { ran.push('hit ' + what); };
for (const name of ['alert', 'confirm', 'prompt', 'open']) window[name] = () => { ran.push(name); };
addEventListener('securitypolicyviolation', e => ran.push('policy ' + e.violatedDirective));
"""
"""Notices anything that ran, and anything that only the policy kept from running."""


@pytest.fixture(scope="module")
def site(recipes: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("hostile")
    taken, refused = write_hostile_book(folder / "recipes", recipes, TEXTS)
    assert taken > 15 * len(TEXTS) and refused > 15 * len(TEXTS)
    print(f"{len(TEXTS)} texts: {taken} fields took one, {refused} refused one")
    judgement = judge(folder / "recipes", today())
    errors = [each for each in judgement.findings if each.severity == "error"]
    assert errors == []
    warnings: list[str] = []
    config = ROOT / "mkdocs.yml"
    publish(lambda into: build_into(into, config, judgement, warnings.append), folder / "site")
    assert warnings == []
    return folder / "site"


@pytest.fixture(scope="module")
def address_of_it(site: Path) -> Iterator[str]:
    with served(site) as found:
        yield found


@pytest.fixture(params=["under the policy", "without the policy"])
def context(request: pytest.FixtureRequest, browser: Browser) -> Iterator[BrowserContext]:
    """Both ways, so that the policy is the second lock and not the only one."""
    made = browser.new_context(bypass_csp=request.param == "without the policy", service_workers="block")
    made.add_init_script(WATCH)
    yield made
    made.close()


class Watch:
    """A page that notes what ran in it and whom else it asked."""

    def __init__(self, context: BrowserContext, own: str) -> None:
        self.page: Page = context.new_page()
        self.outside: list[str] = []
        self.page.on(
            "request",
            lambda request: None if request.url.startswith(own) else self.outside.append(request.url),
        )
        self.page.on("dialog", lambda dialog: self.outside.append(f"dialog {dialog.message}"))

    def see(self, address: str) -> list[str]:
        """Open an address and touch what a script could wait for."""
        self.page.goto(address)
        self.page.evaluate(
            "for (const each of document.querySelectorAll('body *'))"
            " for (const name of ['mouseover', 'focus', 'toggle'])"
            " each.dispatchEvent(new Event(name, {bubbles: true}))"
        )
        ran: list[str] = self.page.evaluate("ran")
        return [f"{address}: {what}" for what in ran]


def pages_of(site: Path) -> list[str]:
    """Every page that holds a hostile text, and every overview; cards and handouts too.

    Moved addresses are left out: they lead on to pages that are looked at.
    """
    paths = [
        path for path in sorted(site.rglob("*.html")) if b'http-equiv="refresh"' not in path.read_bytes()
    ]
    names = [path.relative_to(site).as_posix() for path in paths]
    held = [name for name in names if "hostile-" in name or not re.match("(heads|reference)/.", name)]
    return held[::4] if LONG == "short" else held


@pytest.mark.long
def test_nothing_runs_in_any_page(site: Path, address_of_it: str, context: BrowserContext) -> None:
    watch = Watch(context, address_of_it)
    pages = pages_of(site)
    assert len(pages) > 10
    found = [what for name in pages for what in watch.see(address_of_it + name)]
    assert found == [] and watch.outside == []


@pytest.mark.long
def test_nothing_runs_in_search_or_pick(address_of_it: str, context: BrowserContext) -> None:
    watch = Watch(context, address_of_it)
    page = watch.page
    page.goto(address_of_it)
    page.get_by_role("button", name="Search").click()
    field = page.get_by_label("Search the book")
    for words in ("onerror", "javascript", "outside", "config", "script", "hit"):
        field.fill(words)
        page.wait_for_timeout(150)
        if words in ("script", "hit"):
            assert page.locator(".bb-search-list a").count() > 0
    assert page.evaluate("ran") == []
    page.goto(address_of_it + "pick/?natural_level=4&texture=coarse&tone=cool")
    page.locator("#bb-none").click()
    page.wait_for_timeout(500)
    assert page.evaluate("ran") == [] and watch.outside == []
    assert "hit(" in page.locator("article").inner_text()
    page.goto(address_of_it + "try/")
    page.get_by_text("Begin with a recipe of the book").click()
    for field in ("#try-bases select", "#try-developer", "#try-recipe"):
        page.locator(field).first.select_option(index=1)
    page.get_by_role("button", name="Begin with it").click()
    for field in ("#try-name", "#try-notes"):
        page.locator(field).fill("<img src=x onerror=ran.push(1)><script>ran.push(2)</script>")
    page.locator("#try-keep").click()
    page.wait_for_timeout(300)
    assert page.evaluate("ran") == [] and watch.outside == []
    assert "hit(" in page.locator("article").inner_text()


class Attributes(HTMLParser):
    """Attributes that could run something, and addresses that are not the site's own or of the web."""

    def __init__(self) -> None:
        super().__init__()
        self.found: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = dict(attrs)
        for name, value in attrs:
            address = "".join((value or "").lower().split())
            if name.startswith("on") or name in ("style", "srcdoc", "action", "formaction"):
                self.found.append(f"{tag} {name}")
            elif name in ("href", "src", "data", "content") and re.match("(java|vb)script:|data:", address):
                self.found.append(f"{tag} {name} {address}")
            elif "outside.example" in address and name in ("href", "src"):
                plain_link = tag == "a" and given.get("rel") == "noopener noreferrer"
                self.found += [] if plain_link else [f"{tag} {name} {address}"]


@pytest.mark.long
def test_no_page_has_an_address_or_an_attribute_of_theirs(site: Path) -> None:
    found = []
    for name in pages_of(site):
        parser = Attributes()
        parser.feed((site / name).read_text(encoding="utf-8"))
        found += [f"{name}: {what}" for what in parser.found]
    assert found == []


@pytest.mark.long
@pytest.mark.parametrize(
    "text", [each for each in TEXTS if each.startswith(("{{", "{%", "{#", "--8<--", "<script>", "${"))]
)
def test_it_comes_out_as_text(text: str, address_of_it: str, browser: Browser) -> None:
    context = browser.new_context(service_workers="block")
    page = context.new_page()
    number = TEXTS.index(text)
    page.goto(f"{address_of_it}techniques/hostile-{number}-triangle-in-two-foils/")
    shown = page.locator("article").inner_text()
    context.close()
    for line in text.split("\n"):
        assert line in shown
    assert "1337" not in shown and "looploop" not in shown and "docs_dir" not in shown


def test_what_would_run_is_noticed(browser: Browser) -> None:
    """The same texts put into a page as they are do run, and are seen: the tests above can fail."""
    context = browser.new_context(service_workers="block")
    context.add_init_script(WATCH)
    page = context.new_page()
    seen = 0
    tried = ("<script>hit", "<img", "<svg onload", "<iframe srcdoc", "<details", "</script>", "'\">")
    for body in [each for each in EVERY if each.startswith(tried)]:
        page.set_content(f"<body>{body}</body>")
        page.wait_for_timeout(100)
        seen += bool(page.evaluate("ran"))
    context.close()
    assert seen >= 7


def test_hostile_names_of_files(tmp_path: Path, recipes: Path) -> None:
    """Ids are file names: anything but small letters, digits and hyphens in them is refused."""
    folder = tmp_path / "recipes"
    shutil.copytree(recipes, folder)
    text = (folder / "products" / "gloves.yml").read_text(encoding="utf-8")
    names = [
        "<script>hit(1)<",
        "'\"><img src=x onerror=hit(1)>",
        "a b",
        "x\n::error::y",
        "\u202egnp",
        "\uff41",
    ]
    names += [
        "{{ 7 }}",
        "con",
        "index",
        "é",
        "x" * 61,
        "-a",
        "a--b",
        "%2e%2e",
        "a\x1b[31m",
        "\u0410",
        "$(hit)",
        "`hit`",
    ]
    for name in names:
        (folder / "products" / f"{name}.yml").write_text(text, encoding="utf-8")
    (folder / "products" / "nested<b>").mkdir()
    findings = judge(folder, today()).findings
    refused = [each for each in findings if each.code in ("bad-file-name", "misplaced-file")]
    assert len(refused) == len(names) + 1
    for each in refused:
        assert each.place.path.isprintable() and "\n" not in each.mend and each.mend.isprintable()
