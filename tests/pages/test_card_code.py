"""The QR code of a card against the drawing of segno, the library that makes the modules."""

import pytest
import segno

from bowlbook.pages.cards.card import MASK, _qr


@pytest.mark.parametrize("address", [f"https://example.org/blends/{'ash' * times}/" for times in (1, 9, 60)])
def test_the_same_modules_as_the_library_draws(address: str) -> None:
    code = segno.make(address, error="m", micro=False, mask=MASK)
    drawn = code.svg_inline(border=4, omitsize=True, title=address, svgclass="bb-qr", lineclass=None)
    assert _qr(address) == drawn
