"""What makes pages: the name of a function and its inputs, so made that no dependency can be forgotten.

A maker has three sources. What it looks up in the book is recorded while it runs; its inputs, and the pieces
of other makers, are digested by their values. The cache adds the program, the house and the audience.
"""

import marshal
from collections.abc import Callable, Iterable, Sequence
from dataclasses import fields, is_dataclass
from datetime import date
from fractions import Fraction
from functools import cache
from pkgutil import resolve_name
from typing import Any

from bowlbook.book.book import Book
from bowlbook.cache.digest import WITHOUT_REFERENCES, digest_of
from bowlbook.pages.page import Document, Page, Piece

Output = Page | Document | Piece
Function = Callable[..., Output | Iterable[Output]]
Need = tuple[str, str]
"""The name of a maker, and that of its `Piece`."""

ATOMS = frozenset((type(None), bool, int, float, str, bytes))
WRITTEN = frozenset((Fraction, date))
"""Types whose text says all of their value."""


class Maker:
    """Makes some of a book's pages and documents, independently of other makers, in any process and order.

    ``name``: unique in a book; the cache key. ``function``: where it is, as ``module:function``: so it holds
    no values that no digest covers, and its module is loaded when it runs. It gets the book and the
    ``inputs``, each a plain value (see `value_digest`), and returns what it makes: one output, or several.
    ``needs``: the pieces of other makers that it takes as ``pieces``, in this order; none in a book without
    entries. Left out, the function takes no pieces.
    ``digest``: of the function's name and of every input.

    Raises TypeError for an input that cannot be digested.
    """

    __slots__ = ("digest", "function", "inputs", "name", "needs", "takes_pieces")

    def __init__(
        self, name: str, function: str, *inputs: object, needs: Sequence[Need] | None = None
    ) -> None:
        self.name, self.function, self.inputs = name, function, inputs
        self.takes_pieces, self.needs = needs is not None, tuple(needs or ())
        try:
            self.digest = digest_of(function, value_digest(inputs))
        except TypeError as error:
            raise TypeError(f"The maker {name}: {error}") from error

    def make(self, book: Book, pieces: Sequence[Any] = ()) -> Iterable[Output]:
        """Run the function. ``pieces``: those of the makers it needs."""
        try:
            function: Function = resolve_name(self.function)
        except (ImportError, AttributeError) as error:
            raise TypeError(f"The maker {self.name}: {error}") from error
        taken = {"pieces": pieces} if self.takes_pieces else {}
        made = function(book, *self.inputs, **taken)
        if made is None:
            raise TypeError(f"The maker {self.name}: {self.function} returns no page, document or piece")
        return [made] if isinstance(made, Output) else made


def value_digest(value: object) -> bytes:
    """The digest of a plain value: the same in every run of the program, for equal values of equal types.

    Plain are None, booleans, numbers, texts, bytes, dates and fractions; tuples, lists and dictionaries (in
    their order) of these; dataclasses and named tuples, by all their fields. TypeError for all else: sets,
    which have no order, and objects whose state may be more than their fields, such as functions and books.
    """
    return digest_of(marshal.dumps(_plain(value), WITHOUT_REFERENCES))


def _plain(value: Any) -> Any:
    """A value made of built-in types alone; beside the content of any but a tuple, the name of its type."""
    kind = type(value)
    if kind in ATOMS:
        return value
    if kind is tuple:
        return tuple([each if type(each) in ATOMS else _plain(each) for each in value])
    if kind is list:
        return {"list": _plain(tuple(value))}
    if kind is dict:
        return {"dict": _plain(tuple(value.items()))}
    named = f"{kind.__module__}.{kind.__qualname__}"
    if kind in WRITTEN:
        return {named: str(value)}
    if isinstance(value, tuple) and hasattr(kind, "_fields"):
        return {named: _plain(tuple(value))}
    if is_dataclass(kind) and not hasattr(value, "__dict__"):
        return {named: _plain(tuple([getattr(value, name) for name in _fields_of(kind)]))}
    raise TypeError(f"a {named} has no digest: pass the plain values that are used of it")


@cache
def _fields_of(kind: type) -> tuple[str, ...]:
    return tuple(each.name for each in fields(kind))
