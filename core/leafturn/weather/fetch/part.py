"""What has come of a file so far, beside a mark that says of which version of it."""

from __future__ import annotations

from pathlib import Path


class Part:
    """A file that is being gathered.

    Parameters
    ----------
    path : Path
        Where; the mark lies beside it.
    """

    def __init__(self, path: Path) -> None:
        self.path = path
        self._mark = path.with_name(f"{path.name}.mark")

    @property
    def size(self) -> int:
        """Bytes that have come."""
        try:
            return self.path.stat().st_size
        except OSError:
            return 0

    @property
    def validator(self) -> str:
        """What names the version of the file: its entity tag, or when it was changed; empty if not known."""
        try:
            return self._mark.read_text(encoding="ascii")
        except (OSError, ValueError):
            return ""

    def begin(self, validator: str) -> None:
        """Begin anew with a version of the file."""
        self.discard()
        if validator.isascii() and validator.isprintable():
            self._mark.write_text(validator, encoding="ascii")
        self.path.touch()

    def discard(self) -> None:
        """Throw away what has come."""
        self.path.unlink(missing_ok=True)
        self._mark.unlink(missing_ok=True)
