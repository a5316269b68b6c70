"""A part behaves as Python's own frozen dataclass of the same fields does."""

from dataclasses import FrozenInstanceError, dataclass, fields, replace

import pytest

from bowlbook.entries.entry import part, said
from bowlbook.reading.refusal import Refusal


@part
class Pot:
    """A part."""

    name: str = said("Its name.", public=True)
    size: int = said("Its size.", default=3)


@part
class Tall(Pot):
    """A part of another, with something to say against some values."""

    high: tuple[int, ...] = said("How high.", default=())

    def __post_init__(self) -> None:
        if self.size > 9:
            raise Refusal("too-large", "It is too large.", "Take a smaller one.")


def reference() -> tuple[type, type]:
    """The same two by Python's own dataclass."""

    @dataclass(frozen=True, kw_only=True)
    class Pot:
        name: str
        size: int = 3

    @dataclass(frozen=True, kw_only=True)
    class Tall(Pot):
        high: tuple[int, ...] = ()

    return Pot, Tall


GIVEN = [{"name": "a"}, {"name": "b"}, {"name": "a", "size": 3}, {"name": "a", "size": 4}]


def test_equal_hashed_and_shown_alike() -> None:
    for ours, theirs in zip((Pot, Tall), reference(), strict=True):
        for one in GIVEN:
            assert repr(ours(**one)) == repr(theirs(**one)).partition(".<locals>.")[2]
            for other in GIVEN:
                assert (ours(**one) == ours(**other)) == (theirs(**one) == theirs(**other))
        assert len({ours(**each) for each in GIVEN}) == len({theirs(**each) for each in GIVEN}) == 3
        assert [(spec.name, spec.default) for spec in fields(ours)] == [
            (spec.name, spec.default) for spec in fields(theirs)
        ]
    assert Pot(name="a") != Tall(name="a") and Pot(name="a") != "a" and Pot(name="a") is not None


@pytest.mark.parametrize("given", [{}, {"size": 1}, {"name": "a", "colour": 1}])
def test_a_field_too_few_or_too_many_is_an_error(given: dict[str, object]) -> None:
    for cls in (Pot, reference()[0]):
        with pytest.raises(TypeError):
            cls(**given)


def test_it_cannot_be_changed_only_replaced() -> None:
    for cls in (Pot, reference()[0]):
        made = cls(name="a")
        with pytest.raises(FrozenInstanceError, match="cannot assign to field 'size'"):
            made.size = 4
        with pytest.raises(FrozenInstanceError):
            del made.size
        assert replace(made, size=4) == cls(name="a", size=4) != made


def test_what_it_has_to_say_against_values_is_asked_each_time() -> None:
    with pytest.raises(Refusal, match="too large"):
        Tall(name="a", size=10)
    with pytest.raises(Refusal, match="too large"):
        replace(Tall(name="a"), size=10)
