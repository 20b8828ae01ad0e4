"""Choosing what shall be done for a tree without a partner."""

from __future__ import annotations

import datetime as dt
from functools import partial
from typing import TYPE_CHECKING

from leafturn.partners.decisions import content_entry, remedy_entry
from leafturn.partners.model import Remedy, TreeReview
from leafturn_tui.panels.choice import Choice, Option
from leafturn_tui.text import phrases

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace
    from leafturn_tui.host import Host


def choose_remedy(desk: Host, review: TreeReview) -> None:
    """Lay out what would help a tree; what is picked is noted, and makes jobs."""
    if not review.remedies:
        desk.say(f"{review.plant}: nothing better is known than what stands there.")
        return
    remedies = review.remedies[:9]
    options = [
        Option(str(n), _offer(remedy, desk.almanac.on), partial(_take, desk, review, remedy))
        for n, remedy in enumerate(remedies, 1)
    ]
    options.append(Option("c", "be content without fruit", partial(be_content, desk, review)))
    desk.ask(Choice(f"{review.plant}: what shall be done?", options))


def _offer(remedy: Remedy, on: dt.date) -> str:
    return f"{remedy.what}: {phrases.works_words(remedy.year, remedy.adequacy, on)}"


def _take(desk: Host, review: TreeReview, remedy: Remedy) -> None:
    southern = desk.almanac.garden.place.southern
    before = {job.id for job in desk.almanac.jobs()}

    def jobs_made(almanac: AlmanacFace) -> str:
        made = [job for job in almanac.jobs() if job.id not in before and review.plant in job.plants]
        first = min(made, key=lambda job: job.open.likely or dt.date.max, default=None)
        if first is None or first.open.likely is None:
            return ""
        return f"; first job: {first.title}, from {phrases.day(first.open.likely, almanac.on)}"

    desk.keep(remedy_entry(review.plant, remedy, desk.almanac.on, southern=southern), jobs_made)


def be_content(desk: Host, review: TreeReview) -> None:
    """Note that nothing is to be done about a tree's partners."""
    desk.keep(content_entry(review.plant, desk.almanac.on))
