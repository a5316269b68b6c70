"""``bowlbook help``: the manual at the desk."""

import click

from bowlbook.commands.printer import echo, stop


@click.command()
@click.argument("words", nargs=-1, metavar="[WORD]")
@click.pass_context
def command(ctx: click.Context, words: tuple[str, ...]) -> None:
    """Show what the manual has under a word.

    WORD is a command, a page (such as begin or write), a finding's code, a kind of entry, a field, or a word
    of a heading. Without it, the words are listed.
    """
    from bowlbook.commands import COMMANDS
    from bowlbook.pages.manual.help_text import contents_text, help_text, nearest_text

    word = " ".join(words)  # a heading may have several
    if not word:
        echo(f"bowlbook help WORD\n\nCommands: {', '.join(sorted(COMMANDS))}\n\n{contents_text()}")
        return
    texts = [_of_command(ctx, word) if word in COMMANDS else None, help_text(word)]
    found = [each for each in texts if each is not None]
    if not found:
        stop(f'The manual has nothing under "{word}". {nearest_text(word)}'.rstrip())
    echo("\n\n".join(found))


def _of_command(ctx: click.Context, name: str) -> str:
    """What ``--help`` prints for a command."""
    parent = ctx.parent
    assert parent is not None and isinstance(parent.command, click.Group)
    command = parent.command.get_command(parent, name)
    assert command is not None
    with click.Context(command, parent, info_name=name) as own:
        return command.get_help(own)
