"""What templates put out is escaped. Held against MarkupSafe, and against the standard library's parser."""

from html.parser import HTMLParser

import pytest
from markupsafe import Markup, escape

from bowlbook.pages.render import _environment


class Text(str):
    """A text of another type."""


class OwnMarkup(Text):
    def __html__(self) -> str:
        return f"<b>{escape(str(self))}</b>"


TEMPLATE = """{% macro bold(x) %}<b>{{ x }}</b>{% endmacro %}\
{{ x }}<p title="{{ x }}" lang='{{ x }}'>{{ bold(x) }}</p>"""
CHARACTERS = [chr(code) for code in range(0x3000) if chr(code) not in "\0\r"]


@pytest.mark.parametrize("kind", [str, Text, OwnMarkup, Markup, lambda text: [text]])
def test_a_value_is_escaped_as_markupsafe_does(kind: type) -> None:
    template = _environment().from_string(TEMPLATE)
    for value in [*map(kind, CHARACTERS), *map(kind, ["", "<i>&amp;</i>", "a'b"]), 1, None]:
        safe = escape(value)
        assert template.render(x=value) == f"""{safe}<p title="{safe}" lang='{safe}'><b>{safe}</b></p>"""


class Reader(HTMLParser):
    """Notes what it reads."""

    def __init__(self) -> None:
        super().__init__()
        self.found: list[object] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.found.append((tag, attrs))

    def handle_data(self, data: str) -> None:
        self.found.append(data)


def test_a_parser_reads_every_character_back() -> None:
    template = _environment().from_string(TEMPLATE)
    for text in CHARACTERS:
        reader = Reader()
        reader.feed(template.render(x=text))
        reader.close()
        assert reader.found == [text, ("p", [("title", text), ("lang", text)]), ("b", []), text]
