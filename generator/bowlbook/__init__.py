"""Bowlbook: a house recipe book for hair lightening, read strictly, computed exactly, published.

As a library: `read_book`, `mix`, `match`, `plan`, and the errors `InvalidBook` and `UnknownName`.
"""

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from bowlbook.api import InvalidBook, UnknownName, match, mix, plan, read_book

__all__ = ["InvalidBook", "UnknownName", "match", "mix", "plan", "read_book"]


def __getattr__(name: str) -> Any:
    """Import the public functions on first use: a command that needs none of them starts sooner."""
    if name not in __all__:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    from bowlbook import api

    return getattr(api, name)


def __dir__() -> list[str]:
    """The public names, for completion at a prompt: they are not loaded yet."""
    return sorted({*globals(), *__all__})
