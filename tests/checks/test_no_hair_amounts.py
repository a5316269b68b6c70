"""no-hair-amounts: techniques say what they use, and the house has not measured what a head takes."""

import pytest

from checks.small_book import HAIR, HOUSE_FILE, TECHNIQUE_FILE, SmallBook


def test_once_at_the_house_however_many_techniques(book: SmallBook) -> None:
    book.write("techniques/other.yml", book.texts[TECHNIQUE_FILE].replace("name: Open", "name: Other"))
    book.write(HOUSE_FILE, "«no-hair-amounts?»" + book.texts[HOUSE_FILE].replace(HAIR, ""))
    [finding] = book.shows(findings=1)
    assert finding.message == (
        "The house has not measured hair amounts: no service is worked out, as of Other painting."
    )


@pytest.mark.parametrize("hair", ["{length: {medium: 1}, density: {}}", "{length: {}, density: {medium: 1}}"])
def test_lengths_without_a_density_measure_no_head(book: SmallBook, hair: str) -> None:
    book.edit(HOUSE_FILE, HAIR, f"hair_amounts: «no-hair-amounts?»{hair}\n")
    book.shows(findings=1)


def test_where_no_technique_says_what_it_uses_nothing_is_missing(book: SmallBook) -> None:
    book.edit(HOUSE_FILE, HAIR, "")
    book.edit(TECHNIQUE_FILE, "    mix_per_section: 5 g\n", "")
    book.shows(findings=0)
