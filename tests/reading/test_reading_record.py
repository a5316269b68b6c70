"""A record behaves as Python's own frozen dataclass of the same fields does."""

import pickle
from dataclasses import FrozenInstanceError, dataclass, field, replace
from typing import Any

import pytest

from generator.reading.record import record


@record
class Pair:
    """Two numbers, of which the second may be left out."""

    left: int
    right: int = 2


@record
class Nothing:
    """No field at all."""


@record
class Sum:
    """A number, and what is worked out from it."""

    number: int
    twice: int = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "twice", self.number * 2)


@dataclass(frozen=True)
class Reference:
    """The pair by Python's own dataclass."""

    left: int
    right: int = 2


GIVEN: list[tuple[tuple[Any, ...], dict[str, Any]]] = [
    ((1,), {}),
    ((1, 2), {}),
    ((2, 1), {}),
    ((1,), {"right": 3}),
    ((), {"right": 2, "left": 1}),
    ((), {}),
    ((1, 2, 3), {}),
    ((1,), {"left": 1}),
    ((1,), {"other": 1}),
]


@pytest.mark.parametrize(("values", "named"), GIVEN)
def test_made_equal_hashed_and_shown_alike(values: tuple[Any, ...], named: dict[str, Any]) -> None:
    try:
        expected = Reference(*values, **named)
    except TypeError:
        with pytest.raises(TypeError, match="Pair"):
            Pair(*values, **named)
        return
    made = Pair(*values, **named)
    assert repr(made) == repr(expected).replace("Reference", "Pair")
    for other, its in GIVEN[:5]:
        assert (made == Pair(*other, **its)) == (expected == Reference(*other, **its))
        assert (hash(made) == hash(Pair(*other, **its))) == (made == Pair(*other, **its))
    assert made != expected and made != (1, 2)
    assert pickle.loads(pickle.dumps(made)) == made
    assert replace(made, left=9) == Pair(9, made.right)
    with pytest.raises(FrozenInstanceError):
        made.left = 3  # type: ignore[misc]


def test_no_field_and_one_that_is_worked_out() -> None:
    assert Nothing() == Nothing() and hash(Nothing()) == hash(Nothing()) and repr(Nothing()) == "Nothing()"
    assert Sum(3).twice == 6 and repr(Sum(3)) == "Sum(number=3)" and Sum(3) == Sum(3)
    with pytest.raises(TypeError, match="Sum"):
        Sum(3, twice=1)  # type: ignore[call-arg]
