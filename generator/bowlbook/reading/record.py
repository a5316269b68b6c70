"""Frozen dataclasses whose methods are shared by all of them.

A class is made each time a command starts, and methods that are generated and compiled for each class anew,
as Python's own frozen dataclasses have them, would take most of that start. `dataclasses.fields` and
`replace` work as ever.
"""

from dataclasses import MISSING, FrozenInstanceError, dataclass, field, fields
from operator import attrgetter
from typing import Any, TypeVar, dataclass_transform

T = TypeVar("T")


@dataclass_transform(frozen_default=True, field_specifiers=(field,))
def record(cls: type[T]) -> type[T]:
    """A frozen dataclass; its values are given in the order of its fields, or by name."""
    return with_shared_methods(cls, kw_only=False)


def with_shared_methods(cls: type[T], *, kw_only: bool) -> type[T]:
    """The class as a frozen dataclass. A field's default is a value, never made anew for each object."""
    made: Any = dataclass(init=False, repr=False, eq=False, kw_only=kw_only, match_args=False)(cls)
    specs = fields(made)
    made.field_order = () if kw_only else tuple(spec.name for spec in specs if spec.init)
    made.field_names = frozenset(spec.name for spec in specs if spec.init)
    made.field_defaults = {spec.name: spec.default for spec in specs if spec.default is not MISSING}
    compared = [spec.name for spec in specs if spec.compare]
    made.field_values = attrgetter(*compared) if compared else _no_values
    for name, method in METHODS.items():
        setattr(made, name, method)
    return made  # type: ignore[no-any-return]


def _no_values(self: Any) -> tuple[()]:
    return ()


def _init(self: Any, *values: Any, **named: Any) -> None:
    """The values of the fields; TypeError for one that is missing, unknown or given twice."""
    cls = type(self)
    given = dict(zip(cls.field_order, values, strict=False)) if values else {}
    if len(values) > len(cls.field_order) or not given.keys().isdisjoint(named):
        raise TypeError(f"{cls.__name__} was given too many values")
    every = {**cls.field_defaults, **given, **named}
    if every.keys() != cls.field_names:
        wrong = ", ".join(sorted(every.keys() ^ cls.field_names))
        raise TypeError(f"{cls.__name__} takes each of its fields and no other; not so: {wrong}")
    self.__dict__.update(every)
    if hasattr(self, "__post_init__"):
        self.__post_init__()


def _repr(self: Any) -> str:
    shown = ", ".join(f"{spec.name}={getattr(self, spec.name)!r}" for spec in fields(self) if spec.repr)
    return f"{type(self).__qualname__}({shown})"


def _eq(self: Any, other: object) -> Any:
    values_of = type(self).field_values
    if type(self) is not type(other):
        return NotImplemented
    return self is other or values_of(self) == values_of(other)


def _hash(self: Any) -> int:
    return hash(type(self).field_values(self))


def _no_change(self: Any, name: str, value: object = None) -> None:
    raise FrozenInstanceError(f"cannot assign to field {name!r}")


METHODS = {
    "__init__": _init,
    "__repr__": _repr,
    "__eq__": _eq,
    "__hash__": _hash,
    "__setattr__": _no_change,
    "__delattr__": _no_change,
}
