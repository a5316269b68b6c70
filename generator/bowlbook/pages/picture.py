"""The house's own pictures on a page: in several sizes, of which the browser fetches one when it is near."""

from typing import Any, NamedTuple

from bowlbook.book.book import Book
from bowlbook.entries.picture import Picture
from bowlbook.pages.address import relative
from bowlbook.reading.picture import SeenPicture

WIDTHS = (480, 960, 1600)
"""Pixels across of the copies of a picture, none wider than that. The first is kept on the phone."""
FALLBACK = 960
"""Pixels across of the JPEG for browsers without WebP."""
FOLDER = "pictures"
"""Where the copies stand in the site."""


class Copy(NamedTuple):
    """One copy of a picture: its path from the site's top, its size in pixels, and WEBP or JPEG."""

    path: str
    width: int
    height: int
    form: str


class ShownPicture(NamedTuple):
    """A picture as a template shows it. ``sources`` is the ``srcset`` of its WebP copies."""

    alt: str
    caption: str | None
    sources: str
    fallback: str
    width: int
    height: int


def copies_of(name: str, seen: SeenPicture) -> list[Copy]:
    """The copies of a picture that a site has, the smallest first and the JPEG last.

    Their names carry the picture's digest, so that another picture under the same name is fetched again.
    """
    stem = f"{FOLDER}/{name.rpartition('.')[0]}-{seen.digest[:10]}"
    widths = [*[width for width in WIDTHS if width < seen.width], min(seen.width, WIDTHS[-1])]
    widths = list(dict.fromkeys(widths))

    def copy(width: int, form: str, ending: str) -> Copy:
        return Copy(f"{stem}-{width}.{ending}", width, max(1, seen.height * width // seen.width), form)

    fallback = copy(min(FALLBACK, widths[-1]), "JPEG", "jpg")
    return [*[copy(width, "WEBP", "webp") for width in widths], fallback]


def shown_pictures(book: Book, entry: Any, start: str) -> dict[str, Any]:
    """What ``pictures.html`` needs of an entry on the page at ``start``.

    ``pictures``: those of the entry as a whole. ``of_step``: by the number of the step, those of a technique.
    ``films``: those that stand elsewhere, each with its still.
    """
    whole: list[ShownPicture] = []
    of_step: dict[int, list[ShownPicture]] = {}
    for each in entry.pictures:
        step = getattr(each, "step", None)
        (whole if step is None else of_step.setdefault(step, [])).append(_shown(book, each, start))
    films = [(each, _shown(book, each, start)) for each in entry.films]
    return {"pictures": whole, "of_step": of_step, "films": films}


def _shown(book: Book, picture: Picture, start: str) -> ShownPicture:
    *webp, fallback = copies_of(picture.file, book.pictures[picture.file])
    sources = ", ".join(f"{relative(each.path, start)} {each.width}w" for each in webp)
    href = relative(fallback.path, start)
    return ShownPicture(picture.alt, picture.caption, sources, href, fallback.width, fallback.height)
