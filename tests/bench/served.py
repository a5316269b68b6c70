"""A large site served to a browser, for measures of pages."""

import functools
import gzip
import http.server
import os
import shutil
import subprocess
import sys
import tempfile
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from playwright.sync_api import Browser, sync_playwright
from synthetic import write_book

ROOT = Path(__file__).parents[2]
SLOWED = 6
"""How many times slower than this machine's the processor of a phone is taken to be."""


class Quiet(http.server.SimpleHTTPRequestHandler):
    def log_message(self, *args: object) -> None:
        pass


@contextmanager
def served(recipes: int) -> Iterator[tuple[Path, str]]:
    """The site of a synthetic book with so many recipes, and its address."""
    with tempfile.TemporaryDirectory() as folder:
        book, site = Path(folder) / "recipes", Path(folder) / "site"
        book.mkdir()
        write_book(book, recipes)
        command = [sys.executable, "-m", "bowlbook.commands", "build"]
        command += ["--recipes", str(book), "--site", str(site)]
        subprocess.run(command, cwd=ROOT, check=True, capture_output=True)
        handler = functools.partial(Quiet, directory=str(site))
        with http.server.ThreadingHTTPServer(("127.0.0.1", 0), handler) as server:
            threading.Thread(target=server.serve_forever, daemon=True).start()
            yield site, f"http://127.0.0.1:{server.server_port}/"
            server.shutdown()


@contextmanager
def chromium() -> Iterator[Browser]:
    """The system's Chromium."""
    with sync_playwright() as playwright:
        path = os.environ.get("CHROMIUM") or shutil.which("chromium")
        browser = playwright.chromium.launch(executable_path=path, args=["--no-sandbox"])
        yield browser
        browser.close()


def sizes_of(site: Path, pattern: str) -> str:
    """How large the data file of this pattern is, plain and compressed."""
    data = next((site / "data").glob(pattern)).read_bytes()
    return f"{len(data)} bytes, gzipped {len(gzip.compress(data, 9))}"
