"""What became of everything planted, by kind, told from the garden file and its notes."""

from __future__ import annotations

import datetime as dt

from leafturn.answers.losses import NOT_SAID
from leafturn.answers.survival import UNKNOWN, KindSurvival, survival_by_kind
from leafturn.garden.model import Garden, Place, Plant
from leafturn.journal.entries import Entry, LossNote, PlainNote, PlantedNote
from leafturn.kinds.library import load_library

BEGINS = PlainNote(on=dt.date(2016, 5, 1), text="the book begins")


def lost(plant: str, year: int, cause: str | None = None) -> LossNote:
    return LossNote(on=dt.date(year, 3, 1), plant=plant, cause=cause)


def told(*plants: Plant, notes: tuple[Entry, ...] = ()) -> dict[str, KindSurvival]:
    garden = Garden(place=Place(lat=46.9, lon=15.9), plants=plants)
    found = survival_by_kind(garden, load_library()[0], (BEGINS, *notes), dt.date(2027, 4, 19))
    return {one.kind: one for one in (*found.kinds, found.whole)}


def apples(many: int, year: int | None = 2017) -> tuple[Plant, ...]:
    return tuple(Plant(id=f"apple-{n}", kind="apple", year=year) for n in range(many))


def test_losses_are_counted_by_cause_and_the_share_follows() -> None:
    """Of eight planted in 2017 two fell after 1 and 3 years: 6 of 8 stand (Kaplan and Meier: 7/8 x 6/7)."""
    notes = (lost("apple-0", 2018, "Voles"), lost("apple-1", 2020, "voles "))
    apple = told(*apples(8), notes=notes)["apple"]
    assert (apple.planted, apple.lost, apple.standing, apple.watched) == (8, 2, 6, 8)
    assert apple.causes == (("voles", 2),)
    assert apple.course[-1].share == 0.75
    assert apple.says.startswith(
        "apple: 8 planted, 2 lost (voles 2). After 10 years 8 of 10 stand; it may be"
    )
    assert apple.says.endswith("from 8 plantings, which is few.")


def test_nothing_lost_and_too_few_to_tell() -> None:
    assert told(*apples(2))["apple"].says == "apple: 2 planted, none lost."
    said = told(*apples(3), notes=(lost("apple-0", 2019),))["apple"].says
    assert said == f"apple: 3 planted, 1 lost ({NOT_SAID} 1); too few to tell a share."


def test_what_cannot_be_dated_gives_no_share() -> None:
    one = told(*apples(6, year=None), notes=(lost("apple-0", 2019, "wind"),))["apple"]
    assert one.course == ()
    assert one.says.endswith("When it was planted or lost is not known, so no share is told.")
    gone = told(*apples(6), Plant(id="old", kind="apple", year=1990, state="gone"))["apple"]
    assert (gone.lost, gone.course) == (1, ())


def test_trees_older_than_the_journal_are_no_part_of_the_share() -> None:
    old = tuple(Plant(id=f"old-{n}", kind="apple", year=1980) for n in range(6))
    apple = told(*old, *apples(2), notes=(lost("apple-0", 2019, "frost"),))["apple"]
    assert apple.watched == 2
    assert apple.says.endswith(", 2 of them since the journal began; too few to tell a share.")


def test_who_comes_after_a_loss_is_another_planting() -> None:
    """The plum of the file was planted after the one that was lost; of the medlar the file knows nothing."""
    plum = Plant(id="plum", kind="european plum", year=2021)
    again = PlantedNote(on=dt.date(2020, 4, 1), plant="pear")
    found = told(
        plum,
        Plant(id="pear", kind="pear", year=2015),
        notes=(lost("plum", 2019, "canker"), lost("pear", 2018), again, lost("medlar", 2020)),
    )
    assert (found["european plum"].planted, found["european plum"].standing) == (2, 1)
    assert (found["pear"].planted, found["pear"].standing) == (2, 1)
    assert (found[UNKNOWN].planted, found[UNKNOWN].lost) == (1, 1)
    assert (found["all kinds"].planted, found["all kinds"].lost) == (5, 3)
