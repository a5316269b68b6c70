"""A recorded mapping answers as a dict does, and records whatever it was asked."""

from collections.abc import Callable, Mapping
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bowlbook.cache.recording import ALL, ANY, Lookup, Recorded, packed_lookups, unpacked_lookups

WAYS: dict[str, tuple[Callable[[Mapping[str, int]], Any], set[Lookup]]] = {
    "item": (lambda m: m["a"], {("f", "a")}),
    "get": (lambda m: m.get("a"), {("f", "a")}),
    "get, missing": (lambda m: m.get("z", 7), {("f", "z")}),
    "in": (lambda m: "a" in m, {("f", "a")}),
    "not in": (lambda m: "z" in m, {("f", "z")}),
    "iter": (list, {("f", ALL)}),
    "len": (len, {("f", ALL)}),
    "bool": (bool, {("f", ANY)}),
    "keys": (lambda m: list(m.keys()), {("f", ALL)}),
    "values": (lambda m: list(m.values()), {("f", ALL)}),
    "items": (lambda m: list(m.items()), {("f", ALL)}),
    "copy": (dict, {("f", ALL)}),
    "star": (lambda m: {**m}, {("f", ALL)}),
    "equal": (lambda m: m == {"a": 1, "b": 2}, {("f", ALL)}),
}


@pytest.mark.parametrize("way", WAYS)
def test_every_way_to_ask_is_recorded(way: str) -> None:
    ask, expected = WAYS[way]
    entries, lookups = {"a": 1, "b": 2}, set[Lookup]()
    assert ask(Recorded("f", entries, lookups)) == ask(entries)
    assert lookups >= expected


def test_a_missing_entry_is_recorded_too() -> None:
    lookups: set[Lookup] = set()
    with pytest.raises(KeyError):
        Recorded("f", {"a": 1}, lookups)["z"]
    assert lookups == {("f", "z")}


def test_no_public_method_of_a_mapping_is_left_out() -> None:
    public = {name for name in dir(Mapping) if not name.startswith("_")}
    assert public == {"get", "items", "keys", "values"}  # each of them is tried above


@given(st.lists(st.tuples(st.sampled_from("fg"), st.one_of(st.text(), st.tuples(st.text(), st.text())))))
def test_lookups_come_back_as_they_were(lookups: list[Lookup]) -> None:
    assert unpacked_lookups(packed_lookups(lookups)) == tuple(lookups)


@pytest.mark.parametrize("packed", [b"", b"\xff", b"N", b"i\1\0\0\0"])
def test_bytes_that_hold_none_are_refused(packed: bytes) -> None:
    with pytest.raises((ValueError, EOFError, TypeError)):
        unpacked_lookups(packed)
