"""advice-against-answer: a situation takes what the book's own answer keeps from that head."""

from checks.small_book import BLEND_FILE, HOUSE_FILE, SITUATION_FILE, SmallBook

REFUSAL = "not_for:\n  - {when: {curl: [coily], natural_level: 7}, because: Too strong.}\nreviewed:"
RULE = """rules:
  - {when: {texture: [fine]}, exclude: {form: [powder]}, because: No powder., standing: this house}
"""


def test_a_refusal_that_may_hold_but_is_not_said_passes(book: SmallBook) -> None:
    book.edit(BLEND_FILE, "reviewed:", REFUSAL)
    book.shows(findings=0)


def test_levels_that_do_not_go_together(book: SmallBook) -> None:
    book.edit(SITUATION_FILE, "hair: {natural_level: 7,", "hair: «advice-against-answer»{natural_level: 10,")
    book.shows(findings=1)


def test_a_house_rule_that_excludes_it(book: SmallBook) -> None:
    """The rule contradicts what the blend and the technique suit as well, and the finding is there."""
    book.edit(HOUSE_FILE, "review_after: 180 days\n", f"review_after: 180 days\n{RULE}")
    found = [(code, line) for _, line, _, code, _ in book.found()]
    assert ("advice-against-answer", 4) in found
    assert {code for code, _ in found} == {"advice-against-answer", "rule-contradicts-suits"}
