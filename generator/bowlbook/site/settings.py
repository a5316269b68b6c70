"""Options of our own in ``mkdocs.yml``, read strictly: a slip there could publish the wrong copy."""

from collections.abc import Mapping
from typing import Any

from mkdocs.config.base import Config, ConfigErrors, ConfigWarnings, ValidationError
from mkdocs.config.config_options import Choice

from bowlbook.reading.nearest import did_you_mean, nearest


class StrictConfig(Config):  # type: ignore[no-untyped-call]  # MkDocs leaves it untyped
    """Options of which each must be known and have a value; MkDocs would warn, or take its default."""

    def validate(self) -> tuple[ConfigErrors, ConfigWarnings]:
        """What is wrong with the options, all at once, and what MkDocs warns of."""
        options = dict(self._schema)
        unknown = [key for key in self if key not in options]
        found: ConfigErrors = [
            (str(key), ValidationError(f"There is no such option. {did_you_mean(str(key), options)}"))
            for key in unknown
        ]
        for key, option in options.items():
            if self.get(key) is None and option.default is not None:
                wanted = " or ".join(getattr(option, "choices", ["a value"]))
                found.append((key, ValidationError(f"It is empty. Write {wanted}, or delete the line.")))
        failed, warnings = super().validate()
        return found + failed, [each for each in warnings if each[0] not in unknown]


class OneOf(Choice[str]):
    """One of some words, exactly as they are written."""

    def run_validation(self, value: object) -> str:
        """The word. Raises ValidationError, which names them all."""
        if isinstance(value, str) and value in self.choices:
            return value
        close = nearest(str(value), self.choices)
        meant = f' Did you mean "{close}"?' if close else ""
        raise ValidationError(f'"{value}" is not known. Write {" or ".join(self.choices)}.{meant}')


def misplaced_option(top: Mapping[str, Any], known: set[str], own: Config) -> str | None:
    """A sentence on one of our options that stands at the top of ``mkdocs.yml``; None where none does.

    ``top``: all that stands there, ``known``: what MkDocs knows of it.
    """
    for key in top:
        meant = None if key in known else nearest(str(key), own)
        if meant is not None:
            return f'mkdocs.yml: "{key}" is no option of MkDocs. Write {meant} under plugins, bowlbook.'
    return None
