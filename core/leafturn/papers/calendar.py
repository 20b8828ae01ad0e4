"""A calendar file: all-day events for phones, in the iCalendar format, written and read by `icalendar`.

The library is imported where it is used: it takes a tenth of a second, and most commands write no calendar.
Source: RFC 5545 (iCalendar); the calendar's name as RFC 7986, 5.1.
"""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Iterable, Mapping
from typing import TYPE_CHECKING

from msgspec.structs import replace

from leafturn.base.patterns import pattern
from leafturn.base.value import Value

if TYPE_CHECKING:
    import icalendar

KEPT_DAYS = 60  # so long a cancelled event stays in the file; a guess at how often phones look
_BREAKS = pattern("\r\n|[\n\r\v\f\x85\u2028\u2029]")
_UNPRINTABLE = pattern("[\x00-\x08\x0e-\x1f\x7f]")
_EVENT = pattern("^BEGIN:VEVENT\r?$.*?^END:VEVENT\r?$", re.MULTILINE | re.DOTALL)
_PRODUCT = "-//leafturn//leafturn//EN"


class Event(Value):
    """One all-day event.

    Parameters
    ----------
    uid : str
        The same from file to file for the same thing.
    on : date
        Its day.
    title, description, place : str
        What, the rest in words (lines parted by "\\n"), and where.
    sequence : int
        Rises whenever the event moved, was cancelled or came back.
    cancelled : bool
        Whether it is off: done, let go, past, or no longer known.
    """

    uid: str
    on: dt.date
    title: str
    description: str = ""
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
    import icalendar

    calendar = icalendar.Calendar()
    calendar.add("version", "2.0")
    calendar.add("prodid", _PRODUCT)
    called = icalendar.vText(_carried(name))  # else the library would not escape the name of a calendar
    calendar.add("name", called)
    calendar.add("x-wr-calname", called)
    for event in events:
        calendar.add_component(_written(event, on))
    written: bytes = calendar.to_ical()
    return written


def _written(event: Event, on: dt.date) -> icalendar.Event:
    import icalendar

    made = icalendar.Event()
    made.add("uid", _carried(event.uid))
    made.add("dtstamp", dt.datetime.combine(on, dt.time(), dt.UTC))
    made.add("dtstart", event.on)
    # The end of an all-day event is the first day it no longer holds (RFC 5545, 3.6.1).
    if event.on < dt.date.max:
        made.add("dtend", event.on + dt.timedelta(days=1))
    made.add("sequence", event.sequence)
    made.add("status", "CANCELLED" if event.cancelled else "CONFIRMED")
    made.add("transp", "TRANSPARENT")
    made.add("summary", _carried(event.title))
    if event.description:
        made.add("description", _carried(event.description))
    if event.place:
        made.add("location", _carried(event.place))
    return made


def _carried(text: str) -> str:
    """What a TEXT value can hold of any string (RFC 5545, 3.3.11): no controls, and one sort of line end."""
    text = _UNPRINTABLE.sub(" ", _BREAKS.sub("\n", text))
    return text.encode("utf-8", errors="replace").decode("utf-8")


def read_events(data: bytes) -> dict[str, Event]:
    """The events of a file that `as_bytes` wrote, by uid; an event that cannot be read is left out.

    Only what the next file must know is read: uid, day, title, sequence, and whether it is off.
    """
    found = (_read(written) for written in _EVENT.findall(data.decode("utf-8", errors="replace")))
    return {event.uid: event for event in found if event is not None}


def _read(written: str) -> Event | None:
    import icalendar

    try:
        found = icalendar.Event.from_ical(written)
        if not isinstance(found, icalendar.Event) or not found.uid or type(found.DTSTART) is not dt.date:
            return None
        return Event(
            uid=str(found.uid),
            on=found.DTSTART,
            title=str(found.get("summary", "")),
            sequence=max(found.sequence, 0),
            cancelled=found.status == icalendar.STATUS.CANCELLED,
        )
    except ValueError:  # of what the library cannot read, and of two values where one may stand
        return None
