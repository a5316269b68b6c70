"""No file of a book reaches a site as it is, and no link in the pages by hand leads out of their folder."""

import shutil
import sys
from collections.abc import Callable
from contextlib import chdir
from pathlib import Path

import pytest
from mkdocs.commands.build import build
from mkdocs.config import load_config
from mkdocs.exceptions import Abort, PluginError
from mkdocs.livereload import LiveReloadServer
from small_site import bytes_of

from bowlbook.site.published_folders import is_under
from checks.small_book import HOUSE_FILE, SmallBook
from commands.run import run

CONFIG = """\
site_name: x
docs_dir: {docs}
theme: {{name: material, font: false{theme}}}
plugins: [{{bowlbook: {{recipes: {recipes}, audience: public}}}}]
{more}"""


class House:
    """A book with pages by hand beside it, and what a command says that is run there."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.book = SmallBook(folder / "recipes")
        (folder / "docs").mkdir()
        (folder / "docs" / "hand.md").write_text("# By hand\n\nA text.\n", encoding="utf-8")
        self.configure()

    def configure(
        self, docs: str = "docs", recipes: str = "recipes", theme: str = "", more: str = ""
    ) -> None:
        text = CONFIG.format(docs=docs, recipes=recipes, theme=theme, more=more)
        (self.folder / "mkdocs.yml").write_text(text, encoding="utf-8")

    def move(self, to: str) -> None:
        (self.folder / to).parent.mkdir(parents=True, exist_ok=True)
        shutil.move(self.folder / "recipes", self.folder / to)

    def link(self, at: str, to: str) -> None:
        (self.folder / at).parent.mkdir(parents=True, exist_ok=True)
        try:
            (self.folder / at).symlink_to(to)
        except OSError:
            if sys.platform != "win32":
                raise
            pytest.skip("this user may make no links")

    def refusal(self) -> str:
        """Why MkDocs' configuration is refused, in this process."""
        with chdir(self.folder), pytest.raises(PluginError) as refused:
            config = load_config("mkdocs.yml")
            config.plugins.on_config(config)
        return str(refused.value)

    def says(self, *words: str) -> str:
        """What one of our commands says as it refuses."""
        with chdir(self.folder):
            done = run(*words)
        assert done.exit_code == 1, done.output
        return done.stderr


@pytest.fixture
def house(tmp_path: Path) -> House:
    (tmp_path / "outside").mkdir()
    (tmp_path / "outside" / "secret.txt").write_text("secret", encoding="utf-8")
    return House(tmp_path / "house")


def in_docs(house: House) -> str:
    house.move("docs/recipes")
    house.configure(recipes="docs/recipes")
    return "docs/recipes belongs to a book and is in docs (docs_dir)"


def linked_into_docs(house: House) -> str:
    house.move("docs/deep/book")
    house.link("recipes", "docs/deep/book")
    return "recipes belongs to a book and is in docs (docs_dir)"


def docs_in_the_book(house: House) -> str:
    shutil.move(house.folder / "docs", house.folder / "recipes" / "docs")
    house.configure(docs="recipes/docs")
    return "recipes/docs (docs_dir) is in the book recipes."


def docs_is_a_link_to_the_book(house: House) -> str:
    shutil.rmtree(house.folder / "docs")
    house.link("docs", "recipes")
    return "recipes belongs to a book and is in docs (docs_dir)"


def docs_is_a_link_out(house: House) -> str:
    shutil.rmtree(house.folder / "docs")
    house.link("docs", "../outside")
    return "docs is a link that leads out of"


def docs_beneath_a_link_out(house: House) -> str:
    shutil.move(house.folder / "docs", house.folder.parent / "outside" / "docs")
    house.link("pages", "../outside")
    house.configure(docs="pages/docs")
    return "pages/docs is a link that leads out of"


def link_into_the_book(house: House) -> str:
    house.link("docs/more", "../recipes")
    return "docs/more is a link that leads out of docs (docs_dir)"


def link_to_a_file_of_the_book(house: House) -> str:
    house.link("docs/data/house.txt", "../../recipes/house.yml")
    return "docs/data/house.txt is a link that leads out of docs (docs_dir)"


def link_to_a_file_outside(house: House) -> str:
    house.link("docs/a.txt", "../../outside/secret.txt")
    return "docs/a.txt is a link that leads out of docs (docs_dir)"


def link_to_a_folder_outside(house: House) -> str:
    house.link("docs/deep/er/away", str(house.folder.parent / "outside"))
    return "docs/deep/er/away is a link that leads out of docs (docs_dir)"


def link_over_a_link(house: House) -> str:
    house.link("step", "../outside")
    house.link("docs/way", "../step")
    return "docs/way is a link that leads out of docs (docs_dir)"


def link_to_nowhere(house: House) -> str:
    house.link("docs/gone.md", "never.md")
    return "docs/gone.md is a link that leads nowhere."


def shelf_in_docs(house: House) -> str:
    (house.folder / "docs" / "shelf").mkdir()
    house.book.add(HOUSE_FILE, "products_from: ../docs/shelf\n")
    return "docs/shelf belongs to a book and is in docs (docs_dir)"


def another_book_in_docs(house: House) -> str:
    SmallBook(house.folder / "docs" / "south" / "recipes")
    return "docs/south/recipes belongs to a book and is in docs (docs_dir)"


def custom_dir_with_the_book(house: House) -> str:
    house.configure(theme=", custom_dir: .")
    return "recipes belongs to a book and is in . (custom_dir)"


def custom_dir_in_the_book(house: House) -> str:
    (house.folder / "recipes" / "own").mkdir()
    house.configure(theme=", custom_dir: recipes/own")
    return "recipes/own (custom_dir) is in the book recipes."


def link_in_custom_dir(house: House) -> str:
    house.link("own/assets/h.txt", "../../recipes/house.yml")
    house.configure(theme=", custom_dir: own")
    return "own/assets/h.txt is a link that leads out of own (custom_dir)"


def file_of_another_plugin(house: House) -> str:
    """A hook, as an example of any plugin that adds files."""
    text = (
        "from mkdocs.structure.files import File\n"
        "def on_files(files, config):\n"
        "    files.append(File('house.yml', 'recipes', config.site_dir, True))\n"
    )
    (house.folder / "hook.py").write_text(text, encoding="utf-8")
    house.configure(more="hooks: [hook.py]\n")
    return "recipes/house.yml would be published as it is, and is a book's."


Spoil = Callable[[House], str]
EVERYWHERE: tuple[Spoil, ...] = (in_docs, link_to_a_file_outside)
SPOILT: tuple[Spoil, ...] = (
    *EVERYWHERE,
    linked_into_docs,
    docs_in_the_book,
    docs_is_a_link_to_the_book,
    docs_is_a_link_out,
    docs_beneath_a_link_out,
    link_into_the_book,
    link_to_a_file_of_the_book,
    link_to_a_folder_outside,
    link_over_a_link,
    link_to_nowhere,
    shelf_in_docs,
    another_book_in_docs,
    custom_dir_with_the_book,
    custom_dir_in_the_book,
    link_in_custom_dir,
)


@pytest.mark.parametrize("spoil", SPOILT, ids=lambda spoil: spoil.__name__)
def test_it_is_refused_with_its_path(house: House, spoil: Spoil) -> None:
    expected = spoil(house)
    assert expected in house.refusal()


@pytest.mark.parametrize("spoil", [*EVERYWHERE, file_of_another_plugin], ids=lambda spoil: spoil.__name__)
def test_plain_mkdocs_writes_nothing(house: House, spoil: Spoil, caplog: pytest.LogCaptureFixture) -> None:
    expected = spoil(house)
    with chdir(house.folder), pytest.raises(Abort):
        build(load_config("mkdocs.yml"))
    assert expected in caplog.text
    site = house.folder / "site"
    assert not site.exists() or not any(site.iterdir())


@pytest.mark.parametrize(
    ("spoil", "audience"), [(in_docs, "team"), (link_to_a_file_outside, "public")], ids=("team", "public")
)
def test_our_own_commands_write_nothing(
    house: House, spoil: Spoil, audience: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(LiveReloadServer, "serve", lambda *words, **options: pytest.fail("It serves."))
    expected = spoil(house)
    recipes = "docs/recipes" if spoil is in_docs else "recipes"
    assert expected in house.says("build", "--recipes", recipes, "--audience", audience)
    assert expected in house.says("serve", "--address", "127.0.0.1:0")
    assert not (house.folder / "site").exists()


def test_links_within_the_pages_are_fine(house: House) -> None:
    (house.folder / "docs" / "pictures").mkdir()
    (house.folder / "docs" / "pictures" / "a.txt").write_text("picture", encoding="utf-8")
    house.link("docs/b.txt", "pictures/a.txt")
    house.link("docs/again", "pictures")
    house.link("docs/.#index.md", "somebody@here.4711")  # an editor's lock
    (house.folder / "own").mkdir()
    house.link("own/c.txt", "../docs/b.txt")
    house.configure(theme=", custom_dir: own")
    with chdir(house.folder):
        build(load_config("mkdocs.yml"))
    built = bytes_of(house.folder / "site")
    assert [built[name] for name in ("b.txt", "again/a.txt", "c.txt")] == [b"picture"] * 3
    assert not [name for name in built if name.endswith(".yml")]


def test_is_under_compares_folders_not_names(tmp_path: Path) -> None:
    (tmp_path / "one" / "two").mkdir(parents=True)
    (tmp_path / "onetwo").mkdir()
    assert is_under(tmp_path / "one" / "two" / "not there", tmp_path / "one")
    assert is_under(tmp_path / "one", tmp_path / "onetwo" / ".." / "one")
    assert not is_under(tmp_path / "onetwo", tmp_path / "one")
    assert not is_under(tmp_path / "one", tmp_path / "one" / "two")
    assert not is_under(tmp_path / "one", tmp_path / "not there")
