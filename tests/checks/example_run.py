"""An example of the docs, carried out: laid over the small book, or typed line by line."""

import re
import subprocess
from pathlib import Path

from bowlbook.checks.judge import judge
from bowlbook.reading.finding import finding_text
from checks.small_book import DAY, SmallBook
from commands.run import run
from photographs import write_photograph

PATH = re.compile(r"^# recipes/(\S.*)\n", re.M)
KEY = re.compile(r"^([a-z_]+):", re.M)


def said_of(book: SmallBook, example: str) -> list[str]:
    """What ``check`` says of an example, one text a finding, paths from the folder that holds ``recipes``.

    A file of the folder pictures is a photograph, whatever its text says of it. The working
    folder must be the one that holds ``recipes``.
    """
    if not PATH.match(example):
        return typed(example)
    parts = PATH.split(example)[1:]
    for path, text in zip(parts[::2], parts[1::2], strict=True):
        if path.startswith("pictures/"):
            taken = write_photograph(book.root, path.removeprefix("pictures/"))
            taken.write_bytes(taken.read_bytes()[: 2000 if "cut short" in text else None])
            continue
        book.write(path, laid_over(book.texts.get(path, ""), text.strip("\n") + "\n"))
    return [finding_text(each) for each in judge(Path("recipes"), DAY).findings]


def laid_over(base: str, text: str) -> str:
    """``base`` with each key that ``text`` has in its place; ``text`` alone where it is a whole entry."""
    keys = set(KEY.findall(text))
    if not base or not keys or keys >= {"name", "kind"}:
        return text
    blocks = re.split(r"^(?=[a-z_]+:)", base, flags=re.M)
    return "".join(block for block in blocks if block.partition(":")[0] not in keys) + text


def typed(commands: str) -> list[str]:
    """What the commands print on being typed: ``bowlbook`` in this process, the others in a shell."""
    printed = ""
    for line in commands.split("\n"):
        if line.startswith("bowlbook "):
            result = run(*line.split()[1:])
            printed += result.stdout + result.stderr
        else:
            subprocess.run(["sh", "-euc", line], check=True)
    texts = re.split(r"^(?=\S+:\d+:\d+: )", printed, flags=re.M)
    found = [re.split(r"^\d+ errors?, ", text, flags=re.M)[0].rstrip("\n") for text in texts]
    return [text for text in found if re.match(r"\S+:\d+:\d+: ", text)]
