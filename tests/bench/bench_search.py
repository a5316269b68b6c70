"""Search in a large book: size of its index, and how long the first answer takes on a slowed processor.

python tests/bench/bench_search.py [RECIPES]      (default 1000; needs Chromium)
"""

import sys

from served import SLOWED, chromium, served, sizes_of

QUERIES = ("balayage", "coarse 4 cool", "developper", "20vol", "zzqqxy", "f", "fo", "foil")
TIMED = """async (query) => {
  const field = document.getElementById("bb-search-field");
  const rows = () => document.querySelector(".bb-search-lists > ol:only-child");
  const before = performance.now();
  const old = rows();
  field.value = query;
  field.dispatchEvent(new Event("input", { bubbles: true }));
  while (rows() === old) await new Promise(requestAnimationFrame);
  await new Promise((done) => requestAnimationFrame(() => setTimeout(done)));
  return performance.now() - before;
}"""
FIRST = """async () => {
  const before = performance.now();
  document.getElementById("bb-search-open").click();
  while (!document.getElementById("bb-search-field")) await new Promise((done) => setTimeout(done, 1));
  document.getElementById("bb-search-field").value = "balayage";
  document.getElementById("bb-search-field").dispatchEvent(new Event("input", { bubbles: true }));
  while (!document.querySelector(".bb-search-list a")) await new Promise((done) => setTimeout(done, 1));
  return performance.now() - before;
}"""


def main() -> None:
    recipes = int(sys.argv[1]) if len(sys.argv) > 1 else 1000
    with served(recipes) as (site, address):
        print(f"{recipes} recipes: index {sizes_of(site, 'search-*.json')}")
        measure(address)


def measure(address: str) -> None:
    """Print the time from the tap on Search to the first rows, then of each further query, in ms."""
    with chromium() as browser:
        context = browser.new_context(viewport={"width": 390, "height": 844}, service_workers="block")
        page = context.new_page()
        context.new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": SLOWED})
        page.goto(address, wait_until="load")
        page.wait_for_timeout(2000)
        print(f"tap to first rows, {SLOWED} times slower: {page.evaluate(FIRST):.0f} ms")
        for query in QUERIES:
            print(f"{query!r}: {page.evaluate(TIMED, query):.0f} ms")


if __name__ == "__main__":
    main()
