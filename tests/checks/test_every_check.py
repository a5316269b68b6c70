"""One check, one room: what every module of generator/bowlbook/checks must have."""

import ast
import pkgutil
from importlib import import_module
from inspect import signature
from pathlib import Path
from types import ModuleType

import pytest

import bowlbook.checks
from bowlbook.checks import code_of
from bowlbook.checks.run import CHECKS, run_checks
from bowlbook.entries.entry import ENTRY_KINDS
from bowlbook.reading.code import READING_CODES
from checks.small_book import DAY, SmallBook

MODULES = [
    import_module(f"bowlbook.checks.{each.name}") for each in pkgutil.iter_modules(bowlbook.checks.__path__)
]
WITH_FIND = [module for module in MODULES if hasattr(module, "find")]


def test_every_module_that_finds_is_run_once_and_in_order() -> None:
    assert list(CHECKS) == sorted(WITH_FIND, key=lambda module: module.__name__)
    assert len(CHECKS) >= 28


def test_codes_are_unique_also_beside_those_of_reading() -> None:
    codes = [code_of(check) for check in CHECKS]
    assert len(set(codes)) == len(codes)
    assert not set(codes) & set(READING_CODES)


def name_of(module: ModuleType) -> str:
    return module.__name__.rpartition(".")[2]


@pytest.mark.parametrize("check", CHECKS, ids=code_of)
def test_the_docstring_says_what_why_on_whose_word_wrong_and_right(check: ModuleType) -> None:
    text = check.__doc__ or ""
    lines = text.split("\n")
    assert lines[0].endswith("."), "the first line says what, in a sentence"
    found = [
        line.partition(":")[0] for line in lines if line.startswith(("Why:", "Source:", "Wrong:", "Right:"))
    ]
    assert found == ["Why", "Source", "Wrong", "Right"]
    for word in found:
        said = next(line for line in lines if line.startswith(f"{word}:")).partition(":")[2]
        assert said.strip(), f"nothing after {word}:"


@pytest.mark.parametrize("check", CHECKS, ids=code_of)
def test_it_writes_no_code_itself(check: ModuleType) -> None:
    """Its findings get the module's own code from `found_by`; one that it wrote would be lost."""
    tree = ast.parse(Path(str(check.__file__)).read_text(encoding="utf-8"))
    called = {node.attr for node in ast.walk(tree) if isinstance(node, ast.Attribute)}
    assert not called & {"finding", "finding_at"}


@pytest.mark.parametrize("check", CHECKS, ids=code_of)
def test_it_is_declared_as_the_run_reads_it(check: ModuleType) -> None:
    """A kind that no entry has, or a setting by another name, would leave the check out without a word."""
    settings = {name for name in vars(check) if name in ("KIND", "KINDS") or name.startswith("RETIRED")}
    assert settings <= {"KINDS", "RETIRED_TOO"}
    arguments = len(signature(check.find).parameters)
    if "KINDS" not in settings:
        assert arguments == 2 and not settings
        return
    assert arguments == 3
    assert isinstance(check.KINDS, tuple) and check.KINDS and set(check.KINDS) <= set(ENTRY_KINDS)


@pytest.mark.parametrize("check", CHECKS, ids=code_of)
def test_it_has_a_twin_here(check: ModuleType) -> None:
    twin = Path(__file__).with_name(f"test_{name_of(check)}.py")
    assert twin.is_file()
    assert f'"""{code_of(check)}: ' in twin.read_text(encoding="utf-8")


def test_the_run_is_sorted_and_says_nothing_twice(book: SmallBook) -> None:
    for path in list(book.texts):
        if "reviewed" in book.texts[path]:
            book.edit(path, "2026-10-02", "2020-10-02")
        if "priced_on" in book.texts[path]:
            book.edit(path, "2026-09-01", "2020-09-01")

    read = book.read()
    findings = run_checks(read, DAY)
    assert len(findings) == 8
    assert findings == sorted(set(findings), key=lambda each: (each.place, each.code, each.message))
