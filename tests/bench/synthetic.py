"""Books of any size, seeded: the demo book's products and house, with recipes drawn from the trade's words.

A book of n recipes has two thirds blends, a quarter techniques and the rest situations. The texts are drawn
so that they are about as long, as varied and as repetitive as those that people write.
"""

import random
import re
import shutil
import sys
from pathlib import Path

DEMO = Path(__file__).parents[2] / "recipes"
LIGHTENERS = {
    "soft-clay": (["open-air"], "1:2"),
    "violet-clay": (["open-air"], "1:2"),
    "cream-lightener": (["foil", "open-air", "on-scalp"], "1:1"),
    "oil-lightener": (["foil", "open-air", "on-scalp"], "1:1"),
    "white-powder": (["foil"], "1:1.5"),
    "blue-powder": (["foil", "open-air"], "1:1.5"),
    "violet-powder": (["foil", "open-air"], "1:1.5"),
}
FIRST = [
    "Soft",
    "Clear",
    "Slow",
    "Quiet",
    "Bright",
    "Deep",
    "Cool",
    "Warm",
    "Fine",
    "Heavy",
    "Calm",
    "Even",
    "Early",
    "Late",
    "Light",
    "Long",
    "Short",
    "Plain",
]
SECOND = [
    "beige",
    "amber",
    "pearl",
    "sand",
    "smoke",
    "honey",
    "oat",
    "ash",
    "wheat",
    "copper",
    "linen",
    "silver",
    "cocoa",
    "maple",
    "birch",
    "slate",
    "rye",
    "fern",
]
THIRD = [
    "foil",
    "paint",
    "weave",
    "sweep",
    "slice",
    "ribbon",
    "panel",
    "melt",
    "frame",
    "band",
    "veil",
    "halo",
    "crown",
    "line",
    "fringe",
    "nape",
]
WHY = [
    "It stalls at orange on hair this {texture}.",
    "{Texture} hair is past it before you look.",
    "There is not enough strength in it for level {level}.",
    "It leaves all of the {tone} in.",
    "Porous {area} drink it and go grey.",
    "The overlap breaks at the {area}.",
    "It dries on {texture} hair before it has lifted.",
    "Too warm for a {tone} wish from level {level}.",
]
WORDS = {
    "texture": ["fine", "medium", "coarse"],
    "tone": ["warm", "neutral", "cool"],
    "area": ["lengths", "ends", "hairline"],
    "history": ["virgin", "previously coloured", "previously lightened"],
    "curl": ["straight", "wavy", "curly", "coily"],
    "porosity": ["low", "medium", "high"],
}


class Writer:
    """Draws names, facets and texts; the same seed gives the same book."""

    def __init__(self, seed: int) -> None:
        self.draw = random.Random(seed)
        self.used: set[str] = set()

    def name(self) -> tuple[str, str]:
        """A name and its id, each once in a book."""
        while True:
            words = [self.draw.choice(FIRST), self.draw.choice(SECOND), self.draw.choice(THIRD)]
            number = self.draw.randint(2, 99) if self.draw.random() < 0.5 else None
            name = " ".join(words) + (f" {number}" if number else "")
            entry_id = name.lower().replace(" ", "-")
            if entry_id not in self.used:
                self.used.add(entry_id)
                return name, entry_id

    def facets(self, placement: str | None = None) -> str:
        low = self.draw.randint(1, 8)
        lift = self.draw.randint(1, min(4, 10 - low))  # no hair is lifted past level 10
        parts = [f"natural_level: {low}-{min(10, low + self.draw.randint(1, 4))}", f"lift: {lift}-{lift + 2}"]
        for facet in ("texture", "tone", "area", "history", "curl", "porosity"):
            if self.draw.random() < 0.55:
                chosen = self.draw.sample(WORDS[facet], self.draw.randint(1, len(WORDS[facet]) - 1))
                parts.append(f"{facet}: [{', '.join(chosen)}]")
        if placement:
            parts.append(f"placement: [{placement}]")
        return "{" + ", ".join(parts) + "}"

    def why(self) -> str:
        words = {facet: self.draw.choice(values) for facet, values in WORDS.items()}
        return self.draw.choice(WHY).format(
            Texture=words["texture"].capitalize(), level=self.draw.randint(1, 9), **words
        )

    def refusals(self, others: list[str]) -> str:
        lines = []
        for _ in range(self.draw.choice([0, 1, 1, 2])):
            facet, other = self.draw.sample(list(WORDS), 2)
            chosen = [f"{each}: [{self.draw.choice(WORDS[each])}]" for each in (facet, other)]
            when = f"natural_level: {self.draw.randint(1, 9)}, {', '.join(chosen)}"
            instead = f", instead: {self.draw.choice(others)}" if others and self.draw.random() < 0.4 else ""
            lines.append(f'  - {{when: {{{when}}}, because: "{self.why()}"{instead}}}')
        return "not_for:\n" + "\n".join(lines) + "\n" if lines else ""


def write_project(folder: Path, recipes: int) -> None:
    """A book of about ``recipes`` recipes with the pages and the configuration of this project."""
    write_book(folder / "recipes", recipes)
    shutil.copytree(DEMO.parent / "docs", folder / "docs")
    shutil.copy(DEMO.parent / "mkdocs.yml", folder)


def write_book(folder: Path, recipes: int, seed: int = 1) -> None:
    """Write a book of about ``recipes`` recipes into a new folder."""
    writer = Writer(seed)
    shutil.copytree(DEMO / "products", folder / "products")
    shutil.copy(DEMO / "house.yml", folder / "house.yml")
    house = (folder / "house.yml").read_text(encoding="utf-8")
    house = "\n".join(line for line in house.split("\n") if not line.strip().startswith("instead:"))
    (folder / "house.yml").write_text(house, encoding="utf-8")
    for kind in ("blends", "techniques", "situations", "classes"):
        (folder / kind).mkdir()
    blends = _blends(folder, writer, recipes * 2 // 3)
    _techniques(folder, writer, recipes // 4, blends)
    _situations(folder, writer, recipes - recipes * 2 // 3 - recipes // 4, blends)


def _blends(folder: Path, writer: Writer, count: int) -> dict[str, list[str]]:
    """Blends by placement."""
    made: dict[str, list[str]] = {"open-air": [], "foil": [], "on-scalp": []}
    written: list[str] = []
    for _ in range(count):
        name, entry_id = writer.name()
        placement = writer.draw.choice(["foil", "foil", "open-air", "on-scalp"])
        able = [each for each, (places, _) in LIGHTENERS.items() if placement in places]
        chosen = writer.draw.sample(able, min(len(able), writer.draw.choice([1, 1, 2])))
        parts = [writer.draw.choice(["1", "2", "3"]) for _ in chosen]
        ratio = "1:2" if any("clay" in each for each in chosen) else LIGHTENERS[chosen[0]][1]
        developer = "developer-20" if "violet-powder" not in chosen else "developer-10"
        lighteners = "\n".join(
            f"  - {{product: {each}, parts: {part}}}" for each, part in zip(chosen, parts, strict=True)
        )
        text = f"""name: {name}
summary: "{writer.why()}"
lighteners:
{lighteners}
developer: {{ratio: {ratio}, product: {developer}, also: [developer-5]}}
suits: {writer.facets(placement)}
{writer.refusals(written[-40:])}cautions: ["{writer.why()}"]
notes: |
  {writer.why()} {writer.why()} **{writer.why()}**

  {writer.why()} {writer.why()}
reviewed: {{on: 2026-10-{writer.draw.randint(10, 28)}, by: Ana}}
"""
        (folder / "blends" / f"{entry_id}.yml").write_text(text, encoding="utf-8")
        made[placement].append(entry_id)
        written.append(entry_id)
    return made


def _with(refusals: str, more: list[str]) -> str:
    """Refusals as they stand in an entry, with more lines of them."""
    return "\n".join([refusals.rstrip("\n") or "not_for:", *more]) + "\n" if more else refusals


def _refused(folder: Path, blends: list[str]) -> list[str]:
    """The refusals of some blends, without what to take instead: techniques that mix them refuse it too."""
    texts = [(folder / "blends" / f"{each}.yml").read_text(encoding="utf-8") for each in blends]
    lines = [line for text in texts for line in text.split("\n") if line.startswith("  - {when:")]
    return [re.sub(", instead: [a-z0-9-]+}$", "}", line) for line in lines]


def _techniques(folder: Path, writer: Writer, count: int, blends: dict[str, list[str]]) -> None:
    for _ in range(count):
        name, entry_id = writer.name()
        placement = writer.draw.choice([each for each, ids in blends.items() if ids])
        chosen = writer.draw.sample(
            blends[placement], min(len(blends[placement]), writer.draw.choice([1, 2, 3]))
        )
        # On the scalp all of it is rinsed at once, and so many sections would sit too long.
        pace = "" if placement == "on-scalp" else ", minutes_per_section: 1 minute"
        bowls = "\n".join(
            f'  - {{blend: {each}, where: "{writer.why()}", zones: [2, 3], '
            f"sections: {writer.draw.randint(8, 60)}, mix_per_section: {writer.draw.randint(2, 8)} g"
            f"{pace}}}"
            for each in chosen
        )
        steps = "\n".join(f'  - "{writer.why()}"' for _ in range(5))
        refused = _refused(folder, chosen)
        text = f"""name: {name}
summary: "{writer.why()}"
placement: {placement}
section_pattern: "{writer.why()}"
bowls:
{bowls}
steps:
{steps}
processing:
  {{minutes: 40 minutes, counts_from: each section, check_every: 5 minutes, stop_when: "{writer.why()}"}}
supplies: [{{product: foil-long, count: 20}}, {{product: gloves, count: 2}}]
suits: {writer.facets(placement)}
{_with(writer.refusals([]), refused)}cautions: ["{writer.why()}"]
reviewed: {{on: 2026-10-{writer.draw.randint(10, 28)}, by: Ana}}
"""
        (folder / "techniques" / f"{entry_id}.yml").write_text(text, encoding="utf-8")


def _situations(folder: Path, writer: Writer, count: int, blends: dict[str, list[str]]) -> None:
    every = [each for ids in blends.values() for each in ids]
    for _ in range(count):
        name, entry_id = writer.name()
        text = f"""name: {name} head
summary: "{writer.why()}"
hair: {{natural_level: {writer.draw.randint(1, 7)}, lift: {writer.draw.randint(1, 3)}}}
take:
  - {{blend: {writer.draw.choice(every)}, because: "{writer.why()}"}}
advice: "{writer.why()} {writer.why()}"
reviewed: {{on: 2026-10-{writer.draw.randint(10, 28)}, by: Ana}}
"""
        (folder / "situations" / f"{entry_id}.yml").write_text(text, encoding="utf-8")


if __name__ == "__main__":
    write_book(Path(sys.argv[1]), int(sys.argv[2]), int(sys.argv[3]) if len(sys.argv) > 3 else 1)
