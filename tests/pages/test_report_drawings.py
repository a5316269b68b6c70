"""The drawings of the reports against the figures beside them, read back off the finished pages."""

import re
from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

import pytest
from tests.checks.small_book import SmallBook

from bowlbook.book.book import Book
from bowlbook.figures.bowl import mix
from bowlbook.figures.service import plan
from bowlbook.pages.all_pages import makers_of
from bowlbook.pages.bars import SEEN, BarRow, bars_of
from bowlbook.pages.date_report import date_report
from bowlbook.pages.maker import Maker
from bowlbook.pages.page import Page, Piece
from bowlbook.wording.locale_format import LocaleFormat

ROW = re.compile(
    r'<tr><th scope="row"><a href="(.*?)">.*?</th><td>(.*?)</td><td><svg aria-hidden="true">(.*?)</svg>'
)
PART = re.compile(r'<rect class="report-([a-z]+)" x="([0-9.]+)%" width="([0-9.]+)%"/>')
STEP = Fraction(1, 100)
"""The step of the demo house's scale, in oz."""
LEGEND = (("base", "lightener or toner"), ("developer", "developer"))


def made(book: Book, name: str) -> dict[str, str]:
    """The pages of one maker, with what it needs of others."""
    makers = {each.name: each for each in makers_of(book)}
    pieces: dict[tuple[str, str], object] = {}

    def outputs(maker: Maker) -> Iterator[Page]:
        for need in maker.needs:
            of, _ = need
            if need not in pieces:
                for each in makers[of].make(book):
                    if isinstance(each, Piece):
                        pieces[of, each.name] = each.value
        found = maker.make(book, [pieces[need] for need in maker.needs]) if maker.needs else maker.make(book)
        return (each for each in found if isinstance(each, Page))

    return {page.address: str(page.body) for page in outputs(makers[name])}


@pytest.fixture(scope="module")
def costs(demo_book: Book) -> str:
    return made(demo_book, "costs")["reports/costs/"]


def section(page: str, anchor: str) -> list[tuple[str, str, list[tuple[str, float, float]]]]:
    """The rows of a drawing: address, figure, and the parts of the bar."""
    text = page.split(f'<h2 id="{anchor}">')[1].split("</section>")[0]
    return [
        (href, answer, [(kind, float(x), float(width)) for kind, x, width in PART.findall(svg)])
        for href, answer, svg in ROW.findall(text)
    ]


def test_every_bar_is_as_long_as_its_bowl_costs(costs: str, demo_book: Book) -> None:
    rows = section(costs, "bowl")
    assert len(rows) > SEEN
    formats = LocaleFormat(demo_book.house)
    found = {}
    for href, answer, parts in rows:
        bowl = mix(demo_book, demo_book.blends[href.split("/")[-2]], "oz", Fraction(1), STEP)
        assert answer == formats.money(bowl.known.total)
        found[bowl.known.total] = parts[-1][1] + parts[-1][2]
    dearest = max(found)
    assert all(abs(end - 100 * cost / dearest) < 0.21 for cost, end in found.items())
    ends = [parts[-1][1] + parts[-1][2] for _, _, parts in rows]
    assert ends == sorted(ends, reverse=True)


def test_the_parts_of_a_service_follow_each_other_and_add_up(costs: str, demo_book: Book) -> None:
    for href, answer, parts in section(costs, "service"):
        service = plan(demo_book, demo_book.techniques[href.split("/")[-3]], "medium", "medium")
        assert answer == LocaleFormat(demo_book.house).money(service.known)
        end = 0.0
        for _, start, width in parts:
            assert abs(start - end) < 0.11
            end = start + width
        unused = (service.waste_cost or 0) + (service.left_over_cost or 0)
        shown = sum(width for kind, _, width in parts if kind == "unused")
        assert service.known is not None and abs(shown / end - unused / service.known) < 0.01


def test_a_book_without_prices_has_no_page_of_costs(book: SmallBook) -> None:
    for path, text in dict(book.texts).items():
        if ", price: " in text:
            book.write(path, re.sub(r", price: [^}]*", "", text))
    unpriced = book.read()
    assert not unpriced.priced
    assert "costs" not in {each.name for each in makers_of(unpriced)}
    assert "report-ages" not in made(unpriced, "dates")["reports/dates/"]


def test_dots_stand_left_of_the_line_where_the_bowl_is_close_enough(demo_book: Book) -> None:
    house = replace(demo_book.house, rounding_tolerance=Fraction(1))
    page = made(replace(demo_book, house=house), "weighing")["reports/weighing/"]
    limit = float(re.findall(r'class="report-limit" x1="([0-9.]+)%"', page)[0])
    dots = re.findall(r'<circle( class="report-over")? cx="([0-9.]+)%"', page)
    step = 100 / 48
    assert {bool(over) for over, _ in dots} == {True, False}
    assert all(float(x) <= limit if not over else float(x) > limit - step for over, x in dots)
    said = [int(each) for each in re.findall(r"<td>(\d+) of \d+ too far off</td>", page)]
    lead = re.findall(r'<p class="bb-lead">(\d+) of \d+ bowls are more than 1 % off', page)
    assert lead == [str(sum(said))]


def test_every_dated_price_is_in_one_column(demo_book: Book) -> None:
    page = next(date_report(demo_book)).body
    columns = page.split('class="report-ages"')[1].split("</section>")[0]
    dated = [each for each in demo_book.products.values() if each.pack and each.pack.priced_on]
    assert sum(map(int, re.findall(r">(\d+)</text>", columns))) == len(dated)
    assert 'class="report-over"' not in columns
    short = replace(demo_book, house=replace(demo_book.house, prices_stale_after=10))
    assert 'class="report-over"' in next(date_report(short)).body


def test_at_most_a_hundred_bars_are_drawn_and_the_page_says_so() -> None:
    rows = [BarRow(f"blend {number}", "", str(number), "", (number, 1)) for number in range(250)]
    bars = bars_of("A bowl", "bowl", LEGEND, rows)
    assert [each.answer for each in (*bars.seen, *bars.more)] == [str(n) for n in range(249, 149, -1)]
    assert bars.more_says == "239 to 150"
    assert bars.remark == "Drawn are the 100 longest of 250."


def test_bars_of_what_costs_nothing_have_no_length() -> None:
    bars = bars_of("A bowl", "bowl", LEGEND, [BarRow("free", "", "0", "", (0, 0))])
    assert bars.seen[0].parts == ()
