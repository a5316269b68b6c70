"""Where a site may be put: nowhere that holds what it is made from, and nowhere inside of that."""

import os
from collections.abc import Mapping
from pathlib import Path


def fault_of_place(site: Path, sources: Mapping[str, Path]) -> str | None:
    """Why a site cannot be put at ``site``, as a sentence; None where it can.

    ``sources``: what the site is made from, by a name such as ``the book's folder``. Links in either path are
    followed.
    """
    there = Path(os.path.realpath(site))
    if Path.home().resolve().is_relative_to(there):
        return f"The site cannot be put at {site}: a build replaces the folder, and that one is not a site's."
    for name, source in sources.items():
        found = Path(os.path.realpath(source))
        if there == found:
            return f"The site cannot be put at {site}: that is {name}."
        if there.is_relative_to(found):
            return f"The site cannot be put at {site}: that is inside {name}, {source}."
        if found.is_relative_to(there):
            return f"The site cannot be put at {site}: {name}, {source}, is in it, and a build replaces it."
    return None
