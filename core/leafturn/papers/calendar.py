"""A calendar file: all-day events for phones, in the iCalendar format.

Source: RFC 5545 (iCalendar); the calendar's name as RFC 7986, 5.1.
"""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace

FOLD_OCTETS = 75  # RFC 5545, 3.1: lines should not be longer than 75 octets, without the line break
KEPT_DAYS = 60  # so long a cancelled event stays in the file; a guess at how often phones look
_BREAKS = re.compile("\r\n|[\n\r\v\f\x85\u2028\u2029]")
_UNPRINTABLE = re.compile("[\x00-\x08\x0e-\x1f\x7f]")
_PRODUCT = "-//leafturn//leafturn//EN"


@dataclass(frozen=True, kw_only=True)
class Event:
    """One all-day event.

    Parameters
    ----------
    uid : str
        The same from file to file for the same thing.
    on : date
        Its day.
    title, told, place : str
        What, the rest in words (lines parted by "\\n"), and where.
    sequence : int
        Rises whenever the event moved, was cancelled or came back.
    cancelled : bool
        Whether it is off: done, let go, past, or no longer known.
    """

    uid: str
    on: dt.date
    title: str
    told: str = ""
    place: str = ""
    sequence: int = 0
    cancelled: bool = False


def following(
    events: Iterable[Event],
    earlier: Mapping[str, Event],
    on: dt.date,
    others: Iterable[Mapping[str, Event]] = (),
) -> list[Event]:
    """Events with the sequence numbers that follow from an earlier file of the same calendar.

    One that moved counts on from the earlier file. One that was there and is no more stays for a while as
    cancelled, so that calendars which took it over take it off.

    Parameters
    ----------
    events : iterable of Event
        What is so now.
    earlier : mapping of uid to Event
        What the file to be replaced holds.
    on : date
        Today.
    others : iterable of mapping
        What other files hold, from which an event may have come over.
    """
    before = taken_over(earlier, others)
    found = [_after(event, before.get(event.uid)) for event in events]
    known = {event.uid for event in found}
    gone = (event for uid, event in earlier.items() if uid not in known and (on - event.on).days <= KEPT_DAYS)
    off = (e if e.cancelled else replace(e, cancelled=True, sequence=e.sequence + 1) for e in gone)
    return sorted([*found, *off], key=lambda e: (e.on, e.uid))


def taken_over(earlier: Mapping[str, Event], others: Iterable[Mapping[str, Event]]) -> dict[str, Event]:
    """An earlier file's events, and those of other files as called off there.

    So an event that goes from one helper's file to another's counts on from there, beyond its calling off.
    """
    found: dict[str, Event] = {}
    for other in others:
        for uid, event in other.items():
            if uid not in found or event.sequence >= found[uid].sequence:
                found[uid] = replace(event, cancelled=True, sequence=event.sequence + 1)
    return found | dict(earlier)


def _after(event: Event, before: Event | None) -> Event:
    if before is None:
        return event
    moved = (event.on, event.cancelled) != (before.on, before.cancelled)
    return replace(event, sequence=before.sequence + moved)


def as_bytes(name: str, events: Iterable[Event], on: dt.date) -> bytes:
    """A calendar as the bytes of its file.

    Parameters
    ----------
    name : str
        What the calendar is called.
    events : iterable of Event
    on : date
        The day it was made, which stands as the time stamp, at midnight UTC.
    """
    called = escaped(name)
    lines = [
        "BEGIN:VCALENDAR",
        "VERSION:2.0",
        f"PRODID:{_PRODUCT}",
        f"NAME:{called}",
        f"X-WR-CALNAME:{called}",
    ]
    for event in events:
        lines += _lines(event, on)
    lines.append("END:VCALENDAR")
    return b"".join(folded(line) for line in lines)


def _lines(event: Event, on: dt.date) -> Iterator[str]:
    yield "BEGIN:VEVENT"
    yield f"UID:{escaped(event.uid)}"
    yield f"DTSTAMP:{_figures(on)}T000000Z"
    yield f"DTSTART;VALUE=DATE:{_figures(event.on)}"
    # The end of an all-day event is the first day it no longer holds (RFC 5545, 3.6.1).
    if event.on < dt.date.max:
        yield f"DTEND;VALUE=DATE:{_figures(event.on + dt.timedelta(days=1))}"
    yield f"SEQUENCE:{event.sequence}"
    yield f"STATUS:{'CANCELLED' if event.cancelled else 'CONFIRMED'}"
    yield "TRANSP:TRANSPARENT"
    yield f"SUMMARY:{escaped(event.title)}"
    if event.told:
        yield f"DESCRIPTION:{escaped(event.told)}"
    if event.place:
        yield f"LOCATION:{escaped(event.place)}"
    yield "END:VEVENT"


def escaped(text: str) -> str:
    """Any string as an iCalendar TEXT value (RFC 5545, 3.3.11); every sort of line end becomes "\\n"."""
    text = _UNPRINTABLE.sub(" ", _BREAKS.sub("\n", text))
    text = text.encode("utf-8", errors="replace").decode("utf-8")
    for plain, written in (("\\", "\\\\"), (";", "\\;"), (",", "\\,"), ("\n", "\\n")):
        text = text.replace(plain, written)
    return text


def plain(text: str) -> str:
    """A TEXT value as the string it stands for."""
    return re.sub(r"\\(.)", lambda found: "\n" if found[1] in "nN" else found[1], text)


def folded(line: str) -> bytes:
    """A line in pieces of at most 75 octets, never parted within a letter, each ended by CRLF."""
    pieces: list[bytes] = []
    piece = b""
    for letter in line:
        octets = letter.encode("utf-8")
        if len(piece) + len(octets) > FOLD_OCTETS:
            pieces.append(piece)
            piece = b" "
        piece += octets
    return b"".join(p + b"\r\n" for p in (*pieces, piece))


def read_events(data: bytes) -> dict[str, Event]:
    """The events of a file that `as_bytes` wrote, by uid; what cannot be read of it is left out.

    Only what the next file must know is read: uid, day, title, sequence, and whether it is off.
    """
    text = data.decode("utf-8", errors="replace").replace("\r\n", "\n").replace("\n ", "").replace("\n\t", "")
    found: dict[str, Event] = {}
    fields: dict[str, str] = {}
    for line in text.split("\n"):
        name, _, value = line.partition(":")
        if line == "BEGIN:VEVENT":
            fields = {}
        elif line == "END:VEVENT":
            event = _event(fields)
            if event is not None:
                found[event.uid] = event
        else:
            fields.setdefault(name.partition(";")[0].upper(), value)
    return found


def _event(fields: Mapping[str, str]) -> Event | None:
    uid = plain(fields.get("UID", ""))
    day = re.fullmatch(r"(\d{4})(\d{2})(\d{2})", fields.get("DTSTART", ""))
    if not uid or not day:
        return None
    try:
        on = dt.date(*(int(part) for part in day.groups()))
    except ValueError:
        return None
    sequence = fields.get("SEQUENCE", "0")
    return Event(
        uid=uid,
        on=on,
        title=plain(fields.get("SUMMARY", "")),
        sequence=int(sequence[:9]) if sequence.isascii() and sequence.isdigit() else 0,
        cancelled=fields.get("STATUS", "").upper() == "CANCELLED",
    )


def _figures(day: dt.date) -> str:
    return f"{day.year:04d}{day.month:02d}{day.day:02d}"
