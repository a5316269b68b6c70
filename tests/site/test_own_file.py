"""Documents of a first build are written beside MkDocs, each once, and no process is left behind."""

from pathlib import Path
from types import SimpleNamespace
from typing import Any, cast

import pytest
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import InclusionLevel

from bowlbook.cache import processes
from bowlbook.site.own_file import DocumentFile, begin_writing, document_file

COUNT = processes.FEWEST + 5


def documents(folder: Path) -> list[DocumentFile]:
    """Documents whose bytes are their numbers, in a site at ``folder``; the last one is left out of it."""
    plugins = SimpleNamespace(_current_plugin="bowlbook")
    given = SimpleNamespace(site_dir=str(folder), use_directory_urls=True, plugins=plugins)
    config = cast(MkDocsConfig, given)
    contents: list[Any] = [SimpleNamespace(content=b"%d" % number) for number in range(COUNT)]
    files = [document_file(f"data/{place}/a.json", each, config) for place, each in enumerate(contents)]
    files[-1].inclusion = InclusionLevel.EXCLUDED
    return files


@pytest.mark.parametrize("processors", ["1", "3"])
def test_each_is_written_once(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, processors: str) -> None:
    monkeypatch.setenv("BOWLBOOK_PROCESSES", processors)
    files = documents(tmp_path)
    writing = begin_writing(files)
    monkeypatch.setattr(DocumentFile, "write", lambda self: pytest.fail("MkDocs writes it again"))
    for file in files[:-1]:
        file.copy_file()
    assert sum(1 for _ in writing) == COUNT - 2  # all that are in the site but the first one
    found = {path.parent.name: path.read_bytes() for path in tmp_path.rglob("*.json")}
    assert found == {str(number): b"%d" % number for number in range(COUNT - 1)}


def test_closed_it_leaves_no_process(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(processes, "processes_at_hand", lambda: 3)  # another test may have left a thread
    ended: list[int] = []
    wait = processes.os.waitpid
    monkeypatch.setattr(processes.os, "waitpid", lambda *given: ended.append(1) or wait(*given))
    begin_writing(documents(tmp_path)).close()
    assert len(ended) == 2
