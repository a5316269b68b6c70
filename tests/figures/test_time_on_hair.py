"""Time on the hair: a service played through section by section, and examples worked by hand.

How long a mix may stay is common practice, no published source: the limits here are invented.
"""

from dataclasses import replace
from fractions import Fraction as F
from math import ceil

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bowlbook.book.book import Book
from bowlbook.entries.technique import COUNTS_FROM, Technique
from bowlbook.figures.applying import HairFactors, applying, supply_count
from bowlbook.figures.service import Service, plan
from bowlbook.figures.time_on_hair import TimeOnHair, time_on_hair
from checks.small_book import HAIR, HOUSE_FILE, TECHNIQUE_FILE, SmallBook

THICK = "hair_amounts: {length: {short: 0.7, medium: 1, long: 1.4}, density: {medium: 1, thick: 1.3}}\n"
SECOND = (
    "  - {blend: soft-clay, where: Hairline., zones: [1], sections: 12, mix_per_section: 2 g, "
    "minutes_per_section: 1 minute}\n"
)


@pytest.fixture
def small(small: SmallBook) -> SmallBook:
    small.edit(HOUSE_FILE, HAIR, THICK)
    return small


def time(small: SmallBook, density: F = F(1), hands: int | None = None) -> TimeOnHair:
    book = small.read()
    return time_on_hair(book, book.techniques["painting"], density, hands)


def planned(small: SmallBook, length: str, density: str) -> Service:
    book = small.read()
    return plan(book, book.techniques["painting"], length, density, "g")


def from_section(small: SmallBook, word: str) -> None:
    small.edit(TECHNIQUE_FILE, "{minutes: 35 minutes", f"{{minutes: 35 minutes, counts_from: {word}")


def test_as_written(small: SmallBook) -> None:
    """12 sections of 2 minutes, then 35 minutes from the last: 24 + 35 = 59."""
    found = time(small)
    assert (found.applying, found.span, found.longest, found.last_due) == (24, 59, 59, 59)
    assert (found.first_due, found.limit, found.over) == (None, None, False)


def test_dense_hair_takes_more_sections(small: SmallBook) -> None:
    """12 x 1.3 are 15.6, so 16 sections, 32 minutes; with the 35 it is 67."""
    assert time(small, F("1.3")).span == 67


@pytest.mark.parametrize(("density", "span"), [(F(1), 47), (F("1.3"), 51)])
def test_two_people_take_half(small: SmallBook, density: F, span: int) -> None:
    """12 sections are 24 minutes, 12 for two; 16 are 32, 16 for two."""
    assert time(small, density, hands=2).span == span
    small.add(TECHNIQUE_FILE, "hands: 2\n")
    assert time(small, density).span == span


def test_each_section_by_itself(small: SmallBook) -> None:
    """The first is due after 35 minutes, the last, 24 minutes later, after 59; none stays over 35."""
    from_section(small, "each section")
    found = time(small)
    assert (found.span, found.longest, found.first_due, found.last_due) == (59, 35, 35, 59)


def test_from_the_first_section(small: SmallBook) -> None:
    from_section(small, "first section")
    found = time(small)
    assert (found.span, found.longest, found.no_time_for_the_last) == (35, 35, False)
    assert time(small, F("1.5")).no_time_for_the_last  # 18 sections, 36 minutes


def test_a_toner_is_not_counted(demo_book: Book) -> None:
    """32 partings of 0.75 minutes for two are 12; the toner's five minutes come after the rinse: 12 + 30."""
    found = time_on_hair(demo_book, demo_book.techniques["regrowth-on-scalp"])
    assert (found.applying, found.span) == (12, 42)


def test_bowls_by_turns_are_one_span(small: SmallBook) -> None:
    """12 x 2 and 12 x 1 minute, by turns: both stand open for 36. Fresh for 20, 3 minutes a pair: six pairs,
    so two bowls of each, 18 minutes each. One after the other the first stands 24 and the second 12."""
    small.edit(TECHNIQUE_FILE, "steps:\n", f"{SECOND}steps:\n")
    small.add("blends/soft-clay.yml", "fresh_for: 20 minutes\n")
    after = planned(small, "medium", "medium")
    assert [[each.minutes for each in bowl.fresh] for bowl in after.bowls] == [[12, 12], [12]]
    small.edit(TECHNIQUE_FILE, "per_section: 1 minute}", "per_section: 1 minute, by_turns: yes}")
    turns = planned(small, "medium", "medium")
    assert [[each.minutes for each in bowl.fresh] for bowl in turns.bowls] == [[18, 18], [18, 18]]
    assert after.time.applying == turns.time.applying == 36


@pytest.mark.parametrize("length", ["short", "medium", "long"])
def test_regrowth_does_not_grow_with_length(small: SmallBook, length: str) -> None:
    small.edit(TECHNIQUE_FILE, "zones: [2, 3]", "zones: [1]")
    [bowl] = planned(small, length, "medium").bowls
    assert sum(each.need for each in bowl.fresh) == 60


def test_regrowth_grows_with_density_in_sections_minutes_and_mix(small: SmallBook) -> None:
    """12 partings of 5 g: 60 g. 1.3 of it is 78 g, in 16 partings of two minutes."""
    small.edit(TECHNIQUE_FILE, "zones: [2, 3]", "zones: [1]")
    [[fresh]] = [bowl.fresh for bowl in planned(small, "long", "thick").bowls]
    assert (fresh.sections, fresh.minutes, fresh.need) == (16, 32, 78)


def test_lengths_grow_with_both(small: SmallBook) -> None:
    """60 g x 1.4 x 1.3 = 109.2 g."""
    [bowl] = planned(small, "long", "thick").bowls
    assert (bowl.factor, bowl.fresh[0].need) == (F("1.82"), F("109.2"))


def test_foils_go_with_the_sections(small: SmallBook) -> None:
    """Ten for 12 sections; for 16 they are 13.33, so 14. Gloves and the like stay."""
    assert [line.count for line in planned(small, "short", "thick").supplies] == [10]
    small.edit(TECHNIQUE_FILE, "count: 10}", "count: 10, by_sections: yes}")
    assert [line.count for line in planned(small, "short", "thick").supplies] == [14]
    assert [line.count for line in planned(small, "short", "medium").supplies] == [10]


def test_the_timer_rings_at_the_limit_where_that_is_sooner(small: SmallBook) -> None:
    small.add("products/clay.yml", "longest_on_hair: 50 minutes\n")
    found = time(small)
    assert (found.over, found.last_due, found.limit.product.id) == (True, 50, "clay")
    from_section(small, "each section")
    assert time(small).last_due == 59  # each stays for 35
    small.add("products/clay.yml", "longest_on_hair: 30 minutes\n")
    found = time(small)
    assert (found.over, found.first_due, found.last_due) == (True, 30, 54)


def played(technique: Technique, density: F, hands: int) -> tuple[F, F, F]:
    """Applying, first touched to last rinsed, and the longest stay, by a clock that goes section by section.

    By turns or one after the other, the sections of two bowls take the same time in all.
    """
    clock = F(0)
    went_in: list[F] = []
    for bowl in technique.bowls:
        count = bowl.sections if bowl.sections == 1 else ceil(bowl.sections * density)
        each = bowl.minutes_per_section * (density if bowl.sections == 1 else F(1, hands))
        for _ in range(count):
            went_in.append(clock)
            clock += each
    stays = technique.processing.minutes
    rinsed = {
        "last section": [clock + stays] * len(went_in),
        "first section": [max(clock, stays)] * len(went_in),
        "each section": [*(then + stays for then in went_in[1:]), clock + stays],
    }[technique.processing.counts_from]
    if technique.processing.counts_from == "each section":
        return clock, rinsed[-1], stays
    return clock, rinsed[-1], max(out - then for out, then in zip(rinsed, went_in, strict=True))


@given(st.data())
def test_a_service_played_through(demo_book: Book, data: st.DataObject) -> None:
    technique = demo_book.techniques[data.draw(st.sampled_from(["dark-paint", "dark-weave", "fine-weaves"]))]
    lightening = [each for each in technique.bowls if not demo_book.blends[each.blend].tones]
    bowls = tuple(
        replace(
            bowl,
            sections=data.draw(st.integers(1, 60)),
            minutes_per_section=F(data.draw(st.integers(1, 12)), 4),
            by_turns=None if place == 0 else data.draw(st.sampled_from([None, True])),
        )
        for place, bowl in enumerate(lightening)
    )
    processing = replace(
        technique.processing,
        minutes=F(data.draw(st.integers(5, 60))),
        counts_from=data.draw(st.sampled_from(COUNTS_FROM)),
    )
    changed = replace(technique, bowls=bowls, processing=processing)
    density, hands = (
        data.draw(st.sampled_from([F("0.8"), F(1), F("1.3")])),
        data.draw(st.sampled_from([1, 2])),
    )
    found = time_on_hair(demo_book, changed, density, hands)
    assert (found.applying, found.span, found.longest) == played(changed, density, hands)
    assert found.last_due is not None and found.last_due <= found.span
    on_hair = found.longest if found.counts_from != "each section" else found.first_due
    assert found.limit is None or found.over or on_hair <= found.limit.minutes


@given(st.lists(st.integers(1, 60), min_size=1, max_size=3), st.fractions("0.1", 3, max_denominator=20))
def test_no_section_lacks_its_foil(demo_book: Book, written: list[int], density: F) -> None:
    """However foils were counted: one for each section of any of the bowls, or of all of them together."""
    technique = demo_book.techniques["dark-weave"]
    changed = replace(technique, bowls=tuple(replace(technique.bowls[0], sections=n) for n in written))
    taken = [each.sections for each in applying(changed, density, 1)]
    for count, here in [*zip(written, taken, strict=True), (sum(written), sum(taken))]:
        if 1 not in written:
            assert supply_count(changed, count, density) >= here


def test_the_factor_of_a_bowl_on_more_than_the_root(demo_book: Book) -> None:
    bowl = demo_book.techniques["fine-weaves"].bowls[0]
    assert bowl.zones == ("1", "2", "3")
    assert HairFactors(F("1.4"), F("1.3")).of(bowl) == F("1.82")
