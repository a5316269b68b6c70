"""The text of a page by hand in pieces."""

from bowlbook.site.page_text import TextPiece, pieces_of
from bowlbook.site.search_files import lead_of

PAGE = """<h1 id="s">Safety</h1><p>First <b>of</b>
all.</p><h2 id="before">Before &amp; after</h2><ul><li>Henna: test.<ul><li>Inner.</li></ul></li></ul>
<pre><code>left out</code></pre><table><tr><th>word</th><th>means</th></tr>
<tr><td>tare</td><td>to set to zero</td></tr>
<tr><td>a</td><td>b</td><td>c</td></tr></table>Loose text."""


def test_each_paragraph_item_and_row_with_its_heading() -> None:
    assert pieces_of(PAGE) == [
        TextPiece("", "", "", "First of all."),
        TextPiece("before", "Before & after", "", "Henna: test."),
        TextPiece("before", "Before & after", "", "Inner."),
        TextPiece("before", "Before & after", "word", "means"),
        TextPiece("before", "Before & after", "tare", "to set to zero"),
        TextPiece("before", "Before & after", "", "a. b. c"),
        TextPiece("before", "Before & after", "", "Loose text."),
    ]
    assert pieces_of("") == []


def test_what_a_paragraph_begins_with() -> None:
    assert lead_of("Henna or plant colour: test cut strands.") == ("Henna or plant colour",)
    assert lead_of("Metallic dye. None.") == ("Metallic dye",)
    assert lead_of("No such start here at all, and so on: more.") == ()
    assert lead_of("All of it") == ()
