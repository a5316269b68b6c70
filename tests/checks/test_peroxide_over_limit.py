"""peroxide-over-limit: a bowl against the limits that the house has written down.

By figure 6 (developer % x developer / everything in the bowl) 20 volume, nominally 6 %, at 1:2 is 4 %;
40 volume at 1:2 is 8 % (SOURCES: arithmetic on a mass basis).
"""

from checks.small_book import BLEND_FILE, DEVELOPER, HOUSE_FILE, SmallBook

LIMIT = "limits: [{{jurisdiction: Nowhere, peroxide: {0} %, since: 2026-01-31, source: An invented text}}]\n"
STRONG = DEVELOPER.replace("20\n", "40\n").replace("6 %", "12 %")


def test_over_a_limit(book: SmallBook) -> None:
    book.add(HOUSE_FILE, LIMIT.format("3.99"))
    book.edit(BLEND_FILE, "product: developer-20", "product: «peroxide-over-limit»developer-20")
    [found] = book.shows(findings=1)
    assert found.message.startswith("4.00 % peroxide in the bowl is over 3.99 % (")


def test_at_the_limit_it_passes(book: SmallBook) -> None:
    book.add(HOUSE_FILE, LIMIT.format("4"))
    book.shows(findings=0)


def test_one_that_may_stand_in_counts_too(book: SmallBook) -> None:
    book.add(HOUSE_FILE, LIMIT.format("6"))
    book.add(BLEND_FILE, "cautions: [Watch it.]\n")
    book.write("products/developer-40.yml", STRONG)
    book.edit(BLEND_FILE, "developer-20}", "developer-20, also: [«peroxide-over-limit»developer-40]}")
    (finding,) = book.shows(findings=1)
    assert finding.message.startswith("8.00 % peroxide in the bowl is over 6 % (Nowhere, since 2026-01-31")


def test_the_batch_that_rounding_makes_strongest_counts(book: SmallBook) -> None:
    # 1:1.8 is 6 x 1.8/2.8 = 3.857 %; 2 g of lightener take 3.6, read as 4 g, and 6 x 4/6 is 4 %.
    book.edit(BLEND_FILE, "ratio: 1:2", "ratio: 1:1.8")
    book.edit(BLEND_FILE, "  - {product: clay, parts: 3}\n  - {product: powder, parts: 1}\n",
              "  - {product: clay, parts: 1}\n  - {product: powder, parts: 1}\n")  # fmt: skip
    book.add(BLEND_FILE, "batches: {oz: [1], g: [2]}\n")
    book.edit(HOUSE_FILE, "tolerance: 5 %", "tolerance: 50 %")
    book.add(HOUSE_FILE, LIMIT.format("3.9"))
    book.edit(BLEND_FILE, "product: developer-20", "product: «peroxide-over-limit»developer-20")
    book.shows(findings=1)


def test_an_additive_counts_as_part_of_the_bowl(book: SmallBook) -> None:
    # 20 g lightener, 40 g developer, 5 g additive: 6 x 40/65 is 3.69 %.
    book.write("products/bond.yml", "name: Bond drops\nkind: additive\ndoes: Mends bonds.\n")
    book.add(BLEND_FILE, "additives: [{product: bond, ratio: 4:1}]\n")
    book.add(HOUSE_FILE, LIMIT.format("3.8"))
    book.shows(findings=0)


def test_without_limits_nothing_is_said(book: SmallBook) -> None:
    book.add(BLEND_FILE, "cautions: [Watch it.]\n")
    book.write("products/developer-40.yml", STRONG)
    book.edit(BLEND_FILE, "developer-20}", "developer-20, also: [developer-40]}")
    book.shows(findings=0)
