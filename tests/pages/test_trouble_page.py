"""Pages of troubles: what to do now stands first, the emergency number is one tap, and others lead there."""

import re

import pytest

from bowlbook.pages.all_pages import makers_of
from bowlbook.pages.page import Page
from bowlbook.wording.caution import FIRST_AID
from checks.small_book import HOUSE_FILE, TROUBLE, TROUBLE_FILE, SmallBook

MORE = """\
never: [No cream on it.]
next_visit: [Nothing on the scalp.]
summary: Rinse at once.
comes_from: {placement: [open-air], products: [powder]}
"""
NUMBERS = (
    "emergency_numbers:\n  - {jurisdiction: Here, number: 112}\n  - {jurisdiction: There, number: 911}\n"
)


@pytest.fixture
def book(book: SmallBook) -> SmallBook:
    book.write(TROUBLE_FILE, TROUBLE + MORE)
    return book


def page_at(book: SmallBook, address: str, maker: str) -> Page:
    """One page, made without the others."""
    read = book.read()
    made = [page for each in makers_of(read) if each.name == maker for page in each.make(read)]
    return next(page for page in made if isinstance(page, Page) and page.address == address)


def the_page(book: SmallBook) -> Page:
    return page_at(book, "troubles/burning-scalp/", "trouble/burning-scalp")


def the_list(book: SmallBook) -> Page:
    return page_at(book, "troubles/", "index/trouble")


def test_what_to_do_stands_before_everything_else(book: SmallBook) -> None:
    page = the_page(book)
    assert re.findall(r"<h2 [^>]*>([^<]+)</h2>", page.body) == [
        "Now",
        "Never",
        "A doctor",
        "How it shows",
        "Next visit",
        "Where it comes from",
        "Who says so",
    ]
    body = page.body
    assert (
        body.index("Rinse at once.") < body.index('id="now"') < body.index("Rinse with much lukewarm water.")
    )
    assert page.description == "Rinse at once."


def test_the_houses_emergency_numbers_are_links_before_what_to_do(book: SmallBook) -> None:
    book.add(HOUSE_FILE, NUMBERS)
    body = the_page(book).body
    assert re.findall(r'href="(tel:[^"]+)">([^<]+)<', body) == [
        ("tel:112", "Call 112 (Here)"),
        ("tel:911", "Call 911 (There)"),
    ]
    assert body.index("tel:112") < body.index('id="now"')


def test_without_a_number_the_words_alone(book: SmallBook) -> None:
    assert "emergency number of your country" in the_page(book).body
    assert "emergency number of your country" in the_list(book).body


@pytest.mark.parametrize("risk", ["hair", "bowl"])
def test_where_nobody_is_hurt_the_numbers_stand_with_the_doctor(book: SmallBook, risk: str) -> None:
    book.add(HOUSE_FILE, NUMBERS)
    book.edit(TROUBLE_FILE, "at_risk: person", f"at_risk: {risk}")
    body = the_page(book).body
    assert body.count("tel:112") == 1
    assert body.index('id="doctor"') < body.index("tel:112") < body.index('id="signs"')


def test_where_it_comes_from_is_said_and_linked(book: SmallBook) -> None:
    body = the_page(book).body
    assert "From anything placed in the open air." in body
    assert 'href="../../products/powder/"' in body
    book.write(TROUBLE_FILE, TROUBLE)
    assert "It can happen with anything in this book." in the_page(book).body


def test_the_list_has_the_person_first_and_first_aid_below(book: SmallBook) -> None:
    for entry_id, risk in (("a", "bowl"), ("b", "hair")):
        book.write(
            f"troubles/{entry_id}.yml", TROUBLE.replace("person", risk).replace("Burning", f"No {entry_id}")
        )
    page = the_list(book)
    assert re.findall(r'<h2 id="([a-z-]+)"', page.body) == ["person", "hair", "bowl", "first-aid"]
    places = [page.body.index(f'href="../troubles/{each}/"') for each in ("burning-scalp", "b", "a")]
    assert places == sorted(places)
    assert all(each in page.body for each in FIRST_AID)


def test_a_book_without_troubles_still_has_first_aid(book: SmallBook) -> None:
    (book.root / TROUBLE_FILE).unlink()
    page = the_list(book)
    assert all(each in page.body for each in FIRST_AID)
    assert re.findall(r'<h2 id="([a-z-]+)"', page.body) == ["first-aid"]


@pytest.mark.parametrize(
    ("address", "maker"),
    [
        ("techniques/painting/", "technique/painting"),
        ("blends/soft-clay/", "blend/soft-clay"),
        ("products/powder/", "product/powder"),
    ],
)
def test_a_technique_a_blend_and_a_product_lead_there(book: SmallBook, address: str, maker: str) -> None:
    page = page_at(book, address, maker)
    section = page.body[page.body.index('id="trouble"') :]
    assert '<a href="../../troubles/burning-scalp/">Burning scalp</a>' in section
    assert 'href="../../troubles/"' in section
    assert page.body.count("troubles/burning-scalp/") == 1  # not once more under Where used


def test_what_is_written_is_shown_as_text(book: SmallBook) -> None:
    book.edit(TROUBLE_FILE, "Rinse with much lukewarm water.", '"<b>Rinse</b> & wait <script>no</script>"')
    assert "&lt;b&gt;Rinse&lt;/b&gt; &amp; wait &lt;script&gt;" in the_page(book).body


def test_search_knows_how_it_shows_and_what_else_it_is_called(book: SmallBook) -> None:
    book.add(TROUBLE_FILE, "other_names: [scalp on fire]\n")
    search = the_page(book).search
    assert search is not None
    assert search.names == ("scalp on fire",) and "She says that it burns" in search.text
    assert search.kind == "When it goes wrong"


def test_the_publics_copy_has_them_too_without_private_notes(book: SmallBook) -> None:
    from bowlbook.book.audience import copy_for

    book.add(TROUBLE_FILE, "private: Last time it was bottle B.\n")
    read = book.read()
    assert "bottle B" in str(vars(read.troubles["burning-scalp"]).get("private"))
    assert copy_for(read, "public").troubles["burning-scalp"].private is None
