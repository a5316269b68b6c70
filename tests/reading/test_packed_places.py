"""The places of an entry's values, packed after it was validated, are those that were read."""

import pickle
from copy import deepcopy

import pytest

from bowlbook.entries.validate import known_keys, private_keys, validate
from bowlbook.reading.document import read_text
from bowlbook.reading.source import Source

TEXT = "name: Soft clay\nkind: lightener\npack: {size: 450 g, price: 39.00}\nlifts: 7\n"


def read() -> Source:
    return read_text(TEXT, "clay.yml", private_keys(), known_keys())[0]


@pytest.mark.parametrize(
    "store", [lambda source: source, deepcopy, lambda each: pickle.loads(pickle.dumps(each))]
)
def test_packed_places_are_those_that_were_read(store) -> None:
    plain, packed = read(), read()
    packed.pack()
    found = store(packed)
    assert found.place_of(("pack", "price"))[1:] == (3, TEXT.split("\n")[2].index("39.00") + 1)
    assert (found.values, found.keys) == (plain.values, plain.keys)
    assert found == plain


def test_what_was_gathered_from_a_source_is_not_stored() -> None:
    source = read()
    gathered, shown = source.texts(), source.excerpt(3)
    assert len(pickle.dumps(source)) == len(pickle.dumps(read()))
    again = pickle.loads(pickle.dumps(source))
    assert (again.texts(), again.excerpt(3)) == (gathered, shown)


def test_a_validated_entry_holds_no_place_until_one_is_asked_for() -> None:
    source = read()
    validate("product", "clay", source)
    with pytest.raises(AttributeError):
        Source.__dict__["values"].__get__(source)
    assert source.place_of(("name",))[1:] == (1, 7)
    assert Source.__dict__["values"].__get__(source) == read().values


def test_no_other_name_is_found() -> None:
    with pytest.raises(AttributeError, match="valeus"):
        read().valeus  # noqa: B018
