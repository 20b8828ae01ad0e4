"""Weeks of picking and of forage, and their gaps: in plain lines and as JSON."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from leafturn_tui.render.parts.groups import Groups, group_lines
from leafturn_tui.render.parts.question import Question
from leafturn_tui.render.parts.values import Answer
from leafturn_tui.text import phrases

if TYPE_CHECKING:
    from leafturn.answers.harvest_calendar import Larder, Week
    from leafturn_tui.almanac_face import AlmanacFace

QUESTION = Question(asked="When is there nothing to pick?", place=100)


def lines(almanac: AlmanacFace) -> Iterator[str]:
    """What is picked and what bees find in every week, the gaps, and what would fill them."""
    found = almanac.larder()
    dated = any(week.picked or week.kept or week.forage for week in found.weeks)
    for week in found.weeks if dated or not found.undated else ():
        when = f"week {week.number}, from {phrases.day(week.first, almanac.on)}"
        yield f"{when}, {len(week.picked)} to pick, {len(week.forage)} open. {week_words(week)}"
    yield from group_lines(larder_groups(found, almanac))


def as_json(almanac: AlmanacFace) -> Answer:
    """Weeks, gaps and swings."""
    return {"larder": almanac.larder()}


def week_lines(week: Week) -> list[str]:
    """The week in sentences."""
    kept = f" In store: {', '.join(week.kept)}." if week.kept else ""
    open_now = ", ".join(week.forage) if week.forage else "nothing"
    flying = "" if week.flying else " Bees are seldom about in this week."
    return [
        f"To pick: {', '.join(week.picked) if week.picked else 'nothing'}.{kept}",
        f"Open with nectar or pollen: {open_now}.{flying}",
    ]


def week_words(week: Week) -> str:
    """The same in one line."""
    return " ".join(week_lines(week))


def larder_groups(larder: Larder, almanac: AlmanacFace) -> Groups:
    """Gaps, fillers and swings."""
    from leafturn.answers.harvest_calendar import gap_words

    names = ", ".join(larder.not_known)
    unknown = [f"Of {names} it is not known what bees find."] if names else []
    barren = ", ".join(larder.barren)
    says = "hardly any fruit sets without a partner; a harvest or a set once noted counts them in."
    hardly = [f"{barren}: {says}"] if barren else []
    return (
        (
            "in no week, since no day is told of them here",
            [", ".join(larder.undated)] if larder.undated else [],
        ),
        ("nothing to pick and nothing in store", [gap_words(g, almanac.on) for g in larder.picking_gaps]),
        ("fewer than two plants open while bees fly", [gap_words(g, almanac.on) for g in larder.forage_gaps]),
        ("heavy and light years", [s.says for s in larder.swings]),
        ("left out of what is picked", hardly),
        ("not known", unknown),
    )
