"""The files written by hand, looked at before a build writes anything: names, kinds and encoding.

What one of them links to is for `bowlbook.site.verify`, once the site is built.
"""

import os
import re
from collections.abc import Iterator
from pathlib import Path, PurePosixPath

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError
from mkdocs.structure.files import File, InclusionLevel, set_exclusions

from bowlbook.reading.guard import CONTROL, read_bytes
from bowlbook.reading.refusal import Refusal

TEXTS = re.compile(r"\.(md|markdown|mdown|mkdn|mkd|html?|css|m?js|json|svg|xml|webmanifest)", re.I)
"""Endings of the files that are read, or served, as UTF-8."""
MOST_SHOWN = 20
"""Faults that are printed."""
LARGEST_TEXT = 2**31
"""Bytes of a text file that is still looked at."""


def refuse_unpublishable(config: MkDocsConfig) -> list[File]:
    """Every file of ``docs_dir`` that is published. Raises `PluginError` for those that cannot be."""
    files, faults = files_by_hand(config)
    if faults:
        text = "\n".join(faults[:MOST_SHOWN] + ["…"] * (len(faults) > MOST_SHOWN))
        raise PluginError(f"Files that cannot be published: {len(faults)}; nothing was built.\n{text}")
    return files


def files_by_hand(config: MkDocsConfig) -> tuple[list[File], list[str]]:
    """Every file of ``docs_dir`` that is published, and a sentence for each that cannot be.

    A name must be UTF-8 without control characters, a file an ordinary one that can be read, and a text
    UTF-8. The house's own theme folder (``custom_dir``) is held to the same. The sentences name files as seen
    from the folder of the configuration. Links were judged before (`bowlbook.site.published_folders`).
    """
    top = Path(config.config_file_path or "mkdocs.yml").absolute().parent
    faults: list[str] = []
    files = [
        File(name, config.docs_dir, config.site_dir, config.use_directory_urls)
        for name in _names_under(config.docs_dir, top, faults)
    ]
    set_exclusions(files, config)
    files = [file for file in files if file.inclusion != InclusionLevel.EXCLUDED]
    paths = [Path(config.docs_dir, file.src_uri) for file in files]
    if config.theme.custom_dir:
        found = _names_under(config.theme.custom_dir, top, faults)
        paths += [Path(config.theme.custom_dir, name) for name in found if "/." not in f"/{name}"]
    faults += [f"{_shown(path, top)}: {fault}" for path in paths if (fault := _fault_of(path)) is not None]
    return files, sorted(faults)


def _names_under(folder: str, top: Path, faults: list[str]) -> Iterator[str]:
    """Every file under a folder, relative, as MkDocs finds them: folders that are linked to are entered."""

    def unreadable(error: OSError) -> None:
        faults.append(f"{_shown(Path(error.filename), top)}: this folder cannot be read.")

    for inner, _, names in os.walk(folder, followlinks=True, onerror=unreadable):
        for name in names:
            yield os.path.relpath(os.path.join(inner, name), folder)  # noqa: PTH118  # keeps "."


def _fault_of(path: Path) -> str | None:
    """Why a file cannot be published; None where it can."""
    name = str(path)
    if CONTROL.search(name) or "\n" in name or "\t" in name:
        return "the name holds a control character, or is not UTF-8; rename it."
    try:
        content = read_bytes(path, LARGEST_TEXT if TEXTS.fullmatch(path.suffix) else 0, links=True)
    except Refusal as refusal:
        if refusal.code == "file-too-large":  # no text, or no text that anybody wrote
            return None
        return f"{refusal.message[0].lower()}{refusal.message[1:]}"
    try:
        content.decode("utf-8")
    except UnicodeDecodeError as error:
        line = content.count(b"\n", 0, error.start) + 1
        return f"this file is not UTF-8 text (line {line}); save it again with the encoding UTF-8."
    return None


def _shown(path: Path, top: Path) -> str:
    """A path as seen from ``top``, with whatever is not printable written as an escape."""
    name = PurePosixPath(os.path.relpath(path, top)).as_posix()
    return "".join(sign if sign.isprintable() else sign.encode("unicode_escape").decode() for sign in name)
