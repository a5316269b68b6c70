"""What an author wrote in an entry, as plain data: every value a text, lists as lists, in one order."""

from typing import Annotated, Any, get_origin

from bowlbook.entries.entry import Entry, authored, parts_in, yaml_key
from bowlbook.entries.words import Words
from bowlbook.formatting.order import keys_in_order


def data_of(entry: Entry, *, private: bool) -> dict[str, Any]:
    """The entry's data, its id first. ``private``: also what a public copy may not have."""
    assert entry.source.data is not None
    return {"id": entry.id, **part_data(entry.source.data, type(entry), private=private)}


def part_data(data: dict[str, Any], cls: type[Any], *, private: bool) -> dict[str, Any]:
    """The data of a part as its class declares it."""
    public = {yaml_key(spec.name): spec.metadata.get("public", False) for spec in authored(cls)}
    return {
        key: _value(data[key], hint, private=private)
        for key, hint in keys_in_order(cls).items()
        if key in data and (private or public[key])
    }


def _value(value: Any, hint: Any, *, private: bool) -> Any:
    inner = parts_in(hint)
    if isinstance(value, dict) and inner:
        return part_data(value, inner[0], private=private)
    if isinstance(value, list):
        return [
            each.strip() if isinstance(each, str) else _value(each, hint, private=private) for each in value
        ]
    if is_words(hint):
        return [value]  # one word alone is a list of one
    return value.strip()


def is_words(hint: Any) -> bool:
    """Whether a field's type is a list of words, for which one word alone is accepted."""
    return get_origin(hint) is Annotated and any(isinstance(note, Words) for note in hint.__metadata__)
