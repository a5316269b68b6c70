"""Service sheet, and stand-ins on a blend's page, on small phones: nothing is cut off."""

import pytest
from tests.browser.conftest import PHONE
from tests.browser.shared_pages import Open
from tests.seeds import with_long


@pytest.mark.parametrize("width", with_long([360], [390]))
@pytest.mark.parametrize(
    ("page_of", "tables"),
    [
        ("techniques/triangle-in-two-foils/service/", ".bb-sheet:visible .bb-weigh-out"),
        ("blends/open-clay/", ".bb-stand-in"),
    ],
)
def test_no_table_is_wider_than_the_phone(
    open_page: Open, address: str, width: int, page_of: str, tables: str
) -> None:
    page = open_page({"width": width, "height": 800}, address + page_of)
    found = page.locator(tables)
    assert found.count() > 0
    for table in found.all():
        box = table.bounding_box()
        assert box is not None and box["x"] >= 0 and box["x"] + box["width"] <= width


def test_the_second_weigh_out_of_a_bowl_says_tare_again(open_page: Open, address: str) -> None:
    """Above every table that goes on in the same bowl, whatever the hair, and above no other."""
    page = open_page(PHONE, address + "techniques/triangle-in-two-foils/service/")
    captions = page.locator(".bb-weigh-out + .bb-weigh-out caption").all_text_contents()
    assert captions and all(each.startswith("Tare again, then a batch of ") for each in captions)
    first = page.locator(".bb-mixing + .bb-weigh-out caption").all_text_contents()
    assert first and all(each.startswith("Batch of ") for each in first)
