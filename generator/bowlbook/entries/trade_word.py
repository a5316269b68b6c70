"""Words that people type into search, and the book's words for them: a house's own, and `trade_words.yml`."""

from functools import cache

from bowlbook.entries.entry import Part, said
from bowlbook.entries.own_list import own_list
from bowlbook.entries.words import Name


class TradeWord(Part):
    """What people type, and what they mean by it."""

    typed: tuple[Name, ...] = said("What people type: slang, other names, usual misspellings.", public=True)
    means: tuple[Name, ...] = said(
        "What they mean, in words of the book's names, kinds and hair; what comes first is shown first.",
        public=True,
    )


class TradeWords(Part):
    """The list that comes with the program."""

    small: tuple[Name, ...] = said("Words that say nothing of what is looked for.", public=True)
    words: tuple[TradeWord, ...] = said("What people type, and what they mean.", public=True)


@cache
def trade_words() -> TradeWords:
    """The trade's own words, read once. Common practice, no published source."""
    return own_list(TradeWords, "trade_words.yml")
