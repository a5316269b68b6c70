"""Options of our own in mkdocs.yml: a slip stops the build, names the option, and says what was meant."""

from pathlib import Path

import pytest
from mkdocs.utils.yaml import yaml_load
from small_site import config_for
from test_plain_mkdocs import plain_build

from bowlbook.book.audience import AUDIENCES
from bowlbook.checks.day import today
from bowlbook.checks.judge import judge
from bowlbook.site.engine import BuildFailed, build_into
from bowlbook.site.plugin import BowlbookConfig
from checks.small_book import SmallBook
from commands.run import run

WRONG = {
    "auidence: public": ["option 'auidence'", 'Did you mean "audience"?'],
    "Audience: public": ["option 'Audience'", 'Did you mean "audience"?'],
    "audience :": ["option 'audience': It is empty. Write team or public, or delete the line."],
    "audience: ~": ["It is empty. Write team or public"],
    'audience: ""': ['"" is not known. Write team or public.'],
    "audience: Public": ['"Public" is not known. Write team or public. Did you mean "public"?'],
    "audience: pubic": ['"pubic" is not known. Write team or public. Did you mean "public"?'],
    "audience: staff": ['"staff" is not known. Write team or public.'],
    "audience: [public]": ["is not known. Write team or public."],
    "audience: yes": ["is not known. Write team or public."],
    "recipes:": ["option 'recipes': It is empty. Write a value, or delete the line."],
    "release:": ["option 'release': It is empty."],
    "splice:": ["option 'splice': It is empty."],
    "1: 2": ["option '1': There is no such option."],
    "zzz: public": ["option 'zzz': There is no such option. Use one of:", "audience"],
}


def faults(line: str) -> str:
    """What is said of the options with this line among them."""
    config = BowlbookConfig()
    config.load_dict(yaml_load(line))
    return "\n".join(f"option '{key}': {fault}" for key, fault in config.validate()[0])


@pytest.mark.parametrize("line", WRONG)
def test_a_slip_is_named(line: str) -> None:
    found = faults(line)
    for words in WRONG[line]:
        assert words in found


@pytest.mark.parametrize("line", ["{}", *(f"audience: {each}" for each in AUDIENCES), "release: none"])
def test_what_is_right_passes(line: str) -> None:
    assert faults(line) == ""


def test_all_at_once() -> None:
    assert faults("{recepies: a, audience: staff}").count("option '") == 2


def built(book: SmallBook, folder: Path, text: str) -> str:
    """What a build with this configuration says where it fails; what was built where it does not."""
    config = config_for(book)
    config.write_text(config.read_text(encoding="utf-8") + text, encoding="utf-8")
    said: list[str] = []
    try:
        build_into(folder, config, judge(book.root, today()), said.append)
    except BuildFailed as error:
        assert not folder.exists() or not any(folder.iterdir())
        return "\n".join([*said, str(error)])
    return "built"


@pytest.mark.parametrize("line", ["audience: public", "Audience: public", "auidence: public"])
def test_an_option_at_the_top_of_the_file(book: SmallBook, tmp_path: Path, line: str) -> None:
    said = built(book, tmp_path / "site", f"{line}\n")
    assert "is no option of MkDocs. Write audience under plugins, bowlbook." in said


def test_the_plugin_twice(book: SmallBook, tmp_path: Path) -> None:
    twice = f"plugins: [bowlbook: {{recipes: {book.root}}}, bowlbook: {{audience: public}}]\n"
    said = built(book, tmp_path / "site", twice)
    assert "mkdocs.yml names the plugin bowlbook twice. Delete one of the two." in said


def test_the_commands_say_it_too(book: SmallBook) -> None:
    """``bowlbook build`` and plain ``mkdocs build``; nothing is written."""
    config = config_for(book)
    text = config.read_text(encoding="utf-8").replace("{recipes:", "{auidence: public, recipes:")
    config.write_text(text, encoding="utf-8")
    site = config.parent / "site"
    ours = run("build", f"--config={config}", f"--site={site}", recipes=book.root)
    code, said = plain_build(config, site)
    assert (ours.exit_code, code) == (1, 1)
    for each in (ours.stderr, said):
        assert 'Did you mean "audience"?' in each and "Traceback" not in each
    assert not site.exists()
