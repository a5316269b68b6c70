"""Pick by hair in a large book: size of its data, and how long a tap takes on a slowed processor.

python tests/bench/bench_pick.py [RECIPES]      (default 1000; needs Chromium)
"""

import statistics
import sys

from served import SLOWED, chromium, served, sizes_of

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
    with served(recipes) as (site, address):
        print(f"{recipes} recipes: data of Pick by hair {sizes_of(site, 'pick-*.json')}")
        times = measure(f"{address}pick/")
    print(
        f"a tap, {SLOWED} x slowed: median {statistics.median(times):.0f} ms, "
        f"slowest {max(times):.0f} ms, {sum(time <= 100 for time in times)} of {len(times)} within 100 ms"
    )


def measure(address: str) -> list[float]:
    with chromium() as browser:
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
    return times


if __name__ == "__main__":
    main()
