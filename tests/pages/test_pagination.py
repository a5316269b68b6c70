"""Long lists over several pages: nothing lost, nothing twice, all within reach, small books untouched."""

from collections.abc import Sequence
from copy import copy
from dataclasses import replace
from urllib.parse import urljoin

from hypothesis import given
from hypothesis import strategies as st

from bowlbook.pages.address import relative
from bowlbook.pages.link_list import LinkGroup, LinkItem
from bowlbook.pages.makers.lists import listed
from bowlbook.pages.overview_page import listed_item
from bowlbook.pages.pagination import MOST, SIGNPOSTS, ListPage, paginate
from bowlbook.pages.table import ReportTable, TableRow

TOP = "https://book.example/"


def items(lengths: Sequence[int], address: str) -> list[LinkGroup]:
    return [
        LinkGroup(
            f"List {n}",
            f"list-{n}",
            tuple(LinkItem(f"{n}.{k}", relative(f"blends/{n}-{k}/", address)) for k in range(length)),
        )
        for n, length in enumerate(lengths)
    ]


def reached(pages: list[ListPage[LinkGroup]]) -> set[str]:
    """The pages to which links lead from the first, as a browser follows them (RFC 3986, by `urllib`)."""
    by_url = {urljoin(TOP, page.address): page for page in pages}
    seen, waiting = set(), [urljoin(TOP, pages[0].address)]
    while waiting:
        url = waiting.pop()
        if url not in seen:
            seen.add(url)
            waiting += [urljoin(url, other.href) for other in by_url[url].others]
    return seen


@given(
    st.lists(st.integers(0, 60), max_size=4),
    st.integers(1, 9),
    st.sampled_from(["blends/", "reports/costs/"]),
)
def test_every_entry_is_listed_once_in_order_with_a_working_link(
    lengths: list[int], most: int, address: str
) -> None:
    groups = items(lengths, address)
    pages = paginate(address, groups, most)
    assert len({page.address for page in pages}) == len(pages) and pages[0].address == address
    for group in groups:
        shown = [
            (each.name, urljoin(urljoin(TOP, page.address), each.href))
            for page in pages
            for own in page.groups
            if own.title == group.title
            for each in own.items
        ]
        assert shown == [(each.name, urljoin(urljoin(TOP, address), each.href)) for each in group.items]
    assert all(len(group.items) <= most for page in pages for group in page.groups)
    assert all(group.items for page in pages[1:] for group in page.groups)
    assert reached(pages) == {urljoin(TOP, page.address) for page in pages}


def test_a_page_of_many_leads_to_a_bounded_number_of_others() -> None:
    pages = paginate("blends/", items([1000], "blends/"), 1)
    assert len(pages) == 1000
    assert max(len(page.others) for page in pages) <= SIGNPOSTS + 6
    assert reached(pages) == {urljoin(TOP, page.address) for page in pages}


def test_what_fits_stays_as_it_is() -> None:
    groups = items([MOST, 0, 3], "blends/")
    (page,) = paginate("blends/", groups)
    assert (page.groups, page.others, page.title("Blends")) == (groups, [], "Blends")
    assert [each.anchor for each in page.headings()] == ["list-0", "list-1", "list-2"]


def test_a_link_to_a_page_names_its_first_and_last_entry() -> None:
    rows = tuple(TableRow(f"Bowl {n}", "../x/", ("blend", f"day {n}")) for n in range(5))
    tables = [ReportTable("Reviews", "reviews", ("Entry", "Kind", "From"), rows, ordered_by=2)]
    first, second, third = paginate("reports/dates/", tables, 2)
    assert [(each.name, each.href, each.note) for each in second.others] == [
        ("Page 1 of 3", "../../../../reports/dates/", "Reviews: day 0 to day 1"),
        ("Page 3 of 3", "../../../../reports/dates/page/3/", "Reviews: day 4 to day 4"),
    ]
    assert second.title("Dates") == "Dates, page 2 of 3"
    assert [each.anchor for each in third.headings()] == ["reviews", "pages"]
    assert first.address == "reports/dates/"


def test_an_index_of_a_large_book(demo_book) -> None:
    one = min(demo_book.blends.values(), key=lambda each: each.id)
    blends = {}
    for n in range(2 * MOST + 1):
        blends[f"blend-{n:04}"] = made = copy(one)
        object.__setattr__(made, "id", f"blend-{n:04}")
        object.__setattr__(made, "name", f"Blend {n:04}")
    book = replace(demo_book, blends=blends)
    pages = list(listed(demo_book, "blend", [listed_item(book, "blend", each) for each in blends.values()]))
    assert [page.address for page in pages] == ["blends/", "blends/page/2/", "blends/page/3/"]
    assert [page.title for page in pages] == ["Blends", "Blends, page 2 of 3", "Blends, page 3 of 3"]
    for page in pages:
        assert page.body.count('id="pages"') == 1 and "the other pages" in page.body
    last = f"blend-{2 * MOST:04}"
    assert f'href="../../../blends/{last}/"' in pages[2].body
    (small,) = listed(demo_book, "blend", [listed_item(demo_book, "blend", one)])
    assert 'id="pages"' not in small.body
