"""How much of what decides for the commonest kinds was read on a page."""

from __future__ import annotations

from leafturn.base.value import Value
from leafturn.bloom.priors.fitted import fitted_kinds
from leafturn.kinds.checks.reading import Reading, commonest, reading_of
from leafturn.kinds.library import Library
from leafturn.kinds.packaged import kind_tables


class KindsRead(Value):
    """The commonest kinds with what of their deciding facts was read, those with most unread facts first."""

    kinds: tuple[Reading, ...]

    @property
    def facts(self) -> int:
        """How many facts decide."""
        return sum(kind.facts for kind in self.kinds)

    @property
    def read(self) -> int:
        """How many of them were read."""
        return sum(kind.read for kind in self.kinds)

    @property
    def percent(self) -> float:
        """The share that was read [%]."""
        return 100 * self.read / self.facts


def kinds_read(library: Library) -> KindsRead:
    """Count what was read of the packaged kinds; a steward's own file is not looked at."""
    tables = kind_tables()
    readings = (reading_of(tables.kind(name), library.sources, fitted_kinds()) for name in commonest().kinds)
    return KindsRead(kinds=tuple(sorted(readings, key=lambda kind: -len(kind.unread))))
