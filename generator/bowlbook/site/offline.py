"""The copy for the phone: the site's files in packs named after their content, and their service worker."""

import base64
import gzip
import hashlib
import json
import posixpath
from collections.abc import Collection, Iterable, Mapping
from contextlib import suppress
from functools import partial
from pathlib import Path

from bowlbook.cache.digest import digest_of
from bowlbook.cache.processes import all_made
from bowlbook.site.incremental import Incremental

PACK_OF = 32
"""Files in a pack, about."""
FOLDER = "copy"
WORKER = "sw.js"

TYPES = {
    ".html": "text/html; charset=utf-8",
    ".css": "text/css; charset=utf-8",
    ".js": "text/javascript; charset=utf-8",
    ".json": "application/json",
    ".svg": "image/svg+xml",
    ".webmanifest": "application/manifest+json",
    ".png": "image/png",
    ".webp": "image/webp",
}
"""What a copy holds, by the file's ending; anything else stays on the server."""
CODED = (".png", ".webp")


def write_copy(
    site: Path,
    names: Iterable[str],
    worker: str,
    without: Collection[str] = (),
    build: Incremental | None = None,
) -> list[str]:
    """Pack a built site, all of whose files are ``names``, but those in ``without``, with its service worker.

    Returns the names of what it writes.

    The packs' names carry the SHA-256 of their content, so that the worker can prove each; a file's pack
    follows from its path (FNV-1a, 32 bit), so that one changed page changes one pack. Byte for byte the same
    for the same site. A pack of files that ``build`` all took from the last site is taken from there too.
    """
    build = build or Incremental()
    files = [
        name for name in names if is_kept(name) and posixpath.basename(name) != WORKER and name not in without
    ]
    count = 1
    while count * PACK_OF < len(files):
        count *= 2
    packs: list[list[str]] = [[] for _ in range(count)]
    for name in files:
        packs[fnv1a(name) % count].append(name)
    (site / FOLDER).mkdir(exist_ok=True)
    keys = [digest_of(*pack) for pack in packs]
    last = build.before.packs
    kept = {
        key
        for key, pack in zip(keys, packs, strict=True)
        if key in last and build.kept.issuperset(pack) and build.keep(last[key])
    }
    fresh = {key: pack for key, pack in zip(keys, packs, strict=True) if key not in kept}
    places = [*fresh]
    written = all_made([partial(_write_pack, site, pack) for pack in fresh.values()])
    build.packs = {key: last[key] for key in kept} | {places[place]: name for place, name in written}
    parts = [build.packs[key] for key in keys]
    version = hashlib.sha256("".join([worker, *parts]).encode()).hexdigest()[:16]
    copy = json.dumps({"version": version, "packs": parts}, separators=(",", ":"))
    (site / WORKER).write_text(f"const COPY = {copy};\n{worker}", encoding="utf-8", newline="\n")
    return [*parts, WORKER]


def _write_pack(site: Path, files: list[str]) -> str:
    """Write a pack of these files. Returns its name."""
    packed = _packed({name: (site / name).read_bytes() for name in files})
    name = f"{FOLDER}/part-{hashlib.sha256(packed).hexdigest()[:20]}.pack"
    (site / name).write_bytes(packed)
    return name


def _packed(contents: Mapping[str, bytes]) -> bytes:
    """A pack of files, by name."""
    pack = {name: _as_json(name, content) for name, content in contents.items()}
    text = json.dumps(pack, ensure_ascii=False, separators=(",", ":"), sort_keys=True)
    return gzip.compress(text.encode(), 6, mtime=0)


def fnv1a(text: str) -> int:
    """The 32-bit FNV-1a hash of a text's UTF-8, by Fowler, Noll and Vo."""
    found = 0x811C9DC5
    for byte in text.encode():
        found = (found ^ byte) * 0x01000193 & 0xFFFFFFFF
    return found


def _as_json(name: str, content: bytes) -> list[object]:
    if not name.endswith(CODED):
        with suppress(UnicodeDecodeError):  # which another plugin may have written
            return [_type_of(name), content.decode("utf-8")]
    return [_type_of(name), base64.b64encode(content).decode(), True]


def is_kept(name: str) -> bool:
    """Whether the copy holds files with such a name."""
    return _type_of(name) is not None


def _type_of(name: str) -> str | None:
    return TYPES.get(posixpath.splitext(name)[1])
