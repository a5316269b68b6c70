"""Long pages of the manual as folds: nothing of them is lost, and each fold says what is in it."""

import markdown
import pytest

from bowlbook.pages.manual import manual_files
from bowlbook.site.folded import LEAST, LONGEST, folded
from bowlbook.site.page_text import pieces_of


def section(number: int, rest: str) -> str:
    return f'<h2 id="s{number}">Section {number}</h2>\n{rest}\n'


def test_a_page_with_few_sections_stays_whole() -> None:
    html = "<h1>Page</h1>" + "".join(section(number, "<p>Text.</p>") for number in range(LEAST - 1))
    assert folded(html) == html


def test_each_section_is_a_fold_that_says_what_is_in_it() -> None:
    long = "&amp; word " * 40
    texts = [
        "<p>One <code>two</code>.</p>",
        "<h3>A</h3><p>x</p><h3>B</h3>",
        f"<p>{long}</p>",
        "<pre>x</pre>",
        "",
    ]
    html = "<h1>Page</h1>" + "".join(section(number, text) for number, text in enumerate(texts))
    found = folded(html)
    assert found.startswith(
        '<h1>Page</h1><div class="bb-folds bb-findable"><details class="bb-fold"><summary>'
    )
    assert found.count("<details") == found.count("</details>") == len(texts)
    said = [each.split("</small>")[0] for each in found.split("<small>")[1:]]
    assert said[:2] == ["One two.", "A; B"] and said[3:] == ["", ""]
    assert said[2].endswith((" &amp; …", " word …")) and len(said[2]) <= LONGEST + 2


def test_a_page_written_by_hand_says_from_where_on_it_is_folded() -> None:
    rows = (
        "<table><thead><tr><th>word</th></tr></thead><tbody><tr><td>area</td><td>x</td></tr></tbody></table>"
    )
    points = "<ul><li>Gloves, <em>new</em>.</li><li>Fresh air.</li></ul>"
    html = (
        section(1, "Open.")
        + '<div class="bb-folds bb-findable"></div>'
        + section(2, rows)
        + section(3, points)
    )
    for manual in (False, True):
        found = folded(html, manual=manual)
        assert found.startswith(section(1, "Open.") + '<div class="bb-folds bb-findable"><details')
        assert found.count("<details") == 2 and found.endswith("</details></div>")
        assert "<small>area</small>" in found and "<small>Gloves, new; Fresh air.</small>" in found
    assert pieces_of(folded(html)) == pieces_of(html)
    assert folded("".join(section(number, "") for number in range(9)), manual=False).count("<details") == 0


@pytest.mark.parametrize("path", sorted(manual_files()))
def test_search_finds_the_same_on_a_folded_page_of_the_manual(path: str) -> None:
    text = manual_files()[path].read_text(encoding="utf-8")
    html = markdown.markdown(text, extensions=["tables", "fenced_code", "toc"])
    assert pieces_of(folded(html)) == pieces_of(html)
