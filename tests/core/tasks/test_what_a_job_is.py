"""What every job must tell, and what becomes of it: window, reasons, order, hours, ticks, let go, missed."""

from __future__ import annotations

import datetime as dt
import re
from collections import Counter
from pathlib import Path

import pytest
from msgspec.structs import replace
from tests.samples.garden_text import almanac_of, garden_text, heap, own_job, plant
from tests.samples.job_garden import note, on, slip_end, the
from tests.samples.jobs import STEWARD, job

from leafturn.almanac import Almanac
from leafturn.base import day_words
from leafturn.base.date_range import Likely
from leafturn.garden.model import Garden, Place, Point
from leafturn.kinds.library import load_library
from leafturn.tasks.model import Job
from leafturn.tasks.week.plan import week_round
from leafturn.tasks.week.route import length

MONDAY = dt.date(2027, 4, 19)


def closing(days: int) -> Likely:
    day = MONDAY + dt.timedelta(days=days)
    return Likely(day, day, day)


# ---- what a job is -----------------------------------------------------------------------------------


def test_every_job_has_its_window_trigger_source_minutes_and_demands(weir_meadow: Almanac) -> None:
    for found in weir_meadow.jobs():
        assert found.open.likely is not None
        assert found.best.likely is not None
        assert found.close.likely is not None
        assert found.open.likely <= found.best.likely <= found.close.likely
        assert found.minutes >= 0
        assert found.source
        assert found.basis in ("own record", "handbook", "rule of thumb", "guess")
        known = {"kneel", "lift", "ladder", "saw", "two people", "licensed", "light", "standing"}
        assert set(found.demands) <= known


def test_the_value_today_and_the_value_needed_stand_in_the_reasons(weir_meadow: Almanac) -> None:
    watch = weir_meadow.job("heartnut:note-bloom:2027")
    assert watch is not None
    said = re.search(r"has had (\d+) of about (\d+) mild days \(days of 10 C\)", " ".join(watch.why))
    assert said is not None
    assert 0 < int(said[1]) < int(said[2])
    turn = weir_meadow.job("bay-2:turn:2027")
    assert turn is not None
    assert "62 C" in turn.why[0]
    assert "44 C" in turn.why[0]


def test_what_a_moment_says_is_made_for_jobs_that_are_read(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Of the week of ten trees no sentence on their bloom is made before one of their jobs is read."""
    made = []
    comes = day_words.comes
    monkeypatch.setattr(day_words, "comes", lambda *asked: made.append(asked) or comes(*asked))
    pears = (plant(f"pear-{n}", "pear", at=[6 * n, 0], year=2012) for n in range(10))
    almanac = almanac_of(tmp_path, garden_text(*pears), MONDAY)
    assert len(almanac.round().jobs) > 0
    assert made == []
    pick = almanac.job("pear-3:pick:2027")
    assert pick is not None
    assert pick.why[0].startswith("Picking of pear-3 begins")
    assert 0 < len(made) < 4


# ---- why, and why not --------------------------------------------------------------------------------


def test_the_chain_of_reasons_is_three_to_six_sentences_and_ends_with_its_source(
    weir_meadow: Almanac,
) -> None:
    for found in weir_meadow.jobs():
        assert 3 <= len(found.why) <= 7, found.id
        assert found.why[-1].startswith("Basis: ")
        assert "Source: " in found.why[-1]
        assert all(said.endswith((".", "?")) for said in found.why)


def test_a_job_that_is_not_due_is_asked_the_same_way(weir_meadow: Almanac) -> None:
    later = weir_meadow.job("comice-1:pick:2027")
    assert later is not None
    assert later.state == "not yet"
    assert later.why[0].startswith("Picking of comice-1 begins about ")
    told = weir_meadow.why_plant("quince")
    assert "yet" in told[0]


# ---- order, walk, hours ------------------------------------------------------------------------------


def test_a_window_closing_in_two_days_outranks_a_mulch_past_its_best_day(folder: Path) -> None:
    almanac = on(folder, "2027-06-10")
    mulch = the(almanac, "whip:spring-mulch")
    assert mulch.state == "due"
    assert mulch.best.has_passed(almanac.on)
    closes = replace(mulch, id="x", harm=mulch.harm, close=closing(2), cost_of_delay=(mulch.harm + 0.1) / 2)
    assert closes.cost_of_delay > mulch.cost_of_delay


def test_the_walk_is_never_longer_than_the_list_as_it_came(weir_meadow: Almanac) -> None:
    week = weir_meadow.round()
    points = [j.point for j in week.jobs if j.state in ("due", "late") and j.point is not None]
    unordered = [j.point for j in sorted(week.jobs, key=lambda j: j.id) if j.point in points]
    assert week.walk.metres <= length([p for p in unordered if p is not None]) + 1e-6
    assert week.walk.stops[0] == "gate"


def test_the_list_is_cut_at_the_hours_and_the_rest_names_the_day_it_cannot_wait() -> None:
    garden = Garden(place=Place(lat=47.0, lon=15.9), helpers=(STEWARD,))
    jobs = [
        replace(
            job(f"job-{n}", minutes=60),
            verb=f"verb-{n % 3}", close=closing(3 + n), wait_until=closing(3 + n).likely,
            cost_of_delay=1 / (3 + n), point=Point(n, n),
        )
        for n in range(10)
    ]  # fmt: skip
    week = week_round(garden, jobs, MONDAY)
    assert week.hours_needed == 6
    assert len(week.jobs) == 6
    assert [j.wait_until for j in week.waiting] == [closing(3 + n).likely for n in range(6, 10)]
    assert week.notice == (
        "4 jobs wait for hands: all are taken, 6 h of 6 h given; the list says until when each can wait.",
    )
    assert week.lines[-1].state == "can wait"


# ---- ticks -------------------------------------------------------------------------------------------


def test_a_tick_with_who_and_minutes_teaches_durations_and_moves_the_next_date(folder: Path) -> None:
    almanac = on(folder, "2027-05-20")
    turn = the(almanac, "bay:turn")
    assert turn.state in ("due", "late")
    ticked = note(almanac, what="done", task=turn.id, by="Anna", minutes=55)
    after = the(ticked, "bay:turn")
    assert after.id == "bay:turn:2027:2"
    assert after.state == "not yet"
    assert after.minutes == 55
    assert after.open.likely is not None
    assert after.open.likely > almanac.on
    assert "Anna" in the(ticked, turn.id).why[0]


def test_minutes_of_a_note_for_several_jobs_are_shared_out(folder: Path) -> None:
    almanac = on(folder, "2027-02-01")
    both = ("apple:winter-prune:2027", "whip:winter-prune:2027", "kiwi:winter-cut:2027")
    ticked = note(almanac, what="done", tasks=both, minutes=90)
    assert the(ticked, both[0]).minutes == 30


# ---- let go, put off, missed -------------------------------------------------------------------------


def test_let_go_keeps_its_word_of_reason_and_returns_next_year(folder: Path) -> None:
    almanac = on(folder, "2027-02-01")
    gone = note(almanac, what="let-go", task="apple:winter-prune:2027", text="ill")
    let_go = the(gone, "apple:winter-prune:2027")
    assert let_go.state == "let go"
    assert "ill" in let_go.why[0]
    next_year = the(gone.at(dt.date(2028, 2, 1)), "apple:winter-prune")
    assert next_year.id == "apple:winter-prune:2028"
    assert next_year.state in ("due", "held", "late")


def test_a_job_put_off_far_waits_until_that_day(folder: Path) -> None:
    almanac = on(folder, "2027-02-01")
    later = note(almanac, what="put-off", task="apple:winter-prune:2027", until=dt.date(2030, 1, 1))
    waits = the(later, "apple:winter-prune:2027")
    assert waits.state == "not yet"
    assert waits.why[0] == "Put off until 1 Jan 2030."


def test_a_missed_cut_says_do_not_and_when_next_and_a_missed_look_only_that_it_went_by(folder: Path) -> None:
    almanac = on(folder, "2027-07-20")
    cut = the(almanac, "apple:winter-prune")
    assert cut.state == "passed"
    assert cut.harms_late
    assert "do not do it now" in cut.why[0]
    assert cut.reasons.next_open is not None
    assert "Next from" in cut.why[0]
    look = the(almanac, "apple:note-bloom")
    assert look.state == "passed"
    assert not look.harms_late
    assert look.why[0].startswith("Its time ended")
    assert "do not" not in look.why[0]
    assert "Next from" in look.why[0]


def test_a_look_over_after_wind_goes_by_without_a_warning_and_comes_with_the_next_wind(folder: Path) -> None:
    """Common practice, no source: what wind has loosened is looked for within days."""
    almanac = on(folder, "2027-06-01")
    windy = note(almanac, what="weather", wind=True, on=dt.date(2027, 6, 1))
    verb = "garden:look-after-wind"
    assert the(windy.at(dt.date(2027, 6, 3)), verb).state in ("due", "late")
    gone = the(windy.at(dt.date(2027, 6, 20)), verb)
    assert gone.state == "passed"
    assert "do not" not in gone.why[0]
    assert "It comes again when there is cause." in gone.why[0]


# ---- own jobs, and signs -----------------------------------------------------------------------------


@pytest.mark.parametrize(
    "when", ["2027-05-03", "05-03", "1 w after last frost", "first open", "2 w after bloom end"]
)
def test_a_job_of_ones_own_waits_for_its_day_frost_or_bloom(tmp_path: Path, when: str) -> None:
    own = own_job("rail", "mend the rail", when=when, plant="plum")
    (tmp_path / "garden.toml").write_text(slip_end(own))
    early = the(on(tmp_path, "2027-02-01"), "rail:own-job")
    assert early.state == "not yet"
    assert early.open.likely is not None
    assert dt.date(2027, 3, 1) < early.open.likely < dt.date(2027, 7, 1)
    opened = early.open.likely + dt.timedelta(days=2)
    if opened > dt.date(2027, 2, 1):
        assert the(on(tmp_path, opened.isoformat()), "rail:own-job").open.likely is not None


def test_jobs_follow_signs_a_noted_bloom_moves_what_comes_after(folder: Path) -> None:
    almanac = note(on(folder, "2027-04-10"), what="harvest", plant="apple", kg=20, on=dt.date(2026, 9, 20))
    before = the(almanac, "apple:thin-fruit").open.likely
    noted = note(almanac, what="bloom", plant="apple", stage="first open", on=dt.date(2027, 4, 8))
    after = the(noted, "apple:thin-fruit").open.likely
    assert before is not None
    assert after is not None
    assert after < before


def test_every_job_of_a_garden_keeps_its_stable_name(weir_meadow: Almanac) -> None:
    ids = [found.id for found in weir_meadow.jobs()]
    assert len(ids) == len(set(ids))
    assert all(len(job_id.split(":")) in (3, 4) for job_id in ids)
    assert all(isinstance(found, Job) for found in weir_meadow.jobs())


@pytest.mark.long
def test_no_two_jobs_have_one_id(tmp_path: Path) -> None:
    """Every kind in one guild: a young rose and an old lemon were watered by two jobs of one name."""
    kinds = sorted(load_library()[0].kinds)
    plants = (
        plant(f"p{n}", kind, year=2025, guild="hedge", at=[n % 20, n // 20]) for n, kind in enumerate(kinds)
    )
    almanac = almanac_of(tmp_path, garden_text(*plants, heap("bay", stage="working")), "2027-08-10")
    (twice,) = Counter(Counter(job.id for job in almanac.jobs()).values())
    assert twice == 1
