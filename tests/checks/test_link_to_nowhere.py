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
