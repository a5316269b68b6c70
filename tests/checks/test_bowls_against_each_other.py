"""bowls-against-each-other: two bowls say opposite things of a head of which the technique says nothing."""

import pytest

from checks.small_book import BLEND_FILE, TECHNIQUE_FILE, SmallBook

CREAM = """\
name: Cream beside it
lighteners:
  - {product: clay, parts: 1}
developer: {ratio: 1:2, product: developer-20}
suits: {porosity: [medium, high], curl: [straight, wavy], lift: 1-3}
cautions: [Off the skin.]
reviewed: {on: 2026-10-02, by: Ines}
"""


def two_bowls(book: SmallBook, when: str) -> None:
    """A technique of two bowls, the first of which refuses some heads."""
    book.add(BLEND_FILE, f"not_for:\n  - {{when: {{{when}}}, because: It is too strong.}}\n")
    book.write("blends/cream.yml", CREAM)
    amounts = "sections: 6, mix_per_section: 2 g, minutes_per_section: 1 minute"
    bowl = f"  - {{blend: cream, where: Beside it., zones: [1], {amounts}}}\nsteps:"
    book.edit(TECHNIQUE_FILE, "steps:", bowl)


@pytest.mark.parametrize(
    "when", ["porosity: [high]", "curl: [wavy], porosity: [medium]", "curl: [wavy, coily]"]
)
def test_the_one_is_meant_for_what_the_other_refuses(book: SmallBook, when: str) -> None:
    two_bowls(book, when)
    book.edit(TECHNIQUE_FILE, "blend: soft-clay", "blend: «bowls-against-each-other»soft-clay")
    book.shows(findings=1)


@pytest.mark.parametrize(
    "when",
    [
        "porosity: [low]",  # the other is not meant for it
        "curl: [coily]",
        "density: [thick]",  # of density the other says nothing
        "porosity: [high], natural_level: 1-4",  # the technique suits no such level
    ],
)
def test_hair_that_neither_is_meant_for(book: SmallBook, when: str) -> None:
    two_bowls(book, when)
    book.shows(findings=0)


def test_what_the_technique_refuses_itself(book: SmallBook) -> None:
    two_bowls(book, "porosity: [high]")
    book.add(TECHNIQUE_FILE, "not_for:\n  - {when: {porosity: [high]}, because: Its clay is too strong.}\n")
    book.shows(findings=0)
