"""How a cold build grows with the book: time, processor time, memory and size of 1,000 and of 10,000 recipes.

``python tests/bench/bench_growth.py [SMALL] [LARGE] [ROUNDS]`` (1000, 10000 and 5 if left out): both in turn,
round after round, nothing kept; printed are medians, and how many times the small one's the large one's are.
"""

import resource
import shutil
import statistics
import sys
import tempfile
from pathlib import Path

from bench_build import BOWLBOOK, Work, size_of, timed
from synthetic import write_project


def processor_time() -> float:
    """Seconds that all ended processes of this one have worked."""
    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    return used.ru_utime + used.ru_stime


def main(sizes: list[int], rounds: int) -> None:
    """Write the books, build them in turn, and print what came of it."""
    top = Path(tempfile.mkdtemp(prefix="bench-"))
    rows: dict[int, list[tuple[float, float, float]]] = {size: [] for size in sizes}
    for size in sizes:
        write_project(top / str(size), size)
    for _ in range(rounds):
        for size in sizes:
            cache, before = top / "cache", processor_time()
            work = Work([*BOWLBOOK, "build", "--site", "site"], top / str(size))
            seconds, memory = timed(work, cache)
            rows[size].append((seconds, processor_time() - before, memory))
            shutil.rmtree(cache, ignore_errors=True)
    medians = {
        size: [statistics.median(column) for column in zip(*rows[size], strict=True)] for size in sizes
    }
    for size, (seconds, worked, memory) in medians.items():
        print(
            f"{size:8} recipes {seconds:8.2f} s, {worked:8.2f} s of processor time, {memory:6.0f} MB at most"
        )
        print(" " * 16, size_of(top / str(size) / "site"))
    times = [large / small for small, large in zip(*medians.values(), strict=True)]
    print(f"{'':8} times   {times[0]:8.2f}   {times[1]:8.2f}   {times[2]:27.2f}")
    shutil.rmtree(top)


if __name__ == "__main__":
    given = [*map(int, sys.argv[1:]), *[1000, 10000, 5][len(sys.argv) - 1 :]]
    main(given[:2], given[2])
