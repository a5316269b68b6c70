"""Two copies of one book: what the public's leaves out is declared on the fields, and nowhere else."""

import pytest

from bowlbook.book.audience import copy_for
from bowlbook.entries.entry import Part, said


def test_the_teams_copy_is_the_book_itself(demo_book) -> None:
    assert copy_for(demo_book, "team") is demo_book
    assert demo_book.priced and not copy_for(demo_book, "public").priced


def test_a_new_field_is_private_until_it_is_said_to_be_public(demo_book) -> None:
    from bowlbook.book.audience import _public

    class Later(Part):
        shown: str = said("For all.", public=True)
        new: str | None = said("Not declared.", default=None)

    assert _public(Later(shown="a", new="b")) == Later(shown="a", new=None)

    class Careless(Part):
        amount: int = said("Private, and with nothing to stand in its place.")

    with pytest.raises(TypeError, match="must have a default"):
        _public(Careless(amount=1))
