"""``bowlbook serve``: the site while you write."""

from pathlib import Path

import click

from bowlbook.commands.printer import PATH, config_option, stopped_by, wrong_use


@click.command()
@config_option
@click.option("--address", metavar="HOST:PORT", help="Where to serve it; else what mkdocs.yml says.")
@click.option("--open", "open_in_browser", is_flag=True, help="Open it in the browser.")
@click.option("--recipes", type=PATH, metavar="DIR", help="Another book than mkdocs.yml names.")
def command(config_file: Path, address: str | None, open_in_browser: bool, recipes: Path | None) -> None:
    """Show the site while you write, and reload it when a recipe changes.

    While something is wrong, the last good pages stay, with what to correct over them. It answers only at
    localhost, 127.0.0.1 and [::1], and at the address given. Exit 2 where that cannot be had.
    """
    # MkDocs is slow to import: --help should not wait for it.
    from bowlbook.site.engine import BuildFailed
    from bowlbook.site.preview import NoServer
    from bowlbook.site.serving import serve

    with stopped_by(BuildFailed), wrong_use(NoServer):
        serve(config_file, address, open_in_browser, recipes)
