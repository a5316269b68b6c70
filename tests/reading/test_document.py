"""YAML read by events: everything stays text, and has its place; what is refused stands in ``words.yml``."""

from pathlib import Path

import pytest
import ruamel.yaml
import yaml
from hypothesis import given
from hypothesis import strategies as st

from bowlbook.reading.document import read_source, read_text
from bowlbook.reading.finding import Finding
from bowlbook.reading.place import Place
from bowlbook.reading.source import Loc, Source

NONE: frozenset[str] = frozenset()


def found_in(text: str) -> list[tuple[str, int, int]]:
    _, findings = read_text(text, "entry.yml", NONE)
    return [(each.code, each.place.line, each.place.column) for each in findings]


@pytest.mark.parametrize(
    ("scalar", "by_the_old_rules"),
    [("1:2", 62), ("1:1.5", 61.5), ("1:1", 61), ("no", False), ("010", 8), ("1_000", 1000), ("1.10", 1.1)],
)
def test_scalars_stay_text(scalar: str, by_the_old_rules: object) -> None:
    """Source: YAML 1.1 types as PyYAML resolves them; YAML 1.2.2, ext/changes, dropped base 60, octal 0 and
    yes/no. Here nothing is resolved at all."""
    assert yaml.safe_load(f"a: {scalar}")["a"] == by_the_old_rules
    source, findings = read_text(f"a: {scalar}", "entry.yml", NONE)
    assert findings == [] and source.data == {"a": scalar}


@pytest.mark.parametrize("scalar", ["1:2", "1:1.5", "no", "6-10", "20 volume", "0.75 oz"])
def test_against_the_reference_reader(scalar: str) -> None:
    """Source: ruamel.yaml by YAML 1.2 reads these as text too."""
    reader = ruamel.yaml.YAML(typ="safe", pure=True)
    reader.version = (1, 2)
    assert read_text(f"a: {scalar}", "entry.yml", NONE)[0].data == reader.load(f"a: {scalar}")


def test_places() -> None:
    text = "name: Soft\nlighteners:\n  - {product: clay, parts: 2}\n  - product: oil\n    parts: 1\n"
    source, findings = read_text(text, "entry.yml", NONE)
    assert findings == []
    assert source.data == {
        "name": "Soft",
        "lighteners": [{"product": "clay", "parts": "2"}, {"product": "oil", "parts": "1"}],
    }
    assert place_in(source, "lighteners", 0, "parts") == (3, 28)
    assert place_in(source, "lighteners", 0, "parts", key=True) == (3, 21)
    assert place_in(source, "lighteners", 1, "product") == (4, 14)
    assert place_in(source, "lighteners", 1, "parts", key=True) == (5, 5)


def place_in(source: Source, *way: str | int, key: bool = False) -> tuple[int, int]:
    place = source.place_of(way, key=key)
    assert place.path == source.path
    return place.line, place.column


def nodes_by_way(text: str) -> dict[Loc, tuple[yaml.Node | None, yaml.Node]]:
    """PyYAML's nodes: of the key, where there is one, and the value on each way."""
    found: dict[Loc, tuple[yaml.Node | None, yaml.Node]] = {}

    def walk(key: yaml.Node | None, node: yaml.Node, way: Loc) -> None:
        found[way] = key, node
        if isinstance(node, yaml.MappingNode):
            for name, value in node.value:
                walk(name, value, (*way, name.value))
        elif isinstance(node, yaml.SequenceNode):
            for index, value in enumerate(node.value):
                walk(None, value, (*way, index))

    walk(None, yaml.compose(text, yaml.BaseLoader), ())
    return found


def test_every_place_is_that_of_the_composed_node(recipes: Path) -> None:
    """Against PyYAML's composer in Python. What is missing has the place of the nearest parent."""
    seen = 0
    for path in recipes.rglob("*.yml"):
        text = path.read_text(encoding="utf-8")
        source, nodes = read_text(text, path.name, NONE)[0], nodes_by_way(text)
        beyond = [(key, len(each)) for key, each in (source.data or {}).items() if isinstance(each, list)]
        for way in [*nodes, *beyond, ("no-such-key",), ("name", "deeper"), ("name", 0), ("steps", "x")]:
            known = next(each for end in range(len(way), -1, -1) if (each := way[:end]) in nodes)
            mark = nodes[known][1].start_mark
            assert place_in(source, *way) == (mark.line + 1, mark.column + 1), (path, way)
            name = nodes[way][0] if way in nodes else None
            mark = mark if name is None else name.start_mark
            assert place_in(source, *way, key=True) == (mark.line + 1, mark.column + 1), (path, way)
            seen += 1
    assert seen > 1500
    assert Source("x.yml", "").place_of(("name",)) == Place("x.yml", 1, 1)


def test_a_text_that_breaks_off_in_a_second_key_keeps_the_place_of_its_top() -> None:
    source, _ = read_text("# a remark\na: 1\na: {b: [1,\n", "entry.yml", NONE)
    assert source.data is None
    assert place_in(source) == place_in(source, "a", key=True) == (2, 1)


def test_a_second_key_leaves_the_places_of_the_first() -> None:
    source, _ = read_text("a: {b: 1}\na: {b: 2, c: 3}\nd: 4\n", "entry.yml", NONE)
    assert source.data == {"a": {"b": "1"}, "d": "4"}
    assert place_in(source, "a", "b") == (1, 8)
    assert place_in(source, "a", "c") == (1, 4)
    assert place_in(source, "d", key=True) == (3, 1)


def test_thousands_of_aliases_are_one_finding() -> None:
    text = "a: &a [x]\n" + "".join(f"b{n}: *a\n" for n in range(3000))
    assert [code for code, _, _ in found_in(text)] == ["yaml-feature"]


def file_findings(path: Path) -> list[Finding]:
    return read_source(path, path.name, NONE)[1]


def test_files_that_are_not_text(tmp_path: Path) -> None:
    latin = tmp_path / "latin.yml"
    latin.write_bytes(b"name: x\nnotes: caf\xe9\n")
    assert [(f.code, f.place.line, f.place.column) for f in file_findings(latin)] == [("not-utf-8", 2, 11)]
    marked_latin = tmp_path / "marked-latin.yml"
    marked_latin.write_bytes(b"\xef\xbb\xbfname: x\r\n\xe9\n")
    assert [(f.place.line, f.place.column) for f in file_findings(marked_latin)] == [(2, 1)]
    marked = tmp_path / "marked.yml"
    marked.write_bytes(b"\xef\xbb\xbfname: x\r\nother: y\r\n")
    source, findings = read_source(marked, "marked.yml", NONE)
    assert [(f.code, f.severity) for f in findings] == [("byte-order-mark", "warning")]
    assert source.data == {"name": "x", "other": "y"}


@given(st.text(max_size=200))
def test_any_text_is_read_or_found_fault_with(text: str) -> None:
    source, findings = read_text(text, "entry.yml", NONE)
    assert (source.data is None) <= bool(findings)
    for finding in findings:
        assert finding.place.line >= 1 and finding.place.column >= 1
