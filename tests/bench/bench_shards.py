"""What search would take in shards: the index of a synthetic book, and larger ones of search entries alone.

``python tests/bench/bench_shards.py`` prints bytes (gzip) and requests of a first query with nothing kept
yet, as median and worst of 60 seeded queries, for three ways of keeping the index:

- whole: one file, as it is now;
- by entry: equal parts by a hash of the address, each an index of its own; a query needs them all;
- by word: the words in order, cut into parts of about 60 kB, the entries' names and lines in blocks, a list
  of where the parts begin, and a list of all words that is fetched only where a word is a slip away.

Larger books are drawn, not built: an entry takes the words of an entry of the book of 1,000, a drawn name,
and every tenth one a word that no other has. What an edit uploads: the file of one entry, or by word all that
stands behind a new entry, since entries are numbered.
"""

import gzip
import json
import math
import random
import shutil
import statistics
import subprocess
import sys
import tempfile
import zlib
from bisect import bisect_left, bisect_right
from collections.abc import Iterable
from itertools import accumulate
from pathlib import Path
from typing import Any

from synthetic import WORDS, Writer, write_book

from bowlbook.pages.page import SearchEntry
from bowlbook.pages.search_index import IndexEntry, search_index, words_of

ROOT = Path(__file__).parents[2]
BLOCK = 200
"""Entries whose names and lines are in one file."""
PART = 60_000
"""Bytes of a part of the words, before compression."""
SCREEN = 8
"""Results of the first screen: what a query needs the names of."""
HEAD = 2
"""Requests before the first: names.json, and what says where the parts begin."""


def packed(data: object) -> int:
    """Bytes of data as compact JSON, compressed."""
    return len(gzip.compress(json.dumps(data, ensure_ascii=False, separators=(",", ":")).encode(), 6))


def real_index() -> tuple[dict[str, Any], list[IndexEntry]]:
    """The index that a build of 1,000 recipes writes, and its entries, read back out of it."""
    folder = Path(tempfile.mkdtemp(prefix="bench-"))
    write_book(folder / "recipes", 1000)
    shutil.copytree(ROOT / "docs", folder / "docs")
    shutil.copy(ROOT / "mkdocs.yml", folder)
    words = [sys.executable, "-m", "bowlbook.commands", "build"]
    subprocess.run(words, cwd=folder, check=True, capture_output=True)
    (path,) = (folder / "site" / "data").glob("search-*.json")
    index = json.loads(path.read_text(encoding="utf-8"))
    shutil.rmtree(folder)
    texts: list[list[str]] = [[] for _ in index["entries"]]
    for word, steps in zip(index["words"].split(" "), index["others"], strict=True):
        for number in accumulate(steps):
            texts[number].append(word)
    kinds = index["kinds"]
    found = [
        IndexEntry(address, kinds[kind], note, SearchEntry(title, " ".join(text), kinds[kind]))
        for (address, title, kind, note), text in zip(index["entries"], texts, strict=True)
    ]
    assert search_index(found) == index  # nothing was lost on the way
    return index, found


def drawn(found: list[IndexEntry], count: int) -> list[IndexEntry]:
    """So many entries, drawn after those of a real book."""
    writer = Writer(count)
    recipes = [each for each in found if each.address.startswith(("blends/", "techniques/", "situations/"))]
    made = []
    for number in range(count):
        like = writer.draw.choice(recipes)
        name, entry_id = writer.name()
        own = "".join(writer.draw.choices("aeioulmnrst", k=8)) if number % 10 == 0 else ""
        kind = like.address.partition("/")[0]
        entry = SearchEntry(name, f"{like.entry.text} {own}", like.kind)
        made.append(IndexEntry(f"{kind}/{entry_id}/", like.kind, like.note, entry))
    return made


def queries(found: list[IndexEntry], draw: random.Random) -> list[list[str]]:
    """As people type: part of a name, words of a head, a word only begun."""
    asked = []
    for number in range(60):
        title = words_of(draw.choice(found).entry.title)
        heads = draw.sample([word for words in WORDS.values() for word in words if " " not in word], 3)
        asked.append([title[:2], heads[: draw.randint(1, 3)], [title[0], heads[0][:3]]][number % 3])
    return asked


class Index:
    """An index with its lists unpacked, and what it takes when it is kept by word."""

    def __init__(self, data: dict[str, Any]) -> None:
        self.entries = data["entries"]
        self.words: list[str] = data["words"].split(" ")
        self.lists = [
            (list(accumulate(names)), list(accumulate(others)))
            for names, others in zip(data["names"], data["others"], strict=True)
        ]
        size, self.part_of, rows = 0, [], [[]]
        for row in zip(self.words, data["names"], data["others"], strict=True):
            length = len(json.dumps(row, separators=(",", ":")))
            if rows[-1] and size + length > PART:
                rows.append([])
                size = 0
            rows[-1].append(row)
            size += length
            self.part_of.append(len(rows) - 1)
        self.parts = [packed(part) for part in rows]
        starts = range(0, len(self.entries), BLOCK)
        self.blocks = [packed(self.entries[start : start + BLOCK]) for start in starts]
        self.head = packed([part[0][0] for part in rows])
        self.all_words = packed(data["words"])

    def asked(self, query: list[str]) -> tuple[int, int]:
        """Bytes and requests of a query by word, ranked as ``search.js`` ranks it."""
        count: dict[int, int] = {}
        score: dict[int, float] = {}
        parts: set[int] = set()
        for typed in query:
            best: dict[int, float] = {}
            first = bisect_left(self.words, typed)
            for at in range(first, bisect_right(self.words, f"{typed}\U0010ffff")):
                parts.add(self.part_of[at])
                sure = 1 if self.words[at] == typed else 0.6
                for numbers, weight in zip(self.lists[at], (4, 1), strict=True):
                    worth = sure * weight * math.log(1 + len(self.entries) / (1 + len(numbers)))
                    for number in numbers:
                        best[number] = max(best.get(number, 0), worth)
            for number, worth in best.items():
                count[number] = count.get(number, 0) + 1
                score[number] = score.get(number, 0) + worth
        top = sorted(count, key=lambda number: (-count[number], -score[number], number))[:SCREEN]
        blocks = {number // BLOCK for number in top}
        size = self.head + sum(self.parts[each] for each in parts) + sum(self.blocks[each] for each in blocks)
        return size, HEAD + len(parts) + len(blocks)


def by_entry(found: Iterable[IndexEntry], count: int) -> list[int]:
    """Bytes of each of so many indexes, each of the entries whose address falls to it."""
    shares: list[list[IndexEntry]] = [[] for _ in range(count)]
    for each in found:
        shares[zlib.crc32(each.address.encode()) % count].append(each)
    return [packed(search_index(share)) for share in shares]


def row(found: list[IndexEntry], data: dict[str, Any]) -> None:
    """Print what one size of book takes."""
    whole, index = packed(data), Index(data)
    shares = by_entry(found, max(4, len(found) // 1000))
    asked = [index.asked(query) for query in queries(found, random.Random(1))]
    sizes, requests = zip(*asked, strict=True)
    kb = 1000
    raw = len(json.dumps(data, ensure_ascii=False, separators=(",", ":")).encode())
    print(f"{len(found):7} entries, {len(index.words)} words, {raw / 1e6:.1f} MB before compression")
    print(f"  whole     {whole / kb:8.0f} kB, 2 requests; an edit uploads {whole / kb:.0f} kB")
    print(
        f"  by entry  {sum(shares) / kb:8.0f} kB, {1 + len(shares)} requests; "
        f"an edit uploads {max(shares) / kb:.0f} kB"
    )
    print(
        f"  by word   {statistics.median(sizes) / kb:8.0f} kB, {statistics.median(requests):.0f} requests "
        f"(worst {max(sizes) / kb:.0f} kB, {max(requests)}); {len(index.parts)} parts and "
        f"{len(index.blocks)} blocks, largest {max(index.parts) / kb:.0f} kB; "
        f"an edit uploads up to {(sum(index.parts) + sum(index.blocks)) / kb:.0f} kB; "
        f"a slip {index.all_words / kb:.0f} kB more"
    )


if __name__ == "__main__":
    real, listed = real_index()
    row(listed, real)
    for number in (10_000, 100_000):
        more = drawn(listed, number)
        row(more, search_index(more))
