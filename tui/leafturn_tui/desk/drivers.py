"""Textual's driver of a terminal, which here is written to at once, and in which Esc is always a key."""

from __future__ import annotations

import contextlib
from collections.abc import Iterable

from textual import events
from textual._xterm_parser import XTermParser
from textual.drivers import linux_driver
from textual.drivers.linux_driver import LinuxDriver

from leafturn_tui.desk.straight import OTHER_SCREEN
from leafturn_tui.desk.turns import given_away

ESC = "\x1b"
# What may follow an escape character in a control sequence or string: ECMA-48, sections 5.3 and 5.6, and the
# SS3 of function keys.
BEGINS_A_SEQUENCE = "[O]P_^X"


class EscIsAKey(XTermParser):
    """Reads Esc and a key that come together, typed quickly or over a slow line, as these two keys.

    Textual takes such a pair for a key held with Alt, or for the letter that some keyboards give with it: Esc
    was lost, and a 2 was no page. No key here wants Alt; one that is held with it does what Esc and it do.
    """

    def _sequence_to_key_events(self, sequence: str, alt: bool = False) -> Iterable[events.Key]:
        pair = len(sequence) == 2 and sequence[0] == ESC and sequence[1] not in ESC + BEGINS_A_SEQUENCE
        if alt or pair:
            yield events.Key("escape", ESC)
            sequence = sequence[-1]
        yield from super()._sequence_to_key_events(sequence)


linux_driver.XTermParser = EscIsAKey  # type: ignore[attr-defined]  # its parser is made by this name


class AtOnce(LinuxDriver):
    """Writes each picture in one piece, before any thread has the interpreter again.

    Textual's own hands it to a thread, which must then wait for its turn among those at work.
    """

    _held: tuple[str, ...] = ()

    def write(self, data: str) -> None:
        """Keep something to be written."""
        self._held += (data,)

    def flush(self) -> None:
        """Write what was kept."""
        held, self._held = "".join(self._held), ()
        with given_away(), contextlib.suppress(OSError):  # of a terminal that has gone, a signal tells
            print(held, end="", file=self._file, flush=True)


class OverPicture(AtOnce):
    """Of a terminal on which the first picture stands already.

    It does not ask anew for the screen that the picture stands on, which would clear it for a moment.
    Continued after it was stopped it asks for it as ever.
    """

    _picture_stands = True

    def write(self, data: str) -> None:
        """Keep something to be written."""
        if self._picture_stands and data == OTHER_SCREEN:
            self._picture_stands = False
        else:
            super().write(data)
