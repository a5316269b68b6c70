"""What of the files written by hand the phone keeps: small ones, so many, and none that was left out."""

import os
from pathlib import Path

import pytest
from mkdocs.config.base import ValidationError
from packs import packed_files
from small_site import build, house_config, small_site

from bowlbook.site.manifest import files_under
from bowlbook.site.offline import write_copy
from bowlbook.site.offline_limit import OfflineConfig, Size, as_text, left_out, unused
from bowlbook.site.verify import look_over
from checks.small_book import SmallBook

MB = 10**6
"""Bytes: the prefix mega of ISO/IEC 80000-13, not the 2^20 of a mebibyte."""


def limits(**options: object) -> OfflineConfig:
    config = OfflineConfig()  # type: ignore[no-untyped-call]
    config.load_dict(options)
    failed, warnings = config.validate()
    assert (failed, warnings) == ([], [])
    return config


@pytest.mark.parametrize(
    ("text", "size"),
    [
        ("5 MB", 5 * MB),
        ("5MB", 5 * MB),
        ("0.5 MB", MB // 2),
        ("20 kB", 20_000),
        ("1 GB", 1000 * MB),
        ("0 MB", 0),
    ],
)
def test_a_size(text: str, size: int) -> None:
    assert Size("1 MB").run_validation(text) == size


@pytest.mark.parametrize("text", ["5", 5, "5 mb", "5 MiB", "-5 MB", "five MB", "5 MB so", "", None, "1e3 MB"])
def test_no_size(text: object) -> None:
    with pytest.raises(ValidationError, match="is not a size; write it as 5 MB"):
        Size("1 MB").run_validation(text)


@pytest.mark.parametrize(("key", "says"), [("largst", 'Did you mean "largest"'), ("x", "Use one of")])
def test_an_unknown_key(key: str, says: str) -> None:
    config = OfflineConfig()  # type: ignore[no-untyped-call]
    config.load_dict({key: "5 MB"})
    failed, _ = config.validate()
    assert [(name, says in str(error)) for name, error in failed] == [(key, True)]


def test_a_large_file_stays_out() -> None:
    """5 MB is let in, one byte more is not."""
    out = left_out({"a.png": 5 * MB, "b.png": 5 * MB + 1, "c.png": 200 * MB}, limits())
    assert list(out) == ["b.png", "c.png"]
    assert out["b.png"] == "it has 5.1 MB, and a file may have 5 MB"


def test_too_much_together() -> None:
    """The largest go, until the rest is within the limit."""
    sizes = {f"{number:02}.png": 4 * MB + number for number in range(20)}
    out = left_out(sizes, limits())
    assert sorted(out) == [f"{number:02}.png" for number in range(12, 20)]
    assert sum(size for name, size in sizes.items() if name not in out) <= 50 * MB


def test_what_was_asked_for() -> None:
    sizes = {"videos/a.svg": 1, "videos/deep/b.svg": 1, "pictures/c.svg": 1}
    assert left_out(sizes, limits(leave_out=["videos/*"])) == {"videos/a.svg": "", "videos/deep/b.svg": ""}
    assert unused(["videos/*", "video/*"], sizes) == ["video/*"]


@pytest.mark.parametrize(
    ("size", "text"),
    [(0, "0 kB"), (1, "0.1 kB"), (99_999, "100 kB"), (100_000, "0.1 MB"), (5_000_001, "5.1 MB")],
)
def test_a_size_as_text(size: int, text: str) -> None:
    assert as_text(size) == text


def test_a_build(book: SmallBook) -> None:
    """All files are in the site; one that stays out unasked is a warning, so is a pattern that fits none."""
    config, docs = house_config(book), book.root.parent / "docs"
    (docs / "art").mkdir()
    for name, size in {"small.png": 10, "large.png": 30_001, "asked.png": 10}.items():
        (docs / "art" / name).write_bytes(os.urandom(size))
    text = config.read_text(encoding="utf-8")
    options = "offline: {largest: 30 kB, leave_out: [art/a*, film/*]}"
    config.write_text(text.replace("{recipes: ", f"{{{options}, recipes: "), encoding="utf-8")
    site = book.root.parent / "site"
    result = build(book, config)
    assert result.exit_code == 0, result.output
    assert "art/large.png is not in the copy on the phone: it has 30.1 kB, and a file may have 30 kB." in (
        result.stderr
    )
    assert '"film/*" fits no file' in result.stderr and "asked.png" not in result.stderr
    kept = packed_files(site).keys()
    assert {"art/small.png", "index.html", "safety/index.html"} <= kept
    assert kept.isdisjoint({"art/large.png", "art/asked.png"})
    assert (site / "art" / "large.png").is_file() and (site / "art" / "asked.png").is_file()
    strict = build(book, config, "--strict")
    assert strict.exit_code == 1 and "--strict was asked for" in strict.stderr


def test_a_text_that_is_not_utf_8(tmp_path: Path) -> None:
    """Of another plugin, say: it is kept by its bytes, and its page is looked over all the same."""
    small_site(more={"other.css": "x"})(tmp_path)
    (tmp_path / "other.css").write_bytes(b"caf\xe9")
    (tmp_path / "soft" / "index.html").write_bytes(b"<article>caf\xe9</article><i id=top>")
    assert look_over(tmp_path, files_under(tmp_path)).faults == []
    write_copy(tmp_path, files_under(tmp_path), "// worker")
    kept = packed_files(tmp_path)
    assert kept["other.css"] == ("text/css; charset=utf-8", b"caf\xe9")
    assert kept["style.css"] == ("text/css; charset=utf-8", b"body {}")
