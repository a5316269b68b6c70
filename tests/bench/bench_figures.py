"""What the figures of the bowls (1 to 8 of the design) cost of a cold build.

``python tests/bench/bench_figures.py [RECIPES] [ROUNDS]`` (1000 and 5 if left out). One process builds a book
with nothing kept; the calls into figures are timed from outside, each outermost one once. Printed is the
median share of processor time.
"""

import os
import statistics
import subprocess
import sys
import tempfile
from pathlib import Path

from synthetic import write_book

ROOT = Path(__file__).parents[2]
BUILD = """
import functools, sys, time
from pathlib import Path
from bowlbook.checks.day import today
from bowlbook.checks.judge import judge
from bowlbook.site.engine import build_into
from bowlbook.site.publish import publish
from bowlbook.figures import bowl, correction, cost, developer, peroxide, weigh_out, weighable

spent, depth = 0.0, 0

def timed(function):
    @functools.wraps(function)
    def call(*given, **named):
        global spent, depth
        depth += 1
        began = time.process_time()
        try:
            return function(*given, **named)
        finally:
            depth -= 1
            if depth == 0:
                spent += time.process_time() - began
    return call

figures = [
    *(bowl.unweighable_sizes, correction.over_by_one, cost.bill),
    *(cost.price_per_gram, cost.price_per_piece, developer.peroxide_by_developer, developer.stand_in),
    *(weighable.next_weighable_batch, peroxide.peroxide_in_bowl, weigh_out.weigh_out, weigh_out.pour),
]
known = {id(each): timed(each) for each in figures}
for module in [each for name, each in sys.modules.items() if name.startswith("bowlbook.")]:
    for name, value in list(vars(module).items()):
        if id(value) in known:
            setattr(module, name, known[id(value)])
bowl.Mixer.mix = timed(bowl.Mixer.mix)
began = time.process_time()
judgement = judge(Path("recipes"), today())
publish(lambda folder: build_into(folder, Path("mkdocs.yml"), judgement, print), Path("site"))
print(spent, time.process_time() - began)
"""


def main(recipes: int, rounds: int) -> None:
    """Build a book several times, and say what the figures cost."""
    with tempfile.TemporaryDirectory(prefix="bench-") as made:
        folder = Path(made)
        write_book(folder / "recipes", recipes)
        (folder / "mkdocs.yml").write_text(
            f"INHERIT: {ROOT / 'mkdocs.yml'}\ndocs_dir: {ROOT / 'docs'}\n", encoding="utf-8"
        )
        environment = {**os.environ, "PYTHONPATH": str(ROOT / "generator"), "BOWLBOOK_CACHE": "off"}
        environment["BOWLBOOK_PROCESSES"] = "1"
        shares, spent = [], []
        for _ in range(rounds):
            words = [sys.executable, "-c", BUILD]
            measured = subprocess.check_output(words, cwd=folder, env=environment, text=True).split()
            spent.append(float(measured[0]))
            shares.append(float(measured[0]) / float(measured[1]))
    middle = statistics.median(spent)
    share = statistics.median(shares)
    print(
        f"{recipes} recipes, {rounds} rounds: figures 1 to 8 take {middle:.2f} s, {share:.1%} of a cold build"
    )


if __name__ == "__main__":
    main(*map(int, (sys.argv[1:] + ["1000", "5"][len(sys.argv) - 1 :])[:2]))
