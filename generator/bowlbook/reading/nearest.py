"""The nearest known name, for "did you mean"."""

from collections.abc import Iterable
from functools import lru_cache


def nearest(word: str, known: Iterable[str]) -> str | None:
    """The known name most like ``word``, or None where none is alike enough.

    Long words are cut first, so that the answer comes at once for any input.
    """
    return _nearest(word[:60].lower().strip(), tuple(sorted(known)))


@lru_cache(4096)
def _nearest(word: str, known: tuple[str, ...]) -> str | None:
    from difflib import get_close_matches  # only where something is wrong

    candidates = {name.lower(): name for name in known}
    found = get_close_matches(word, candidates, n=1, cutoff=0.6)
    return candidates[found[0]] if found else None


def did_you_mean(word: str, known: Iterable[str]) -> str:
    """A closing question such as ``Did you mean "powder"?``, or the known names where they are few."""
    names = sorted(known)
    close = nearest(word, names)
    if close is not None:
        return f'Did you mean "{close}"?'
    if 0 < len(names) <= 12:
        return "Use one of: " + ", ".join(names) + "."
    return ""
