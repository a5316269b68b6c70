"""How an entry is declared: fields that explain themselves, are private until said public, and refuse.

`bowlbook.entries.reader` fills them from a file, `bowlbook.entries.schema` describes them for editors.
"""

from collections.abc import Callable, Mapping
from dataclasses import MISSING, Field, FrozenInstanceError, dataclass, field, fields
from functools import cache
from inspect import get_annotations  # which dataclasses loads anyway
from typing import Any, ClassVar, NamedTuple, NoReturn, TypeVar, cast, dataclass_transform, get_args

from bowlbook.entries.gap import is_gap, not_filled_in
from bowlbook.reading.refusal import Refusal
from bowlbook.reading.source import Source

T = TypeVar("T")
ENTRY_KINDS = ("house", "product", "blend", "technique", "situation", "class", "trouble")

FLOOR_NAMES = "What else the floor calls it; search finds these."
ALSO_CALLED = "What else it is called; search finds these."
"""What the field ``other_names`` says of itself: of what the floor has names for, and of other kinds."""


def said(description: str, *, public: bool = False, default: Any = MISSING) -> Any:
    """A field with the sentence that the docs, the schema and the editor show for it.

    ``public`` says that a copy for the public may carry it. A field is private until somebody says so.
    """
    return field(metadata={"description": description, "public": public}, default=default)


@dataclass_transform(frozen_default=True, kw_only_default=True, field_specifiers=(said, field))
class Part:
    """A part of an entry: a frozen dataclass of fields that an author may write, each given by its name.

    A field whose name is a Python word takes a trailing underscore, which the YAML key has not. No slots: the
    reader and `bowlbook.entries.partial` fill an object's `__dict__` field by field.
    """

    __dataclass_fields__: ClassVar[dict[str, Field[Any]]]

    # The methods stand here once. A dataclass would compile its own for each of 66 classes at every start,
    # which took an eighth of the time of a short command.

    def __init_subclass__(cls) -> None:
        dataclass(init=False, repr=False, eq=False)(cls)

    def __init__(self, **given: Any) -> None:
        """Raises TypeError for a name that is no field's, and for a field that must be given and is not."""
        defaults = _defaults_of(cast(Any, type(self)))
        values = {**defaults, **given}
        wrong = [name for name, value in values.items() if value is MISSING or name not in defaults]
        if wrong:
            raise TypeError(f"{type(self).__name__}: unknown or missing: {', '.join(wrong)}")
        self.__dict__.update(values)
        self.__post_init__()

    def __post_init__(self) -> None:
        """Raise `Refusal` where the values do not go together."""

    def __setattr__(self, name: str, value: object) -> None:
        raise FrozenInstanceError(f"cannot assign to field {name!r}")

    def __delattr__(self, name: str) -> None:
        raise FrozenInstanceError(f"cannot delete field {name!r}")

    def __eq__(self, other: object) -> bool:
        return type(self) is type(other) and _compared(self) == _compared(other)

    def __hash__(self) -> int:
        return hash(_compared(self))

    def __repr__(self) -> str:
        names = _compared_names(cast(Any, type(self)))
        shown = ", ".join(f"{name}={value!r}" for name, value in zip(names, _compared(self), strict=True))
        return f"{type(self).__qualname__}({shown})"


@cache
def _defaults_of(cls: type[Part]) -> dict[str, Any]:
    """The fields that an author writes, each with its default; MISSING where it must be given."""
    return {each.name: each.default for each in authored(cls)}


@cache
def _compared_names(cls: type[Part]) -> tuple[str, ...]:
    return tuple(each.name for each in fields(cls) if each.compare)


def _compared(part: Any) -> tuple[Any, ...]:
    """The values by which a part is compared, in the fields' order."""
    return tuple([getattr(part, name) for name in _compared_names(cast(Any, type(part)))])


def is_part(value: Any) -> bool:
    """Whether a value (or a class) is an entry's part, with fields of its own."""
    return issubclass(value if isinstance(value, type) else type(value), Part)


@cache
def parts_in(hint: object) -> tuple[type[Part], ...]:
    """The parts (dataclasses with fields to author) that a field's type holds."""
    if isinstance(hint, type) and is_part(hint):
        return (hint,)
    return tuple([inner for argument in get_args(hint) for inner in parts_in(argument)])


def yaml_key(name: str) -> str:
    """The YAML key of a field."""
    return name.rstrip("_")


class _LeftOut:
    """Class attribute in place of a field's default: reached only where the object has no value of its own.

    TypeError then, which no ``getattr`` with a default passes over.
    """

    def __init__(self, name: str) -> None:
        self._name = name

    def __get__(self, made: object | None, owner: type) -> NoReturn:
        if made is None:  # a dataclass asks its class for a default
            raise AttributeError(self._name)
        raise TypeError(f"A {owner.__name__} without its {self._name}: take the whole entry for it.")


class Entry(Part):
    """What every entry has beside its authored fields: its id (the file's stem) and its source."""

    id: str = field(init=False)
    source: Source = field(init=False, compare=False)

    def __init_subclass__(cls) -> None:
        super().__init_subclass__()
        for name in get_annotations(cls):  # its own, not those of its bases
            setattr(cls, name, _LeftOut(name))

    def placed(self, entry_id: str, source: Source) -> None:
        """Set id and source: called once, by the reader, since the class is frozen."""
        self.__dict__.update(id=entry_id, source=source)


SHORT, MOST_CACHED = 32, 4096
"""Characters of a short text, and how many short texts a field's reader caches."""


class Reads:
    """Marks a text field with what turns its text into a value, and how JSON Schema describes it.

    ``read`` raises `Refusal`. Used as ``Annotated[Mass, Reads(read_mass, {"examples": ["450 g"]})]``.
    """

    def __init__(self, read: Callable[[str], Any], schema: Mapping[str, Any]) -> None:
        self.read = read
        self.schema = schema
        self._cache: dict[str, Any] = {}

    def value(self, given: Any) -> Any:
        """What is read from a value of the file. Raises `Refusal`.

        Short texts (ids, amounts, words of the trade) recur in every file: each is read once.
        """
        if type(given) is not str:
            raise shape_refusal(given, "one value")
        found = self._cache.get(given)
        if found is None:
            if is_gap(given):
                raise not_filled_in()
            found = self.read(given)
            if len(given) <= SHORT and len(self._cache) < MOST_CACHED:
                self._cache[given] = found
        return found

    def json_schema(self) -> dict[str, Any]:
        """How JSON Schema describes the text; an amount may be a bare number too."""
        return {"type": ["string", "number"] if "examples" in self.schema else "string", **self.schema}


def notes_in(hint: Any, kind: type[T]) -> list[T]:
    """The marks of this class, such as `Reads`, that a field's type carries."""
    return [note for note in getattr(hint, "__metadata__", ()) if isinstance(note, kind)]


class Ref(NamedTuple):
    """Marks a field as the id of another entry. ``kinds``: a product's kinds, where only some fit."""

    to: str
    kinds: tuple[str, ...] = ()


def shape_refusal(given: Any, wanted: str) -> Refusal:
    """A value of the wrong shape: a list for a text and the like; or nothing at all."""
    if given is None:
        return Refusal(
            "empty-value", "Nothing stands behind this key.", "Write the value, or delete the key."
        )
    names: dict[type, str] = {dict: "keys and values", list: "a list", str: "a text"}
    have = names.get(type(given), "something else")
    if isinstance(given, dict) and wanted == "one value":
        mend = 'If it is one text with a colon in it, put it in quotes: "first: rinse".'
        return Refusal("wrong-shape", f"Here stands {have} instead of one value.", mend)
    return Refusal("wrong-shape", f"Here stands {have} instead of {wanted}.", f"Write {wanted}.")


def authored(cls: Any) -> tuple[Any, ...]:
    """The dataclass fields that an author writes."""
    return tuple(spec for spec in fields(cls) if spec.init)
