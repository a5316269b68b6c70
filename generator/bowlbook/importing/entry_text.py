"""A draft as an entry's text, in the order and style of ``bowlbook format``."""

import json
import re

from bowlbook.entries.gap import GAP
from bowlbook.formatting.order import put_in_order
from bowlbook.formatting.tree import Branch, Item, Leaf, Tree
from bowlbook.formatting.write_tree import write_tree
from bowlbook.importing.draft import Draft
from bowlbook.reading.document import read_text
from bowlbook.reading.guard import CONTROL
from bowlbook.reading.source import Loc, texts_in

PLAIN = re.compile(r"[^\W_](?:[\w ()%'.;/+×°!?–-]|:(?=[^\s:]))*")
"""A text that YAML reads as it stands, inside brackets too."""
LINE = re.compile(r"[^\W_][^#:\[\]{}\"&*!|>@`]*")
"""One on a line of its own, where commas end nothing."""
FEW_WORDS = re.compile(r"[\w.-]+(?: [\w.-]+)?")
NO_TEXT = ("null", "~")
LINES = (("suits",), ("hair",))
"""Parts that are written as lines, however short: they are what is read most."""


def entry_text(draft: Draft) -> str:
    """The text, which reads back as the draft's data."""
    head = [f"# yaml-language-server: $schema=../../.bowlbook/schema/{draft.kind}.json"]
    if draft.gaps:
        head.append("# ??? is a gap: fill it in, or delete the line where it need not be.")
    # Which texts need quotes is found by reading the result, not by a list of what YAML reads otherwise.
    for quoted in (False, True):
        top = _Writer(draft, quoted).mapping(draft.data, ())
        put_in_order(top, draft.entry_class)
        text = write_tree(Tree(top, head))
        source, findings = read_text(text, "new.yml", frozenset())
        if not findings and source.data == _as_read(draft.data):
            break
    return text


def _as_read(value: object) -> object:
    """The data as it is read back: a text of several lines ends with a newline."""
    if isinstance(value, dict):
        return {key: _as_read(inner) for key, inner in value.items()}
    if isinstance(value, list):
        return [_as_read(inner) for inner in value]
    return value.strip("\n") + "\n" if isinstance(value, str) and "\n" in value else value


def _is_short(value: object) -> bool:
    """Whether a part or a list goes on one line: it has no gap, and nothing longer than a few words."""
    return all(text != GAP and len(text) <= 60 and "\n" not in text for _, text in texts_in(value))


class _Writer:
    """Makes items of data. ``quoted``: every text in quotes."""

    def __init__(self, draft: Draft, quoted: bool) -> None:
        self.remarks = draft.remarks
        self.quoted = quoted

    def mapping(self, data: dict[str, object], way: Loc) -> Branch:
        items = [self._item(key, value, (*way, key)) for key, value in data.items()]
        in_lines = bool(data) and way[:1] in LINES
        return Branch(True, items, brackets=not in_lines and _is_short(data))

    def _item(self, key: str | None, value: object, way: Loc) -> Item:
        return Item(key, self._value(value, way), beside=self._remark(way))

    def _value(self, value: object, way: Loc) -> Branch | Leaf:
        if isinstance(value, dict):
            return self.mapping(value, way)
        if isinstance(value, list):
            items = [self._item(None, each, (*way, at)) for at, each in enumerate(value)]
            words = all(isinstance(each, str) and FEW_WORDS.fullmatch(each) for each in value)
            return Branch(False, items, brackets=words and _is_short(value))
        text = str(value)
        if "\n" in text and not self.quoted:
            return Leaf("|", text.strip("\n").split("\n"))
        return Leaf(self._scalar(text, len(way) > 1))

    def _scalar(self, text: str, inside: bool) -> str:
        plain = PLAIN.fullmatch(text) or (not inside and LINE.fullmatch(text))
        certain = plain and not self.quoted and text == text.strip() and text.lower() not in NO_TEXT
        return text if certain or text == GAP else json.dumps(text, ensure_ascii=False)

    def _remark(self, way: Loc) -> str:
        """The comment beside a gap: what the table says, without signs that a comment cannot have."""
        said = self.remarks.get(way)
        return "" if said is None else f"# {CONTROL.sub('', said)}"
