"""Words that people type into search, and the book's words for them: a house's own, and `trade_words.yml`."""

from functools import cache
from pathlib import Path
from typing import Any, cast

from bowlbook.entries.entry import part, said
from bowlbook.entries.reader import reader_of
from bowlbook.entries.words import Name


@part
class TradeWord:
    """What people type, and what they mean by it."""

    typed: tuple[Name, ...] = said("What people type: slang, other names, usual misspellings.", public=True)
    means: tuple[Name, ...] = said(
        "What they mean, in words of the book's names, kinds and hair; what comes first is shown first.",
        public=True,
    )


@part
class TradeWords:
    """The list that comes with the program."""

    small: tuple[Name, ...] = said("Words that say nothing of what is looked for.", public=True)
    words: tuple[TradeWord, ...] = said("What people type, and what they mean.", public=True)


@cache
def trade_words() -> TradeWords:
    """The trade's own words, read once. Common practice, no published source."""
    from bowlbook.reading.document import read_text

    file = Path(__file__).with_name("trade_words.yml")
    source, findings = read_text(file.read_text(encoding="utf-8"), file.name, frozenset())
    if findings or source.data is None:
        raise ValueError(f"{file.name}: {findings}")
    return cast(TradeWords, reader_of(cast(Any, TradeWords))(source.data))
