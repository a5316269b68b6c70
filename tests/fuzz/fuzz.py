"""Coverage-guided fuzzing of reading, by hand: ``python tests/fuzz/fuzz.py -max_total_time=600``.

Needs ``pip install -e ".[fuzz]"``. Begins with the kept corpus beside this file; what it finds goes to
a folder of its own, ``build/fuzz``, from which an input that matters is copied into the corpus by hand.
"""

import sys
from pathlib import Path

import atheris

with atheris.instrument_imports(include=["bowlbook"]):
    sys.path[:0] = [str(Path(__file__).parents[2]), str(Path(__file__).parent)]
    from entry_text import take

HERE = Path(__file__).parent
FOUND = Path("build/fuzz")


def one(data: bytes) -> None:
    take(data)


if __name__ == "__main__":
    FOUND.mkdir(parents=True, exist_ok=True)
    known = [
        "-max_len=8192",
        f"-dict={HERE / 'words.dict'}",
        f"-artifact_prefix={FOUND}/",
        str(FOUND),
        str(HERE / "corpus"),
    ]
    atheris.Setup([sys.argv[0], *sys.argv[1:], *known], one)
    atheris.Fuzz()
