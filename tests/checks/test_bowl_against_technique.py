"""bowl-against-technique: a technique suits hair for which the blend in its bowl is refused."""

import pytest

from checks.small_book import BLEND_FILE, DEVELOPER_FILE, SITUATION_FILE, TECHNIQUE_FILE, SmallBook

SUITS = "suits:\n  natural_level: 6-10\n  texture: [fine, medium]\n"
HAIRLINE_CREAM = """\
name: Cream for the hairline
lighteners:
  - {product: clay, parts: 1}
developer: {ratio: 1:2, product: developer-10}
suits: {area: [hairline], lift: 1-3}
cautions: [Off the skin.]
reviewed: {on: 2026-10-02, by: Ines}
"""


def refuse(book: SmallBook, when: str, file: str = BLEND_FILE) -> None:
    book.add(file, f"not_for:\n  - {{when: {{{when}}}, because: It is too strong.}}\n")


def suit(book: SmallBook, facets: str) -> None:
    """What the technique suits, and a bowl that is expected to contradict it."""
    book.edit(TECHNIQUE_FILE, SUITS, f"suits: {{{facets}}}\n")
    book.edit(TECHNIQUE_FILE, "blend: soft-clay", "blend: «bowl-against-technique»soft-clay")
    book.edit(SITUATION_FILE, "texture: [fine]", "texture: [medium]")


def second_bowl(book: SmallBook, blend: str) -> None:
    amounts = "sections: 6, mix_per_section: 2 g, minutes_per_section: 1 minute"
    bowl = f"  - {{blend: {blend}, where: Beside it., zones: [1], {amounts}}}\nsteps:"
    book.edit(TECHNIQUE_FILE, "steps:", bowl)
    ten = book.texts[DEVELOPER_FILE].replace("Developer 20", "Developer 10").replace("6 %", "3 %")
    book.write("products/developer-10.yml", ten.replace("volume: 20", "volume: 10"))


@pytest.mark.parametrize(
    ("facets", "when"),
    [
        ("natural_level: 6-10, texture: [fine, medium]", "texture: [fine], natural_level: 10"),
        ("natural_level: 6-8, texture: [medium, coarse]", "texture: [coarse], placement: [open-air]"),
        ("natural_level: 6-7, lift: 2-3", "target_level: 10"),  # two of the levels give the third
        ("tone: [cool, neutral], texture: [coarse, medium]", "tone: [cool], texture: [coarse]"),
    ],
)
def test_hair_that_the_one_names_and_the_other_refuses(book: SmallBook, facets: str, when: str) -> None:
    refuse(book, when)
    suit(book, facets)
    book.shows(findings=1)


@pytest.mark.parametrize(
    "when",
    [
        "texture: [coarse]",  # not one that the technique suits
        "texture: [fine], natural_level: 1-5",
        "curl: [coily]",  # of curl the technique says nothing
        "texture: [fine], porosity: [high]",
        "texture: [fine], placement: [foil]",  # it is not placed in foil
        "natural_level: 10, texture: [fine], target_level: 9",  # lifted to less than it is: no such head
    ],
)
def test_what_contradicts_nothing(book: SmallBook, when: str) -> None:
    book.edit(SITUATION_FILE, "texture: [fine]", "texture: [medium]")
    refuse(book, when)
    book.shows(findings=0)


def test_what_the_technique_refuses_itself(book: SmallBook) -> None:
    book.edit(SITUATION_FILE, "texture: [fine]", "texture: [medium]")
    refuse(book, "texture: [fine], natural_level: 6-9")
    # Two refusals that cover it together, neither of them alone.
    refusals = [
        f"  - {{when: {{texture: [fine], natural_level: {span}}}, because: It mats.}}\n"
        for span in ("5-7", "8-10")
    ]
    book.add(TECHNIQUE_FILE, "not_for:\n" + "".join(refusals))
    book.shows(findings=0)
    book.edit(TECHNIQUE_FILE, "natural_level: 5-7", "natural_level: 5-6")
    book.edit(TECHNIQUE_FILE, "blend: soft-clay", "blend: «bowl-against-technique»soft-clay")
    book.shows(findings=1)


def test_an_area_that_has_a_bowl_of_its_own(book: SmallBook) -> None:
    refuse(book, "area: [hairline]")
    suits = "suits: {natural_level: 6-10, lift: 1-3, area: [hairline, lengths]}\ncautions: [Off the skin.]\n"
    book.edit(TECHNIQUE_FILE, SUITS, suits)
    book.edit(TECHNIQUE_FILE, "blend: soft-clay", "blend: «bowl-against-technique»soft-clay")
    book.shows(findings=1)
    book.edit(TECHNIQUE_FILE, "«bowl-against-technique»", "")
    book.write("blends/hairline-cream.yml", HAIRLINE_CREAM)
    second_bowl(book, "hairline-cream")
    book.shows(findings=0)


def test_another_bowl_excuses_no_refusal_of_hair(book: SmallBook) -> None:
    """The bowl beside it suits fine hair; fine hair gets both bowls all the same."""
    refuse(book, "texture: [fine]")
    suit(book, "natural_level: 6-10, texture: [fine, medium]")
    book.write("blends/gentle.yml", HAIRLINE_CREAM.replace("area: [hairline]", "texture: [fine]"))
    second_bowl(book, "gentle")
    book.shows(findings=1)


def test_the_words_name_the_hair_and_the_reason(book: SmallBook) -> None:
    refuse(book, "texture: [fine], natural_level: 9-10")
    suit(book, "natural_level: 6-10, texture: [fine, medium]")
    (finding,) = book.judged()
    assert finding.severity == "error"
    assert "natural level 9–10, texture fine. It is too strong." in finding.message
