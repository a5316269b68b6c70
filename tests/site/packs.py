"""The copy for the phone read back: every file in its packs, without the program's own code."""

import gzip
import json
from pathlib import Path


def packed_files(site: Path) -> dict[str, tuple[str, bytes]]:
    """Type and bytes of every file in the packs that the service worker fetches, by path."""
    first = (site / "sw.js").read_text(encoding="utf-8").partition(";\n")[0]
    packs = json.loads(first.removeprefix("const COPY = "))["packs"]
    return {name: file for pack in packs for name, file in files_of((site / pack).read_bytes()).items()}


def files_of(pack: bytes) -> dict[str, tuple[str, bytes]]:
    """The files of one pack: no time in its header (RFC 1952), nothing left over, no file cut short."""
    assert pack[4:8] == bytes(4)
    head, _, content = gzip.decompress(pack).partition(b"\n")
    files = {}
    for name, kind, size in json.loads(head):
        files[name] = kind, content[:size]
        assert len(files[name][1]) == size
        content = content[size:]
    assert not content
    return files
