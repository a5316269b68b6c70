"""Limits and checks on a file before it is parsed: its kind, size, encoding and characters."""

import errno
import os
import re
import stat
from pathlib import Path

from bowlbook.reading.refusal import Refusal

MAX_BYTES = 256 * 1024
MAX_DEPTH = 12
MAX_VALUES = 10_000

# C0 but tab and newline, DEL and C1, the Unicode line ends, zero-width and direction marks, surrogates, and
# the two that are no characters: more than YAML 1.2.2 (5.1, c-printable) leaves out.
CONTROL = re.compile(
    "[\x00-\x08\x0b-\x1f\x7f-\x9f\u061c\u200b\u200e\u200f\u2028\u2029\u202a-\u202e\u2060-\u206f"
    "\ufeff\ufff9-\ufffb\ud800-\udfff\ufffe\uffff\U000e0000-\U000e007f]"
)


# Where the system has them: do not wait for a pipe's other end, do not pass the handle to child processes,
# and read bytes as they are (Windows would translate line ends).
HOW = os.O_RDONLY
for _flag in ("O_NONBLOCK", "O_CLOEXEC", "O_NOINHERIT", "O_BINARY"):
    HOW |= getattr(os, _flag, 0)
NO_LINK: int = getattr(os, "O_NOFOLLOW", 0)


def read_bytes(path: Path | str, at_most: int = MAX_BYTES, *, links: bool = False) -> bytes:
    """The bytes of a regular file of at most so many.

    Opened without waiting and, unless ``links``, without following a symbolic link, so that a link out of the
    book, a device or a pipe is refused rather than read. Raises `Refusal`.
    """
    try:
        if not links and not NO_LINK and Path(path).is_symlink():
            raise OSError(errno.ELOOP, os.strerror(errno.ELOOP))
        handle = os.open(path, HOW | (0 if links else NO_LINK))
    except OSError as error:
        if not links and Path(path).is_symlink():
            message = "This is a symbolic link, and a book is read from its own files only."
            raise Refusal("not-a-file", message, "Put the file itself here.") from error
        raise unreadable(error) from error
    try:
        state = os.fstat(handle)
        if not stat.S_ISREG(state.st_mode):
            raise Refusal("not-a-file", "This is not an ordinary file.", "Put an ordinary text file here.")
        content = more = os.read(handle, min(state.st_size, at_most) + 1)
        while more and state.st_size != len(content) <= at_most:
            more = os.read(handle, at_most + 1 - len(content))
            content += more
    except OSError as error:  # such as a disk that fails, or a share that is gone
        raise unreadable(error) from error
    finally:
        os.close(handle)
    if len(content) > at_most:
        message = f"This file is larger than {at_most // 1024} KiB, and so than any of its kind."
        raise Refusal("file-too-large", message, "Split it.")
    return content


def unreadable(error: OSError) -> Refusal:
    """What is said of a file that the system does not let be read."""
    message = f"This file cannot be read: {(error.strerror or 'unknown reason').lower()}."
    return Refusal("not-a-file", message, "Check that the file exists and that you may read it.")


def decode(content: bytes) -> tuple[str, bool]:
    """The text with plain newlines, and whether it began with a byte order mark.

    Raises `Refusal` for bytes that are not UTF-8. Does not look for control characters: `first_control`
    finds the place of those.
    """
    marked = content.startswith(b"\xef\xbb\xbf")
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        before = error.object[: error.start].decode("utf-8")  # what error.start counts in has no mark
        line, column = before.count("\n") + 1, len(before) - before.rfind("\n")
        message = f"This file is not UTF-8 text: a letter on line {line} is stored in another encoding."
        mend = "Save it again with the encoding UTF-8."
        raise Refusal("not-utf-8", message, mend, at=(line, column)) from error
    return text.replace("\r\n", "\n"), marked


def first_control(text: str) -> tuple[int, int, str] | None:
    """Line, column and name of the first control or invisible direction character, if there is one."""
    # None of them is printable, which takes a quarter of the time to find out.
    found = None if text.replace("\n", "").isprintable() else CONTROL.search(text)
    if found is None:
        return None
    line = text.count("\n", 0, found.start()) + 1
    column = found.start() - text.rfind("\n", 0, found.start())
    return line, column, f"U+{ord(found.group()):04X}"


def refuse_control(text: str, mend: str) -> None:
    """Raises `Refusal` for a text with such a character in it."""
    control = first_control(text)
    if control is not None:
        line, column, name = control
        message = f"There is a control or invisible character here ({name})."
        raise Refusal("control-character", message, mend, at=(line, column))
