"""personal-details: text that looks like somebody's e-mail address or telephone number."""

import pytest

from checks.small_book import BLEND_FILE, CLASS_FILE, SITUATION_FILE, SmallBook


@pytest.mark.parametrize(
    "text",
    [
        "Mira, 555 0123 4567, wants the cool one",
        "write to mira.b+hair@example.org",
        "+1 (555) 010-4477",
        "call 0151 123 45 67 first",
        "555010447",
        "\u0665\u0665\u0665 \u0660\u0661\u0662\u0663 \u0664\u0665\u0666\u0667",  # Arabic-Indic digits
        "mira@mail.example.co",
        "1234 5678 9012 345",  # fifteen digits, the most that a number has (ITU-T E.164, from memory)
    ],
)
def test_contact_details(book: SmallBook, text: str) -> None:
    book.add(BLEND_FILE, f'private: «personal-details?»"{text}"\n')
    book.shows(findings=1)


@pytest.mark.parametrize(
    "text",
    [
        "5550104",  # seven digits
        "55501044",  # eight: still no telephone number
        "1234 5678 9012 3456",  # sixteen: no telephone number either
        "2026-10-02 and 2026-11-25",
        "mixed 1:2, then 1:1.5, at 0.75 oz and 0.25 oz",
        "30 minutes at 20 volume, level 6-10",
        "the sign @ alone, and mira at example dot org",
        "Regulation (EC) 1223/2009",
        "09:30-12:15 and 13:00-17:45",
    ],
)
def test_other_numbers_pass(book: SmallBook, text: str) -> None:
    book.add(BLEND_FILE, f'notes: "{text}"\n')
    book.shows(findings=0)


def test_deep_in_an_entry_and_in_any_kind(book: SmallBook) -> None:
    book.edit(CLASS_FILE, "what: Theory.", "what: «personal-details?»Ask ines@example.org.")
    book.edit(SITUATION_FILE, "by: Ines", "by: «personal-details?»555 0123 4567")
    book.shows(findings=2)


def test_the_finding_quotes_nothing_of_it(book: SmallBook) -> None:
    book.add(BLEND_FILE, "private: |\n  A line.\n  Mira, 555 0123 4567\n")
    (finding,) = book.judged()
    assert "555" not in finding.message + finding.mend + finding.excerpt
    assert "Mira" not in finding.message + finding.mend + finding.excerpt


def test_it_is_at_the_line_of_the_details(book: SmallBook) -> None:
    lines = "  A line.\n  Mira, «personal-details?»555 0123 4567\n  or «personal-details?»mira@example.org\n"
    book.add(BLEND_FILE, f"private: |\n{lines}")
    book.shows(findings=2)
