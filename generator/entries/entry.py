"""How an entry is declared: fields that explain themselves, are private until said public, and refuse.

The entry classes are plain frozen dataclasses. pydantic reads them (`generator.entries.validate`), and is
imported only when there is something to read.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, fields, is_dataclass
from typing import Any, TypeVar, dataclass_transform, get_args

from generator.reading.refusal import Refusal
from generator.reading.source import Loc, Source

T = TypeVar("T")

KINDS = ("house", "product", "blend", "technique", "situation", "class")


def said(description: str, *, public: bool = False, **options: Any) -> Any:
    """A field with the sentence that the docs, the schema and the editor show for it.

    ``public`` says that a copy for the public may carry it. A field is private until somebody says so.
    """
    return field(metadata={"description": description, "public": public}, **options)


@dataclass_transform(frozen_default=True, kw_only_default=True, field_specifiers=(said, field))
def part(cls: type[T]) -> type[T]:
    """A part of an entry: a frozen dataclass that refuses keys it does not know.

    A field whose name is a Python word takes a trailing underscore, which the YAML key has not.
    """
    made: Any = dataclass(frozen=True, slots=True, kw_only=True)(cls)
    made.__pydantic_config__ = {"extra": "forbid", "alias_generator": yaml_key}
    return made  # type: ignore[no-any-return]


def is_part(value: Any) -> bool:
    """Whether a value (or a class) is an entry's part, with fields of its own."""
    return hasattr(value, "__pydantic_config__")


def parts_in(hint: Any) -> list[type[Any]]:
    """The parts (dataclasses with fields to author) that a field's type holds."""
    if is_dataclass(hint) and isinstance(hint, type):
        return [hint] if is_part(hint) else []
    return [inner for argument in get_args(hint) for inner in parts_in(argument)]


def yaml_key(name: str) -> str:
    """The YAML key of a field."""
    return name.rstrip("_")


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """What every entry has beside its authored fields: its id (the file's stem) and its source."""

    id: str = field(init=False)
    source: Source = field(init=False, repr=False, compare=False)

    def placed(self, entry_id: str, source: Source) -> None:
        """Called once, by the reader."""
        object.__setattr__(self, "id", entry_id)
        object.__setattr__(self, "source", source)


@dataclass(frozen=True, slots=True, eq=False)
class Reads:
    """Marks a text field with what turns its text into a value, and how JSON Schema describes it.

    ``read`` raises `Refusal`. Used as ``Annotated[Mass, Reads(read_mass, {"examples": ["450 g"]})]``.
    """

    read: Callable[[str], Any]
    schema: Mapping[str, Any]

    def __get_pydantic_core_schema__(self, source_type: Any, handler: Any) -> Any:
        from pydantic_core import core_schema

        def value(given: Any) -> Any:
            if not isinstance(given, str):
                refusal = shape_refusal(given, "one value")
            else:
                try:
                    return self.read(given)
                except Refusal as error:
                    refusal = error
            raise complaint(refusal)

        return core_schema.no_info_plain_validator_function(value)

    def __get_pydantic_json_schema__(self, core: Any, handler: Any) -> dict[str, Any]:
        return {"type": ["string", "number"] if "examples" in self.schema else "string", **self.schema}


def complaint(refusal: Refusal, way: Loc = ()) -> Exception:
    """A refusal as pydantic carries it on; ``way``: where in the part, if it is about several values."""
    from pydantic_core import PydanticCustomError

    told = {"code": refusal.code, "message": refusal.message, "mend": refusal.mend, "way": way}
    return PydanticCustomError("refusal", "{message}", told)


@dataclass(frozen=True, slots=True)
class Ref:
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
