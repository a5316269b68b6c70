"""The web app manifest, which a phone needs to put the book on its home screen."""

from typing import Any

from bowlbook.book.book import Book


def app_manifest(book: Book, assets: str) -> dict[str, Any]:
    """The manifest by the W3C's Web Application Manifest; addresses relative to the site's top."""
    icons = [
        {
            "src": f"{assets}/icon-{size}.png",
            "sizes": f"{size}x{size}",
            "type": "image/png",
            "purpose": purpose,
        }
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
        # As in bowlbook.css, light scheme: shown before any style is loaded.
        "background_color": "#ffffff",
        "theme_color": "#23444c",
        "icons": icons,
    }
