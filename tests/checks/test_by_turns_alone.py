"""by-turns-alone: a bowl used by turns with none before it, or with one that is rinsed off before it."""

from checks.small_book import BLEND_FILE, TECHNIQUE_FILE, SmallBook

FIRST = "    minutes_per_section: 2 minutes\n"
SECOND = "  - {blend: soft-clay, where: Hairline., zones: [1], sections: 6, mix_per_section: 2 g"


def test_no_is_no_mistake(book: SmallBook) -> None:
    book.edit(TECHNIQUE_FILE, FIRST, f"{FIRST}    by_turns: no\n")
    book.shows(findings=0)


def test_a_toner_after_a_lightener(book: SmallBook) -> None:
    toner = "name: Pearl\nkind: toner\nform: gel\ntone: [cool]\nmixing_ratio: {usual: 1:2}\n"
    book.write("products/pearl.yml", toner + "developer_limit: 20 volume\n")
    gloss = book.texts[BLEND_FILE].replace("Soft clay three to one", "Pearl gloss")
    start, end = gloss.index("lighteners:"), gloss.index("developer:")
    gloss = gloss[:start] + "toners:\n  - {product: pearl, parts: 1}\n" + gloss[end:]
    start, end = gloss.index("suits:"), gloss.index("reviewed:")
    book.write("blends/gloss.yml", f"{gloss[:start]}suits: {{target_level: 8-10}}\n{gloss[end:]}")
    bowl = SECOND.replace("soft-clay", "gloss")
    book.edit(TECHNIQUE_FILE, FIRST, f"{FIRST}{bowl}, by_turns: «by-turns-alone»yes}}\n")
    found = [each for each in book.found() if each[3] == "by-turns-alone"]
    assert found == book.expected()
