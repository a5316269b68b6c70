"""The kept corpus of the fuzzer, and bytes of any kind, without it: `fuzz.py` searches for more by hand."""

from pathlib import Path

import pytest
from entry_text import KINDS, take
from hypothesis import given
from hypothesis import strategies as st

CORPUS = sorted((Path(__file__).parent / "corpus").iterdir())


@pytest.mark.parametrize("path", CORPUS, ids=lambda path: path.name)
def test_the_corpus(path: Path) -> None:
    take(path.read_bytes())


def test_there_is_an_entry_of_every_kind_in_it() -> None:
    whole = [path for path in CORPUS if take(path.read_bytes()) is not None]
    assert {path.read_bytes()[0] % len(KINDS) for path in whole} == set(range(len(KINDS)))


@given(st.binary(max_size=300))
def test_any_bytes(data: bytes) -> None:
    take(data)


@given(st.sampled_from(range(len(KINDS))), st.text(max_size=200))
def test_any_text_behind_a_key(kind: int, text: str) -> None:
    for key in ("name", "notes", "private", "lighteners", "suits"):
        take(bytes([kind]) + f"{key}: {text}\n".encode("utf-8", "surrogatepass"))
