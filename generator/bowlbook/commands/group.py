"""The books of a group of salons in one run: each in a process of its own, so that none harms another."""

import os
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any, NamedTuple

import click

from bowlbook.commands.printer import echo

PROGRAM = (sys.executable, "-P", "-m", "bowlbook.commands")
"""Our own command line. -P: the working folder is not looked into for modules."""


class SalonBook(NamedTuple):
    """One book of a group: its folder's name, its recipes, and its configuration or else the group's."""

    name: str
    recipes: Path
    config: Path
    own_config: bool


class CommandResult(NamedTuple):
    """What a command said of a book. ``code`` is below 0 where a signal ended it."""

    book: SalonBook
    code: int
    stdout: str
    stderr: str


def books_of(group: Path) -> list[SalonBook]:
    """The books of a group, by name. Links and hidden folders are none. Raises `click.UsageError`."""
    found = []
    for folder in sorted(group.iterdir()):
        if folder.name.startswith(".") or folder.is_symlink() or not (folder / "recipes").is_dir():
            continue
        if (folder / "recipes").is_symlink():
            continue
        own = folder / "mkdocs.yml"
        config = own if own.is_file() else group / "mkdocs.yml"
        found.append(SalonBook(folder.name, folder / "recipes", config, own.is_file()))
    if not found:
        raise click.UsageError(f"No folder in {group} has a folder recipes in it.")
    return found


def only_the_group(*names: str) -> None:
    """Refuse options for one book beside ``--all``. Raises `click.UsageError`."""
    context = click.get_current_context()
    for name in names:
        source = context.get_parameter_source(name)
        if source is not None and source.name == "COMMANDLINE":
            raise click.UsageError("--all reads every book of a group; leave out the options for one book.")


def ask_each(books: list[SalonBook], words_of: Callable[[SalonBook], list[str]]) -> Iterator[CommandResult]:
    """Run a command on each book, as many at once as there are processors, and answer in the books' order."""
    import subprocess  # these only for a group: a check of one book begins sooner without
    from concurrent.futures import ThreadPoolExecutor

    from bowlbook.site.processes import processors

    there = processors()
    at_once = min(there, len(books))
    environment = {"BOWLBOOK_PROCESSES": str(there // at_once), "PYTHONIOENCODING": "utf-8"}

    def ask(book: SalonBook) -> CommandResult:
        done = subprocess.run(
            [*PROGRAM, *words_of(book)],
            env={**os.environ, **environment},
            stdin=subprocess.DEVNULL,
            capture_output=True,
            encoding="utf-8",
            errors="replace",
            check=False,
        )
        return CommandResult(book, done.returncode, done.stdout, done.stderr)

    with ThreadPoolExecutor(at_once) as pool:
        yield from pool.map(ask, books)


def build_each(
    group: Path, sites: Path, audience: str | None, *, replace: bool, strict: bool, full: bool = False
) -> bool:
    """Build every book into a folder of its name under ``sites``. False: some could not be; theirs stay."""
    from bowlbook.site.place import fault_of_place  # only for a build

    books = books_of(group)

    def words_of(book: SalonBook) -> list[str]:
        words = [
            "build",
            f"--recipes={book.recipes}",
            f"--config={book.config}",
            f"--site={sites / book.name}",
        ]
        words += [] if book.own_config else [f"--beneath={book.name}"]
        words += [] if audience is None else [f"--audience={audience}"]
        words += ["--replace"] if replace else []
        return words + (["--strict"] if strict else []) + (["--full"] if full else [])

    recipes = {f"the book of {book.name}": book.recipes for book in books}
    for book in books:
        fault = fault_of_place(sites / book.name, recipes)
        if fault is not None:
            raise click.UsageError(fault)
    try:
        sites.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise click.UsageError(f"The sites cannot be put into {sites}: {error.strerror}.") from error
    answers = []
    for answer in ask_each(books, words_of):
        echo(f"== {answer.book.name}", err=True)
        echo(answer.stderr, nl=False, err=True)
        echo(answer.stdout, nl=False)
        answers.append(answer)
    for name in _left_over(sites, books):
        echo(f"{name} is no book of the group; the site in {sites / name} was left alone.", err=True)
    return _summed_up(answers, err=True)


def _left_over(sites: Path, books: list[SalonBook]) -> list[str]:
    """Sites of an earlier run that belong to no book."""
    from bowlbook.site.manifest import MANIFEST

    known = {book.name for book in books}
    return sorted(at.parent.name for at in sites.glob(f"*/{MANIFEST}") if at.parent.name not in known)


def check_each(group: Path, form: str, *, strict: bool, full: bool = False) -> bool:
    """Check every book, and print its findings in one of the forms of ``check``. False: some have errors."""

    def words_of(book: SalonBook) -> list[str]:
        words = ["check", f"--recipes={book.recipes}", f"--format={form}"]
        return words + (["--strict"] if strict else []) + (["--full"] if full else [])

    answers = []
    rows: dict[str, Any] = {}
    said: set[str] = set()
    for answer in ask_each(books_of(group), words_of):
        answers.append(answer)
        if form == "json":
            rows[answer.book.name] = _read(answer)
        elif form == "github":  # a mistake in a shared file is on its line once
            lines = [line for line in answer.stdout.splitlines() if line not in said]
            said.update(lines)
            echo("".join(f"{line}\n" for line in lines), nl=False)
        else:
            echo(f"== {answer.book.name}\n{answer.stdout}", nl=False)
        echo(answer.stderr, nl=False, err=True)
    if form == "json":
        import json

        echo(json.dumps(rows, indent=2, ensure_ascii=False))
    return _summed_up(answers, err=form != "text")


def _read(answer: CommandResult) -> Any:
    """The findings of a book as data; None where its process ended without any."""
    import json

    try:
        return json.loads(answer.stdout)
    except ValueError:
        return None


def _summed_up(answers: list[CommandResult], *, err: bool) -> bool:
    """Say of how many books all is well, and of which it is not."""
    failed = [answer for answer in answers if answer.code != 0]
    for answer in failed:
        if answer.code < 0 or answer.code > 2:
            echo(f"{answer.book.name}: the process ended by itself ({answer.code}).", err=True)
    names = ", ".join(answer.book.name for answer in failed)
    fine = f"{len(answers) - len(failed)} of {len(answers)} books are fine"
    echo(f"{fine}; not fine: {names}." if failed else f"{fine}.", err=err)
    return not failed
