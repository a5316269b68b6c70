"""The last build of a site by a command: whether its inputs are still the same, and what it published."""

import os
from dataclasses import replace
from pathlib import Path

from bowlbook.site.inputs import current, program_with_libraries
from bowlbook.site.record import Inputs, Record, Records


class LastBuild:
    """A site, and what the command is given to build it."""

    def __init__(
        self, recipes: Path, config_file: Path, site: Path, audience: str | None, beneath: str
    ) -> None:
        self.recipes, self.config_file, self.site = recipes, config_file, site
        self.audience, self.beneath = audience, beneath
        self.absolute = Path(os.path.normpath(site.absolute()))
        self.program = program_with_libraries()
        self.records = Records(recipes)
        self.record = self.records.load(self.absolute, self.program)

    def is_current(self) -> bool:
        """Whether a build now would read the same, and the site is as it was published."""
        inputs = self.record.inputs
        return (
            bool(inputs.digest)
            and self.with_digest(inputs) == inputs
            and self.record.is_intact(self.absolute)
        )

    def with_digest(self, inputs: Inputs) -> Inputs:
        """The inputs with the digest of what they are now, where it can be known."""
        if not inputs.paths:
            return Inputs()
        call = (str(self.config_file.absolute()), str(self.recipes), str(self.audience), self.beneath)
        return replace(inputs, digest=current(inputs, call))

    def save(self, record: Record) -> None:
        """Keep what is known of the site that was published."""
        self.records.save(self.absolute, self.program, record)
