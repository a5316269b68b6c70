"""The copy for the phone: the site's files in packs named after their content, and their service worker."""

import base64
import gzip
import hashlib
import json
from functools import partial
from pathlib import Path

from generator.site.processes import all_made

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
}
"""What a copy holds, by the file's ending; anything else stays on the server."""
CODED = (".png",)


def write_copy(site: Path, worker: str) -> None:
    """Pack every file of a built site, and write its service worker beside them.

    The packs' names carry the SHA-256 of their content, so that the worker can prove each; a file's pack
    follows from its path (FNV-1a, 32 bit), so that one changed page changes one pack. Byte for byte the same
    for the same site.
    """
    files = sorted(
        path.relative_to(site).as_posix()
        for path in site.rglob("*")
        if path.is_file() and path.suffix in TYPES and path.name != WORKER
    )
    count = 1
    while count * PACK_OF < len(files):
        count *= 2
    packs: list[list[str]] = [[] for _ in range(count)]
    for name in files:
        packs[fnv1a(name) % count].append(name)
    (site / FOLDER).mkdir(exist_ok=True)
    names = all_made([partial(_write_pack, site, pack) for pack in packs])
    version = hashlib.sha256("".join([worker, *names]).encode()).hexdigest()[:16]
    copy = json.dumps({"version": version, "packs": names}, separators=(",", ":"))
    (site / WORKER).write_text(f"const COPY = {copy};\n{worker}", encoding="utf-8")


def _write_pack(site: Path, files: list[str]) -> list[str]:
    """Write a pack of these files. Returns its name, alone."""
    pack = {name: _packed(site / name) for name in files}
    text = json.dumps(pack, ensure_ascii=False, separators=(",", ":"), sort_keys=True)
    content = gzip.compress(text.encode(), 6, mtime=0)
    name = f"{FOLDER}/part-{hashlib.sha256(content).hexdigest()[:20]}.pack"
    (site / name).write_bytes(content)
    return [name]


def fnv1a(text: str) -> int:
    """The 32-bit FNV-1a hash of a text's UTF-8, by Fowler, Noll and Vo."""
    found = 0x811C9DC5
    for byte in text.encode():
        found = (found ^ byte) * 0x01000193 & 0xFFFFFFFF
    return found


def _packed(path: Path) -> list[object]:
    content = path.read_bytes()
    if path.suffix in CODED:
        return [TYPES[path.suffix], base64.b64encode(content).decode(), True]
    return [TYPES[path.suffix], content.decode("utf-8")]
