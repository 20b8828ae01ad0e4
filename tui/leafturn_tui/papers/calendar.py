"""Calendar files of an almanac, each following the one it replaces."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from leafturn.base import prose
from leafturn.files.reasons import reason
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


def write_feeds(almanac: AlmanacFace, into: Path | None = None) -> tuple[list[Path], list[str]]:
    """Write every feed that has an event.

    A file of jobs left by a helper who is no more in the garden file has its events called off.

    Parameters
    ----------
    almanac : AlmanacFace
    into : Path, optional
        The folder the user named; without one they lie in `papers` beside the garden.

    Returns
    -------
    paths : list of Path
        The files written.
    refused : list of str
        A sentence for each reason why some could not be; the others are written all the same.
    """
    folder, below = (into, "") if into else (almanac.folder, f"{FOLDER}/")
    made = {f.file: f for f in feeds(almanac)}
    left = _of_jobs(folder, below) - made.keys()
    everything = [*made.values(), *(Feed(file=name, name=name, events=()) for name in sorted(left))]
    earlier = {f.file: read_events(earlier_paper(folder, below + f.file + ENDING)) for f in everything}
    written: list[Path] = []
    refused: dict[str, list[str]] = {}
    for feed in everything:
        others = [found for file, found in earlier.items() if file != feed.file]
        events = following(feed.events, earlier[feed.file], almanac.on, others)
        if events:
            data = as_bytes(feed.name, events, almanac.on)
            name = below + feed.file + ENDING
            try:
                written.append(write_paper(folder, name, data))
            except (OSError, ValueError) as why:
                refused.setdefault(reason(why, writing=True), []).append(name)
    return written, [f"{prose.joined(names)} could not be written: {why}." for why, names in refused.items()]


def _of_jobs(folder: Path, below: str) -> set[str]:
    """The files of jobs that lie there, without their ending; none where no folder can be."""
    try:
        return {path.stem for path in folder.glob(f"{below}jobs-*{ENDING}")}
    except (OSError, ValueError):
        return set()
