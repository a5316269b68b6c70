"""Every text of a book, with its place: what the checks of wording look through. Not a check itself."""

import re
from collections.abc import Callable, Iterable, Iterator

from bowlbook.entries.entry import Entry
from bowlbook.reading.finding import Finding, Severity
from bowlbook.reading.place import Place
from bowlbook.reading.source import Loc, texts_in

OTHERS = bytes(range(128, 256))
SHAPES = bytes.maketrans(b"123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ" + OTHERS, b"0" * 9 + b"A" * 26 + b"0" * 128)
"""What each byte becomes in a text's shape."""


def shape_of(text: str, without: bytes = b"") -> bytes:
    """A text with 0 for every digit and A for every capital of ASCII, and without some signs.

    Each byte of a character beyond ASCII becomes 0, since it may be a digit. Made and searched in a fifth of
    the time that a pattern takes.
    """
    return text.encode(errors="surrogatepass").translate(SHAPES, without)


def texts_with(
    entry: Entry, sign: Callable[[str], object], *, public: bool = False
) -> Iterator[tuple[Loc, str]]:
    """The texts of an entry that have the sign in them, in the file's order.

    ``sign`` is what no text that is looked for goes without, such as ``PHONE.search``; it is asked once for
    all texts together, with line ends between them, and mostly the answer is no. ``public``: only what a copy
    for the public shows.
    """
    shown, hidden = entry.source.texts()
    if sign(shown) or (hidden and not public and sign(hidden)):
        for loc, text in texts_in(entry.source.data):
            if sign(text) and not (public and entry.source.is_private(loc)):
                yield loc, text


def objections(
    entry: Entry,
    loc: Loc,
    hits: Iterable[re.Match[str]],
    message: str,
    mend: str,
    severity: Severity = "warning",
) -> Iterator[Finding]:
    """A finding at each line of the file where hits in a text stand, in order; the code as in `objection`."""
    by_line: dict[int, Place] = {}
    for hit in hits:
        place = entry.source.place_in(loc, hit.start(), hit[0])
        by_line[place.line] = min(place, by_line.get(place.line, place))
    for place in sorted(by_line.values()):
        yield entry.source.finding_at(place, "", message, mend, severity)
