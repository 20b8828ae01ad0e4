"""How the columns of a weather file were understood, for whoever wants to look before it is used."""

from __future__ import annotations

from leafturn.base.value import Value


class ColumnRead(Value):
    """A column of a weather file: its name as written, and in words what it was read as."""

    name: str
    words: str


NOT_USED = "not used"
ASKED_ABOUT = "its unit is asked about; not used"
