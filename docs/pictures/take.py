"""Take the pictures of the README again: builds the demo book and looks at it in the system's Chromium.

Run by hand, where ``pip install -e ".[test]"`` has been run: ``python docs/pictures/take.py``.
"""

import functools
import http.server
import os
import subprocess
import sys
import tempfile
import threading
from pathlib import Path

from playwright.sync_api import sync_playwright

HERE = Path(__file__).parent
ROOT = HERE.parents[1]
BLEND = "blends/cool-foil-coarse/"
PICTURES = {
    "blend-phone.png": (BLEND, 390, 844),
    "blend-desk.png": (BLEND, 1280, 760),
    "pick-phone.png": ("", 390, 844),
}
"""File: the page, and the size of the window in CSS pixels."""


class Quiet(http.server.SimpleHTTPRequestHandler):
    """Serves a folder without a line for each file."""

    def log_message(self, *_: object) -> None:
        """Print nothing."""


def main() -> None:
    """Build, look, and write the pictures beside this file."""
    with tempfile.TemporaryDirectory() as folder:
        site = Path(folder) / "site"
        # The demo book's prices and reviews are held against the day it was written for.
        environment = {"SOURCE_DATE_EPOCH": "1795564800", **os.environ}
        command = [sys.executable, "-m", "bowlbook.commands", "build", "--site", str(site)]
        subprocess.run(command, cwd=ROOT, env=environment, check=True)
        server = http.server.ThreadingHTTPServer(
            ("127.0.0.1", 0), functools.partial(Quiet, directory=str(site))
        )
        threading.Thread(target=server.serve_forever, daemon=True).start()
        take(f"http://127.0.0.1:{server.server_port}/")
        server.shutdown()


def take(address: str) -> None:
    """Look at each page in its window."""
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(
            executable_path=os.environ.get("CHROMIUM", "/usr/bin/chromium"), args=["--no-sandbox"]
        )
        for name, (page_address, width, height) in PICTURES.items():
            page = browser.new_page(viewport={"width": width, "height": height}, device_scale_factor=1.5)
            page.goto(address + page_address)
            page.wait_for_load_state("networkidle")
            page.screenshot(path=HERE / name)
        browser.close()


if __name__ == "__main__":
    main()
