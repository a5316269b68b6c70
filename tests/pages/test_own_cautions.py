"""A blend's own cautions are next to its bowl on every page that somebody mixes or applies it from."""

from pathlib import Path

from bowlbook.cache.cache import Cache
from bowlbook.pages.all_pages import makers_of
from bowlbook.site.book_pages import pages_of
from checks.small_book import BLEND_FILE, SITUATION_FILE, SmallBook

CAUTION = "Check every 5 minutes from the first stroke."


HEADINGS = {
    "techniques/painting/service/": "1. Soft clay",
    "techniques/painting/": 'id="bowls"',
    f"situations/{Path(SITUATION_FILE).stem}/": 'id="bowl"',
}


def test_they_stand_with_the_bowl(small: SmallBook) -> None:
    book = small.read((BLEND_FILE, "reviewed:", f"cautions: [{CAUTION}]\nreviewed:"))
    pages = {
        getattr(page.head, "address", None): page for page in pages_of(Cache(), book, "team", makers_of(book))
    }
    for address, heading in HEADINGS.items():
        body = pages[address].content.decode()
        assert body.index(heading) < body.index(CAUTION) < body.index('id="cautions"'), address
