"""``bowlbook build``: the whole site, all or nothing."""

import sys
from pathlib import Path

import click

from bowlbook.book.audience import AUDIENCES
from bowlbook.book.kept import kept_file
from bowlbook.cache.cache import open_cache
from bowlbook.checks.day import today
from bowlbook.checks.judge import judge
from bowlbook.commands.group import build_each, only_the_group
from bowlbook.commands.printer import (
    config_option,
    echo,
    full_option,
    group_option,
    print_findings,
    progress,
    recipes_option,
)
from bowlbook.reading.amount import counted


@click.command()
@recipes_option
@config_option
@click.option(
    "--site",
    type=click.Path(path_type=Path),
    default=Path("site"),
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
@full_option
@group_option
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
    from bowlbook.site.engine import BuildFailed, build_into, sources_of
    from bowlbook.site.place import fault_of_place
    from bowlbook.site.publish import NotPublished, publish

    try:
        sources = sources_of(config_file, recipes)
    except BuildFailed:  # said below, after the findings in the book
        sources = {"the book's folder": recipes, "the configuration": config_file}
    fault = fault_of_place(site, sources)
    if fault is not None:
        raise click.UsageError(fault)
    with progress("Reading") as tell, open_cache(recipes) as cache:
        judgement = judge(recipes, today(), tell, cache)
    if judgement.findings:
        print_findings(judgement.findings, err=True, full=full)
    if judgement.errors(strict=strict):
        echo("Nothing was built.", err=True)
        sys.exit(1)

    def build(folder: Path) -> None:
        with progress("Page") as tell:
            warnings = build_into(
                folder,
                config_file,
                judgement,
                lambda text: echo(text, err=True),
                tell,
                audience,
                recipes,
                beneath,
            )
        if strict and warnings:
            raise BuildFailed(f"{counted(warnings, 'warning')}, and --strict was asked for.")

    echo("Building …", err=True)
    try:
        published = publish(build, site, kept_file(recipes, f"{audience or 'own'}-looks"), replace=replace)
    except (BuildFailed, NotPublished, OSError) as error:
        echo(f"Nothing was published. {error}", err=True)
        sys.exit(1)
    if published.kept is not None:
        echo(f"Files that bowlbook did not make were in the old site; they are kept in {published.kept}.")
    files = counted(published.files, "file")
    echo(f"{site}: {files}. Open {site / 'index.html'} through any web server.")
