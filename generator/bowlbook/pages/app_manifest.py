"""The web app manifest, which a phone needs to put the book on its home screen."""

from typing import Any

from bowlbook.book.book import Book
from bowlbook.pages.contrast import colours_of

PNG = b"\x89PNG\r\n\x1a\n"
LEAST = 192
"""Pixels that a phone needs of an icon for its home screen (common practice of browsers)."""


def _icon(src: str, sizes: str, form: str, purpose: str = "any") -> dict[str, str]:
    return {"src": src, "sizes": sizes, "type": form, "purpose": purpose}


def home_icon(address: str, content: bytes) -> dict[str, str] | None:
    """A house's own icon for the home screen; None for one that is too small, or neither SVG nor PNG.

    The size of a PNG stands in its header (PNG specification, 11.2.2).
    """
    if address.endswith(".svg"):
        return _icon(address, "any", "image/svg+xml")
    wide, high = (int.from_bytes(content[at : at + 4], "big") for at in (16, 20))
    if not content.startswith(PNG) or min(wide, high) < LEAST:
        return None
    return _icon(address, f"{wide}x{high}", "image/png")


def app_manifest(book: Book, assets: str, own_icon: dict[str, str] | None) -> dict[str, Any]:
    """The manifest by the W3C's Web Application Manifest; addresses relative to the site's top.

    ``own_icon``: what the house shows in the place of ours, from `home_icon`.
    """
    ground = colours_of("light")["ground"]
    ours = [
        _icon(f"{assets}/icon-{size}.png", f"{size}x{size}", "image/png", purpose)
        for size in (192, 512)
        for purpose in ("any", "maskable")
    ]
    return {
        "name": book.house.title,
        "short_name": book.house.title[:30],
        "start_url": "./",
        "scope": "./",
        "id": "./",
        "display": "standalone",
        "lang": book.house.locale,
        # Shown before any style is loaded.
        "background_color": ground,
        "theme_color": ground,
        "icons": [own_icon] if own_icon else ours,
    }
