"""The last build of a site by a command: whether its inputs are still the same, and what it published."""

import os
from dataclasses import replace
from pathlib import Path

from bowlbook.cache.cache import Cache, Result, made_of
from bowlbook.site.inputs import current, libraries_digest
from bowlbook.site.record import Inputs, Record


class LastBuild:
    """A site, what the command is given to build it, and the record of its last publication."""

    def __init__(
        self, cache: Cache, recipes: Path, config_file: Path, site: Path, audience: str | None, beneath: str
    ) -> None:
        self.cache, self.recipes, self.config_file, self.site = cache, recipes, config_file, site
        self.audience, self.beneath = audience, beneath
        self.absolute = Path(os.path.normpath(site.absolute()))
        self._stored: Result[Record] = cache.result("site", str(self.absolute), libraries_digest(), Record)
        self._digested = Inputs()
        self.record = Record() if self._stored.digest is None else self._stored.value

    def is_current(self) -> bool:
        """Whether a build would read the same again, and the site is as it was published."""
        inputs = self.record.inputs
        return (
            bool(inputs.digest)
            and self.with_digest(inputs) == inputs
            and self.record.is_intact(self.absolute)
        )

    def with_digest(self, inputs: Inputs) -> Inputs:
        """The inputs with the digest of what they are, where it can be known, when it is first asked for.

        An edit after that is one for the next build, whether or not this one sees it.
        """
        if not inputs.paths:
            return Inputs()
        if replace(inputs, digest=self._digested.digest) != self._digested:
            call = (str(self.config_file.absolute()), str(self.recipes), str(self.audience), self.beneath)
            self._digested = replace(inputs, digest=current(inputs, call))
        return self._digested

    def save(self, record: Record) -> None:
        """Store what is known of the site that was published."""
        self._stored.keep(made_of(record))
        self.cache.save()
