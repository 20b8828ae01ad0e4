"""The handover book of an almanac."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from functools import partial
from typing import TYPE_CHECKING

from leafturn.answers.losses import losses
from leafturn.base import prose
from leafturn.base.bloom_stages import FIRST_OPEN
from leafturn.journal.entries import SheetNote, Withdrawal
from leafturn.papers.handover import Handover, PlantLine, handover_book
from leafturn.papers.open_questions import open_questions
from leafturn.tasks.model import DUE, OVER
from leafturn_tui.papers.drawings import garden_drawing, season_drawing
from leafturn_tui.papers.printed import Printed, foot_of
from leafturn_tui.render.heed import look_alike_kinds, walnut_roots
from leafturn_tui.render.parts.learnt_words import need_said, place_said
from leafturn_tui.safe_text import safe_text
from leafturn_tui.text import phrases

if TYPE_CHECKING:
    from leafturn.tasks.model import Job
    from leafturn_tui.almanac_face import AlmanacFace

YEAR = dt.timedelta(days=365)
LEARNT_MOST = 20
WAITING = (*DUE, "held")  # what may or should be done now, though its best day is past
OPENING = "When the plants noted most open in a usual spring follows."


def make_handover(almanac: AlmanacFace) -> Printed:
    """The book, with the garden from above and the season as a strip."""
    garden, on = almanac.garden, almanac.on
    standing = (line.entry for line in reversed(almanac.book()) if not line.taken_back)
    entries = tuple(entry for entry in standing if not isinstance(entry, SheetNote | Withdrawal))
    lost = losses(garden, entries)
    cards = {card.id: card for card in almanac.plants()}
    reviews = almanac.partners()
    book = Handover(
        on=on,
        garden=garden,
        plants=[PlantLine(plant=p, line=cards[p.id].line, where=cards[p.id].where) for p in garden.plants],
        lost=lost,
        year=tuple(_year_ahead(almanac)),
        dangers=tuple(_dangers(almanac)),
        partners=tuple(_partners(almanac)),
        learnt=tuple(_learnt(almanac)),
        questions=open_questions(
            garden,
            entries,
            lost,
            on,
            guessed={card.id for card in cards.values() if card.guessed},
            cultivar_wanted={
                r.plant for r in reviews if r.cultivar is None and r.standing in ("lacks", "thin")
            },
        ),
        notes=len(entries),
        since=min((e.on.year for e in entries), default=None),
    )
    pictures = {
        "garden": partial(garden_drawing, almanac),
        "season": partial(season_drawing, almanac, whole=True),
    }
    return Printed(
        paper=handover_book(book, safe_text),
        foot=foot_of(almanac, "handover book"),
        on=on,
        pictures=pictures,
    )


def _year_ahead(almanac: AlmanacFace) -> Iterator[Job]:
    """Jobs best done within twelve months: those still open now, the rest of this season, then the next as it
    looks now."""
    following = almanac.axis.next.start
    for season, first, last in (
        (almanac, almanac.on, following),
        (almanac.at(following), following, almanac.on + YEAR),
    ):
        for job in season.jobs():
            best = job.best.likely
            if job.state in OVER or best is None:
                continue
            is_waiting = season is almanac and job.state in WAITING
            if first <= best < last or (is_waiting and best < first):
                yield job


def _dangers(almanac: AlmanacFace) -> Iterator[str]:
    found = almanac.heed()
    yield from (line.says for line in found.falls)
    warned = [line.says for line in found.warned]
    for kind in look_alike_kinds(found):
        yield kind.says
        yield from (one for one in kind.cautions if not any(one in said for said in warned))
    yield from warned
    yield from walnut_roots(found)
    unknown = sorted({line.plant for line in found.juglone if line.suffers == "not known"})
    if unknown:
        yield f"Within reach of such roots, and not known to bear or to suffer them: {', '.join(unknown)}."
    yield from found.calls


def _partners(almanac: AlmanacFace) -> Iterator[str]:
    answers = almanac.answers()
    for review in almanac.partners():
        if review.standing not in ("lacks", "thin"):
            continue
        said = f"{review.plant}: enough pollen {prose.in_ten(review.adequacy, 'spring')}; {review.weakest}"
        answer = answers.get(review.plant)
        decided = (
            f". Decided {phrases.day(answer.since)} {answer.since.year}: {answer.said}" if answer else ""
        )
        yield f"{said}{decided}."


def _learnt(almanac: AlmanacFace) -> Iterator[str]:
    learnt = almanac.learnt()
    if learnt.notes:
        yield place_said(learnt)
    noted = [line for line in learnt.lines if line.notes][:LEARNT_MOST]
    if noted:
        yield OPENING
    for line in noted:
        yield need_said(line)
        yield from line.doubted
    yield from learnt.unused
    score = almanac.score()
    yield from [season.says for season in score.seasons] or [score.says]
    yield from (kind.says for kind in score.kinds if kind.what != FIRST_OPEN.name)
    yield from [score.nights.says] if score.nights is not None else []
