"""off-scalp-product: a blend placed where one of its lighteners is not made for."""

from checks.small_book import BLEND_FILE, CLAY_FILE, POWDER_FILE, SmallBook


def test_an_off_scalp_powder_on_the_scalp(book: SmallBook) -> None:
    book.add(BLEND_FILE, "cautions: [Watch it.]\n")
    book.edit(CLAY_FILE, "[open-air]", "[open-air, on-scalp]")
    book.edit(BLEND_FILE, "placement: [open-air]", "placement: [open-air, on-scalp]")
    book.edit(BLEND_FILE, "{product: powder", "{product: «off-scalp-product»powder")
    book.shows(findings=1)
    book.edit(POWDER_FILE, "[open-air, foil]", "[open-air, foil, on-scalp]")
    assert book.found() == []


def test_a_clay_in_a_foil(book: SmallBook) -> None:
    book.edit(BLEND_FILE, "placement: [open-air]", "placement: [foil, open-air]")
    book.edit(BLEND_FILE, "{product: clay", "{product: «off-scalp-product»clay")
    book.shows(findings=1)


def test_every_lightener_is_reported(book: SmallBook) -> None:
    book.edit(POWDER_FILE, "[open-air, foil]", "[foil]")
    book.edit(CLAY_FILE, "[open-air]", "[foil]")
    book.edit(BLEND_FILE, "{product: clay", "{product: «off-scalp-product»clay")
    book.edit(BLEND_FILE, "{product: powder", "{product: «off-scalp-product»powder")
    book.shows(findings=2)


def test_a_blend_without_a_placement_claims_none(book: SmallBook) -> None:
    book.edit(BLEND_FILE, "  placement: [open-air]\n", "")
    book.shows(findings=0)
