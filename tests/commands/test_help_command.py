"""``bowlbook help``: the manual at the desk has something under every word that the program uses."""

import re
from functools import cache

import click
import pytest

from bowlbook.checks import code_of
from bowlbook.checks.run import CHECKS
from bowlbook.commands import COMMANDS, main
from bowlbook.entries.product import PRODUCT_KINDS
from bowlbook.entries.validate import ENTRY_CLASSES, classes_of, walk_fields
from bowlbook.pages.manual import TITLES, manual_files
from bowlbook.pages.manual.help_text import help_text
from bowlbook.reading.code import READING_CODES
from commands.run import invoke


def test_every_code_has_its_text_and_example() -> None:
    for code in (*READING_CODES, *map(code_of, CHECKS)):
        text = help_text(code)
        assert text is not None and text.startswith(f"# {code}\n") and "check says:" in text, code


def test_every_field_and_kind_is_found() -> None:
    for kind in (*ENTRY_CLASSES, *PRODUCT_KINDS):
        assert help_text(kind), kind
    said = cache(help_text)
    for kind in ENTRY_CLASSES:
        for cls in classes_of(kind):
            for way, spec in walk_fields(cls):
                for word in (way[-1], ".".join(way)):
                    found = said(word)
                    assert found is not None and spec.metadata["description"] in found, word


def test_every_page_is_found_by_name_and_by_its_headings() -> None:
    assert set(manual_files()) == {f"reference/{name}.md" for name in TITLES}
    for name, path in zip(TITLES, manual_files().values(), strict=True):
        text = path.read_text(encoding="utf-8")
        assert text.strip() in (help_text(name) or "")
        title = text.partition("\n")[0].removeprefix("# ")
        assert f"# {title}" in (help_text(title) or "")


def test_a_heading_in_an_example_is_none() -> None:
    assert help_text("recipes/blends/soft-clay.yml") is None


def test_every_command_shows_its_options() -> None:
    for name in COMMANDS:
        result = invoke(["help", name])
        assert result.exit_code == 0 and f"Usage: main {name}" in result.stdout, result.output


def _command(name: str) -> click.Command:
    found = main.get_command(click.Context(main), name)
    assert found is not None
    return found


def test_the_manual_has_every_command_and_option() -> None:
    """An option that only ``--help`` names is found by nobody who reads."""
    manual = "".join(path.read_text(encoding="utf-8") for path in manual_files().values())
    for name in COMMANDS:
        assert f"`bowlbook {name}" in manual, name
        for option in _command(name).params:
            if isinstance(option, click.Option):
                assert any(re.search(rf"{each}\b", manual) for each in option.opts), (name, option.opts)


def test_several_words_are_one() -> None:
    result = invoke(["help", "any", "bowl"])
    assert result.exit_code == 0 and result.stdout.startswith("## Any bowl\n")


def test_without_a_word_the_words_are_listed() -> None:
    result = invoke(["help"])
    assert all(name in result.stdout for name in (*COMMANDS, *TITLES, *PRODUCT_KINDS))


@pytest.mark.parametrize(
    "word, said", [("mixng_ratio", 'Did you mean "mixing_ratio"?'), ("\x1bxyzzy", "nothing")]
)
def test_a_word_that_is_not_there_names_the_nearest(word: str, said: str) -> None:
    result = invoke(["help", word])
    assert result.exit_code == 1 and said in result.stderr and "\x1b" not in result.stderr
