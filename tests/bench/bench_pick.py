"""Pick by hair in a large book: size of its data, and how long a tap takes on a slowed processor.

python tests/bench/bench_pick.py [RECIPES]      (default 1000; needs Chromium)
"""

import functools
import gzip
import http.server
import os
import shutil
import statistics
import subprocess
import sys
import tempfile
import threading
from pathlib import Path

from playwright.sync_api import sync_playwright
from synthetic import write_book

ROOT = Path(__file__).parents[2]
SLOWED = 6
TAPS = [
    ("natural_level", "4"), ("texture", "coarse"), ("tone", "cool"), ("lift", "4"), ("area", "lengths"),
    ("natural_level", "6"), ("texture", "fine"), ("tone", "warm"), ("lift", "2"), ("area", "ends"),
]  # fmt: skip
TAP = """([facet, value]) => {
  const input = document.querySelector(`[data-facet=${facet}] input[value="${value}"]`);
  const before = performance.now();
  input.checked = true;
  input.dispatchEvent(new Event('change', { bubbles: true }));
  document.body.getBoundingClientRect();
  return performance.now() - before;
}"""


def main() -> None:
    recipes = int(sys.argv[1]) if len(sys.argv) > 1 else 1000
    with tempfile.TemporaryDirectory() as folder:
        book, site = Path(folder) / "recipes", Path(folder) / "site"
        book.mkdir()
        write_book(book, recipes)
        command = [
            sys.executable,
            "-m",
            "bowlbook.commands",
            "build",
            "--recipes",
            str(book),
            "--site",
            str(site),
        ]
        subprocess.run(command, cwd=ROOT, check=True, capture_output=True)
        data = next((site / "data").glob("pick-*.json")).read_bytes()
        print(
            f"{recipes} recipes: data of Pick by hair {len(data)} bytes, "
            f"gzipped {len(gzip.compress(data, 9))}"
        )
        handler = functools.partial(Quiet, directory=str(site))
        with http.server.ThreadingHTTPServer(("127.0.0.1", 0), handler) as server:
            threading.Thread(target=server.serve_forever, daemon=True).start()
            times = measure(f"http://127.0.0.1:{server.server_port}/pick/")
            server.shutdown()
    print(
        f"a tap, {SLOWED} x slowed: median {statistics.median(times):.0f} ms, "
        f"slowest {max(times):.0f} ms, {sum(time <= 100 for time in times)} of {len(times)} within 100 ms"
    )


def measure(address: str) -> list[float]:
    path = os.environ.get("CHROMIUM") or shutil.which("chromium")
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=path, args=["--no-sandbox"])
        page = browser.new_page(viewport={"width": 390, "height": 844})
        page.goto(address)
        page.wait_for_selector("#bb-pick:not([hidden])")
        page.wait_for_timeout(2000)  # somebody reads before the first tap
        session = page.context.new_cdp_session(page)
        session.send("Emulation.setCPUThrottlingRate", {"rate": SLOWED})
        times = []
        for tap in TAPS * 5:
            page.evaluate("document.getElementById('bb-none').click()")  # the list is answered
            times.append(page.evaluate(TAP, list(tap)))
            page.wait_for_timeout(300)  # taps come one by one
        browser.close()
    return times


class Quiet(http.server.SimpleHTTPRequestHandler):
    def log_message(self, *args: object) -> None:
        pass


if __name__ == "__main__":
    main()
