"""``bowlbook build``: the whole site, all or nothing."""

import gc
import sys
from dataclasses import replace as replace_in
from pathlib import Path

import click

from bowlbook.book.audience import AUDIENCES
from bowlbook.book.shelf_folder import read_folder
from bowlbook.cache.cache import open_cache
from bowlbook.cache.place import folders_path
from bowlbook.checks.day import today
from bowlbook.checks.judge import Judgement, findings_in, judge
from bowlbook.commands import printer
from bowlbook.commands.group import build_each, only_the_group
from bowlbook.reading.amount import counted
from bowlbook.site.last_build import LastBuild
from bowlbook.site.record import Inputs, Record


@click.command()
@printer.recipes_option
@printer.config_option
@click.option(
    "--site",
    type=printer.PATH,
    default="site",
    show_default=True,
    metavar="DIR",
    help="Where the site is put.",
)
@click.option(
    "--audience",
    type=click.Choice(AUDIENCES),
    help="Whose copy: team has everything, public no prices, suppliers, staff names or private notes.",
)
@click.option("--replace", is_flag=True, help="Let this copy take the place of the other audience's.")
@click.option("--strict", is_flag=True, help="Let warnings stop the build too.")
@click.option(
    "--beneath",
    default="",
    metavar="NAME",
    help="The folder beneath the configuration's site_url in which the site will be served.",
)
@printer.full_option
@printer.group_option
def command(
    recipes: Path,
    config_file: Path,
    site: Path,
    audience: str | None,
    replace: bool,
    strict: bool,
    beneath: str,
    full: bool,
    group: Path | None,
) -> None:
    """Build the site beside the old one, look it over, and put it in its place.

    With --all every book of a group is built, each into a folder of its name in --site; where one fails, the
    others are published all the same.
    """
    if group is not None:
        only_the_group("recipes", "config_file", "beneath")
        sys.exit(0 if build_each(group, site, audience, replace=replace, strict=strict, full=full) else 1)
    with open_cache(recipes) as cache:
        last = LastBuild(cache, recipes, config_file, site, audience, beneath)
        if last.is_current() and not (strict and last.record.warnings):
            findings = findings_in(recipes, read_folder(recipes), today(), None, cache)
            _print_findings(Judgement(None, findings), strict=strict, full=full)
            for warning in last.record.warnings:
                printer.echo(warning, err=True)
            printer.echo(f"Nothing has changed since the last build. {_where(site, last.record)}")
        else:
            _build(last, replace=replace, strict=strict, full=full)


def _build(last: LastBuild, *, replace: bool, strict: bool, full: bool) -> None:
    """Build what has changed, and publish it. Exits with 1 where nothing was published."""
    from bowlbook.site.engine import BuildFailed, build_into
    from bowlbook.site.incremental import Incremental
    from bowlbook.site.lock import NoLock
    from bowlbook.site.publish import NotPublished, publish

    site, recipes = last.site, last.recipes
    inputs = _inputs_of(last)
    with printer.progress("Reading") as show:
        judgement = judge(recipes, today(), show, last.cache)
    _print_findings(judgement, strict=strict, full=full)
    gc.freeze()  # it is held to the process's end: no collection, nor the last one, need walk through it
    incremental = Incremental(last.record, last.absolute)
    warnings: list[str] = []

    def say(warning: str) -> None:
        warnings.append(warning)
        printer.echo(warning, err=True)

    def build(folder: Path) -> None:
        with printer.progress("Page") as show:
            place = (last.audience, recipes, last.beneath, incremental)
            build_into(folder, last.config_file, judgement, say, show, *place)
        if strict and warnings:
            raise BuildFailed(f"{counted(len(warnings), 'warning')}, and --strict was asked for.")

    printer.echo("Building …", err=True)
    try:
        published = publish(build, site, incremental, replace=replace, folders=folders_path(recipes))
    except NoLock as error:
        reason = f"no lock file can be made beside it: {error.strerror}"
        raise click.UsageError(f"The site cannot be put at {site}: {reason}.") from error
    except (BuildFailed, NotPublished, OSError) as error:
        printer.stop(f"Nothing was published. {error}")
    last.save(replace_in(published.record, warnings=tuple(warnings), inputs=inputs))
    if published.kept is not None:
        printer.echo(
            f"Files that bowlbook did not make were in the old site; they are kept in {published.kept}."
        )
    printer.echo(_where(site, published.record))


def _inputs_of(last: LastBuild) -> Inputs:
    """What a build is made from, noted before any of it is read: a later edit is one for the next build.

    Raises `click.UsageError` for a site inside its own sources: it would be read as a part of them.
    """
    from bowlbook.site.engine import BuildFailed, sources_of
    from bowlbook.site.place import fault_of_place

    try:
        sources, inputs = sources_of(last.config_file, last.recipes)
    except BuildFailed:  # printed by the build, after the findings in the book
        sources, inputs = {"the book's folder": last.recipes, "the configuration": last.config_file}, Inputs()
    fault = fault_of_place(last.site, sources)
    if fault is not None:
        raise click.UsageError(fault)
    return last.with_digest(inputs)


def _print_findings(judgement: Judgement, *, strict: bool, full: bool) -> None:
    """Print the findings in the book; ends the command where one of them stops a build."""
    if judgement.findings:
        printer.print_findings(judgement.findings, err=True, full=full)
    if judgement.errors(strict=strict):
        printer.stop("Nothing was built.")


def _where(site: Path, record: Record) -> str:
    files = counted(len(record.files), "file")
    return f"{site}: {files}. To look at the book: bowlbook serve --open, or {site} through any web server."
