"""What the commands say of a retired recipe, and of an id that an entry had before."""

import json
from pathlib import Path

import pytest

from checks.small_book import BLEND, BLEND_FILE, CLASS_FILE, TECHNIQUE_FILE, SmallBook
from commands.run import refused, run


@pytest.fixture
def book(tmp_path: Path) -> SmallBook:
    book = SmallBook(tmp_path / "recipes")
    book.write("blends/other.yml", BLEND.replace("Soft clay", "Other clay"))
    return book


SAYS = 'Soft clay three to one was retired on 2026-10-02: do not use it. It was dull. Take "other" instead.\n'


@pytest.mark.parametrize("command", [("mix", "soft-clay"), ("plan", "painting")])
def test_a_retired_recipe_is_said_beside_the_json(book: SmallBook, command: tuple[str, str]) -> None:
    book.add(BLEND_FILE, "retired: {on: 2026-10-02, because: It was dull., instead: other}\n")
    done = run(*command, "--json", recipes=book.root)
    assert done.stderr == SAYS
    assert json.loads(done.stdout)


@pytest.mark.parametrize(
    "path, command", [(BLEND_FILE, "mix"), (TECHNIQUE_FILE, "plan"), (CLASS_FILE, "kit")]
)
def test_a_former_id(book: SmallBook, path: str, command: str) -> None:
    book.add(path, "formerly: [older]\n")
    assert f'Its id is "{Path(path).stem}" now.' in refused(command, "older", recipes=book.root)
