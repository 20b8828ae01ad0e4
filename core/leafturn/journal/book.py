"""Notes in words, as the Book shows them."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass

from leafturn.journal.entries import Entry
from leafturn.journal.withdrawals import withdrawals


@dataclass(frozen=True, kw_only=True)
class BookLine:
    """One note as the Book shows it."""

    entry: Entry
    words: str
    taken_back: bool = False


def book_lines(written: Sequence[Entry], on: dt.date) -> tuple[BookLine, ...]:
    """All notes up to a day, the newest first and of one day the last written first.

    Parameters
    ----------
    written : sequence of Entry
        In the order they were written, withdrawals and what they take back among them.
    on : date
    """
    taken_back, by_id = withdrawals(written), {entry.id: entry for entry in written}
    lines = [
        BookLine(
            entry=entry,
            words=in_words(entry, by_id.get(entry.entry or "")),
            taken_back=entry.id in taken_back,
        )
        for entry in reversed(written)
        if entry.on <= on
    ]
    return tuple(sorted(lines, key=lambda line: line.entry.on, reverse=True))


def in_words(entry: Entry, target: Entry | None = None) -> str:
    """One line that can be read aloud: what was noted, of what, how much, by whom.

    `target` is the note that a withdrawal takes back, if it is known.
    """
    parts = [_what(entry) if target is None else f"taken back: {_what(target)} of {target.on:%-d %b}"]
    if entry.text and entry.what != "note":
        parts.append(entry.text)
    if entry.minutes:
        parts.append(f"{entry.minutes:.0f} min")
    if entry.by:
        parts.append(f"by {entry.by}")
    return ", ".join(part for part in parts if part)


def _what(entry: Entry) -> str:
    plant = entry.plant or entry.heap or ""
    match entry.what:
        case "done" | "let-go" | "put-off":
            jobs = ", ".join(job.words for job in entry.jobs)
            word = {"done": "done", "let-go": "let go", "put-off": "put off"}[entry.what]
            until = f" until {entry.until:%-d %b}" if entry.until else ""
            return f"{word}{until}: {jobs}"
        case "given":
            return f"given to {entry.to or 'anyone'}: {', '.join(job.words for job in entry.jobs)}"
        case "hold-lifted":
            return f"hold lifted: {', '.join(job.words for job in entry.jobs)}"
        case "bloom":
            return f"{plant}: {entry.stage or 'in bloom'}"
        case "harvest":
            amount = f"{entry.kg:g} kg" if entry.kg is not None else entry.amount or ""
            return f"{plant}: picked {amount}".rstrip()
        case "set":
            return f"{plant}: set {entry.set or 'noted'}"
        case "weather":
            told = [
                f"{label} {value:g} {unit}"
                for label, value, unit in (
                    ("min", entry.tmin_c, "C"),
                    ("max", entry.tmax_c, "C"),
                    ("rain", entry.rain_mm, "mm"),
                )
                if value is not None
            ]
            return "weather: " + (", ".join([*told, *(["wind"] if entry.wind else [])]) or "noted")
        case "reading":
            return f"{plant}: {entry.temp_c:g} C inside" if entry.temp_c is not None else f"{plant}: read"
        case "crown":
            return (
                f"{plant}: {entry.live_percent:g} % of the crown alive"
                if entry.live_percent is not None
                else f"{plant}: crown looked at"
            )
        case "cold":
            return f"cold night given: {entry.tmin_c:g} C" if entry.tmin_c is not None else "cold night"
        case "answered":
            if entry.text and (entry.answer or "").startswith("fix: "):
                return f"{plant}: fix chosen"  # the text that follows names it in full
            return f"{plant}: {entry.answer or 'answered'}"
        case "sheet":
            lines = len(entry.closes)
            return f"week sheet {entry.sheet} written, {lines} line{'' if lines == 1 else 's'}"
        case "withdraw":
            return f"taken back: note {entry.entry}"
        case "loss" | "damage":
            cause = f" by {entry.cause}" if entry.cause else ""
            return f"{plant}: {entry.what}{cause}"
        case "note":
            return f"{plant}: {entry.text}" if plant else entry.text or "note"
        case other:
            return f"{plant}: {other}" if plant else other
