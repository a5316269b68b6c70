"""Try a blend in a real browser: what is typed there is what the commands say of the same entry."""

import json
import os
import random
import shutil
from collections.abc import Iterator
from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest
from click.testing import CliRunner
from playwright.sync_api import Browser, BrowserContext, Page
from tests.browser.conftest import A_PHONE, ROOT, Watched, built, served
from tests.browser.drawn_blends import Draft, Shown, drawn, shown_bowl, shown_findings, text_typed, type_in

from bowlbook.book.book import Book
from bowlbook.book.read_book import read_book
from bowlbook.checks.judge import judge
from bowlbook.commands import main
from bowlbook.entries.entry_id import id_from
from bowlbook.formatting.formatted import formatted
from bowlbook.reading.document import read_text
from bowlbook.reading.finding import Finding
from bowlbook.wording.locale_format import locale_format_of

EVERYDAY = 2
MANY = 30 if os.environ.get("BOWLBOOK_LONG") == "short" else 200
OTHERS = {"same-name", "look-alike-id", "unused-entry"}
"""Findings that look at the other blends too, which are not those that the page knows."""


@pytest.fixture(scope="session")
def coarse_book(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo's blends on a coarse scale and under a lower limit, so that checks have something to say."""
    root = tmp_path_factory.mktemp("try") / "recipes"
    others = shutil.ignore_patterns("situations", "techniques", "classes", "troubles")
    shutil.copytree(ROOT / "recipes", root, ignore=others)
    house = root / "house.yml"
    text = house.read_text(encoding="utf-8")
    for was, now in {
        "scale_step: {oz: 0.01, g: 0.1}": "scale_step: {oz: 0.05, g: 1}\nlargest_batch: 65 g",
        "peroxide: 12 %": "peroxide: 7.5 %",
    }.items():
        assert was in text
        text = text.replace(was, now)
    house.write_text(text, encoding="utf-8")
    return root


@pytest.fixture(scope="session")
def coarse_address(coarse_book: Path) -> Iterator[str]:
    built(coarse_book, coarse_book.parent / "site")
    with served(coarse_book.parent / "site") as found:
        yield found


@pytest.fixture
def offline_phone(browser: Browser) -> Iterator[BrowserContext]:
    context = browser.new_context(**A_PHONE)
    yield context
    context.close()


def ready(page: Page, address: str, query: str = "") -> Page:
    page.goto(f"{address}try/{query}")
    page.locator("#try").wait_for()
    return page


class Typed:
    """Drafts as they were typed: their texts, and what the page said of each."""

    def __init__(self, page: Page, drafts: list[Draft]) -> None:
        self.bowls, self.found, self.texts, self.files = [], [], [], []
        for draft in drafts:
            type_in(page, draft)
            text = text_typed(page)
            stops = any(severity == "error" for _, severity, _ in shown_findings(page))
            shown = page.locator("#try-text").text_content() if not stops else text
            assert shown == text, draft
            assert page.locator("#try-recipe-text").is_visible() is not stops
            self.bowls.append(
                (shown_bowl(page), page.locator("#try-sizes input:checked").get_attribute("value"))
            )
            self.found.append(shown_findings(page))
            self.texts.append(text)
            self.files.append(id_from(draft["name"]))
            assert page.locator("#try-file").text_content() == f"recipes/blends/{self.files[-1]}.yml" or stops


def compare(typed: Typed, recipes: Path) -> dict[str, int]:
    """Hold what was typed against the commands. Returns how many of each kind there were."""
    counts = {"bowl": 0, "stopped": 0, "written": 0, "warned": 0}
    for file, text in zip(typed.files, typed.texts, strict=True):
        (recipes / "blends" / f"{file}.yml").write_text(text, encoding="utf-8", newline="\n")
    judged = judge(recipes, date.today())  # which the page writes into the review
    book = judged.book
    assert book is not None
    for file, text, found, (bowl, size) in zip(
        typed.files, typed.texts, typed.found, typed.bowls, strict=True
    ):
        assert formatted(text, "blend", f"{file}.yml") == (text, []), text
        says = python_says(judged.findings, file)
        assert plainly(found) == says, text
        stopped = any(severity == "error" for _, severity, _ in says)
        counts["stopped" if stopped else "written"] += 1
        counts["warned"] += any(severity == "warning" for _, severity, _ in says)
        if bowl is None:
            continue
        counts["bowl"] += 1
        same_bowl(mixed(recipes, book, file, size), bowl, text)
    return counts


def python_says(findings: list[Finding], file: str) -> set[tuple[str, str, str]]:
    """What `check` says of one new blend: at its own file, and at the rules that it contradicts."""
    said = set()
    for each in findings:
        if each.code in OTHERS:
            continue
        if Path(each.place.path).stem == file:
            said.add((each.code, each.severity, each.message))
        elif each.code == "rule-contradicts-suits" and f'"{file}"' in each.message:
            said.add((each.code, each.severity, ""))
    return {each if each[0] != "duplicate-reference" else (*each[:2], "") for each in said}


def plainly(found: list[tuple[str, str, str]]) -> set[tuple[str, str, str]]:
    """What the page says, without the words of findings that name a place in a file."""
    without = {"rule-contradicts-suits", "duplicate-reference"}
    return {
        (code, severity, "" if code in without else message)
        for code, severity, message in found
        if code not in OTHERS
    }


def same_bowl(own: Shown, shown: Shown, text: str) -> None:
    """The page rounds exact weights to four decimals and the error to one; the command shows more."""
    assert [{**each, "exact": ""} for each in own.pours] == [{**each, "exact": ""} for each in shown.pours], (
        text
    )
    assert own._replace(pours=[], error="") == shown._replace(pours=[], error=""), text
    exact = [
        (Decimal(str(one["exact"])), Decimal(str(other["exact"])))
        for one, other in zip(own.pours, shown.pours, strict=True)
    ]
    assert all(abs(one - other) <= Decimal("0.000051") for one, other in exact), text
    assert abs(Decimal(own.error) - Decimal(shown.error.removesuffix(" %"))) <= Decimal("0.055"), text


def mixed(recipes: Path, book: Book, file: str, size: str | None) -> Shown:
    """The bowl that `bowlbook mix` gives."""
    assert size is not None
    batch, unit = size.split()
    args = ["mix", file, "--recipes", str(recipes), "--batch", f"{batch}{unit}", "--json"]
    result = CliRunner().invoke(main, args)
    assert result.exit_code == 0, result.output
    data = json.loads(result.stdout)
    formats = locale_format_of(book)

    def money(amount: str) -> str:
        return str(formats.money(int(Decimal(amount).scaleb(2))))

    nearest = data["next_weighable_batch"]
    following = f"{nearest} {unit}" if nearest else "none found"
    if data["within_tolerance"] and float(nearest) == float(batch):
        following = "this one"
    pours = [
        {
            "weigh": each["weigh"],
            "shows": each["scale_shows"],
            "exact": each["exact"],
            "cost": money(each["cost"]),
        }
        for each in data["pours"]
    ]
    peroxide, error = f"{data['peroxide_percent']} %", data["worst_error_percent"]
    total = f"{data['bowl_total']} {unit}"
    return Shown(pours, total, peroxide, error, following, money(data["cost"]))


def test_what_is_typed_is_what_the_commands_say(
    watched: Watched, coarse_address: str, coarse_book: Path, tmp_path: Path
) -> None:
    book = read_book(coarse_book).book
    assert book is not None
    draw = random.Random(17)
    drafts = [drawn(draw, book, number) for number in range(EVERYDAY)]
    typed = Typed(ready(watched.page, coarse_address), drafts)
    shutil.copytree(coarse_book, tmp_path / "recipes")
    counts = compare(typed, tmp_path / "recipes")
    assert counts["bowl"]
    assert watched.faults == []


SIGNS = """ab0Zé漢😀 \t.,;:'"`-–!?#&*@%|>=~_^()[]{}<\\/"""


@pytest.mark.long
def test_texts_of_any_signs_read_back_and_are_formatted(watched: Watched, address: str) -> None:
    """Each text as the form gives it: on one line without spaces too many; notes without any at line ends."""
    draw = random.Random(120)

    def sentence() -> str:
        text = "".join(draw.choices(SIGNS, k=draw.randint(1, 24)))
        return " ".join(text.split()) or "a"

    drafts = []
    for _ in range(300):
        lines = [
            sentence() if draw.random() < 0.7 else draw.choice(["", "    code", "- a"]) for _ in range(5)
        ]
        refusal = {"when": {"texture": ["fine"]}, "because": sentence(), "instead": "foil-fine"}
        draft = {"name": sentence(), "summary": sentence(), "suits": {"lift": "1-3", "tone": ["cool"]}}
        draft |= {"not_for": [refusal], "cautions": [sentence(), sentence()]}
        drafts.append(draft | {"notes": "\n".join(lines).strip() or "a", "reviewed": {"by": sentence()}})
    page = ready(watched.page, address)
    texts = page.evaluate(
        """async drafts => {
          const here = new URL(document.querySelector('script[src*="try.js"]').src);
          const { entryText } = await import(new URL('draft_text.js', here));
          return drafts.map(draft => entryText(draft, '# first line'));
        }""",
        drafts,
    )
    for draft, text in zip(drafts, texts, strict=True):
        source, findings = read_text(text, "new.yml", frozenset())
        assert findings == [], text
        assert source.data == {**draft, "notes": draft["notes"] + "\n"}, text
        assert formatted(text, "blend", "new.yml") == (text, []), text


@pytest.mark.long
def test_many_blends_typed_offline(
    offline_phone: BrowserContext, coarse_address: str, coarse_book: Path, tmp_path: Path
) -> None:
    """At 390 x 844, offline: figures as `bowlbook mix`, texts that `check` and `format` leave alone."""
    book = read_book(coarse_book).book
    assert book is not None
    page = ready(offline_phone.new_page(), coarse_address)
    page.evaluate("async () => { await navigator.serviceWorker.ready; }")
    page.wait_for_function("() => navigator.serviceWorker.controller !== null")
    offline_phone.set_offline(True)
    ready(page, coarse_address)
    draw = random.Random(200)
    typed = Typed(page, [drawn(draw, book, number) for number in range(MANY)])
    shutil.copytree(coarse_book, tmp_path / "recipes")
    counts = compare(typed, tmp_path / "recipes")
    print(counts)
    assert min(counts.values()) >= MANY // 10
