"""One plant's own page: what it is, what is known and from where, its year, its jobs, its notes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec.structs import replace

from leafturn.answers.kind_card import ConflictLine
from leafturn.answers.plant_card import PlantCard
from leafturn.bloom.model import SeasonEvent
from leafturn_tui.host import Key
from leafturn_tui.notes import grammar
from leafturn_tui.pages.base import Page
from leafturn_tui.pages.detail import titled
from leafturn_tui.pages.one_job import OneJob
from leafturn_tui.pages.plant_keys import PlantKeys
from leafturn_tui.text import phrases, states
from leafturn_tui.text.layout import (
    Column,
    Piece,
    Row,
    columns,
    joined_rows,
    paragraph,
    piece,
    wrapped_columns,
)

if TYPE_CHECKING:
    from leafturn_tui.almanac_face import AlmanacFace


class OnePlant(Page):
    """All that is known of one plant, each fact with its source."""

    def __init__(self, plant_id: str) -> None:
        self.plant_id = plant_id
        self._of_plant = PlantKeys(lambda desk: self.plant_id)

    def keys(self) -> tuple[Key, ...]:
        """What is done to a plant."""
        return self._of_plant.keys()

    def gone(self, almanac: AlmanacFace) -> bool:
        """Whether the plant is no longer in the garden file."""
        return almanac.plant(self.plant_id) is None

    def heading(self, almanac: AlmanacFace) -> str:
        """Name and kind."""
        card = almanac.plant(self.plant_id)
        if card is None:
            return ""
        return card.name if card.kind == card.name else f"{card.name}, {card.kind}"

    def rows(self, almanac: AlmanacFace, width: int) -> list[Row]:
        """Groups of lines; the bar reads each with its source."""
        card = almanac.plant(self.plant_id)
        if card is None:
            return []
        groups = [
            ("", _opening(card, width)),
            ("take care", _sentences(card.cautions, width, "fault")),
            ("jobs", _jobs(almanac, card, width)),
            ("this season", _events(card.events, almanac, width)),
            ("what is known", _facts(card, width)),
            ("where sources disagree", _conflicts(card.conflicts, width)),
            ("in your own words", _sentences(card.own_words, width)),
            (
                "noted",
                _sentences([grammar.entry_words(e, almanac.on, almanac.garden) for e in card.notes], width),
            ),
        ]
        return titled(
            (
                title,
                [
                    replace(r, key=r.key or ("" if r.joined else f"{title} {n}"), plant=card.id)
                    for n, r in enumerate(rows)
                ],
            )
            for title, rows in groups
        )

    def opened(self, almanac: AlmanacFace, row: Row) -> Page | None:
        """A job's page, from its line."""
        return OneJob(row.about) if almanac.job(row.about) else None


def _opening(card: PlantCard, width: int) -> list[Row]:
    guessed = "The kind is not in the library: its dates are the family's or the habit's, a guess."
    said = [card.botanical, card.line, card.where]
    rows = paragraph("; ".join(part for part in said if part), width)
    return rows + (paragraph(guessed, width, "held") if card.guessed else [])


def _sentences(lines: tuple[str, ...] | list[str], width: int, tone: str = "") -> list[Row]:
    return [r for line in lines for r in paragraph(line, width, tone)]


def _jobs(almanac: AlmanacFace, card: PlantCard, width: int) -> list[Row]:
    rows = []
    for job_id in card.jobs:
        job = almanac.job(job_id)
        if job is None:
            continue
        said = f"{states.words(job, almanac.on)}: {job.title}, best {phrases.likely(job.best, almanac.on)}"
        first = paragraph(said, width, most=1)[0]
        rows.append(replace(first, key=job.id, why=job.why[0] if job.why else "", about=job.id))
    return rows or [r for s in almanac.why_plant(card.id)[:3] for r in paragraph(s, width)]


def _events(events: tuple[SeasonEvent, ...], almanac: AlmanacFace, width: int) -> list[Row]:
    table = [event_cells(e, almanac) for e in events]
    laid = columns(table, (Column(18), Column(34, 12), Column(24, 8), Column()), width)
    second = [e.second.says for e in events if e.second is not None and e.second.says]
    return [*(Row(line) for line in laid), *_sentences(second, width)]


def event_cells(event: SeasonEvent, almanac: AlmanacFace) -> list[Piece]:
    """What happens, when, how it stands against the usual, and the basis."""
    when = phrases.event_day(event, almanac.on)
    return [piece(event.event), piece(when), piece(phrases.against_usual(event)), piece(event.basis)]


def _facts(card: PlantCard, width: int) -> list[Row]:
    table = [
        [piece(f.what), piece(f.value), piece(f.sure, "held" if f.sure == "guess" else "")]
        for f in card.facts
    ]
    laid = wrapped_columns(table, (Column(44, 12), Column(60, 16), Column(8)), width, most=8)
    rows = []
    for n, (f, lines) in enumerate(zip(card.facts, laid, strict=True)):
        why = f"{f.what}: {f.sure}; from {', '.join(filter(None, (f.source, f.at)))}"
        rows += joined_rows(lines, f"fact {n}", why, card.id)
    return rows


def _conflicts(conflicts: tuple[ConflictLine, ...], width: int) -> list[Row]:
    """What each source says of a matter, and what was taken; the bar reads the sources."""
    rows = []
    for conflict in conflicts:
        said = " ".join(reading.value for reading in conflict.readings)
        sources = "; ".join(dict.fromkeys(reading.source for reading in conflict.readings))
        for row in paragraph(f"{conflict.about}: {said} Taken: {conflict.taken}", width):
            rows.append(Row(row.pieces, why=f"{conflict.about}: from {sources}"))
    return rows
