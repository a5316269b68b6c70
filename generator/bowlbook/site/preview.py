"""The preview's server: to which names and addresses it answers, and what it shows of a failed build."""

import errno
import ipaddress
import logging
import os
import re
import socket
import traceback
from collections.abc import Callable, Iterable
from typing import Any

from mkdocs.exceptions import MkDocsException
from mkdocs.livereload import LiveReloadServer

from bowlbook.pages.render import render
from bowlbook.site.listening import listening

Start = Callable[..., Any]
Builder = Callable[..., None]
LOCAL = ("localhost", "127.0.0.1", "::1")
"""The names of this machine for itself."""
HOST = re.compile(r"(?:\[([0-9a-f:.]+)\]|([^\s:\[\],]+))(?::[0-9]{1,5})?", re.I)
"""A Host header (RFC 9110, 7.2): an IPv6 address in brackets or another name, and a port."""
LONGEST = 2000
"""Signs of a path; no page of a book has a longer one."""
NO_PATH = re.compile(r"[\x00-\x1f\x7f\\\ufffd]|(^|/)\.\.(/|$)|^/[a-z]:", re.I)
"""What no path of a site holds: control characters, bytes that are not UTF-8, ways out of its folder."""
BODY = re.compile(rb"<body\b[^>]*>", re.I)


log = logging.getLogger("mkdocs.bowlbook")


class NoServer(Exception):
    """The preview cannot be served at this address; the message is one sentence."""


def check_address(address: str) -> None:
    """Raises `NoServer` for an address that is not ``HOST:PORT`` with an IP address or localhost."""
    host, _, port = address.rpartition(":")
    try:
        if host != "localhost":
            ipaddress.ip_address(host[1:-1] if host.startswith("[") and host.endswith("]") else host)
        if not re.fullmatch("[0-9]{1,9}", port):
            raise ValueError(port)
    except ValueError as error:
        text = f'"{address}" cannot be served at; write it as 127.0.0.1:8000 or localhost:8000.'
        raise NoServer(text) from error


class PreviewServer(LiveReloadServer):
    """MkDocs' server, but the port is taken before the first build. Raises `NoServer` where it cannot be."""

    allow_reuse_address = os.name == "posix"  # elsewhere two programs would share a port

    def __init__(self, builder: Builder, host: str, port: int, root: str, mount_path: str) -> None:
        if not 0 <= port <= 65535:
            raise NoServer(f"There is no port {port}; the highest is 65535.")
        super().__init__(builder, host, port, root, mount_path)
        try:
            super().server_bind()
        except OSError as error:
            self.server_close()
            raise NoServer(_why_not(host, port, error)) from error
        self.url = f"http://{_bracketed(host)}:{self.server_port}{self.mount_path}"

    def server_bind(self) -> None:
        """Nothing: it is bound already."""


def _bracketed(host: str) -> str:
    """A host as it stands in an address (RFC 3986, 3.2.2)."""
    return f"[{host}]" if ":" in host else host


def _why_not(host: str, port: int, error: OSError) -> str:
    if error.errno == errno.EADDRINUSE:
        other = f"{_bracketed(host)}:{port % 65535 + 1}"
        return f"Port {port} is in use; end the program that uses it, or take another with --address {other}."
    if error.errno == errno.EADDRNOTAVAIL or isinstance(error, socket.gaierror):
        return (
            f"{host} is not an address of this machine; take one that is, such as --address 127.0.0.1:8000."
        )
    if error.errno in (errno.EACCES, errno.EPERM):
        return f"Port {port} is kept for the system; take a higher one, such as --address 127.0.0.1:8000."
    return f"{host}:{port} cannot be served at: {error.strerror or error}."


def guarded(server: LiveReloadServer, *, has_pages: bool = True) -> "Preview":
    """The `Preview` in front of a server's pages and builds; made and put there where there is none yet."""
    app = server.get_app()
    if not isinstance(app, Preview):
        app = Preview(server, has_pages)
        server.builder = app.build
        server.set_app(app)
    return app


class Preview:
    """A WSGI application (PEP 3333) in front of the server's own.

    It answers only requests that name this machine in their Host header, so that no page of another site can
    read the book by a name of its own that leads here. While a build fails it shows the last good pages with
    the reason over them, or the reason alone.
    """

    def __init__(self, server: LiveReloadServer, has_pages: bool) -> None:
        self.server, self.builder = server, server.builder
        self.pages: Callable[..., Iterable[bytes]] = server.serve_request
        self.host = str(server.server_address[0])
        self.reason = ""
        """Why the last build failed; empty after a good one."""
        self.has_pages = has_pages
        """Whether a build has ended well in this process."""

    def build(self, *given: Any) -> None:
        """Run the server's builder; a failure is kept for the pages, and printed unless it is already."""
        logged: list[str] = []
        top = logging.getLogger("mkdocs")
        with listening(top, logging.ERROR, lambda record: logged.append(record.getMessage()), alone=False):
            try:
                self.builder(*given)
            except (Exception, SystemExit) as error:
                if not isinstance(error, MkDocsException):
                    traceback.print_exc()
                    log.error(f"{type(error).__name__}: {error}")
                elif not logged:
                    log.error(str(error))
                self.reason = "\n".join(logged)
            else:
                self.reason, self.has_pages = "", True

    def __call__(self, environ: dict[str, Any], start_response: Start) -> Iterable[bytes]:
        """Answer a request."""
        if not self._is_own(environ.get("HTTP_HOST", "")):
            at = ", ".join(map(_bracketed, dict.fromkeys([*LOCAL, self.host])))
            return _sentence(start_response, "403 Forbidden", f"This preview is shown only at {at}.")
        path = environ["PATH_INFO"].encode("latin-1").decode("utf-8", "replace")
        if len(path) > LONGEST or NO_PATH.search(path):
            return _sentence(start_response, "400 Bad Request", "No page can have this address.")
        if path.startswith("/livereload/"):
            return self.pages(environ, start_response)
        head: list[Any] = []
        body = self.pages(environ, lambda *given: head.extend(given))
        status, headers = head[:2]
        if not self.reason or not dict(headers)["Content-Type"].startswith("text/html"):
            start_response(status, headers)
            return body
        content = b"".join(body)
        getattr(body, "close", bool)()
        return self._with_reason(content, status, start_response)

    def _with_reason(self, content: bytes, status: str, start_response: Start) -> list[bytes]:
        """A page with the reason over it, or the reason alone. Reloads with the next build."""
        box = render("not_built.html", "", reason=self.reason, alone=not self.has_pages).encode()
        if self.has_pages:
            found = BODY.search(content)
            at = found.end() if found else 0
            content = content[:at] + box + content[at:]
        else:
            content, status = box, "503 Service Unavailable"
        if b"livereload(" not in content:
            server: Any = self.server  # MkDocs leaves it untyped
            content = server._inject_js_into_html(content, server._visible_epoch)
        length = str(len(content))
        start_response(status, [("Content-Type", "text/html; charset=utf-8"), ("Content-Length", length)])
        return [content]

    def _is_own(self, header: str) -> bool:
        """Whether a Host header names this machine as it is known here."""
        found = HOST.fullmatch(header)
        if found is None:
            return False
        name = (found[1] or found[2]).lower()
        if name in LOCAL or name == self.host:
            return True
        try:
            ipaddress.ip_address(name)
        except ValueError:
            return False
        return self.host in ("0.0.0.0", "::")  # every address of the machine; none can be another site's name


def _sentence(start_response: Start, status: str, text: str) -> list[bytes]:
    content = f"{text}\n".encode()
    headers = [("Content-Type", "text/plain; charset=utf-8"), ("Content-Length", str(len(content)))]
    start_response(status, headers)
    return [content]
