"""Jobs tell whose day it is, when they are late, and until when they can wait."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest
from tests.samples.climates import COLD
from tests.samples.garden_text import almanac_of, garden_text, own_job, plant

from leafturn.almanac import Almanac
from leafturn.journal.entries import Done, FruitSetNote, LetGo
from leafturn.tasks.model import DUE, Job
from leafturn_tui.papers.calendar import feeds
from leafturn_tui.render import round as page

FENCE = own_job("fence", "mend the fence", when="2027-04-01")
ASH = own_job("ash", "have the ash looked at", when="05-10", within_days=21, yearly=True)


def of(almanac: Almanac, start: str) -> Job | None:
    return next((job for job in almanac.jobs() if job.id.startswith(start)), None)


@pytest.mark.parametrize("on", ["2027-04-16", "2027-05-02", "2027-10-30", "2027-12-24", "2028-03-03"])
def test_a_dated_job_of_one_s_own_stays_late_until_it_is_done(tmp_path: Path, on: str) -> None:
    almanac = almanac_of(tmp_path, garden_text(FENCE), on)
    fence = of(almanac, "fence")
    assert fence is not None
    assert fence.state == "late"
    assert fence.days_late == (almanac.on - dt.date(2027, 4, 15)).days
    year = "" if almanac.on.year == 2027 else " 2027"
    assert fence.why[0] == f"Its time ended on 15 Apr{year}; it stays until it is done or let go."
    assert "mend the fence" in "\n".join(page.lines(almanac))
    for closed in (Done(on=almanac.on, task=fence.id), LetGo(on=almanac.on, task=fence.id, text="no")):
        later = almanac.note(closed, almanac.on)[0]
        assert of(later, "fence").state in ("done", "let go")  # type: ignore[union-attr]
        next_year = of(later.at(almanac.on + dt.timedelta(days=400)), "fence")
        assert next_year is None


def test_a_yearly_job_is_late_after_its_days(tmp_path: Path) -> None:
    late = of(almanac_of(tmp_path, garden_text(ASH), "2027-06-04"), "ash")
    assert late is not None
    assert (late.state, late.days_late) == ("late", 4)
    assert "Its time ended on 31 May;" in late.why[0]


@pytest.mark.parametrize(
    ("when", "opens"),
    [("after frost", "last frost"), ("after last frost", "last frost"), ("10 May", "05-10"),
     ("May 10", "05-10"),
     ("once pear fades", "bloom end of pear"),
     ("after bloom of pear", "bloom end of pear")],
)  # fmt: skip
def test_the_moment_of_a_job_of_one_s_own_is_written_as_people_talk(
    tmp_path: Path, when: str, opens: str
) -> None:
    pear = plant("pear", "pear", year=2000, at=[0, 0])
    text = garden_text(pear, own_job("talk", "mend it", when=when), own_job("rule", "mend that", when=opens))
    almanac = almanac_of(tmp_path, text, "2027-04-20")
    assert almanac.faults == ()
    talk, rule = of(almanac, "talk"), of(almanac, "rule")
    assert talk is not None
    assert rule is not None
    assert (talk.open, talk.close) == (rule.open, rule.close)


def test_a_moment_that_is_none_is_said_as_it_was_written(tmp_path: Path) -> None:
    (fault,) = almanac_of(
        tmp_path, garden_text(own_job("x", "mend it", when="after tea")), "2027-04-20"
    ).faults
    assert "'after tea' is no moment." in fault.message


def test_nothing_is_late_before_its_window_ends(tmp_path: Path) -> None:
    text = garden_text(plant("bush", "red currant", year=2015, at=[3, 3]))
    almanac = almanac_of(tmp_path, text, "2027-02-25")
    prune = of(almanac, "bush:winter-prune")
    assert prune is not None
    assert prune.best.likely < almanac.on <= prune.close.likely  # type: ignore[operator]
    assert prune.state == "due"


def test_a_hold_that_is_coming_ends_how_long_a_job_can_wait(tmp_path: Path) -> None:
    """Nests hold from 1 March to 31 August where no region says otherwise."""
    bush = plant("bush", "blackcurrant", year=2015, at=[3, 3])
    almanac = almanac_of(tmp_path, garden_text(bush, climate=COLD), "2027-01-15")
    prune = of(almanac, "bush:winter-prune")
    assert prune is not None
    assert prune.state in DUE
    held = of(almanac.at(dt.date(2027, 3, 2)), "bush:winter-prune")
    assert held is not None
    assert held.state == "held"
    assert prune.wait_until == prune.close.likely == dt.date(2027, 2, 28)


def test_a_group_s_sentence_names_the_plant_whose_day_it_is_and_lists_each_place(tmp_path: Path) -> None:
    pears = [
        plant("late-pear", "pear", year=2000, opens="10 May", at=[0, 40]),
        plant("early-pear", "pear", year=2000, opens="5 April", at=[30, 0]),
    ]
    almanac = almanac_of(tmp_path, garden_text(*pears), "2027-03-20")
    note = of(almanac, "pear:note-bloom")
    assert note is not None
    assert "of early-pear" in " ".join(note.why)
    assert "of late-pear" not in " ".join(note.why)
    assert [(m.plant, m.where) for m in note.members] == [
        ("late-pear", "40 m N of the gate"), ("early-pear", "30 m E of the gate"),
    ]  # fmt: skip
    shown = almanac.at(note.open.likely)  # type: ignore[arg-type]
    assert "late-pear, 40 m N of the gate; early-pear, 30 m E of the gate" in "\n".join(page.lines(shown))
    events = [e.description for f in feeds(shown) if f.file == "jobs-steward" for e in f.events]
    assert any("early-pear, 30 m E of the gate" in said for said in events)
    said = page.as_json(shown)
    assert "30 m E of the gate" in str(said)


def test_what_hardly_sets_is_neither_thinned_nor_propped_until_fruit_is_seen(tmp_path: Path) -> None:
    """A pear alone sets almost nothing; fruit that was seen is thinned all the same."""
    alone = almanac_of(tmp_path, garden_text(plant("lone", "pear", year=2000, at=[0, 40])), "2027-06-15")
    assert alone.partners()[0].standing == "lacks"
    assert of(alone, "pear:thin-fruit") is None
    assert of(alone, "pear:prop-limbs") is None
    seen = alone.note(FruitSetNote(on=dt.date(2027, 6, 1), plant="lone", set="good"), alone.on)[0]
    assert of(seen, "pear:thin-fruit") is not None


def test_a_second_chance_is_named_only_while_it_is_to_come(tmp_path: Path) -> None:
    text = garden_text(plant("kiwi", "hardy kiwi", sex="female", year=2014, at=[0, 8]))
    for day in ("2027-04-10", "2027-10-20"):
        almanac = almanac_of(tmp_path, text, day)
        missed = of(almanac, "kiwi:winter-cut")
        assert missed is not None
        assert missed.state == "passed"
        assert ("Instead summer cut" in missed.why[0]) == (day == "2027-04-10")
