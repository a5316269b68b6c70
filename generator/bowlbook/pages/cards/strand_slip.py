"""The strand-test slip of a blend: the bowl to mix, and boxes to fill in, on paper or on the screen.

Nothing of the client is on it, and nothing that is filled in on the screen is kept.
"""

from bowlbook.book.book import Book
from bowlbook.entries.blend import Blend
from bowlbook.figures.asked_bowl import strand_test_bowl
from bowlbook.pages.address import entry_address, relative
from bowlbook.pages.bowl_panel import batch_text, name_poured
from bowlbook.pages.cards.print_document import print_document
from bowlbook.pages.page import Document
from bowlbook.pages.render import finished, render
from bowlbook.wording.entry import recipe_of

LIFTS_AT = (5, 10, 15, 20, 30, 40)
TONES_AT = (2, 4, 6, 8, 10, 15)
"""Minutes at which a strand is looked at. Common practice, no published source."""
STEPS = (
    "A few strands from where they are darkest and from where they are weakest: cut, or in foil well off the "
    "scalp. Where old colour, henna or metal may be in it: cut strands only.",
    "Mix, tare and weigh as for the head. At each time: wipe, read the level, pull it wet.",
    "Heat, smoke, smell or breaking: stop there. No lightener, and nothing else with developer.",
    "Rinse, dry, and read it again in daylight. It can still break within a day.",
)
VERDICTS = ("go", "with care", "more than one visit", "not today")


def slip_address(blend_id: str) -> str:
    """The address of a blend's slip."""
    return f"{entry_address('blend', blend_id)}strand-test/"


def strand_slip(book: Book, blend: Blend) -> Document:
    """The slip of a blend, in a document of its own."""
    address = slip_address(blend.id)
    bowl = strand_test_bowl(book, blend)
    slip = render(
        "cards/strand_slip.html",
        address,
        blend=blend,
        recipe=recipe_of(book, blend),
        batch=f"{batch_text(bowl.batch, bowl.step)} {bowl.unit}" if bowl else None,
        lines=zip(map(name_poured, bowl.products), bowl.shown, strict=True) if bowl else (),
        over_dose=bowl.over_dose if bowl else (),
        minutes=TONES_AT if blend.tones else LIFTS_AT,
        steps=STEPS,
        verdicts=VERDICTS,
        house=book.house.title,
        notice=book.house.notice,
    )
    back = relative(entry_address("blend", blend.id), address)
    return print_document(book, address, f"Strand test, {blend.name}", [finished(slip)], back)
