"""What one edit changes in a site: files and bytes to upload, by kind of file.

``python tests/bench/bench_upload.py [RECIPES …]`` (300 and 1000 if left out) builds a synthetic book, edits
one blend three times (a sentence of its notes, its developer, its name), and builds it after each edit. A
file whose name carries its content is one more file, never a changed one; that is held here too.
"""

import gzip
import os
import re
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

from synthetic import write_project

ROOT = Path(__file__).parents[2]
ENVIRONMENT = {**os.environ, "PYTHONPATH": str(ROOT / "generator"), "BOWLBOOK_CACHE": "off"}
KINDS = {
    "packs of the copy": r"copy/part-[0-9a-f]{20}\.pack",
    "data": r"data/(search|pick)-[0-9a-f]{10}\.json",
    "pages": r".*\.html",
    "names.json, sw.js and the like": r".*",
}
NAMED_AFTER_CONTENT = ("packs of the copy", "data")
EDITS = {
    "a sentence of the notes": (r"(notes: \|\n  )", r"\1Rinse a minute longer. "),
    "the developer": (r"product: developer-20", "product: developer-10"),
    "the name": (r"^name: .*", "name: Another name altogether"),
}


def built(folder: Path, name: str) -> dict[str, bytes]:
    """The files of a fresh build."""
    words = [sys.executable, "-m", "bowlbook.commands", "build", "--site", name]
    subprocess.run(words, cwd=folder, env=ENVIRONMENT, check=True, capture_output=True)
    site = folder / name
    found = {p.relative_to(site).as_posix(): p.read_bytes() for p in site.rglob("*") if p.is_file()}
    shutil.rmtree(site)
    return found


def kind_of(path: str) -> str:
    """The first kind whose pattern a path fits."""
    return next(kind for kind, pattern in KINDS.items() if re.fullmatch(pattern, path))


def sizes(files: dict[str, bytes]) -> str:
    """How many files, their bytes, and those bytes compressed."""
    raw = sum(map(len, files.values()))
    packed = sum(min(len(gzip.compress(each, 6)), len(each)) for each in files.values())
    return f"{len(files):6} files {raw / 1e6:9.2f} MB {packed / 1e6:8.2f} MB gzip"


def by_kind(files: dict[str, bytes]) -> None:
    """Print the sizes of each kind."""
    for kind in KINDS:
        print(f"    {kind:32} {sizes({path: each for path, each in files.items() if kind_of(path) == kind})}")


def main(recipes: int) -> None:
    """Build, edit, build, compare."""
    folder = Path(tempfile.mkdtemp(prefix="bench-"))
    write_project(folder, recipes)
    blends = sorted((folder / "recipes" / "blends").iterdir())
    blend = next(each for each in blends if "product: developer-20" in each.read_text(encoding="utf-8"))
    before = built(folder, "before")
    print(f"{recipes} recipes: {sizes(before)}")
    by_kind(before)
    for path in sorted(before, key=lambda path: -len(before[path]))[:3]:
        print(f"    {path:32} {sizes({path: before[path]})}")
    for what, (old, new) in EDITS.items():
        text, count = re.subn(old, new, blend.read_text(encoding="utf-8"), count=1, flags=re.M)
        assert count == 1, what
        blend.write_text(text, encoding="utf-8")
        after = built(folder, "after")
        changed = {path: each for path, each in after.items() if before.get(path) != each}
        kept = {path for path in changed if path in before and kind_of(path) in NAMED_AFTER_CONTENT}
        assert not kept, kept
        print(f"  {what}: {sizes(changed)}; {len(set(before) - set(after))} to delete later")
        by_kind(changed)
        before = after
    shutil.rmtree(folder)


if __name__ == "__main__":
    for number in map(int, sys.argv[1:] or ["300", "1000"]):
        main(number)
