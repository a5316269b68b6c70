"""zero-reading: something so little that the scale would show nothing."""

import pytest

from checks.small_book import BLEND_FILE, HOUSE_FILE, SmallBook

LADDER = "batches: {oz: [1, 2], g: [20, 40]}"


def test_the_developer(book: SmallBook) -> None:
    book.edit(BLEND_FILE, "{ratio: 1:2, product: developer-20}", "{ratio: 1:1.5, product: developer-20}")
    book.edit(HOUSE_FILE, "oz: 0.05", "oz: 0.25")
    book.edit(HOUSE_FILE, LADDER, "batches: {oz: [1, 2]}")
    book.shows(findings=0)
    for path in ("products/clay.yml", "products/powder.yml"):
        text = book.texts[path]
        ratio = text[text.index("mixing_ratio") : text.index("\n", text.index("mixing_ratio"))]
        book.edit(path, ratio, "mixing_ratio: {usual: 1:0.1}")
    book.edit(BLEND_FILE, "ratio: 1:1.5, product: ", "ratio: 1:0.1, product: «zero-reading»")
    book.edit(HOUSE_FILE, "batches: {oz: [1, 2]}", "batches: {oz: [1]}")  # 0.1 oz against steps of 0.25
    book.shows(findings=1)


def test_an_additive_one_finding_for_each_batch(book: SmallBook) -> None:
    # 100:1 of 20 and 40 g: 0.2 and 0.4 g against steps of 1 g; of 100 g 1 g.
    book.write("products/bond.yml", "name: Bond drops\nkind: additive\ndoes: Mends bonds.\n")
    book.add(BLEND_FILE, "additives:\n  - {product: «zero-reading»bond, ratio: 100:1}\n")
    book.edit(HOUSE_FILE, LADDER, "batches: {g: [20, 40, 100]}")
    findings = book.judged()
    assert [each.message.split(" the scale")[0] for each in findings] == [
        "In a batch of 20 g",
        "In a batch of 40 g",
    ]
    assert set(book.found()) == set(book.expected())


@pytest.mark.parametrize(("parts", "findings"), [("19", 0), ("20", 0), ("41", 1)])
def test_half_a_step_still_reads_one(book: SmallBook, parts: str, findings: int) -> None:
    # 1 g of 20, 40/41 g and 0.48 g of 20 g on steps of 1 g; 0.48 loses to the other remainder, 0.52.
    book.edit(BLEND_FILE, "clay, parts: 3", f"clay, parts: {parts}")
    book.edit(HOUSE_FILE, LADDER, "batches: {g: [20]}")
    mark = "«zero-reading»" if findings else ""
    book.edit(BLEND_FILE, "{product: powder", f"{{product: {mark}powder")
    book.edit(HOUSE_FILE, "tolerance: 5 %", "tolerance: 6 %")
    book.shows(findings=findings)
