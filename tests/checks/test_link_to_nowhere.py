"""link-to-nowhere: a Markdown link that leads to no page of the web."""

import pytest

from checks.small_book import BLEND_FILE, SmallBook


@pytest.mark.parametrize(
    "text",
    [
        "See [this](painting).",
        "See [this](/blends/).",
        "See [this](//example.org/).",
        "See [this](javascript:x).",
        "See [this](mailto:x).",
        "See [this]().",
        "See [this][1].\\n\\n[1]: ../painting",
    ],
)
def test_it_leads_nowhere(book: SmallBook, text: str) -> None:
    book.add(BLEND_FILE, f'notes: «link-to-nowhere?»"{text}"\n')
    book.shows(findings=1)


@pytest.mark.parametrize(
    "text",
    [
        "See [this](https://www.example.org/a).",
        "See [this](<HTTP://www.example.org/a> 'title').",
        "See [this][1].\\n\\n[1]: https://www.example.org/",
        "Two [levels] (or three) up.",
    ],
)
def test_it_leads_to_the_web(book: SmallBook, text: str) -> None:
    book.add(BLEND_FILE, f'notes: "{text}"\n')
    book.shows(findings=0)


BLOCKS = [
    "notes: |\n  See [one](https://www.example.org/).\n  See «link-to-nowhere?»[this](painting).\n"
    "  - [«link-to-nowhere?»](x) and [that](y)\n",
    "notes: >-\n  See the standard, [this one](https://www.example.org/), or\n"
    "  «link-to-nowhere?»[this](painting)\n  and so on.\n",
    "notes: See the page on painting,\n  [this one«link-to-nowhere?»](painting).\n",
    'notes: "See the page\n  [this one«link-to-nowhere?»](painting)."\n',
    'notes: «link-to-nowhere?»"See the page [this one](pain\\x74ing)\n  and more."\n',
    "notes: |\n  See it.\n\n  «link-to-nowhere?»[1]: ../painting\n",
    "cautions:\n  - Burns.\n  - «link-to-nowhere?»See [that](painting).\n",
]


@pytest.mark.parametrize("text", BLOCKS, ids=range(len(BLOCKS)))
def test_it_is_at_the_line_of_the_link(book: SmallBook, text: str) -> None:
    """The column is that of the link's address where the text goes over several lines."""
    text = text.replace("«link-to-nowhere?»[this](painting)", "[this«link-to-nowhere?»](painting)")
    book.add(BLEND_FILE, text)
    book.shows(findings=text.count("«"))
