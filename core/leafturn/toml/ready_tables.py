"""Packaged tables, parsed when the program is installed, so that a first start need not."""

from __future__ import annotations

from pathlib import Path

from leafturn.files.cache_folder import as_installed
from leafturn.toml.kept_tables import files_below, read_tables

TOGETHER = "kinds/data"  # the plant library, whose files are read as one
BEFORE = "base"  # whose numbers are read before there are tables


def make_ready(package: Path) -> list[Path]:
    """Parse the packaged TOML files of a folder and keep what they hold beside them.

    Parameters
    ----------
    package : Path
        The folder of `leafturn`.

    Returns
    -------
    list of Path
        What was made; without what the disk refused, which a first start makes for itself.

    Raises
    ------
    Unreadable
        If a file is no TOML.
    """
    library = package / TOGETHER
    read = {library: files_below(library)}
    for file in sorted(package.rglob("*.toml")):
        if library not in file.parents and file.parent.name != BEFORE:
            read[file] = {file.name: file.read_bytes()}
    for source, files in read.items():
        read_tables(files, [as_installed(source)])
    made = [kept for kept in map(as_installed, read) if kept.is_file()]
    for kept in made:
        kept.chmod(0o644)  # for whoever runs what another has installed
    return made
