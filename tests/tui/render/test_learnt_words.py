"""What the notes taught in sentences: on the Book page and in the handover book."""

from __future__ import annotations

import pytest
from fake_almanac import FakeAlmanac
from fake_garden import day
from fake_tending import DOUBTED, LEARNT, SAYS, SCORE
from msgspec.structs import replace

from leafturn.answers.learnt import Learnt, NeedLine
from leafturn.assembly.looking_ahead import SlowAnswer
from leafturn_tui.pages.book import VIEWS, BookPage
from leafturn_tui.pages.learnt import need_rows, need_sheet
from leafturn_tui.pages.scores import score_rows
from leafturn_tui.papers.handover import OPENING, _learnt
from leafturn_tui.render.parts.learnt_words import NONE_YET, need_said, place_said

EMPTY = Learnt(place_days=0.0, place_uncertainty_days=1.5, notes=0, kinds=0, lines=())


@pytest.mark.parametrize(
    ("days", "said"),
    [
        (2.8, "Everything opens about 3 days later here than published"),
        (-1.2, "Everything opens about 1 day earlier here than published"),
        (0.3, "Everything opens here about when it is published to"),
    ],
)
def test_the_place(days: float, said: str) -> None:
    source = "give or take 1 day, from 41 notes of 9 kinds."
    assert place_said(replace(LEARNT, place_days=days)) == f"{said}, {source}"


def test_a_place_without_notes() -> None:
    assert place_said(EMPTY) == NONE_YET


SAID = {
    "comice-1": "comice-1: published 22 Apr (open records), this place 2 days later, own notes of 4 springs "
                "17 Apr; 18 Apr is used. Basis: own record.",
    "early-plum": "early-plum: published 5 Apr, this place 3 days later, own notes of 3 springs 30 Mar; "
                  "31 Mar is used. Basis: own record. It goes by its own dates more than by warmth.",
    "comice-2": "comice-2: no notes of its own; 4 springs of its kind here. Published 22 Apr (open records), "
                "this place 2 days later, its kind 1 day earlier here; 19 Apr is used. "
                "Basis: handbook, moved by notes of comice-1.",
    "quince": "quince: no notes of its own. Published 13 May, this place 2 days later, the garden file "
              "16 May; 15 May is used. Basis: own record.",
    "kiwi-f1": "kiwi-f1: no notes of its own. Published not to open here; it is not foreseen to open. "
               "Basis: guess. "
               "The climate here lies 2.5 degrees outside those it was learnt in: ranges are wider.",
}  # fmt: skip


@pytest.mark.parametrize("line", LEARNT.lines, ids=lambda line: line.plant)
def test_each_plant_in_words(line: NeedLine) -> None:
    assert need_said(line) == SAID[line.plant]


def test_one_spring_and_one_degree_are_said_as_one() -> None:
    line = NeedLine(plant="pear", kind="pear", published=day(4, 22), own=day(4, 20), used=day(4, 21), notes=1,
                    degrees_outside=1.0)  # fmt: skip
    said = need_said(line)
    assert "own notes of 1 spring 20 Apr" in said
    assert "lies 1 degree outside" in said


@pytest.mark.parametrize("width", [41, 57, 77, 117])
def test_the_rows_hold_every_plant_and_fit(width: int) -> None:
    almanac = FakeAlmanac()
    for rows in (need_rows(almanac, width), score_rows(almanac, width)):  # type: ignore[arg-type]
        assert all(len(row.text) <= width + (not row.key) for row in rows), "the bar's place counts too"
        keys = [row.key for row in rows if row.key]
        assert len(keys) == len(set(keys))
    plants = [row.plant for row in need_rows(almanac, width) if row.key.startswith("need ")]  # type: ignore[arg-type]
    assert plants == [line.plant for line in LEARNT.lines]


def test_doubted_notes_stand_under_their_plant_and_unused_ones_at_the_end() -> None:
    rows = need_rows(FakeAlmanac(), 77)  # type: ignore[arg-type]
    keys = [row.key for row in rows if row.key]
    assert keys.index("doubted comice-1 0") == keys.index("need comice-1") + 1
    assert keys[-1] == "unused 0"
    assert next(row.why for row in rows if row.key == "doubted comice-1 0") == DOUBTED


def test_a_garden_without_flowers_says_so() -> None:
    class Bare(FakeAlmanac):
        def learnt(self) -> Learnt:
            return EMPTY

    text = " ".join(row.text for row in need_rows(Bare(), 77))  # type: ignore[arg-type]
    assert "No flower is noted here yet" in text
    assert "No plant here flowers" in text
    assert need_sheet(Bare(), "quince") is None  # type: ignore[arg-type]


def test_only_the_score_waits_and_only_until_it_is_reckoned() -> None:
    class Fresh(FakeAlmanac):
        def ready(self, answer: SlowAnswer) -> bool:
            return answer != "score"

    page = BookPage()
    waits = []
    for page.view in range(len(VIEWS)):
        waits.append((page.slow(Fresh()) is not None, page.slow(FakeAlmanac()) is not None))  # type: ignore[arg-type]
    assert waits == [(view == "score", False) for view in VIEWS]


def test_the_handover_book_tells_the_same() -> None:
    told = list(_learnt(FakeAlmanac()))  # type: ignore[arg-type]
    assert told == [
        place_said(LEARNT),
        OPENING,
        SAID["comice-1"],
        DOUBTED,
        SAID["early-plum"],
        *LEARNT.unused,
        SAYS,
        SCORE.seasons[1].says,
    ]
