"""A folder judged: read, linked and checked, with every finding in one sorted list."""

from dataclasses import dataclass
from datetime import date
from pathlib import Path

from generator.book.book import Book
from generator.book.read_book import Progress, read_book
from generator.checks.run import run_checks
from generator.reading.finding import Finding, in_order


@dataclass(frozen=True, slots=True)
class Judgement:
    """What a folder came to. ``book`` is None without a house, and whole where nothing is an error."""

    book: Book | None
    findings: list[Finding]

    def errors(self, *, strict: bool = False) -> list[Finding]:
        """The findings that stop a build: errors, and with ``strict`` warnings too."""
        return [finding for finding in self.findings if strict or finding.severity == "error"]


def judge(root: Path, day: date, progress: Progress | None = None) -> Judgement:
    """Read and check a book's folder for ``day``."""
    reading = read_book(root, progress)
    findings = list(reading.findings)
    if reading.book is not None:
        findings += run_checks(reading.book, day)
    return Judgement(reading.book, in_order(findings))
