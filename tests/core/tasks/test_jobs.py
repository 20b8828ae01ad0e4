"""Jobs through the year, on a small invented garden whose weather is made up round its normals."""

import datetime as dt
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from tests.samples.garden_text import MONTHS, numbers
from tests.samples.job_garden import note, on, slip_end, the
from tests.samples.jobs import as_told

from leafturn.almanac import open_almanac
from leafturn.journal.entries import Done


def test_apples_are_pruned_in_winter_and_plums_in_summer(folder: Path) -> None:
    """Pome fruit dormant, stone fruit June to August against silver leaf: extension advice (recalled)."""
    winter, summer = on(folder, "2027-02-01"), on(folder, "2027-07-15")
    assert the(winter, "apple:winter-prune").state == "due"
    assert the(winter, "plum:summer-prune").state == "not yet"
    assert the(summer, "plum:summer-prune").state in ("due", "held")
    assert the(summer, "apple:winter-prune").state == "passed"
    window = the(winter, "plum:summer-prune")
    assert window.open.likely == dt.date(2027, 6, 10)
    assert window.close.likely == dt.date(2027, 8, 31)


def test_a_bleeding_climber_is_closed_well_before_its_leaves(folder: Path) -> None:
    """Kiwi is cut at least four weeks, here six, before bud break (handbooks, recalled)."""
    almanac = on(folder, "2027-02-01")
    cut = the(almanac, "kiwi:winter-cut")
    tie = the(almanac, "kiwi:tie-in")  # opens two weeks after leaf-out
    assert cut.close.likely is not None
    assert tie.open.likely is not None
    assert (tie.open.likely - dt.timedelta(days=14)) - cut.close.likely >= dt.timedelta(days=28)


def test_a_missed_window_is_passed_with_the_next_way_out(folder: Path) -> None:
    cut = the(on(folder, "2027-04-10"), "kiwi:winter-cut")
    assert cut.state == "passed"
    assert "do not do it now" in cut.why[0]
    assert "summer cut from" in cut.why[0]
    assert cut.reasons.next_open is not None
    assert cut.reasons.next_open > dt.date(2027, 11, 1)


def test_a_winter_job_done_in_december_stays_done_in_the_new_year(folder: Path) -> None:
    december = on(folder, "2026-12-20")
    job = the(december, "apple:winter-prune:2027")
    assert job.state in ("due", "held")
    note(december, what="done", task=job.id, by="steward", minutes=50)
    assert the(on(folder, "2027-02-01"), "apple:winter-prune:2027").state == "done"
    # the minutes noted are the estimate from now on
    assert the(on(folder, "2028-02-01"), "apple:winter-prune:2028").minutes == 50


def test_heap_readings_bring_turning_forward_and_ticking_moves_it_on(folder: Path) -> None:
    almanac = on(folder, "2027-04-10")
    almanac = note(almanac, what="done", task="bay:turn:2027", on=dt.date(2027, 4, 2))
    almanac = note(almanac, what="reading", heap="bay", temp_c=58.0)
    assert the(almanac, "bay:turn:2027:2").state in ("not yet", "soon")
    almanac = on(folder, "2027-04-19")
    almanac = note(almanac, what="reading", heap="bay", temp_c=44.0)
    turn = the(almanac, "bay:turn:2027:2")
    assert turn.state == "due"
    assert turn.why[0] == "bay was 58 C on 10 Apr and 44 C today, 17 days since it was turned."
    almanac = note(almanac, what="done", task=turn.id)
    assert the(almanac, "bay:turn:2027:2").state == "done"
    following = the(almanac, "bay:turn:2027:3")
    assert following.state in ("not yet", "soon")
    assert following.open.likely is not None
    assert following.open.likely > almanac.on + dt.timedelta(days=7)


def test_taking_a_tick_back_brings_the_job_back(folder: Path) -> None:
    almanac = on(folder, "2027-02-01")
    before = the(almanac, "apple:winter-prune")
    almanac, entry = almanac.note(Done(on=almanac.on, task=before.id), almanac.on)
    assert the(almanac, before.id).state == "done"
    almanac, _ = almanac.take_back(entry.id, almanac.on)
    assert as_told(the(almanac, before.id)) == as_told(before)


def test_nesting_holds_and_lets_go_by_itself(folder: Path) -> None:
    held = the(on(folder, "2027-05-01"), "rose:lighten")
    assert held.state == "held"
    assert held.hold is not None
    assert held.hold.until == dt.date(2027, 9, 1)
    assert held.why[0].startswith("Held until 1 Sep: birds may be nesting")
    assert the(on(folder, "2027-09-02"), "rose:lighten").state == "due"


def test_a_garden_may_have_its_own_nesting_dates(tmp_path: Path) -> None:
    (tmp_path / "garden.toml").write_text(slip_end(numbers(nesting_to="09-30")))
    assert the(on(tmp_path, "2027-09-02"), "rose:lighten").state == "held"


def test_wet_bark_holds_pruning_for_two_days(folder: Path) -> None:
    almanac = note(on(folder, "2027-07-15"), what="weather", tmin_c=12.0, tmax_c=20.0, rain_mm=9.0)
    held = the(almanac, "plum:summer-prune")
    assert held.state == "held"
    assert held.hold is not None
    assert held.hold.until == dt.date(2027, 7, 17)


def test_put_off_waits_until_its_day(folder: Path) -> None:
    almanac = on(folder, "2027-02-01")
    almanac = note(almanac, what="put-off", task="apple:winter-prune:2027", until=dt.date(2027, 2, 10))
    assert the(almanac, "apple:winter-prune:2027").state == "not yet"
    assert the(on(folder, "2027-02-10"), "apple:winter-prune:2027").state in ("due", "held", "late")


def test_one_note_closes_several_jobs(folder: Path) -> None:
    almanac = on(folder, "2027-02-01")
    ids = ("apple:winter-prune:2027", "kiwi:winter-cut:2027")
    almanac = note(almanac, what="done", tasks=ids)
    assert {the(almanac, job_id).state for job_id in ids} == {"done"}


def test_own_jobs_follow_their_moment(folder: Path) -> None:
    fence = the(on(folder, "2027-04-01"), "fence:own-job")
    assert fence.title == "mend the fence"
    assert fence.state in ("not yet", "soon")
    assert fence.open.likely is not None
    assert dt.date(2027, 4, 15) < fence.open.likely < dt.date(2027, 5, 20)


def test_seasons_swap_in_the_south(tmp_path: Path) -> None:
    swapped = {key: [*values[6:], *values[:6]] for key, values in MONTHS.items()}
    (tmp_path / "garden.toml").write_text(slip_end(lat=-43.4, climate=swapped))
    july, january = on(tmp_path, "2027-07-20"), on(tmp_path, "2028-01-15")
    assert the(july, "apple:winter-prune:2027").state in ("due", "held")
    assert the(january, "plum:summer-prune").state in ("due", "held")
    north_open = dt.date(2027, 12, 15) - dt.date(2027, 6, 10)
    opens = the(january, "plum:summer-prune").open.likely
    assert opens is not None
    assert abs((dt.date(2028, 6, 13) - opens) - north_open) <= dt.timedelta(days=3)


@pytest.mark.long
@given(st.dates(dt.date(2026, 11, 1), dt.date(2027, 12, 31)))
@settings(max_examples=20, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_every_day_every_job_is_whole(folder: Path, day: dt.date) -> None:
    almanac = open_almanac(folder, day)
    jobs = almanac.jobs()
    assert len({j.id for j in jobs}) == len(jobs)
    for job in jobs:
        assert 3 <= len(job.why) <= 6, job
        assert all(sentence.strip().endswith((".", "?", "!")) for sentence in job.why), job.why
        assert job.open.likely is None or job.close.likely is None or job.open.likely <= job.close.likely
        assert (job.state == "held") == (job.hold is not None)
        assert (job.state == "late") == (job.days_late > 0)
    week = almanac.round()
    assert week.hours_needed <= week.hours_available + 1e-9
    if not any(j.state in ("due", "late") for j in week.jobs):
        assert week.quiet


def test_ids_do_not_change_from_run_to_run_or_day_to_day(folder: Path) -> None:
    first, again = on(folder, "2027-05-01"), on(folder, "2027-05-01")
    assert [j.id for j in first.jobs()] == [j.id for j in again.jobs()]
    assert [as_told(j) for j in first.jobs()] == [as_told(j) for j in again.jobs()]
    assert {j.id for j in first.jobs()} <= {j.id for j in on(folder, "2027-05-02").jobs()} | {"bay:turn:2027"}
