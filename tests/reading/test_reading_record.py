"""A record behaves as Python's own frozen dataclass of the same fields does."""

import inspect
import pickle
import sys
from dataclasses import MISSING, FrozenInstanceError, dataclass, field, fields, replace
from typing import Any

import pytest

from bowlbook.reading.record import record, with_shared_methods


class Kinds:
    """The same classes made by a decorator, when they are asked for: making them is what is tried here."""

    def __init__(self, made_by: Any) -> None:
        @made_by
        class Pair:
            """Two numbers, of which the second may be left out."""

            __qualname__ = "Pair"
            left: int
            right: int = 2

        @made_by
        class Nothing:
            """No field at all."""

            __qualname__ = "Nothing"

        @made_by
        class Sum:
            """A number, what is worked out from it, and what nobody looks at."""

            __qualname__ = "Sum"
            number: int
            beside: str = field(default="", compare=False, repr=False)
            twice: int = field(init=False, repr=False, compare=False)

            def __post_init__(self) -> None:
                object.__setattr__(self, "twice", self.number * 2)

        self.Pair: Any = Pair
        self.Nothing: Any = Nothing
        self.Sum: Any = Sum


REFERENCE = Kinds(dataclass(frozen=True))


@pytest.fixture
def ours(monkeypatch: pytest.MonkeyPatch) -> Kinds:
    """The records, where pickle finds them."""
    made = Kinds(record)
    monkeypatch.setattr(sys.modules[__name__], "Pair", made.Pair, raising=False)
    return made


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
def test_made_equal_hashed_and_shown_alike(
    ours: Kinds, values: tuple[Any, ...], named: dict[str, Any]
) -> None:
    try:
        expected = REFERENCE.Pair(*values, **named)
    except TypeError:
        with pytest.raises(TypeError, match="Pair"):
            ours.Pair(*values, **named)
        return
    made = ours.Pair(*values, **named)
    assert repr(made) == repr(expected)
    for other, its in GIVEN[:5]:
        assert (made == ours.Pair(*other, **its)) == (expected == REFERENCE.Pair(*other, **its))
        assert hash(made) == hash(expected)
    assert made != expected and made != (1, 2)
    assert pickle.loads(pickle.dumps(made)) == made
    assert replace(made, left=9) == ours.Pair(9, made.right)
    for each in (made, expected):
        with pytest.raises(FrozenInstanceError, match="cannot assign to field 'left'"):
            each.left = 3
    with pytest.raises(FrozenInstanceError, match="field 'left'"):
        del made.left
    assert vars(made) == vars(expected)


def test_what_is_wrong_is_said(ours: Kinds) -> None:
    with pytest.raises(TypeError, match=r"^Pair was given too many values$"):
        ours.Pair(1, 2, 3)
    with pytest.raises(TypeError, match=r"^Pair was given too many values$"):
        ours.Pair(1, left=1)
    with pytest.raises(TypeError, match=r"^Pair takes each of its fields and no other; not so: left, other$"):
        ours.Pair(other=1)


def test_a_field_that_is_worked_out_and_one_that_nobody_looks_at(ours: Kinds) -> None:
    for each in (ours, REFERENCE):
        assert repr(each.Sum(3, "x")) == "Sum(number=3)"
        assert each.Sum(3, "x") == each.Sum(3, "y") != each.Sum(4, "x")
        assert hash(each.Sum(3, "x")) == hash(each.Sum(3, "y"))
        assert (each.Sum(3).twice, each.Sum(3).beside) == (6, "")
        assert replace(each.Sum(3, "x"), number=5).twice == 10
        with pytest.raises(TypeError, match="Sum"):
            each.Sum(3, twice=1)


def test_no_field(ours: Kinds) -> None:
    for each in (ours, REFERENCE):
        assert each.Nothing() == each.Nothing() and repr(each.Nothing()) == "Nothing()"
        assert hash(each.Nothing()) == hash(())


@pytest.mark.parametrize("name", ["Pair", "Nothing", "Sum"])
def test_what_dataclasses_tells_of_it(ours: Kinds, name: str) -> None:
    told = [
        [
            (each.name, each.init, each.repr, each.compare, each.kw_only, each.default is MISSING)
            for each in fields(getattr(kinds, name))
        ]
        for kinds in (ours, REFERENCE)
    ]
    assert told[0] == told[1]
    assert getattr(ours, name).__doc__ == getattr(REFERENCE, name).__doc__


def test_nothing_is_generated_for_a_class(ours: Kinds) -> None:
    """What these classes are for: their methods are the same functions."""
    for name in ("__init__", "__repr__", "__eq__", "__hash__", "__setattr__", "__delattr__"):
        assert getattr(ours.Pair, name) is getattr(ours.Sum, name) is getattr(ours.Nothing, name)
        assert inspect.getmodule(getattr(ours.Pair, name)) is inspect.getmodule(record)
    assert not hasattr(ours.Pair, "__match_args__")


def test_by_name_only() -> None:
    class Named:
        """A number, and one that may be left out, in any order."""

        first: int = 1
        second: int

    made: Any = with_shared_methods(Named, kw_only=True)
    assert (made(second=2).first, made(second=2).second) == (1, 2)
    assert all(each.kw_only for each in fields(made))
    with pytest.raises(TypeError, match="too many values"):
        made(2)
