"""Which files written by hand stay out of the copy on the phone: too large, too many, or asked for."""

import math
import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from fnmatch import fnmatchcase
from pathlib import Path

from mkdocs.config.base import BaseConfigOption, ValidationError
from mkdocs.config.config_options import ListOfItems, Type
from mkdocs.structure.files import File

from bowlbook.site.offline import is_kept
from bowlbook.site.settings import StrictConfig

BYTE_UNITS = {"kB": 1000, "MB": 1000**2, "GB": 1000**3}
"""Bytes of a unit (ISO/IEC 80000-13: decimal prefixes)."""
SIZE = re.compile(rf"([0-9]+(?:\.[0-9]+)?) ?({'|'.join(BYTE_UNITS)})")


class Size(BaseConfigOption[int]):
    """A size such as ``5 MB``, in bytes."""

    def __init__(self, default: str) -> None:
        super().__init__()
        self.default = default

    def run_validation(self, value: object, /) -> int:
        """Raises `ValidationError` for anything but a number with a unit."""
        found = SIZE.fullmatch(str(value))
        if found is None:
            raise ValidationError(f'"{value}" is not a size; write it as 5 MB (kB, MB or GB).')
        return int(float(found[1]) * BYTE_UNITS[found[2]])


class OfflineConfig(StrictConfig):  # type: ignore[no-untyped-call]  # as above
    """What ``mkdocs.yml`` may say under ``offline``."""

    largest = Size("5 MB")
    """The largest single file of ``docs_dir`` in the copy."""
    total = Size("50 MB")
    """The most that the files of ``docs_dir`` may take in the copy together."""
    leave_out = ListOfItems(Type(str), default=[])
    """Patterns of files of ``docs_dir`` that stay out; ``*`` is any text, slashes too."""


def left_out_of(files: Iterable[File], limits: OfflineConfig, warn: Callable[[str], object]) -> set[str]:
    """The files of ``docs_dir`` left out of the copy, by their names in the site; ``warn`` gets reasons."""
    known = {file.src_uri: file for file in files if is_kept(file.dest_uri)}
    sizes = {name: Path(str(file.abs_src_path)).stat().st_size for name, file in known.items()}
    out = left_out(sizes, limits)
    for name, reason in out.items():
        if reason:
            warn(f"{name} is not in the copy on the phone: {reason}.")
    for pattern in unused(limits.leave_out, known):
        warn(f'offline: leave_out: "{pattern}" fits no file of docs that the phone would keep.')
    return {known[name].dest_uri for name in out}


def left_out(sizes: Mapping[str, int], limits: OfflineConfig) -> dict[str, str]:
    """Names of files that stay out of the copy, each with the reason; an empty one where it was asked for.

    ``sizes``: bytes by the file's name in ``docs_dir``. Over the total the largest files go first, of the
    same size the last by name.
    """
    out = {name: "" for name in sizes if any(fnmatchcase(name, each) for each in limits.leave_out)}
    for name, size in sizes.items():
        if name not in out and size > limits.largest:
            out[name] = f"it has {as_text(size)}, and a file may have {as_text(limits.largest)}"
    kept = sorted((size, name) for name, size in sizes.items() if name not in out)
    total = sum(size for size, _ in kept)
    reason = f"all files of docs together have {as_text(total)}, and may have {as_text(limits.total)}"
    while kept and total > limits.total:
        size, name = kept.pop()
        total -= size
        out[name] = reason
    return out


def unused(patterns: Sequence[str], names: Iterable[str]) -> list[str]:
    """The patterns that no name fits."""
    every = list(names)
    return [each for each in patterns if not any(fnmatchcase(name, each) for name in every)]


def as_text(size: int) -> str:
    """Bytes as megabytes, rounded up to one decimal; below a tenth of one as kilobytes."""
    unit = "MB" if size >= BYTE_UNITS["MB"] / 10 else "kB"
    return f"{math.ceil(size * 10 / BYTE_UNITS[unit]) / 10:g} {unit}"
