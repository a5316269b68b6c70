"""The door in front of the parser, word for word: what a file must be, and what it may not hold."""

import errno
import os
import sys
from pathlib import Path

import pytest

from bowlbook.reading import guard
from bowlbook.reading.document import read_source
from bowlbook.reading.refusal import Refusal
from systems import needs_links, needs_pipes

LINK = (
    "not-a-file",
    "This is a symbolic link, and a book is read from its own files only.",
    "Put the file itself here.",
)
NO_FILE = ("not-a-file", "This is not an ordinary file.", "Put an ordinary text file here.")
CANNOT = "Check that the file exists and that you may read it."


def refused(path: Path, *more: int, links: bool = False) -> tuple[str, str, str]:
    with pytest.raises(Refusal) as refusal:
        guard.read_bytes(path, *more, links=links)
    return refusal.value.code, refusal.value.message, refusal.value.mend


@needs_links
@needs_pipes
def test_what_is_no_file(tmp_path: Path) -> None:
    (tmp_path / "real.yml").write_text("name: x\n", encoding="utf-8")
    (tmp_path / "link.yml").symlink_to("real.yml")
    (tmp_path / "loose.yml").symlink_to("none.yml")
    os.mkfifo(tmp_path / "pipe.yml")
    assert refused(tmp_path / "link.yml") == LINK
    assert refused(tmp_path / "loose.yml") == LINK
    assert refused(tmp_path) == NO_FILE and refused(tmp_path / "pipe.yml") == NO_FILE
    missing = ("not-a-file", "This file cannot be read: no such file or directory.", CANNOT)
    assert refused(tmp_path / "none.yml") == missing
    assert refused(tmp_path / "loose.yml", links=True) == missing
    assert guard.read_bytes(tmp_path / "link.yml", links=True) == b"name: x\n"


def test_a_reason_that_the_system_does_not_give(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    def refuses(*given: object) -> int:
        raise OSError

    monkeypatch.setattr(guard.os, "open", refuses)
    assert refused(tmp_path / "x.yml")[1] == "This file cannot be read: unknown reason."


def test_files_are_closed_and_held_to_their_size(tmp_path: Path) -> None:
    path = tmp_path / "x.yml"
    path.write_bytes(b"x" * 2048)
    assert guard.read_bytes(path, 2048) == b"x" * 2048
    said = "This file is larger than 1 KiB, and so than any of its kind."
    assert refused(path, 2047) == ("file-too-large", said, "Split it.")
    path.write_bytes(b"x" * guard.MAX_BYTES)
    assert len(guard.read_bytes(path)) == 256 * 1024
    path.write_bytes(b"x" * (guard.MAX_BYTES + 1))
    assert "larger than 256 KiB" in refused(path)[1]
    for _ in range(300):  # more than a process may usually hold open, were they not closed
        refused(tmp_path)


def test_bytes_to_text() -> None:
    assert guard.decode(b"a\r\nb\n") == ("a\nb\n", False)
    assert guard.decode(b"\xef\xbb\xbfa") == ("a", True)
    with pytest.raises(Refusal) as refusal:
        guard.decode(b"a: 1\nb: 2\nc: \xff\n")
    assert (
        refusal.value.message
        == "This file is not UTF-8 text: a letter on line 3 is stored in another encoding."
    )
    assert refusal.value.mend == "Save it again with the encoding UTF-8."


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("\x07", (1, 1, "U+0007")),
        ("a\x07", (1, 2, "U+0007")),
        ("\n\x07", (2, 1, "U+0007")),
        ("a\nbc\nd\u202ee\x07", (3, 2, "U+202E")),
        ("plain\ttext\n", None),
    ],
)
def test_the_first_control_sign(text: str, found: tuple[int, int, str] | None) -> None:
    assert guard.first_control(text) == found


def test_every_such_sign_is_found() -> None:
    """Also the noncharacters and tags, of which Unicode's newer versions may give some another category."""
    signs = [sign for sign in map(chr, range(sys.maxunicode + 1)) if guard.CONTROL.match(sign)]
    assert len(signs) > 200
    assert all(guard.first_control(f"a\n{sign}") for sign in signs)


def test_a_refused_file_has_an_empty_source_and_its_own_name(tmp_path: Path) -> None:
    source, findings = read_source(tmp_path / "none.yml", "shown.yml", frozenset())
    assert (source.path, source.text, source.data) == ("shown.yml", "", None)
    assert [(str(each.place), each.code) for each in findings] == [("shown.yml:1:1", "not-a-file")]


def test_a_file_that_fails_while_it_is_read(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """EIO of a failing disk or a lost share (POSIX.1-2024, read)."""
    path = tmp_path / "a.yml"
    path.write_bytes(b"a: b\n")

    def fail(handle: int, count: int) -> bytes:
        raise OSError(errno.EIO, "Input/output error")

    monkeypatch.setattr(guard.os, "read", fail)
    assert refused(path) == ("not-a-file", "This file cannot be read: input/output error.", CANNOT)
