"""Calendar files of an almanac, each following the one it replaces."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from leafturn.papers.calendar import as_bytes, following, read_events
from leafturn.papers.feeds import Feed, bloom_feed, job_feeds
from leafturn_tui.papers.files import FOLDER, earlier_paper, write_paper
from leafturn_tui.safe_text import safe_text

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace

ENDING = ".ics"


def feeds(almanac: AlmanacFace) -> tuple[Feed, ...]:
    """A feed of jobs for each helper, and one of bloom."""
    week = almanac.round()
    dealt = {job.id: job for job in (*almanac.jobs(), *week.waiting, *week.jobs)}
    garden = almanac.garden.place.name.strip() or almanac.folder.resolve().name
    jobs = job_feeds(dealt.values(), almanac.garden.all_helpers, garden, almanac.on, safe_text)
    return (*jobs, bloom_feed(almanac.season().events, garden, almanac.on, safe_text))


def write_feeds(almanac: AlmanacFace, into: Path | None = None) -> list[Path]:
    """Write every feed that has an event; the files written.

    `into` is the folder the user named; without one they lie in `papers` beside the garden.

    A file of jobs left by a helper who is no more in the garden file has its events called off.

    Raises
    ------
    OSError
        If a file cannot be written; those before it are written then.
    """
    folder, below = (into, "") if into else (almanac.folder, f"{FOLDER}/")
    made = {f.file: f for f in feeds(almanac)}
    left = {p.stem for p in folder.glob(f"{below}jobs-*{ENDING}")} - made.keys()
    everything = [*made.values(), *(Feed(file=name, name=name, events=()) for name in sorted(left))]
    earlier = {f.file: read_events(earlier_paper(folder, below + f.file + ENDING)) for f in everything}
    written = []
    for feed in everything:
        others = [found for file, found in earlier.items() if file != feed.file]
        events = following(feed.events, earlier[feed.file], almanac.on, others)
        if events:
            data = as_bytes(feed.name, events, almanac.on)
            written.append(write_paper(folder, below + feed.file + ENDING, data))
    return written
