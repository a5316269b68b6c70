"""An entry's text as a tree of items, each with the comments that belong to it."""

from collections.abc import Iterator
from dataclasses import dataclass, field

BLANK = "\n"
"""A blank line between items, where comments are listed; dropped after a text that ends with blank lines."""


@dataclass
class Leaf:
    """One value as it is to be written.

    ``inline``: what stands behind its key or dash. ``lines``: the lines of a block text (| or >) under it,
    without indentation.
    """

    inline: str
    lines: list[str] = field(default_factory=list)


@dataclass
class Branch:
    """A mapping (its items have keys) or a list. ``brackets``: on one line, in { } or [ ]."""

    keyed: bool
    items: list["Item"] = field(default_factory=list)
    brackets: bool = False


@dataclass
class Item:
    """A key with its value, or one value of a list.

    ``above``: the comment lines over it, or `BLANK`. ``beside``: the comment on its own
    line, and ``column`` the column (from 0) in which that began. ``below``: comments that end what is in it.
    """

    key: str | None
    value: Leaf | Branch
    above: list[str] = field(default_factory=list)
    beside: str = ""
    column: int = 0
    below: list[str] = field(default_factory=list)

    def comments(self) -> Iterator[str]:
        """Every comment in this item, at any depth."""
        yield from (line for line in (*self.above, self.beside, *self.below) if line.strip())
        if isinstance(self.value, Branch):
            for inner in self.value.items:
                yield from inner.comments()


@dataclass
class Tree:
    """An entry's text: comments at its head, its keys, comments at its end."""

    top: Branch
    head: list[str] = field(default_factory=list)
    end: list[str] = field(default_factory=list)

    def comments(self) -> list[str]:
        """Every comment, sorted."""
        inner = (line for item in self.top.items for line in item.comments())
        return sorted([*(line for line in (*self.head, *self.end) if line.strip()), *inner])
