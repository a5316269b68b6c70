"""too-long-on-hair: a technique as written stays longer than its maker or the house allows.

The minutes are worked out by hand beside each test; how long is too long is common practice, no published
source, and stands in the book as its maker's or its house's word.
"""

import pytest

from checks.small_book import BLEND_FILE, CLAY_FILE, HOUSE_FILE, POWDER_FILE, TECHNIQUE_FILE, SmallBook

MINUTES = "processing: {minutes: "
MARK = "processing: {minutes: «too-long-on-hair»"


def regrowth(book: SmallBook, sections: int, per_section: str, processing: int) -> None:
    """Turn the technique into regrowth on the scalp."""
    for path in (CLAY_FILE, POWDER_FILE):
        book.add(path, "placement: [on-scalp]\n")
    book.edit(BLEND_FILE, "placement: [open-air]", "placement: [on-scalp]")
    book.add(BLEND_FILE, "cautions: [Sound scalp only.]\n")
    book.edit(TECHNIQUE_FILE, "placement: open-air", "placement: on-scalp")
    book.add(TECHNIQUE_FILE, "cautions: [Sound scalp only.]\n")
    book.edit(TECHNIQUE_FILE, "sections: 12", f"sections: {sections}")
    book.edit(TECHNIQUE_FILE, "minutes_per_section: 2 minutes", f"minutes_per_section: {per_section}")
    book.edit(TECHNIQUE_FILE, "minutes: 35 minutes", f"minutes: {processing} minutes")


def test_the_first_parting_that_sits_for_77_minutes(book: SmallBook) -> None:
    """32 partings of a minute, then 45 minutes from the last: 32 + 45 = 77, where 50 are allowed."""
    regrowth(book, 32, "1 minute", 45)
    book.add(CLAY_FILE, "longest_on_scalp: 50 minutes\n")
    book.edit(TECHNIQUE_FILE, MINUTES, MARK)
    [finding] = book.shows(findings=1)
    assert finding.message == (
        "From the first section in to the last rinsed is 77 minutes on the scalp "
        "(32 applying, 45 processing); the maker of Plain clay allows 50 on the scalp."
    )


def test_two_people_and_half_an_hour(book: SmallBook) -> None:
    """32 partings of a minute for two: 16, and 30 from the last: 46."""
    regrowth(book, 32, "1 minute", 30)
    book.add(CLAY_FILE, "longest_on_scalp: 50 minutes\n")
    book.add(TECHNIQUE_FILE, "hands: 2\n")
    book.shows(findings=0)


@pytest.mark.parametrize(("processing", "findings"), [(28, 0), (29, 1)])
def test_the_limit_of_the_house(book: SmallBook, processing: int, findings: int) -> None:
    """32 + 28 is the house's hour, 32 + 29 is over it."""
    regrowth(book, 32, "1 minute", processing)
    if findings:
        book.edit(TECHNIQUE_FILE, MINUTES, MARK)
    found = book.shows(findings=findings)
    assert all("; the house allows 60." in each.message for each in found)


def test_on_the_scalp_the_shortest_limit_counts(book: SmallBook) -> None:
    """24 + 20 = 44: within the house's hour and the clay's 50 on the scalp, over the powder's 40 on hair."""
    regrowth(book, 24, "1 minute", 20)
    book.add(CLAY_FILE, "longest_on_scalp: 50 minutes\n")
    book.add(POWDER_FILE, "longest_on_hair: 40 minutes\n")
    book.edit(TECHNIQUE_FILE, MINUTES, MARK)
    [found] = book.shows(findings=1)
    assert found.message.endswith("; the maker of Violet powder allows 40 on the hair.")


def test_off_the_scalp_its_limits_do_not_count(book: SmallBook) -> None:
    """12 x 2 + 35 = 59, in the open air, with a house of 20 minutes and a clay of 30 on a scalp."""
    book.edit(HOUSE_FILE, "longest_on_scalp: 60 minutes", "longest_on_scalp: 20 minutes")
    book.add(CLAY_FILE, "longest_on_scalp: 30 minutes\n")
    book.shows(findings=0)


@pytest.mark.parametrize(("longest", "findings"), [(59, 0), (58, 1)])
def test_the_maker_s_limit_on_hair(book: SmallBook, longest: int, findings: int) -> None:
    book.add(POWDER_FILE, f"longest_on_hair: {longest} minutes\n")
    if findings:
        book.edit(TECHNIQUE_FILE, MINUTES, MARK)
    book.shows(findings=findings)


@pytest.mark.parametrize(
    ("counts_from", "longest", "says"),
    [
        ("each section", 35, None),
        ("each section", 34, "A section stays on the hair for 35 minutes; the maker of Plain clay allows 34"),
        ("first section", 35, None),
        (
            "first section",
            34,
            "A section stays on the hair for 35 minutes; the maker of Plain clay allows 34",
        ),
        ("last section", 58, "59 minutes on the hair (24 applying, 35 processing)"),
    ],
)
def test_from_when_processing_counts(
    book: SmallBook, counts_from: str, longest: int, says: str | None
) -> None:
    book.add(CLAY_FILE, f"longest_on_hair: {longest} minutes\n")
    mark = MARK if says else MINUTES
    book.edit(TECHNIQUE_FILE, f"{MINUTES}35 minutes,", f"{mark}35 minutes, counts_from: {counts_from},")
    found = book.shows(findings=1 if says else 0)
    assert all(says in each.message for each in found)


def test_on_the_scalp_each_section_by_itself_is_no_way_out(book: SmallBook) -> None:
    """Skin is not rinsed by sections: 32 + 29 all the same."""
    regrowth(book, 32, "1 minute", 29)
    book.edit(TECHNIQUE_FILE, f"{MINUTES}29 minutes,", f"{MARK}29 minutes, counts_from: each section,")
    book.shows(findings=1)


@pytest.mark.parametrize(("processing", "findings"), [(25, 0), (24, 1)])
def test_applying_that_leaves_the_last_sections_no_time(
    book: SmallBook, processing: int, findings: int
) -> None:
    """24 minutes of applying, and all of it is rinsed 24 or 25 minutes after the first section."""
    mark = MARK if findings else MINUTES
    written = f"{mark}{processing} minutes, counts_from: first section,"
    book.edit(TECHNIQUE_FILE, f"{MINUTES}35 minutes,", written)
    found = book.shows(findings=findings)
    assert all("before the last has had its time" in each.message for each in found)


@pytest.mark.parametrize(("longest", "findings"), [(35, 0), (34, 1)])
def test_processing_alone_is_too_long_where_applying_is_not_known(
    book: SmallBook, longest: int, findings: int
) -> None:
    book.add(CLAY_FILE, f"longest_on_hair: {longest} minutes\n")
    book.edit(TECHNIQUE_FILE, "    minutes_per_section: 2 minutes\n", "")
    if findings:
        book.edit(TECHNIQUE_FILE, MINUTES, MARK)
    book.shows(findings=findings)


def test_without_any_limit_there_is_nothing_to_hold_it_against(book: SmallBook) -> None:
    book.edit(TECHNIQUE_FILE, "minutes: 35 minutes", "minutes: 300 minutes")
    book.shows(findings=0)
