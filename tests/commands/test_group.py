"""``--all``: the books of a group in one run, each apart from the others."""

import json
import os
import shutil
import signal
import subprocess
import sys
from pathlib import Path

import pytest
from tests.site.small_site import bytes_of

from bowlbook.commands import group as group_module
from bowlbook.commands.group import books_of, run_each
from bowlbook.site.manifest import MANIFEST
from checks.small_book import BLEND_FILE, CLAY_FILE, FOIL_FILE, HOUSE_FILE, SmallBook
from commands.run import run
from systems import needs_links, needs_signals

SHARED = (CLAY_FILE, FOIL_FILE)


def salon(group: Path, name: str) -> SmallBook:
    """The small book as one salon's, with two of its products on the group's shelf."""
    book = SmallBook(group / name / "recipes")
    for file in SHARED:
        (book.root / file).unlink()
        book.texts.pop(file)
    book.add(HOUSE_FILE, "products_from: ../../products\n")
    book.edit(HOUSE_FILE, "Small book", f"Book of {name}")
    return book


@pytest.fixture
def group(tmp_path: Path) -> Path:
    """A group of three salons: east in order, north with a price of its own, west broken."""
    group = tmp_path / "group"
    whole = SmallBook(tmp_path / "whole")
    (group / "products").mkdir(parents=True)
    for file in SHARED:
        text = whole.texts[file].replace("priced_on", "currency: CAD, priced_on")
        (group / file).write_text(text, encoding="utf-8")
    shutil.rmtree(whole.root)
    salon(group, "east")
    north = salon(group, "north")
    clay = (group / CLAY_FILE).read_text(encoding="utf-8").replace("39.00", "45.00")
    north.write(CLAY_FILE, clay + "instead_of_shared: yes\n")
    salon(group, "west").edit(BLEND_FILE, "ratio: 1:2", "ratio: 1:3")
    (group / "docs").mkdir()
    (group / "docs" / "safety.md").write_text("# Safety\n\nOf the group.\n", encoding="utf-8")
    (group / ".git" / "recipes").mkdir(parents=True)
    (group / "mkdocs.yml").write_text(
        "site_name: Group\nsite_url: https://group.example/books/\ntheme: {name: material, font: false}\n"
        "plugins: [bowlbook]\n",
        encoding="utf-8",
    )
    return group


@needs_links
def test_the_books_of_a_group(group: Path, tmp_path: Path) -> None:
    """Not the shelf, the pages, a hidden folder or a link."""
    (group / "link").symlink_to(tmp_path)
    (group / "north" / "mkdocs.yml").write_text("INHERIT: ../mkdocs.yml\n", encoding="utf-8")
    found = [(each.name, each.config.relative_to(group).as_posix()) for each in books_of(group)]
    assert found == [("east", "mkdocs.yml"), ("north", "north/mkdocs.yml"), ("west", "mkdocs.yml")]


@pytest.mark.long
def test_one_broken_book_leaves_the_others_published(group: Path, tmp_path: Path) -> None:
    """The sites are, byte for byte, those built one by one; the broken book's old site stays."""
    sites = tmp_path / "sites"
    shutil.copytree(group / "docs", sites / "west")
    west = bytes_of(sites / "west")
    done = run("build", "--all", str(group), "--site", str(sites))
    assert done.exit_code == 1
    assert done.stderr.index("== east") < done.stderr.index("== north") < done.stderr.index("== west")
    after = done.stderr[done.stderr.index("== west") :]
    assert f"{group}/west/recipes/{BLEND_FILE}:5:20: ratio-out-of-range" in after
    assert "ratio-out-of-range" not in done.stderr[: done.stderr.index("== west")]
    assert done.stderr.endswith("2 of 3 books are fine; not fine: west.\n")
    assert bytes_of(sites / "west") == west
    for name in ("north", "east"):
        alone = tmp_path / "alone" / name
        where = ["--recipes", str(group / name / "recipes"), "--config", str(group / "mkdocs.yml")]
        one = run("build", *where, "--beneath", name, "--site", str(alone))
        assert one.exit_code == 0, one.stderr
        assert bytes_of(sites / name) == bytes_of(alone)
    for name in ("north", "east"):
        assert f"Book of {name}" in (sites / name / "index.html").read_text(encoding="utf-8")
        assert f"https://group.example/books/{name}/".encode() in (sites / name / "sitemap.xml").read_bytes()
    costs = [(sites / name / "products/clay/index.html").read_text("utf-8") for name in ("east", "north")]
    assert "39.00" in costs[0] and "45.00" in costs[1] and "39.00" not in costs[1]


@pytest.mark.long
def test_check_prints_each_book_s_findings_under_its_name(group: Path) -> None:
    done = run("check", "--all", str(group))
    assert done.exit_code == 1
    parts = done.stdout.split("== ")
    assert [part.split("\n")[0] for part in parts[1:]] == ["east", "north", "west"]
    assert ["ratio-out-of-range" in part for part in parts[1:]] == [False, False, True]
    assert done.stdout.endswith("2 of 3 books are fine; not fine: west.\n")


def misspelt(group: Path) -> Path:
    """A group of two books, whose shared file has an unknown key; returns that file."""
    shutil.rmtree(group / "north")
    foil = group / FOIL_FILE
    foil.write_text(foil.read_text(encoding="utf-8") + "colour: red\n", encoding="utf-8")
    return foil


def test_check_as_data(group: Path) -> None:
    """A mistake in a shared file is a finding in each book that reads it, with that file's path."""
    foil = misspelt(group)
    done = run("check", "--all", str(group), "--json")
    assert done.exit_code == 1
    rows = json.loads(done.stdout)
    found = {
        name: [(row["path"], row["code"]) for row in found if row["code"] == "unknown-key"]
        for name, found in rows.items()
    }
    assert found == {name: [(str(foil), "unknown-key")] for name in ("east", "west")}


def test_on_a_pull_request_a_shared_mistake_is_on_its_line_once(group: Path) -> None:
    foil = misspelt(group)
    done = run("check", "--all", str(group), "--format", "github")
    lines = done.stdout.splitlines()
    assert len(lines) == len(set(lines))
    assert sum(f"file={foil}," in line for line in lines) == 1
    assert all(line.startswith("::error ") for line in lines)


@pytest.mark.long
@needs_signals
def test_a_book_whose_process_dies(group: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The program of one book is killed: it is named, and the others have been read."""
    program = (
        "import os, signal, sys\n"
        "if any('north' in word for word in sys.argv): os.kill(os.getpid(), signal.SIGKILL)\n"
        "from bowlbook.commands import main\n"
        "main()\n"
    )
    monkeypatch.setattr(group_module, "PROGRAM", (sys.executable, "-c", program))
    done = run("check", "--all", str(group), "--json")
    rows = json.loads(done.stdout)
    assert (rows["east"], rows["north"]) == ([], None)
    assert [row["code"] for row in rows["west"]] == ["ratio-out-of-range"]
    assert f"north: the process ended by itself ({-signal.SIGKILL})." in done.stderr
    assert done.exit_code == 1


def test_no_more_at_once_than_processors(
    group: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Each process writes when it began and ended; with one processor no two are there together."""
    program = (
        "import os, sys, time\n"
        f"log = open({str(tmp_path / 'log')!r}, 'a')\n"
        "print('begin', file=log, flush=True)\n"
        "time.sleep(0.05)\n"
        "print('end', os.environ['BOWLBOOK_PROCESSES'], file=log, flush=True)\n"
    )
    monkeypatch.setattr(group_module, "PROGRAM", (sys.executable, "-c", program))
    monkeypatch.setenv("BOWLBOOK_PROCESSES", "1")
    assert [done.returncode for _, done in run_each(books_of(group), lambda book: [])] == [0, 0, 0]
    assert (tmp_path / "log").read_text().split("\n")[:-1] == ["begin", "end 1"] * 3


@pytest.mark.long
def test_no_module_of_the_working_folder_is_run(group: Path, tmp_path: Path) -> None:
    """The working folder contains a folder with the name of the program."""
    for name in ("east", "west"):
        shutil.rmtree(group / name)
    (tmp_path / "bowlbook").mkdir()
    (tmp_path / "bowlbook" / "__init__.py").write_text("raise SystemExit(9)\n", encoding="utf-8")
    done = subprocess.run(
        [sys.executable, "-P", "-m", "bowlbook.commands", "check", "--all", str(group)],
        cwd=tmp_path,
        env={key: value for key, value in os.environ.items() if key != "PYTHONPATH"},
        capture_output=True,
        text=True,
        check=False,
    )
    assert "1 of 1 books are fine" in done.stdout, done.stderr


def test_a_site_of_a_book_that_is_gone_is_named(group: Path, tmp_path: Path) -> None:
    sites = tmp_path / "sites"
    (sites / "south").mkdir(parents=True)
    (sites / "south" / MANIFEST).write_text(f"{MANIFEST}\n", encoding="utf-8")
    for name in ("east", "north"):
        shutil.rmtree(group / name)
    done = run("build", "--all", str(group), "--site", str(sites))
    assert f"south is no book of the group; the site in {sites / 'south'} was left alone." in done.stderr
    assert bytes_of(sites) == {f"south/{MANIFEST}": f"{MANIFEST}\n".encode()}


def test_what_is_asked_reaches_every_book(
    group: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The arguments and environment of each process, printed by a program that replaces it."""
    monkeypatch.setattr(group_module, "PROGRAM", (sys.executable, "-c", "import sys; print(*sys.argv[1:])"))
    (group / "west" / "mkdocs.yml").write_text("INHERIT: ../mkdocs.yml\n", encoding="utf-8")
    where = ("--all", str(group), "--site", str(tmp_path / "sites"))
    assert "--replace" not in run("build", *where).stdout
    done = run("build", *where, "--audience", "public", "--strict", "--replace")
    said = [set(line.split()) for line in done.stdout.splitlines()]
    assert [{"build", "--audience=public", "--strict", "--replace"} <= each for each in said] == [True] * 3
    assert ["--beneath=east" in said[0], "--beneath=north" in said[1], len(said[2])] == [True, True, 7]
    checked = run("check", "--all", str(group), "--strict")
    assert [line.split()[-1] for line in checked.stdout.splitlines() if line.startswith("check ")] == (
        ["--strict"] * 3
    )


def test_the_sites_cannot_be_put_there(group: Path, tmp_path: Path) -> None:
    (tmp_path / "a-file").write_text("mine", encoding="utf-8")
    done = run("build", "--all", str(group), "--site", str(tmp_path / "a-file"))
    assert done.exit_code in (1, 2)
    assert done.exception is None or isinstance(done.exception, SystemExit), done.exception
    assert "a-file" in done.stderr


def test_wrong_use(group: Path, tmp_path: Path) -> None:
    (tmp_path / "empty").mkdir()
    for words in (
        ("build", "--all", str(group), "--recipes", str(group / "east" / "recipes")),
        ("build", "--all", str(group), "--config", str(group / "mkdocs.yml")),
        ("build", "--all", str(group), "--beneath", "x"),
        ("check", "--all", str(group), "--recipes", "x"),
        ("check", "--all", str(tmp_path / "nowhere")),
        ("check", "--all", str(tmp_path / "empty")),
        ("build", "--config", str(tmp_path / "nowhere.yml")),
    ):
        done = run(*words)
        assert done.exit_code == 2, words
        assert "Traceback" not in done.output
