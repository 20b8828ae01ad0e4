"""Which notes are taken back, and which stand. Entries come in the order they were written."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable

from leafturn.journal.entries import Entry, SheetNote, Withdrawal


def withdrawals(entries: Iterable[Entry]) -> dict[str, Withdrawal]:
    """Which notes are taken back, and by which withdrawal in force (the newest, if by several).

    A withdrawal stands unless one that is itself not taken back takes it back, to any depth. Withdrawals that
    take one another back in a ring, which only a slip of the hand can make, have no effect.

    Returns
    -------
    dict of id to Withdrawal
        Withdrawals that are themselves taken back are among the ids.
    """
    written = {entry.id: entry for entry in entries if isinstance(entry, Withdrawal)}
    unsettled = dict.fromkeys(written, 0)  # by id: withdrawals of it that are not settled yet
    for entry in written.values():
        if entry.entry in unsettled:
            unsettled[entry.entry] += 1
    # From those that nothing takes back inward: whether one stands is known once all that name it are
    # settled. What lies in a ring is never reached.
    ready = deque(given for given, number in unsettled.items() if not number)
    taken_back: set[str] = set()
    in_force: set[str] = set()
    while ready:
        given = ready.popleft()
        target = written[given].entry
        if given not in taken_back:
            in_force.add(given)
            taken_back.add(target)
        if target in unsettled:
            unsettled[target] -= 1
            if not unsettled[target]:
                ready.append(target)
    return {entry.entry: entry for given, entry in written.items() if given in in_force}


def not_withdrawn(entries: Iterable[Entry]) -> tuple[Entry, ...]:
    """The notes that count: all but withdrawals and what they take back."""
    known = tuple(entries)
    taken_back = withdrawals(known)
    return tuple(entry for entry in known if not isinstance(entry, Withdrawal) and entry.id not in taken_back)


def takeable(entries: Iterable[Entry]) -> tuple[Entry, ...]:
    """The notes that can be taken back, the one written last first.

    That a week sheet was written is left out: its paper is about, and its lines can be entered.
    """
    return tuple(entry for entry in not_withdrawn(entries)[::-1] if not isinstance(entry, SheetNote))
