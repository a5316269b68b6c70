"""Every gap of every start, filled in: an invented house whose entries pass the check together."""

from pathlib import Path

from commands.run import run

FILLED: dict[str, dict[str, str]] = {
    "house": {"currency": "CAD", "locale": "en-CA", "on_scalp_developer_limit": "20 volume"},
    "lightener": {
        "form": "cream",
        "strength": "gentle",
        "lifts": "4",
        "mixing_ratio.usual": "1:2",
        "placement": "[open-air, foil]",
        "developer_limit": "20 volume",
    },
    "developer": {"volume": "20"},
    "toner": {"form": "gel", "tone": "cool", "mixing_ratio.usual": "1:2", "developer_limit": "10 volume"},
    "additive": {"does": "Keeps the hair together."},
    "supply": {},
    "blend": {
        "lighteners.product": "my-lightener",
        "lighteners.parts": "1",
        "developer.ratio": "1:2",
        "developer.product": "my-developer",
        "suits.natural_level": "6-10",
        "suits.lift": "1-3",
        "suits.texture": "[fine, medium]",
        "suits.placement": "open-air",
        "reviewed.by": "Ines",
    },
    "technique": {
        "placement": "open-air",
        "section_pattern": "Four quarters.",
        "bowls.blend": "my-blend",
        "bowls.where": "Lengths and ends.",
        "bowls.zones": "[2, 3]",
        "bowls.sections": "12",
        "bowls.mix_per_section": "5 g",
        "bowls.minutes_per_section": "2 minutes",
        "steps": "Part the hair.",
        "steps.2": "Paint from the ends upwards.",
        "processing.minutes": "35 minutes",
        "processing.check_every": "5 minutes",
        "processing.stop_when": "Two levels up.",
        "suits.texture": "fine",
        "reviewed.by": "Ines",
    },
    "situation": {
        "hair.natural_level": "7",
        "hair.texture": "fine",
        "hair.tone": "neutral",
        "take.blend": "my-blend",
        "take.because": "It is gentle: first choice.",
        "advice": "Paint thinly.",
        "reviewed.by": "Ines",
    },
    "class": {
        "outcomes": "Paints a quarter of a head evenly.",
        "learners": "6",
        "duration": "3 hours",
        "outline.minutes": "60 minutes",
        "outline.what": "Theory.",
        "outline.2.minutes": "2 hours",
        "outline.2.what": "Painting.",
        "outline.2.technique": "my-technique",
        "demonstrations.technique": "my-technique",
        "demonstrations.heads": "1",
        "handout": "Paint from the ends upwards.",
        "reviewed.by": "Ines",
    },
    "trouble": {
        "at_risk": "hair",
        "signs": "Short pieces in the basin.",
        "now": "Rinse with cool water.",
        "advice_from": "common practice, no published source",
        "reviewed.by": "Ines",
    },
}


def begin_every_kind(recipes: Path) -> list[Path]:
    """Begin an entry of every kind with every gap filled in; their files."""
    for kind in FILLED:
        result = run("new", kind, f"My {kind}", *filled_in(kind), recipes=recipes)
        assert result.exit_code == 0 and "fill in" not in result.stdout, result.output
    return sorted(recipes.rglob("*.yml"))


def filled_in(kind: str) -> list[str]:
    """The words that fill in every gap of a kind's start."""
    return [f"--set={field}={value}" for field, value in FILLED[kind].items()]
