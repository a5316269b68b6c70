"""The command line: one module for each command, imported only when that command runs."""

import codecs
import errno
import gc
import io
import sys
from contextlib import suppress
from importlib import import_module

import click

COMMANDS = {
    "build": "Build the site beside the old one, check it, and put it in its place.",
    "check": "Read the whole book and report every mistake in it.",
    "diff": "Say what changed at the bench since a git revision.",
    "export": "Write the whole book as plain tables or JSON, for other programs.",
    "format": "Write every entry in one order and style, with its comments.",
    "help": "Show what the manual has under a word.",
    "import": "Read recipes or products from a spreadsheet into entries.",
    "kit": "Work out what a class takes for so many learners.",
    "match": "Say what suits a head of hair, and what does not, with reasons.",
    "mix": "Work out one bowl of a blend.",
    "new": "Write a commented entry to start from, or begin a book.",
    "order": "Work out what to order from each supplier, for classes and heads.",
    "plan": "Work out what a service takes for a head of hair.",
    "prices": "Say what a price list does to every bowl and service, and take it over.",
    "schema": "Write the JSON Schema files that explain fields in an editor.",
    "serve": "Show the site while you write, and reload it when a recipe changes.",
}

MODULES = {"import": "import_table"}
"""The module of a command whose name is a word of Python."""


class _Commands(click.Group):
    """Finds commands by name, so that ``--help`` imports none of them."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return sorted(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        if cmd_name not in COMMANDS:
            return None
        module = MODULES.get(cmd_name, cmd_name)
        command: click.Command = import_module(f"bowlbook.commands.{module}").command
        return command

    def invoke(self, ctx: click.Context) -> object:
        """Run the command. An error message may repeat an argument: control characters become codes."""
        try:
            return super().invoke(ctx)
        except click.ClickException as error:
            from bowlbook.commands.printer import visible

            vars(error)["message"] = visible(error.message)
            raise

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        with formatter.section("Commands"):
            formatter.write_dl(sorted(COMMANDS.items()))


@click.group(cls=_Commands, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(package_name="bowlbook")
def main() -> None:
    """A house recipe book for hair lightening.

    Exit 0: fine. 1: findings. 2: wrong use.
    """


NO_ROOM = (errno.ENOSPC, errno.EDQUOT)
"""The error numbers of a full disk, and of a full quota."""


YOUNG = 300_000
"""New objects after which Python looks for garbage (its own: 700). A book is loaded and stays, so that the
collections on the way found nothing: a fifth of a check after an edit of 1,000 recipes, 76,000 objects; at
100,000 still a 25th of a check with nothing kept."""


def escaped(text: str) -> str:
    """Every character as the ``\\u`` codes of JSON (RFC 8259, 7): its UTF-16 code units."""
    units = text.encode("utf-16-be", "surrogatepass").hex()
    return "".join(f"\\u{units[at : at + 4]}" for at in range(0, len(units), 4))


def _of_error(error: UnicodeError) -> tuple[str, int]:
    """What an output cannot encode, `escaped`, for --json too; and where the rest begins."""
    assert isinstance(error, UnicodeEncodeError)
    return escaped(error.object[error.start : error.end]), error.end


def run() -> None:
    """`main` for a process of its own. Exit 1 also where the disk is full.

    Characters that the output cannot encode, such as an arrow in code page 1252, are escaped.
    """
    codecs.register_error("bowlbook", _of_error)
    # A test may have replaced the streams with something that cannot be reconfigured.
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="bowlbook")
    gc.set_threshold(YOUNG)
    try:
        main()
    except OSError as error:
        if error.errno not in NO_ROOM:
            raise
        with suppress(OSError):  # standard error may go to the same full disk
            click.echo(f"Not all could be written: {error.strerror}.", err=True)
        sys.exit(1)
    finally:
        gc.freeze()  # Python's end need not walk through what is left
