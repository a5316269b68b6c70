"""The preview's server: whom it answers, what it says to strange addresses, what it shows meanwhile."""

import http.client
import logging
import socket
import threading
from collections.abc import Iterator
from pathlib import Path
from socketserver import BaseServer

import pytest
from mkdocs.exceptions import PluginError

from bowlbook.site.preview import NoServer, PreviewServer, check_address, guarded
from bowlbook.site.serving import _Printable
from commands.run import invoke
from systems import needs_loopback

PAGE = b"<!doctype html><html><head><title>A</title></head><body class=x><p>A page</p></body></html>"


class Book:
    """A site of one page whose builds end as the test says."""

    def __init__(self, folder: Path, has_pages: bool = True, host: str = "127.0.0.1") -> None:
        self.fault: BaseException | None = None
        self.folder = folder
        self.server = PreviewServer(self.build_site, host, 0, str(folder), "/")
        self.preview = guarded(self.server, has_pages=has_pages)
        self.server.server_activate()
        threading.Thread(target=self.server.serve_forever, args=(0.01,), daemon=True).start()

    def build_site(self) -> None:
        if self.fault is not None:
            raise self.fault
        for name in ("index.html", "inner/index.html"):
            (self.folder / name).parent.mkdir(exist_ok=True)
            (self.folder / name).write_bytes(PAGE)
        (self.folder / "data.json").write_bytes(b"{}")

    def build(self, fault: BaseException | None = None) -> None:
        self.fault = fault
        self.preview.build()

    def get(self, path: str, host: str | None = None) -> tuple[int, str]:
        """Status and text of an address."""
        connection = http.client.HTTPConnection("127.0.0.1", self.server.server_port, timeout=20)
        connection.putrequest("GET", path, skip_host=True)
        connection.putheader("Host", f"127.0.0.1:{self.server.server_port}" if host is None else host)
        connection.endheaders()
        answer = connection.getresponse()
        return answer.status, answer.read().decode()

    def end(self) -> None:
        BaseServer.shutdown(self.server)  # MkDocs' own ends only the thread that it began
        self.server.server_close()


@pytest.fixture
def book(tmp_path: Path) -> Iterator[Book]:
    made = Book(tmp_path)
    made.build()
    yield made
    made.end()


@pytest.fixture(scope="module")
def fine(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Book]:
    """A book that was built once, for tests that only look at it."""
    made = Book(tmp_path_factory.mktemp("fine"))
    made.build()
    yield made
    made.end()


@pytest.mark.parametrize(
    "host",
    ["localhost", "LocalHost:8000", "127.0.0.1", "127.0.0.1:1", "[::1]", "[::1]:8000"],
)
@pytest.mark.parametrize("path", ["/", "/livereload/0/1"])
def test_it_answers_this_machine(fine: Book, host: str, path: str) -> None:
    assert fine.get(path, host)[0] == 200


@pytest.mark.parametrize(
    "host",
    [
        "evil.example",
        "evil.example:8000",
        "localhost.evil.example",
        "evil.example, localhost",
        "localhost@evil.example",
        "user@localhost",
        "127.0.0.1.evil.example",
        "192.168.1.20:8000",
        "127.0.0.2",
        "[::1",
        "::1",
        "localhost:",
        "",
    ],
)
@pytest.mark.parametrize("path", ["/", "/data.json", "/nowhere", "/livereload/0/1"])
def test_it_answers_nobody_else(fine: Book, host: str, path: str) -> None:
    """A page of another site whose name leads here (DNS rebinding) sends that name in its Host header."""
    status, text = fine.get(path, host)
    assert (status, text) == (403, "This preview is shown only at localhost, 127.0.0.1, [::1].\n")


def test_a_request_without_a_host_header(fine: Book) -> None:
    with socket.create_connection(("127.0.0.1", fine.server.server_port), timeout=20) as connection:
        connection.sendall(b"GET / HTTP/1.0\r\n\r\n")
        assert connection.makefile("rb").readline().startswith(b"HTTP/1.0 403 ")


@needs_loopback
def test_an_address_that_was_named(tmp_path: Path) -> None:
    """That one too; and where it names every address of the machine, each of them, but no other name."""
    book = Book(tmp_path, host="127.0.0.2")
    assert {book.preview._is_own(host) for host in ("127.0.0.2:8000", "localhost")} == {True}
    assert not book.preview._is_own("127.0.0.3")
    book.end()
    book = Book(tmp_path, host="0.0.0.0")
    assert {book.preview._is_own(host) for host in ("192.168.1.20:8000", "[fe80::1]:8000")} == {True}
    assert {book.preview._is_own(host) for host in ("evil.example", "bench.local:8000")} == {False}
    book.end()


@pytest.mark.parametrize(
    "path",
    [
        "/%00",
        "/inner%00/",
        "/..%2f",
        "/..",
        "/inner/../index.html",
        "/..%2f..%2fetc/passwd",
        "/..%5c..%5cwindows",
        "/%0d%0aX:%20y",
        "/C:/",
        "/%ff%fe/",
        f"/{'a' * 3000}",
        f"/livereload/{'9' * 5000}/1",
    ],
)
def test_an_address_that_no_page_has(fine: Book, path: str, capfd: pytest.CaptureFixture[str]) -> None:
    assert fine.get(path) == (400, "No page can have this address.\n")
    assert "Traceback" not in capfd.readouterr().err


@pytest.mark.parametrize("path", [f"/{'a' * 300}", f"/{'a/' * 900}", "/nowhere", "/index.html/x"])
def test_an_address_without_a_page(fine: Book, path: str, capfd: pytest.CaptureFixture[str]) -> None:
    assert fine.get(path)[0] == 404
    assert "Traceback" not in capfd.readouterr().err


def test_the_last_good_page_with_the_reason_over_it(book: Book) -> None:
    """As text, whatever it holds; gone after the next good build."""
    book.build(PluginError("The book has 1 finding.\n<script>alert('x')</script>"))
    for path in ("/", "/inner/"):
        status, text = book.get(path)
        assert status == 200 and "<p>A page</p>" in text
        assert text.index("<body class=x>") < text.index('id="bb-not-built"') < text.index("<p>A page</p>")
        assert "&lt;script&gt;alert(" in text and "<script>alert(" not in text
        assert "An older page" in text and "livereload(" in text
    assert book.get("/nowhere")[0] == 404 and "livereload(" in book.get("/nowhere")[1]
    assert book.get("/data.json") == (200, "{}")
    book.build()
    assert "bb-not-built" not in book.get("/")[1]


def test_the_reason_alone_until_there_are_pages(tmp_path: Path) -> None:
    book = Book(tmp_path, has_pages=False)
    book.build(PluginError("The book has 1 finding."))
    for path in ("/", "/inner/", "/data.json"):
        status, text = book.get(path)
        assert status == 503 and "The book has 1 finding." in text and "Nothing to show yet" in text
        assert "livereload(" in text
    book.build()
    assert book.get("/")[0] == 200 and "bb-not-built" not in book.get("/")[1]
    book.end()


def test_every_kind_of_failure(book: Book, capfd: pytest.CaptureFixture[str]) -> None:
    """A fault of a program is shown by its name, with a traceback on the terminal; ctrl-c ends all."""
    book.build(ZeroDivisionError("by zero"))
    assert "ZeroDivisionError: by zero" in book.get("/")[1]
    assert "Traceback" in capfd.readouterr().err
    book.build(SystemExit("a plugin gave up"))
    assert "a plugin gave up" in book.get("/")[1]
    with pytest.raises(KeyboardInterrupt):
        book.build(KeyboardInterrupt())


def test_the_server_builds_through_it(book: Book) -> None:
    """MkDocs' own loop calls the server's builder; where that raises, requests wait for ever."""
    assert book.server.builder == book.preview.build
    assert guarded(book.server) is book.preview is book.server.get_app()


@pytest.mark.parametrize("address", ["127.0.0.1:8000", "localhost:0", "[::1]:8000", "0.0.0.0:80"])
def test_an_address(address: str) -> None:
    check_address(address)


@pytest.mark.parametrize("address", ["", ":8000", "localhost", "127.0.0.1", "127.0.0.1:x", "a.example:80"])
def test_no_address(address: str) -> None:
    with pytest.raises(NoServer, match="cannot be served at; write it as 127"):
        check_address(address)


@pytest.fixture
def project(tmp_path: Path) -> list[str]:
    """The command on a project whose book is not there: it ends before that is found."""
    (tmp_path / "docs").mkdir()
    config = tmp_path / "mkdocs.yml"
    config.write_text("site_name: A book\nplugins: [bowlbook]\n", encoding="utf-8")
    return ["serve", f"--config={config}"]


def refused(words: list[str]) -> str:
    result = invoke(words)
    assert result.exit_code == 2, result.output
    assert isinstance(result.exception, SystemExit)
    return result.stderr.strip().splitlines()[-1]


def test_a_port_in_use(project: list[str]) -> None:
    with socket.create_server(("127.0.0.1", 0)) as other:
        port = other.getsockname()[1]
        said = refused([*project, f"--address=127.0.0.1:{port}"])
    assert said.startswith(f"Error: Port {port} is in use; end the program that uses it, or take another")


@pytest.mark.parametrize(
    ("address", "says"),
    [
        ("127.0.0.1:99999", "There is no port 99999; the highest is 65535."),
        ("192.0.2.1:8000", "192.0.2.1 is not an address of this machine"),  # RFC 5737: given to nobody
        ("[2001:db8::1]:8000", "2001:db8::1 is not an address of this machine"),  # RFC 3849: likewise
        ("nowhere", '"nowhere" cannot be served at; write it as 127.0.0.1:8000 or localhost:8000.'),
    ],
)
def test_an_address_that_cannot_be_had(project: list[str], address: str, says: str) -> None:
    assert says in refused([*project, f"--address={address}"])


def test_the_server_says_which_port_it_got(tmp_path: Path) -> None:
    server = PreviewServer(bool, "127.0.0.1", 0, str(tmp_path), "/book/")
    assert server.url == f"http://127.0.0.1:{server.server_port}/book/" and server.server_port > 0
    server.server_close()


def test_no_request_writes_codes_on_the_terminal() -> None:
    """A request's first line is logged, and ESC begins a terminal's commands (ECMA-48)."""
    text = '"GET /\x1b[2J\x9b31m HTTP/1.1" code 404\nnext'
    record = logging.LogRecord("mkdocs", logging.WARNING, "", 0, text, None, None)
    assert _Printable("%(message)s").format(record) == '"GET /?[2J?31m HTTP/1.1" code 404\nnext'
