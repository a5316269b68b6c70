"""The phone, measured: weight of a first visit, the first search answer, the copy for offline, Lighthouse.

    python tests/bench/bench_phone.py SITE [SITE ...]

SITE is a built site. Weights are of what the browser asked for, compressed with Brotli (needs the
package brotli; else gzip). Searching is slowed 6 times by Chromium. Lighthouse is run where the
program is found on PATH or named in LIGHTHOUSE, with its own mobile settings. A benchmark measures;
nothing fails here.
"""

import functools
import gzip
import http.server
import json
import os
import shutil
import statistics
import subprocess
import sys
import threading
import time
from pathlib import Path

from playwright.sync_api import Browser, sync_playwright

try:
    import brotli
except ImportError:
    brotli = None

PAGES = ("", "blends/*/", "situations/*/", "pick/")
QUERIES = ("bleech", "coarse cool", "level 4", "violet", "hairline cream")
KINDS = {".html": "text/html; charset=utf-8", ".js": "text/javascript", ".css": "text/css"}
PACKED: dict[Path, bytes] = {}


def squeeze(content: bytes) -> bytes:
    return brotli.compress(content, quality=5) if brotli else gzip.compress(content, 6)


class Handler(http.server.SimpleHTTPRequestHandler):
    """Serves what a usual host serves: texts compressed."""

    protocol_version = "HTTP/1.1"

    def log_message(self, *args: object) -> None:
        pass

    def do_GET(self) -> None:
        path = Path(self.translate_path(self.path))
        if path.is_dir():
            path = path / "index.html"
        if not path.is_file():
            self.send_error(404)
            return
        content = path.read_bytes()
        kind = KINDS.get(path.suffix) or self.guess_type(path)
        coding = "br" if brotli else "gzip"
        packed = path.suffix not in (".png", ".pack") and coding in self.headers.get("Accept-Encoding", "")
        if packed:
            if path not in PACKED:
                PACKED[path] = squeeze(content)
            content = PACKED[path]
        self.send_response(200)
        self.send_header("Content-Type", kind)
        self.send_header("Content-Length", str(len(content)))
        self.send_header("Cache-Control", "max-age=600")
        if packed:
            self.send_header("Content-Encoding", coding)
        self.end_headers()
        self.wfile.write(content)


def serve(site: Path) -> str:
    handler = functools.partial(Handler, directory=str(site))
    server = http.server.ThreadingHTTPServer(("127.0.0.1", 0), handler)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    return f"http://localhost:{server.server_port}/"


def pages_of(site: Path) -> list[str]:
    found = []
    for pattern in PAGES:
        folder = pattern.split("*")[0]
        first = (
            sorted(path.name for path in (site / folder).iterdir() if path.is_dir()) if "*" in pattern else []
        )
        found.append(pattern.replace("*", first[0]) if first else pattern)
    return found


def weigh(browser: Browser, site: Path, address: str, path: str) -> tuple[int, int]:
    """Bytes and requests of a first visit, until the page stands; the copy for later is counted apart."""
    context = browser.new_context(viewport={"width": 390, "height": 844}, service_workers="block")
    page = context.new_page()
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    page.goto(address + path)
    page.wait_for_load_state("networkidle")
    context.close()
    total = 0
    for url in dict.fromkeys(asked):
        name = url.removeprefix(address).split("?")[0]
        file = site / (name + "index.html" if not name or name.endswith("/") else name)
        if file.is_file():
            content = file.read_bytes()
            total += len(content if file.suffix == ".png" else squeeze(content))
    return total, len(asked)


def search(browser: Browser, address: str) -> dict[str, float]:
    """Milliseconds from the first touch to the first answer, and of later ones; the phone 6 times slowed."""
    firsts, later, memory = [], [], 0.0
    for _ in range(5):
        context = browser.new_context(viewport={"width": 390, "height": 844}, service_workers="block")
        page = context.new_page()
        page.goto(address)
        session = context.new_cdp_session(page)
        session.send("Emulation.setCPUThrottlingRate", {"rate": 6})
        ask = """async (query) => {
          const began = performance.now();
          const field = document.getElementById('bb-search-field');
          if (!field) document.getElementById('bb-search-open').click();
          const listed = () => document.querySelectorAll('.bb-search-list a').length;
          while (!document.getElementById('bb-search-field')) await new Promise(done => setTimeout(done, 4));
          const input = document.getElementById('bb-search-field');
          input.value = query;
          document.querySelector('.bb-search-list').replaceChildren();
          input.dispatchEvent(new Event('input', {bubbles: true}));
          while (!listed()) await new Promise(done => setTimeout(done, 4));
          return performance.now() - began;
        }"""
        firsts.append(page.evaluate(ask, QUERIES[0]))
        later += [page.evaluate(ask, query) for query in QUERIES[1:]]
        session.send("HeapProfiler.enable")
        session.send("HeapProfiler.collectGarbage")
        memory = max(memory, session.send("Runtime.getHeapUsage")["usedSize"] / 1e6)
        context.close()
    return {
        "first": statistics.median(firsts),
        "later": statistics.median(later),
        "slowest": max(later),
        "MB": memory,
    }


def copy(browser: Browser, address: str, site: Path) -> tuple[float, int, int]:
    """Seconds until the whole copy stands after a first visit, requests for it, and its bytes."""
    context = browser.new_context(viewport={"width": 390, "height": 844})
    page = context.new_page()
    began = time.perf_counter()
    page.goto(address)
    page.wait_for_function("() => navigator.serviceWorker.controller !== null", timeout=120_000)
    took = time.perf_counter() - began
    context.close()
    packs = list((site / "copy").iterdir())
    return took, len(packs), sum(path.stat().st_size for path in packs)


def lighthouse(program: str, url: str) -> dict[str, float]:
    flags = "--headless=new --no-sandbox --disable-gpu --disable-background-networking --disable-sync"
    asked = ["--output=json", "--quiet", "--only-categories=performance,accessibility,best-practices"]
    done = subprocess.run(
        [program, url, *asked, f"--chrome-flags={flags}"],
        capture_output=True,
        text=True,
        env={**os.environ, "CHROME_PATH": os.environ.get("CHROMIUM") or shutil.which("chromium") or ""},
        check=False,
    )
    if done.returncode:
        return {"failed": float(done.returncode)}
    report = json.loads(done.stdout)
    found = {name: round(each["score"] * 100) for name, each in report["categories"].items()}
    found["LCP ms"] = round(report["audits"]["largest-contentful-paint"]["numericValue"])
    found["kB"] = round(report["audits"]["total-byte-weight"]["numericValue"] / 1000)
    return found


def main() -> None:
    program = os.environ.get("LIGHTHOUSE") or shutil.which("lighthouse")
    chromium = os.environ.get("CHROMIUM") or shutil.which("chromium")
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=chromium, args=["--no-sandbox"])
        for name in sys.argv[1:]:
            site = Path(name)
            address = serve(site)
            print(f"== {site.name}: {sum(1 for _ in site.rglob('*.html'))} pages")
            for path in pages_of(site):
                size, requests = weigh(browser, site, address, path)
                print(f"first visit /{path}: {size} bytes in {requests} requests")
            found = search(browser, address)
            print("search, 6 x slowed: " + ", ".join(f"{key} {value:.0f}" for key, value in found.items()))
            took, packs, size = copy(browser, address, site)
            print(f"copy: whole after {took:.1f} s, {packs} packs, {size} bytes")
            if program:
                for path in pages_of(site):
                    print(f"Lighthouse /{path}: {lighthouse(program, address + path)}")
        browser.close()


if __name__ == "__main__":
    main()
