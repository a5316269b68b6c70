"""The books of a group of salons in one run. Each runs in its own process, so that a crash stays its own."""

from __future__ import annotations

import json
import os
import sys
from collections.abc import Callable, Iterator
from contextlib import suppress
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

import click

from bowlbook.commands.printer import echo, print_json

if TYPE_CHECKING:
    from subprocess import CompletedProcess

PROGRAM = (sys.executable, "-P", "-m", "bowlbook.commands")
"""This package's command line. -P keeps the working folder out of ``sys.path``: it is not ours."""


class SalonBook(NamedTuple):
    """One book of a group: its folder's name, its recipes, and its own configuration or the group's."""

    name: str
    recipes: Path
    config: Path


def books_of(group: Path) -> list[SalonBook]:
    """The books of a group, by name, without links and hidden folders. Raises `click.UsageError` for none."""
    found = []
    for folder in sorted(group.iterdir()):
        recipes, own = folder / "recipes", folder / "mkdocs.yml"
        if folder.name.startswith(".") or folder.is_symlink() or recipes.is_symlink() or not recipes.is_dir():
            continue
        found.append(SalonBook(folder.name, recipes, own if own.is_file() else group / "mkdocs.yml"))
    if not found:
        raise click.UsageError(f"No folder in {group} has a folder recipes in it.")
    return found


def only_the_group(*names: str) -> None:
    """Raise `click.UsageError` if one of these options, which are for one book, was given with ``--all``."""
    context = click.get_current_context()
    for name in names:
        source = context.get_parameter_source(name)
        if source is not None and source.name == "COMMANDLINE":
            raise click.UsageError("--all reads every book of a group; leave out the options for one book.")


def run_each(
    books: list[SalonBook], arguments_of: Callable[[SalonBook], list[str]]
) -> Iterator[tuple[SalonBook, CompletedProcess[str]]]:
    """Run a command on each book, one process for each processor. Yields in the order of the books."""
    import subprocess  # imported here, because a check of one book starts sooner without these
    from concurrent.futures import ThreadPoolExecutor

    from bowlbook.cache.processes import processors

    available = processors()
    at_once = min(available, len(books))
    # Each book's own build starts workers too: together they take no more than there are processors.
    environment = {"BOWLBOOK_PROCESSES": str(available // at_once), "PYTHONIOENCODING": "utf-8"}

    def run(book: SalonBook) -> CompletedProcess[str]:
        return subprocess.run(
            [*PROGRAM, *arguments_of(book)],
            env={**os.environ, **environment},
            stdin=subprocess.DEVNULL,
            capture_output=True,
            encoding="utf-8",
            errors="replace",
            check=False,
        )

    with ThreadPoolExecutor(at_once) as pool:
        yield from zip(books, pool.map(run, books), strict=True)


def build_each(
    group: Path, sites: Path, audience: str | None, *, replace: bool, strict: bool, full: bool
) -> bool:
    """Build every book into ``sites/NAME``. Returns False where a build failed; its old site stays."""
    from bowlbook.site.place import fault_of_place  # imported here: a check needs nothing of the site

    books = books_of(group)

    def arguments_of(book: SalonBook) -> list[str]:
        arguments = ["build", f"--recipes={book.recipes}", f"--config={book.config}"]
        arguments.append(f"--site={sites / book.name}")
        arguments += [f"--beneath={book.name}"] if book.config.parent == group else []
        arguments += [] if audience is None else [f"--audience={audience}"]
        return arguments + _flags(replace=replace, strict=strict, full=full)

    # Before the first build: a bad place for one site should not leave half of the group published.
    recipes = {f"the book of {book.name}": book.recipes for book in books}
    for book in books:
        fault = fault_of_place(sites / book.name, recipes)
        if fault is not None:
            raise click.UsageError(fault)
    try:
        sites.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise click.UsageError(f"The sites cannot be put into {sites}: {error.strerror}.") from error
    codes = {}
    for book, done in run_each(books, arguments_of):
        echo(f"== {book.name}", err=True)
        echo(done.stderr, nl=False, err=True)
        echo(done.stdout, nl=False)
        codes[book.name] = done.returncode
    for name in _left_over(sites, books):
        echo(f"{name} is no book of the group; the site in {sites / name} was left alone.", err=True)
    return _summed_up(codes, err=True)


def _flags(**given: bool) -> list[str]:
    return [f"--{name}" for name, is_given in given.items() if is_given]


def _left_over(sites: Path, books: list[SalonBook]) -> list[str]:
    """Names of sites from an earlier run that belong to no book of the group."""
    from bowlbook.site.manifest import MANIFEST

    there = {manifest.parent.name for manifest in sites.glob(f"*/{MANIFEST}")}
    return sorted(there - {book.name for book in books})


def check_each(group: Path, form: str, *, strict: bool, full: bool) -> bool:
    """Check every book and print its findings in a form of ``check``. Returns False where one has errors."""

    def arguments_of(book: SalonBook) -> list[str]:
        return ["check", f"--recipes={book.recipes}", f"--format={form}", *_flags(strict=strict, full=full)]

    codes = {}
    rows: dict[str, object] = {}  # a book's is None where its process printed no JSON, as after a crash
    printed: set[str] = set()
    for book, done in run_each(books_of(group), arguments_of):
        codes[book.name] = done.returncode
        if form == "json":
            rows[book.name] = None
            with suppress(ValueError):
                rows[book.name] = json.loads(done.stdout)
        elif form == "github":  # a shared file's mistake is found in every book, and annotated once
            lines = [line for line in done.stdout.splitlines() if line not in printed]
            printed.update(lines)
            echo("".join(f"{line}\n" for line in lines), nl=False)
        else:
            echo(f"== {book.name}\n{done.stdout}", nl=False)
        echo(done.stderr, nl=False, err=True)
    if form == "json":
        print_json(rows)
    return _summed_up(codes, err=form != "text")


def _summed_up(codes: dict[str, int], *, err: bool) -> bool:
    """Print how many books passed and which failed, by the exit code of each. Returns whether all passed."""
    failed = {name: code for name, code in codes.items() if code != 0}
    for name, code in failed.items():
        if code < 0 or code > 2:
            echo(f"{name}: the process ended by itself ({code}).", err=True)
    fine = f"{len(codes) - len(failed)} of {len(codes)} books are fine"
    echo(f"{fine}; not fine: {', '.join(failed)}." if failed else f"{fine}.", err=err)
    return not failed
