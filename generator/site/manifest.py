"""The list of files that a build made, kept in the site, so that nothing else is ever replaced."""

from pathlib import Path

MANIFEST = ".bowlbook-files"


def files_under(folder: Path) -> list[str]:
    """Every file and link under a folder, relative, sorted; links to folders are not entered."""
    found = (path for path in folder.rglob("*") if path.is_symlink() or not path.is_dir())
    return sorted(path.relative_to(folder).as_posix() for path in found)


def write_manifest(site: Path) -> None:
    """Write the list, itself included."""
    names = sorted({*files_under(site), MANIFEST})
    (site / MANIFEST).write_text("\n".join(names) + "\n", encoding="utf-8")


def strangers(site: Path) -> list[str] | None:
    """Files of an output folder that no build made; all of them where there is no list. None: it is free."""
    if not site.exists() and not site.is_symlink():
        return None
    if not site.is_dir() or site.is_symlink():
        return [site.name]
    listed = site / MANIFEST
    made = set(listed.read_text(encoding="utf-8").split("\n")) if listed.is_file() else set()
    return [name for name in files_under(site) if name not in made]
