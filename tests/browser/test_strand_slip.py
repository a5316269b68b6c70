"""The strand-test slip: on paper each on one page, on a phone to fill in, and nothing of it kept anywhere."""

from pathlib import Path

import pypdfium2
import pytest
from tests.browser.conftest import DESK, Watched
from tests.browser.shared_pages import Open

from bowlbook.book.current import current

SLIP = "blends/cool-foil-coarse/strand-test/"


@pytest.mark.long
@pytest.mark.parametrize("size", ["a6", "4x6"])
def test_each_slip_is_one_page(open_page: Open, address: str, demo_book, tmp_path: Path, size: str) -> None:
    """Those of the longest names and one more, every day."""
    page = open_page(DESK)
    file = tmp_path / "slip.pdf"
    blends = sorted(current(demo_book.blends).values(), key=lambda blend: -len(blend.name))
    for blend in blends:
        page.goto(f"{address}blends/{blend.id}/strand-test/")
        page.locator(f"label[for=size-{size}]").click()
        page.pdf(path=str(file), prefer_css_page_size=True)
        printed = pypdfium2.PdfDocument(file)
        assert len(printed) == 1, blend.id
        text = printed[0].get_textpage().get_text_range()
        assert blend.name.split()[0] in text and "No name on this slip" in text, blend.id


@pytest.mark.long
@pytest.mark.parametrize("width, height", [(360, 640), (390, 844), (1440, 900)])
def test_boxes_are_large_enough_and_nothing_is_cut_off(
    open_page: Open, address: str, width: int, height: int
) -> None:
    page = open_page({"width": width, "height": height}, address + SLIP)
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    boxes = page.locator(".bb-slip label, .bb-slip input[type=text]")
    assert boxes.count() == 6 * 4 + 4
    for box in boxes.all():
        place = box.bounding_box()
        assert place is not None and place["width"] >= 44 and place["height"] >= 44


def test_it_is_two_taps_from_the_blend_and_forgets_what_was_filled_in(watched: Watched, address: str) -> None:
    page = watched.opened(address + "blends/cool-foil-coarse/")
    page.get_by_role("link", name="Strand test").tap()
    page.wait_for_url(f"**/{SLIP}")
    page.get_by_label("Level at 20 minutes").fill("6")
    page.get_by_label("Springs back at 20 minutes").check()
    page.get_by_label("with care").check()
    assert page.evaluate("Object.keys(localStorage).filter(key => /slip|strand|test/.test(key))") == []
    assert page.locator("form, [name]:not([name=size]):not(meta)").count() == 0  # nothing could be sent
    page.reload()
    assert page.get_by_label("Level at 20 minutes").input_value() == ""
    assert page.locator(".bb-slip :checked").count() == 0
