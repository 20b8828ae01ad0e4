"""What people type, turned into notes."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager


class NotUnderstood(ValueError):
    """Something typed cannot be read. The message is one plain sentence for the person."""


@contextmanager
def plainly() -> Iterator[None]:
    """What core does not take is not understood here: its sentence is for the person as it stands."""
    from leafturn.garden.editing.edits import NotTaken

    try:
        yield
    except NotTaken as why:
        raise NotUnderstood(str(why)) from None
