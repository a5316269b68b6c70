"""unplanned-service: a technique says what it uses, and for some hair no service can be worked out."""

import pytest

from checks.small_book import BLEND_FILE, HAIR, HOUSE_FILE, TECHNIQUE_FILE, SmallBook

ANY_BATCH = "any_batch: yes\n"


@pytest.mark.parametrize(("fresh_for", "findings"), [(1, 1), (2, 0)])
def test_a_section_that_takes_longer_than_the_bowl_stays_fresh(
    book: SmallBook, fresh_for: int, findings: int
) -> None:
    book.add(BLEND_FILE, f"fresh_for: {fresh_for} minutes\n")
    mark = "«unplanned-service?»" if findings else ""
    book.edit(TECHNIQUE_FILE, "per_section: 2 minutes", f"per_section: {mark}2 minutes")
    book.shows(findings=findings)


@pytest.mark.parametrize("gone", ["    sections: 12\n", "    mix_per_section: 5 g\n"])
def test_one_amount_without_the_other(book: SmallBook, gone: str) -> None:
    book.edit(TECHNIQUE_FILE, gone, "")
    book.edit(TECHNIQUE_FILE, "- blend: soft-clay", "- «unplanned-service?»blend: soft-clay")
    book.shows(findings=1)


def test_a_bowl_without_amounts_beside_one_that_has_them(book: SmallBook) -> None:
    bowl = "  - {blend: soft-clay, where: Ends., zones: [3]}\n"
    book.edit(TECHNIQUE_FILE, "steps:\n", f"{bowl.replace('{', '«unplanned-service?»{')}steps:\n")
    book.shows(findings=1)


def test_a_technique_that_says_nothing_of_amounts(book: SmallBook) -> None:
    book.edit(TECHNIQUE_FILE, "    sections: 12\n    mix_per_section: 5 g\n", "")
    book.shows(findings=0)


def test_more_weigh_outs_than_anybody_would_do_for_the_fullest_head(book: SmallBook) -> None:
    """2 oz largest, 24 of them 48 oz; at 1:2 that is 144 oz of mix, 12 oz for each of twelve sections."""
    book.edit(TECHNIQUE_FILE, "mix_per_section: 5 g", "mix_per_section: 12 oz")
    book.shows(findings=0)
    book.edit(HOUSE_FILE, HAIR, "hair_amounts: {length: {medium: 1, long: 1.2}, density: {medium: 1}}\n")
    book.edit(TECHNIQUE_FILE, "- blend: soft-clay", "- «unplanned-service?»blend: soft-clay")
    found = book.shows(findings=1)
    assert "would take 29 weigh-outs in one bowl" in found[0].message


def test_an_exact_batch_that_reads_zero(book: SmallBook) -> None:
    """12 sections of 0.05 g at 1:2 take 0.2 g of lightener: 0.05 oz, and a quarter of it reads zero."""
    book.add(HOUSE_FILE, ANY_BATCH)
    book.edit(TECHNIQUE_FILE, "section: 5 g", "section: «unplanned-service?»0.05 g")
    [finding] = book.shows(findings=1)
    assert (
        finding.message == "For the hair that takes least Violet powder would read zero on the house's scale."
    )
