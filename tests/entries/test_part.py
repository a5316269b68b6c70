"""A part of an entry behaves as a frozen dataclass of the standard library, whose methods it has in short."""

from dataclasses import FrozenInstanceError, dataclass, field, replace
from typing import Any

import pytest

from bowlbook.entries.entry import Part, said


class Pack(Part):
    net: int = said("Net content.")
    price: str | None = said("What it costs.", default=None)
    source: str = field(init=False, compare=False)


Twin = dataclass(frozen=True, kw_only=True)(
    type("Pack", (), {"__annotations__": {"net": int, "price": str | None}, "price": None})
)
GIVEN: list[dict[str, Any]] = [{"net": 1}, {"net": 1, "price": "2"}, {"net": 1, "price": None}, {"net": 2}]


@pytest.mark.parametrize("one", GIVEN)
def test_parts_are_shown_compared_and_changed_alike(one: dict[str, Any]) -> None:
    for other in GIVEN:
        assert (Pack(**one) == Pack(**other)) == (Twin(**one) == Twin(**other))
        assert (hash(Pack(**one)) == hash(Pack(**other))) == (hash(Twin(**one)) == hash(Twin(**other)))
    assert repr(Pack(**one)) == repr(Twin(**one))
    assert repr(replace(Pack(**one), net=3)) == repr(replace(Twin(**one), net=3))
    assert Pack(**one) != Twin(**one)


@pytest.mark.parametrize("given", [{}, {"price": "2"}, {"net": 1, "gross": 2}, {"net": 1, "source": ""}])
def test_a_field_that_is_missing_or_unknown_is_refused_alike(given: dict[str, Any]) -> None:
    for cls in (Pack, Twin):
        with pytest.raises(TypeError):
            cls(**given)


def test_no_field_is_set_or_deleted() -> None:
    for made in (Pack(net=1), Twin(net=1)):
        with pytest.raises(FrozenInstanceError, match="net"):
            made.net = 2
        with pytest.raises(FrozenInstanceError, match="net"):
            del made.net
