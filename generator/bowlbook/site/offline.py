"""The copy for the phone: the site's files in packs named after their content, and their service worker."""

import hashlib
import json
import posixpath
import zlib
from collections.abc import Collection, Iterable, Mapping
from functools import partial
from pathlib import Path

import deflate

from bowlbook.cache.digest import digest_of
from bowlbook.cache.processes import all_made
from bowlbook.site.incremental import Incremental

PACK_OF = 32
"""Files in a pack, about."""
LEVEL = 6
"""libdeflate's level: the next one takes a third longer, for a sixtieth less."""
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
    follows from its path (CRC-32), so that one changed page changes one pack. Byte for byte the same
    for the same site. A pack of files that ``build`` all took from the last site is taken from there too.
    """
    build = build or Incremental()
    files = [
        name for name in names if is_kept(name) and posixpath.basename(name) != WORKER and name not in without
    ]
    files.sort(key=lambda name: (name.split("/")[2:], name))  # alike pages side by side: a sixteenth smaller
    count = 1
    while count * PACK_OF < len(files):
        count *= 2
    packs: list[list[str]] = [[] for _ in range(count)]
    for name in files:
        packs[zlib.crc32(name.encode()) % count].append(name)
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
    """A pack, as gzip: a line of JSON with the path, type and size of each file, and then their bytes."""
    head = json.dumps([(name, _type_of(name), len(content)) for name, content in contents.items()])
    return bytes(deflate.gzip_compress(b"".join([head.encode(), b"\n", *contents.values()]), LEVEL))


def is_kept(name: str) -> bool:
    """Whether the copy holds files with such a name."""
    return _type_of(name) is not None


def _type_of(name: str) -> str | None:
    return TYPES.get(posixpath.splitext(name)[1])
