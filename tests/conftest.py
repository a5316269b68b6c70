"""Fixtures shared by all tests: the demo book, and its site built once for every worker."""

import os
import shutil
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from types import CodeType

import hypothesis
import pytest
from filelock import FileLock

# A run starts Python some hundred times, and pytest rewrites every test module. Where no compiled code may be
# stored, as containers often ask, that alone takes longer than many a test.
sys.dont_write_bytecode = False
os.environ.pop("PYTHONDONTWRITEBYTECODE", None)

# The demo book's prices and reviews are held against the day it was written for.
os.environ.setdefault("SOURCE_DATE_EPOCH", "1795564800")  # 2026-11-25

# In a hook of git's these name the repository that is committed to: the tests would write into that one.
for name in ("GIT_DIR", "GIT_INDEX_FILE", "GIT_WORK_TREE"):
    os.environ.pop(name, None)

# No test reads what another has read before it; the tests of the cache say otherwise.
os.environ["BOWLBOOK_CACHE"] = "off"

# The workers of a run keep all processors busy; the tests of shared work ask for more.
os.environ.setdefault("BOWLBOOK_PROCESSES", "1")

# Tests do not time: a benchmark measures. What lands is decided by the same cases every time; new ones are
# looked for with BOWLBOOK_EXAMPLES=2000.
EXAMPLES = os.environ.get("BOWLBOOK_EXAMPLES")
hypothesis.settings.register_profile(
    "bowlbook", deadline=None, database=None, derandomize=not EXAMPLES, max_examples=int(EXAMPLES or 25)
)
hypothesis.settings.register_profile(  # a wrong program is to be found out, not explained
    "found-out",
    parent=hypothesis.settings.get_profile("bowlbook"),
    phases=["explicit", "generate"],
    max_examples=100,
)
hypothesis.settings.load_profile("bowlbook")

ROOT = Path(__file__).parents[1]

# Where temporary files can be in memory, with room for the sites of a whole run, nothing waits for a disk.
MEMORY = Path("/dev/shm")
if os.access(MEMORY, os.W_OK) and shutil.disk_usage(MEMORY).free > 2 * 10**9:
    os.environ.setdefault("PYTEST_DEBUG_TEMPROOT", str(MEMORY))


@pytest.hookimpl(optionalhook=True)  # mutation testing runs without workers
def pytest_xdist_auto_num_workers() -> int:
    """One worker more than processors: tests in the browser wait a third of their time."""
    return (os.cpu_count() or 1) + 1


LONGEST_FIRST = ("browser", "site", "commands")
"""The rooms whose files take longest: begun last, one of them would be waited for at the end."""


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    def place(item: pytest.Item) -> int:
        room = item.path.parent.name
        return LONGEST_FIRST.index(room) if room in LONGEST_FIRST else len(LONGEST_FIRST)

    items.sort(key=place)


@pytest.fixture(scope="session", autouse=True)
def compiled_templates() -> Iterator[None]:
    """A worker compiles a template once: without a cache each build would, which is half of a small one."""
    from jinja2.bccache import Bucket

    from bowlbook.pages.render import Compiled

    codes: dict[tuple[str, str], CodeType] = {}
    load = Compiled.load_bytecode

    def load_bytecode(self: Compiled, bucket: Bucket) -> None:
        load(self, bucket)
        bucket.code = bucket.code or codes.get((bucket.key, bucket.checksum))

    def dump_bytecode(self: Compiled, bucket: Bucket) -> None:
        dump(self, bucket)
        codes[bucket.key, bucket.checksum] = bucket.code

    dump = Compiled.dump_bytecode
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(Compiled, "load_bytecode", load_bytecode)
        patch.setattr(Compiled, "dump_bytecode", dump_bytecode)
        yield


@pytest.fixture(scope="session")
def recipes() -> Path:
    """The demo book's folder."""
    return ROOT / "recipes"


@pytest.fixture(scope="session")
def demo_book(recipes: Path):
    """The demo book, read and linked."""
    from bowlbook.book.read_book import read_book

    book = read_book(recipes).book
    assert book is not None
    return book


@pytest.fixture
def book(tmp_path: Path):
    """The small book in a folder of its own, fresh for every test."""
    from checks.small_book import SmallBook

    return SmallBook(tmp_path / "recipes")


@pytest.fixture
def small(book):
    """The small book, for a test that calls what is read of it ``book``."""
    return book


Shared = Callable[[str, Callable[[Path], object]], Path]


@pytest.fixture(scope="session")
def shared(tmp_path_factory: pytest.TempPathFactory) -> Shared:
    """A folder by its name, that is made once and read by all the workers of a run."""
    base = tmp_path_factory.getbasetemp()
    top = base.parent if "PYTEST_XDIST_WORKER" in os.environ else base

    def made(name: str, make: Callable[[Path], object]) -> Path:
        folder, done = top / name, top / f"{name}.done"
        with FileLock(top / f"{name}.lock"):
            if not done.exists():
                make(folder)
                done.touch()
        return folder

    return made


@pytest.fixture(scope="session")
def demo_site(recipes: Path, shared: Shared) -> Path:
    """The demo book's site."""
    from bowlbook.checks.day import today
    from bowlbook.checks.judge import judge
    from bowlbook.site.engine import build_into
    from bowlbook.site.publish import publish

    def build(site: Path) -> None:
        warnings: list[str] = []
        judgement = judge(recipes, today())
        publish(lambda folder: build_into(folder, ROOT / "mkdocs.yml", judgement, warnings.append), site)
        assert warnings == []

    return shared("demo-site", build)
