"""The figures on the built pages, read back from the HTML and compared with the figures module."""

import html
import re
from dataclasses import replace
from html.parser import HTMLParser
from pathlib import Path

import pytest

from bowlbook.book.current import current
from bowlbook.book.folder import FOLDER_OF
from bowlbook.figures.bowl import bowls_of, ladder_of, mix
from bowlbook.figures.rounding import decimals_of, fixed
from bowlbook.wording.locale_format import LocaleFormat
from seeds import rows_with_long


class Bowls(HTMLParser):
    """Collects each panel's rows and facts by the classes of its cells."""

    WANTED = (
        "bb-weigh",
        "bb-shows",
        "bb-volume",
        "bb-total",
        "bb-peroxide",
        "bb-cost",
        "bb-error",
        "bb-next",
    )

    def __init__(self) -> None:
        super().__init__()
        self.panels: list[dict[str, list[str]]] = []
        self._open: str | None = None
        self._at = self._beneath = -1

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        classes = (dict(attrs).get("class") or "").split()
        if "bb-panel" in classes:
            self.panels.append({name: [] for name in self.WANTED})
            self._at = len(self.panels) - 1
        if "bb-of-size" in classes:  # what a size has beneath the bowl, in the order of the panels
            self._beneath += 1
            self._at = self._beneath
        for name in self.WANTED:
            if name in classes and self.panels:
                self._open = name
                self.panels[self._at][name].append("")

    def handle_data(self, data: str) -> None:
        if self._open:
            self.panels[self._at][self._open][-1] += data

    def handle_endtag(self, tag: str) -> None:
        self._open = None


def panels_on(path: Path) -> list[dict[str, list[str]]]:
    parser = Bowls()
    parser.feed(path.read_text(encoding="utf-8"))
    return parser.panels


def test_every_bowl_of_every_blend(demo_site: Path, demo_book) -> None:
    formats = LocaleFormat(demo_book.house)
    seen = 0
    for blend in current(demo_book.blends).values():
        panels = panels_on(demo_site / "blends" / blend.id / "index.html")
        sizes = ladder_of(demo_book, blend)
        assert len(panels) == len(sizes) >= 4
        for panel, (unit, batch, step) in zip(panels, sizes, strict=True):
            bowl = mix(demo_book, blend, unit, batch, step)
            places = decimals_of(step)
            assert panel["bb-weigh"] == [fixed(each.reading.weigh, places) for each in bowl.pours]
            assert panel["bb-shows"] == [fixed(each.scale_shows, places) for each in bowl.pours]
            assert panel["bb-total"] == [f"{fixed(bowl.total, places)} {unit}"]
            assert panel["bb-peroxide"] == [f"{fixed(bowl.peroxide, 2)} %"]
            assert panel["bb-cost"] == [formats.money(bowl.bill.total) if bowl.bill else "no price"]
            assert panel["bb-error"] == [f"{fixed(bowl.worst_error * 100, 1)} %"]
            volumes = [
                f"{fixed(each.millilitres, 1)} mL · {fixed(each.us_fluid_ounces, 2)} fl oz (US)"
                for each in bowl.pours
                if each.millilitres is not None
            ]
            measures = [text for text in panel["bb-volume"] if text.startswith("about ")]
            assert [text for text in panel["bb-volume"] if text not in measures] == volumes
            assert all(text.endswith(("scoop", "scoops")) for text in measures)  # the demo house's own
            assert len(volumes) >= 1  # the developer, at least
            nearest = bowl.next_weighable_batch
            following = "this one" if nearest == batch else f"{fixed(nearest, places)} {unit}"
            assert panel["bb-next"] == [following]
            seen += 1
    assert seen >= 14 * 4


def test_situations_show_the_bowl_of_their_first_choice(demo_site: Path, demo_book) -> None:
    for situation in demo_book.situations.values():
        own = panels_on(demo_site / "situations" / situation.id / "index.html")
        assert own == panels_on(demo_site / "blends" / situation.take[0].blend / "index.html")


def test_every_entry_has_a_page_and_a_search_entry(demo_site: Path, demo_book) -> None:
    import json

    names = json.loads((demo_site / "data" / "names.json").read_text(encoding="utf-8"))
    index = json.loads((demo_site / "data" / names["search"]).read_text(encoding="utf-8"))
    found = {address for address, *_ in index["entries"]}
    for kind, entry in demo_book.entries():
        address = f"{FOLDER_OF[kind]}/{entry.id}/"
        assert (demo_site / address / "index.html").is_file()
        assert address in found


def rows_of(text: str, of: str) -> list[list[str]]:
    """The cells of a table, row by row, read out of a page."""
    table = re.search(rf'<table class="bb-table[^"]*{of}[^"]*">(.*?)</table>', text, re.S)
    assert table is not None
    rows = re.findall(r"<tr[^>]*>(.*?)</tr>", table[1], re.S)
    cells = [re.findall(r"<t[dh][^>]*>(.*?)</t[dh]>", row, re.S) for row in rows]
    return [[html.unescape(re.sub("<.*?>", "", cell)).strip() for cell in row] for row in cells]


def money(text: str, places: int) -> int:
    """An amount in minor units, read off the page: every digit of it."""
    found = re.sub(r"[^0-9]", "", text)
    assert found, text
    tail = re.search(r"[.,]([0-9]+)$", text)
    assert (len(tail[1]) if tail and places else 0) == places, text
    return int(found)


def test_service_sheets_show_what_the_plan_says(demo_site: Path, demo_book) -> None:
    from bowlbook.figures.service import plan

    formats = LocaleFormat(demo_book.house)
    for technique in demo_book.techniques.values():
        page = demo_site / "techniques" / technique.id
        text = (page / "index.html").read_text(encoding="utf-8")
        sheet = (page / "service" / "index.html").read_text(encoding="utf-8")
        service = plan(demo_book, technique, "long", "thick")
        assert f"Cost: {formats.money(service.total)}, supplies included" in text
        own = re.search(
            r'bb-sheet-long-thick".*?(?=<section class="bb-sheet |<section class="bb-caut)', sheet, re.S
        )
        assert own is not None
        amount = text[text.index("<h3>Long hair, thick density") :]
        lines = re.findall(
            r"<li>([^<]*? oz)(?:\.|, mixed fresh (\d+) times\.) ", amount[: amount.index("</ol>")]
        )
        assert [line for line, times in lines for _ in range(int(times or 1))] == [
            f"{each.blend.name}: {' + '.join(f'{fixed(batch, 2)} oz' for batch in fresh.batches)}"
            for each in service.bowls
            for fresh in each.fresh
        ]
        for each in service.bowls:
            for fresh in each.fresh:
                for bowl in fresh.weigh_outs:
                    shown = [fixed(pour.scale_shows, 2) for pour in bowl.pours]
                    found = re.findall(r'bb-shows">([0-9.]+)<', own[0])
                    assert "|".join(shown) in "|".join(found)
        assert formats.money(service.total) in own[0]


@pytest.mark.parametrize(("currency", "places"), rows_with_long([("KWD", 3)], [("JPY", 0), ("CAD", 2)]))
def test_every_cost_column_adds_up_on_the_page(demo_book, currency: str, places: int) -> None:
    """Bowls, service sheets and kits, in currencies of 0, 2 and 3 decimals (ISO 4217)."""
    from bowlbook.pages.blend_page import blend_page
    from bowlbook.pages.bowl_panel import panels_of
    from bowlbook.pages.class_page import class_page
    from bowlbook.pages.service_sheet import service_page, sheets_of

    book = replace(demo_book, house=replace(demo_book.house, currency=currency))
    formats = LocaleFormat(book.house)
    checked = 0
    for technique in book.techniques.values():
        sheets = sheets_of(book, technique, formats)
        assert len(sheets.sheets) == 12
        body = service_page(technique, sheets).body
        for one in body.split('<section class="bb-sheet ')[1:]:
            costs = [money(row[-1], places) for row in rows_of(one, "bb-costs")[1:]]
            assert sum(costs[:-1]) == costs[-1]
            checked += 1
    for blend in book.blends.values():
        bowls = bowls_of(book, blend)
        page = blend_page(book, blend, bowls[0], panels_of(book, bowls, formats), formats)
        for one in page.body.split('<div class="bb-of-size"')[1:]:
            costs = [money(row[-1], places) for row in rows_of(one, "bb-exact")[1:]]
            assert sum(costs[:-1]) == costs[-1]
            checked += 1
    for notes in book.classes.values():
        costs = [
            money(row[-1], places)
            for row in rows_of(class_page(book, notes, formats).body, "bb-kit-table")[1:]
        ]
        assert sum(costs[:-2]) == costs[-2]
        assert abs(costs[-1] * notes.learners - costs[-2]) * 2 <= notes.learners
        checked += 1
    assert checked > 300
