"""The service sheet, the technique's and the class's page: nothing vanishes without a word."""

import re

import pytest

from bowlbook.pages.class_page import class_page
from bowlbook.pages.service_sheet import service_page, sheets_of
from bowlbook.pages.technique_page import technique_page
from bowlbook.wording.locale_format import LocaleFormat
from checks.small_book import (
    CLASS_FILE,
    DEVELOPER_FILE,
    HAIR,
    HOUSE_FILE,
    TECHNIQUE_FILE,
    SmallBook,
)


def text_of(body: str) -> str:
    """What a reader sees of a page's body, on one line."""
    body = re.sub(r"<script.*?</script>", "", body, flags=re.S)
    return " ".join(re.sub(r"<[^>]*>", " ", body).split())


def pages(small: SmallBook) -> tuple[str, str, str]:
    """Technique, service sheet (empty where there is none) and class, as read."""
    book = small.read()
    formats = LocaleFormat(book.house, priced=book.priced)
    technique = book.techniques["painting"]
    sheets = sheets_of(book, technique, formats)
    sheet = service_page(technique, sheets).body if sheets.sheets else ""
    technique_body = technique_page(book, technique, sheets, formats).body
    class_body = class_page(book, book.classes["first-painting"], formats).body
    return text_of(technique_body), text_of(sheet), text_of(class_body)


def test_the_second_weigh_out_of_a_bowl_begins_with_tare_again(small: SmallBook) -> None:
    """168 g of mix at 1:2 is 56 g of lightener: a batch of 40 g, and one of 20 g into the same bowl."""
    small.edit(HOUSE_FILE, "batches: {oz: [1, 2], g: [20, 40]}", "batches: {g: [20, 40]}")
    small.edit(TECHNIQUE_FILE, "section: 5 g", "section: 14 g")
    _, sheet, _ = pages(small)
    own = sheet[sheet.index("Medium hair, medium density") :]
    assert own.count("Batch of") == own.count("Tare again , then a batch of 20 g") == 1
    assert own.index("Batch of 40 g") < own.index("Tare again , then a batch of 20 g")


def test_the_same_batch_twice_says_tare_before_each(small: SmallBook) -> None:
    small.edit(HOUSE_FILE, "batches: {oz: [1, 2], g: [20, 40]}", "batches: {g: [40]}")
    small.edit(TECHNIQUE_FILE, "section: 5 g", "section: 14 g")
    _, sheet, _ = pages(small)
    assert "Batch of 40 g, 2 times: tare before each" in sheet


def test_bowls_mixed_alike_are_one_line_of_an_amount(demo_book) -> None:
    """Sixteen triangles, in two bowls each half; eight of them take 8 x (2 + 1.5) = 28 minutes."""
    formats = LocaleFormat(demo_book.house, priced=demo_book.priced)
    technique = demo_book.techniques["triangle-in-two-foils"]
    sheets = sheets_of(demo_book, technique, formats)
    mixed = [len(bowl.mixings) for bowl in sheets.sheets[0].bowls]
    body = text_of(technique_page(demo_book, technique, sheets, formats).body)
    amount = body[body.index("Short hair, medium density") : body.index("Medium hair, medium density")]
    assert mixed == [2, 2, 1]
    assert amount.count("0.50 oz, mixed fresh 2 times. Each time 8 sections, 28 minutes to apply") == 2
    assert amount.count("minutes to apply") == len(mixed)


def test_waste_and_left_over_are_shown_together(small: SmallBook) -> None:
    small.edit(HOUSE_FILE, "batches: {oz: [1, 2], g: [20, 40]}", "batches: {g: [20, 40]}")
    small.add(HOUSE_FILE, "waste_allowance: 10 %\n")
    technique, sheet, _ = pages(small)
    assert "Needs 66 g of mix; 6 g of it for waste, 54 g left over." in sheet
    assert "10 % for waste is included." in sheet
    assert "Of this: $0.28 for waste, $2.54 left over." in sheet
    assert "Cost: $6.02, supplies included; of it $0.28 for waste, $2.54 left over." in technique


def test_a_weigh_out_off_the_recipe_says_so(small: SmallBook) -> None:
    """0.5 oz, 3:1 in steps of 0.05 oz is 20 % off, and 0.60 oz would do: figure 4 of the design."""
    small.edit(HOUSE_FILE, "oz: [1, 2]", "oz: [0.5]")
    _, sheet, _ = pages(small)
    remark = "Rounding puts this 20.0 % off the recipe; the nearest size this scale can weigh is 0.60 oz."
    assert remark in sheet


def test_heads_that_cannot_be_planned_are_rows_that_say_so(small: SmallBook) -> None:
    """2 oz largest, 24 times: 48 oz of lightener; the long head takes 29."""
    small.edit(HOUSE_FILE, HAIR, "hair_amounts: {length: {medium: 1, long: 1.2}, density: {medium: 1}}\n")
    small.edit(TECHNIQUE_FILE, "mix_per_section: 5 g", "mix_per_section: 12 oz")
    technique, sheet, _ = pages(small)
    reason = "Soft clay three to one would take 29 weigh-outs in one bowl."
    assert f"Long hair, medium density Not worked out for this hair. {reason}" in sheet
    assert f"Long hair, medium density Not worked out. {reason}" in technique
    unmeasured = "The house has not measured short hair, extra-long hair, thin density and thick density."
    assert unmeasured in sheet and unmeasured in technique


def test_a_bowl_that_reads_zero_says_so_and_the_rest_is_there(small: SmallBook) -> None:
    small.edit(HOUSE_FILE, "batches: {oz: [1, 2], g: [20, 40]}", "batches: {g: [20, 40]}")
    small.add(HOUSE_FILE, "any_batch: yes\n")
    small.edit(TECHNIQUE_FILE, "section: 5 g", "section: 0.2 g")
    technique, sheet, notes = pages(small)
    said = "Soft clay three to one cannot be weighed out for this: in 1 g Violet powder reads zero."
    assert said in technique and said in sheet and f"Not in this kit: {said}" in notes
    assert "Foil, wide, 10 pieces $0.38" in sheet
    assert "Total without the bowl of Soft clay three to one, which cannot be weighed out" in notes


@pytest.mark.parametrize(
    ("path", "old", "new", "reason"),
    [
        (HOUSE_FILE, HAIR, "", "The house has not measured hair amounts."),
        (TECHNIQUE_FILE, "    sections: 12\n", "", "has no amounts."),
        (
            "blends/soft-clay.yml",
            "suits:",
            "fresh_for: 1 minute\nsuits:",
            "One section takes longer than Soft clay three to one stays fresh.",
        ),
    ],
)
def test_without_a_service_the_pages_say_why(
    small: SmallBook, path: str, old: str, new: str, reason: str
) -> None:
    small.edit(path, old, new)
    technique, sheet, notes = pages(small)
    assert sheet == ""
    for text in (technique, notes):
        assert re.search(rf"Not worked out\. [^.]*{re.escape(reason)}", text)
    assert "Service sheet" not in technique


def test_a_class_on_hair_that_was_not_measured_says_so(small: SmallBook) -> None:
    small.edit(CLASS_FILE, "heads: 1}", "heads: 1, length: long}")
    assert "Kit Not worked out. The house has not measured long hair." in pages(small)[2]


def test_one_missing_price_hides_no_cost(small: SmallBook) -> None:
    small.edit(HOUSE_FILE, "batches: {oz: [1, 2], g: [20, 40]}", "batches: {g: [20, 40]}")
    small.edit(DEVELOPER_FILE, "pack: {net: 1 L, price: 14.50, priced_on: 2026-09-01}\n", "")
    technique, sheet, notes = pages(small)
    assert "Cost: $2.63 without Developer 20, which has no price, supplies included." in technique
    assert "For this client without Developer 20, which has no price $2.63" in sheet
    assert "Total without Developer 20, which has no price $105.50" in notes


def test_a_book_without_prices_says_nothing_of_costs(small: SmallBook) -> None:
    for path in list(small.texts):
        small.write(path, re.sub(r", price: [0-9.]+, priced_on: [0-9-]+", "", small.texts[path]))
    for text in pages(small):
        assert "price" not in text and "Cost" not in text and "$" not in text
