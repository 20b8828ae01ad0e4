"""The handover book holds the reasons, the promises and the lost, and asks what nobody wrote down."""

from __future__ import annotations

import datetime as dt

import msgspec
from hypothesis import given, settings
from hypothesis import strategies as st
from rich.cells import cell_len
from tests.samples.papers import ON, job

from leafturn.answers.losses import by_cause, losses
from leafturn.garden.model import Garden, Helper, Place, Plant, Point
from leafturn.journal.entries import CrownNote, Entry, LookNote, LossNote, PlantedNote
from leafturn.papers.handover import Handover, PlantLine, handover_book
from leafturn.papers.open_questions import open_questions
from leafturn_tui.safe_text import safe_text

HERE = Point(1.0, 2.0)
ASH = Plant(
    id="old-ash", kind="common ash", year=1928, point=HERE, state="declining", why="It shelters the east.",
    promise="A stem is kept for the birds.", after_death="keep a stem of 5 m",
)  # fmt: skip
PEAR = Plant(id="pear", kind="pear", cultivar="Comice", year=2012, point=HERE)
GONE = Plant(id="elm", kind="field elm", year=1950, point=HERE, state="gone")
GARDEN = Garden(
    place=Place(lat=46.9, lon=15.9, name="Weir Meadow"),
    plants=(ASH, PEAR, GONE),
    helpers=(Helper(name="steward", can=("saw",)),),
)
LOOKED = CrownNote(id="1", on=dt.date(2026, 8, 20), plant="old-ash", live_percent=33)
NOTES = (
    LossNote(id="2", on=dt.date(2023, 3, 1), plant="first-pear", cause="voles", text="no guard"),
    LossNote(id="3", on=dt.date(2025, 9, 1), plant="elm", cause="Wind"),
    PlantedNote(id="4", on=dt.date(2021, 11, 1), plant="first-pear"),
    LOOKED,
)


def book(**more: object) -> Handover:
    given: dict[str, object] = {
        "on": ON, "garden": GARDEN, "lost": losses(GARDEN, NOTES),
        "plants": [PlantLine(plant=p, line=p.kind, where="2 m N of the gate") for p in GARDEN.plants],
        "year": [job("hazel", harm=1.0, best=30), job("small", harm=0.2, best=31)],
        "dangers": ["old-ash leans over the path."], "partners": ["pear: 1 in 50."],
        "learnt": ["pear opens at 203 degree-days."], "questions": ["pear: planted in which year?"],
        "notes": 4, "since": 2021,
    }  # fmt: skip
    return Handover(**(given | more))  # type: ignore[arg-type]


def asked(garden: Garden = GARDEN, notes: tuple[Entry, ...] = NOTES, **more: object) -> str:
    given: dict[str, object] = {"guessed": (), "cultivar_wanted": ()}
    return "\n".join(open_questions(garden, notes, losses(garden, notes), ON, **(given | more)))  # type: ignore[arg-type]


def with_plant(plant: Plant) -> Garden:
    return msgspec.structs.replace(GARDEN, plants=(*GARDEN.plants, plant))


def test_the_lost_have_their_years_and_causes() -> None:
    found = losses(GARDEN, NOTES)
    assert [(x.plant, x.years, x.cause) for x in found] == [
        ("first-pear", "2021 to 2023", "voles"), ("elm", "1950 to 2025", "Wind"),
    ]  # fmt: skip
    assert by_cause(one.cause for one in found) == (("voles", 1), ("wind", 1))
    silent = losses(GARDEN, ())
    assert [(x.plant, x.years) for x in silent] == [("elm", "from 1950")]
    assert by_cause(one.cause for one in silent) == (("cause not noted", 1),)


def test_the_book_opens_with_the_lost_and_holds_what_was_written() -> None:
    text = "\n".join(handover_book(book()).lines)
    order = [
        "WEIR MEADOW",
        "THOSE THAT ARE NO MORE",
        "OPEN QUESTIONS",
        "PROMISES MADE",
        "WHAT COULD HURT SOMEONE",
        "THE FIRST YEAR",
        "WHAT STANDS HERE, AND WHY",
        "SHORT OF A PARTNER",
        "WHAT THE NOTES HAVE TAUGHT",
        "WHO HELPS",
        "HOW TO GO ON",
    ]
    places = [text.index(heading) for heading in order]
    assert places == sorted(places)
    for said in (
        "It shelters the east.",
        "A stem is kept for the birds.",
        "keep a stem of 5 m",
        "1950 to 2025: Wind",
        "by 19 May: mulch hazel",
        "and 1 small thing to note or look at",
        "steward: 4 hours a week",
    ):
        assert said in text
    # A tree that is gone is among the lost, not among those that stand.
    assert "elm" not in text[text.index("WHAT STANDS HERE") :]


def test_a_garden_with_all_told_asks_little() -> None:
    assert asked().splitlines() == [
        "Where are tools, keys, water and the weather record kept, and who owns the ground?"
    ]


def test_what_is_not_written_is_asked() -> None:
    bare = Plant(id="bare", kind="pear", state="weak", height_m=9.0, origin="came by itself")
    text = asked(with_plant(bare), guessed={"bare"}, cultivar_wanted={"bare"})
    for question in (
        "what is to be done when dead",
        "when was the crown last looked at",
        "to stay, to move or to go",
        "which cultivar",
        "planted in which year",
        "where?",
        "what is it? The library does not know its kind",
        "why just there",
    ):
        assert f"bare: {question}" in text, question
    assert "old-ash: when was the crown last looked at" in asked(notes=NOTES[:3])
    assert "stranger: named in notes" in asked(notes=(*NOTES, LookNote(id="9", on=ON, plant="stranger")))
    assert "elm: lost to what?" in asked(notes=(LOOKED,))
    alone = msgspec.structs.replace(GARDEN, helpers=(), plants=(PEAR,))
    assert "Who helps" in asked(alone)
    assert "Was anything promised" in asked(alone)


NAMES = st.one_of(st.text(max_size=90), st.sampled_from(["\x1b[31mred", "x" * 300, "梨" * 60, "a\rb", ""]))


@settings(max_examples=40, deadline=None)
@given(names=st.lists(NAMES, min_size=4, max_size=4), said=st.lists(NAMES, max_size=4))
def test_any_names_keep_to_the_width_and_come_out_safe(names: list[str], said: list[str]) -> None:
    plant = Plant(id=names[0], kind=names[1], why=names[2], promise=names[3], guild=names[1] or None)
    garden = Garden(
        place=Place(lat=-43.0, lon=-1.0, name=names[0], datum=names[2]),
        plants=(plant,),
        helpers=(Helper(name=names[1], can=tuple(said)),),
    )
    lost = losses(garden, [LossNote(id="1", on=ON, plant=names[3], cause=names[0], text=names[2])])
    lines = handover_book(
        book(garden=garden, lost=lost, plants=[PlantLine(plant=plant, line=names[2], where=names[3])],
             dangers=said, partners=said, learnt=said, questions=said,
             year=[job("a", title=names[0], where=names[1], cautions=tuple(said), harm=2.0)]),
        safe_text,
    ).lines  # fmt: skip
    assert all(cell_len(line) <= 72 for line in lines)
    assert all(safe_text(line) == line for line in lines)


def test_in_an_empty_garden_no_heading_stands_over_nothing() -> None:
    empty = msgspec.structs.replace(GARDEN, plants=(), helpers=())
    lines = handover_book(
        book(
            garden=empty,
            lost=(),
            plants=(),
            year=(),
            dangers=(),
            partners=(),
            learnt=(),
            questions=(),
            notes=0,
        )
    ).lines
    under = [
        next((later for later in lines[n + 1 :] if later), "")
        for n, line in enumerate(lines)
        if line and not line.strip("-")
    ]
    assert under
    assert all(not said.isupper() for said in under)
    assert "No plant stands in the garden file." in under
