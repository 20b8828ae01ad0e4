"""The three parts of a time away follow from the jobs' windows, and lose none that it touches."""

from __future__ import annotations

import datetime as dt

from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace
from rich.cells import cell_len
from tests.samples.papers import HELPERS, ON, job, likely

from leafturn.answers.frost import Frost
from leafturn.base.date_range import Likely
from leafturn.garden.model import Helper
from leafturn.papers.away import AwayPlan, Bloom, TimeAway, away_plan
from leafturn.papers.away_sheet import away_sheet
from leafturn.tasks.model import Hold, Job
from leafturn_tui.safe_text import safe_text

LEAVE, BACK = ON + dt.timedelta(days=5), ON + dt.timedelta(days=19)
TIME = TimeAway(leave=LEAVE, back=BACK, absent=("steward",))
NAMES = st.one_of(st.text(max_size=90), st.sampled_from(["\x1b[31mred", "x" * 300, "梨" * 60, "a\rb", ""]))


def plan(
    *leaving: Job, returning: tuple[Job, ...] | None = None, helpers: tuple[Helper, ...] = HELPERS
) -> AwayPlan:
    """A plan; on return the same jobs are known, none of them open, unless others are given."""
    same = tuple(replace(j, state="not yet") for j in leaving)
    return away_plan(TIME, leaving, same if returning is None else returning, helpers)


def parts(found: AwayPlan) -> dict[str, list[str]]:
    names = ("closing", "early", "away", "small", "waiting", "passed")
    return {name: [e.job.plant for e in getattr(found, name)] for name in names if getattr(found, name)}


def test_a_window_that_closes_meanwhile_is_for_before() -> None:
    assert parts(plan(job("a", opens=1, best=8, closes=12, harm=1.0))) == {"closing": ["a"]}


def test_a_window_that_may_close_meanwhile_is_for_before_too() -> None:
    # Closes likely two days after the return, in one year of ten before it.
    may = job("a", opens=1, best=15, closes=21, harm=1.0)
    assert parts(plan(may)) == {"closing": ["a"]}


def test_what_is_best_done_meanwhile_but_can_wait_is_better_done_early() -> None:
    assert parts(plan(job("a", opens=1, best=10, closes=60, harm=1.0))) == {"early": ["a"]}


def test_a_window_within_the_time_is_for_those_at_home() -> None:
    found = plan(
        job("a", opens=8, best=10, closes=14, harm=1.0), job("b", opens=8, best=10, closes=14, harm=0.4)
    )
    assert parts(found) == {"away": ["a"], "small": ["b"]}
    assert found.away[0].must


def test_a_crop_that_is_ripe_meanwhile_needs_someone_even_if_its_window_stays_open() -> None:
    found = plan(
        job("pick", opens=8, best=13, closes=40, harm=2.0),
        job("mulch", opens=8, best=30, closes=40, harm=2.0),
    )
    assert parts(found) == {"away": ["pick"]}
    assert found.away[0].must


def test_what_may_open_before_leaving_says_from_when() -> None:
    early = plan(job("a", opens=7, best=9, closes=14, harm=2.0)).away[0]  # one year in ten from day 4
    assert early.maybe_open == ON + dt.timedelta(days=4)
    assert plan(job("a", opens=9, best=9, closes=14, harm=2.0)).away[0].maybe_open is None


def test_a_held_job_opens_when_its_hold_ends() -> None:
    hold = Hold(reason="wet bark", until=ON + dt.timedelta(days=9))
    assert parts(plan(job("a", "held", opens=-5, best=10, closes=14, harm=1.0, hold=hold))) == {"away": ["a"]}
    later = Hold(reason="birds nest", until=BACK)
    assert parts(plan(job("a", "held", opens=-5, best=10, closes=40, harm=1.0, hold=later))) == {}


def test_a_job_whose_time_is_over_is_not_told_as_one_that_ends_meanwhile() -> None:
    """A job of one's own stays open after its day."""
    late = job("late", "late", opens=-40, best=-20, closes=-10, harm=1.0)
    ends = job("ends", opens=1, best=8, closes=12, harm=1.0)
    text = "\n".join(away_sheet(plan(late, ends), "Weir Meadow", ON).lines)
    first, second = text.index("Late already"), text.index("Their time ends")
    assert first < text.index("mulch late") < text.index("Its time ended 9 Apr") < second
    assert second < text.index("mulch ends") < text.index("Ends 1 May")


def test_no_reason_is_cut_off() -> None:
    """Whoever stays at home has only the paper."""
    cause = "The lemon has used 26 of the 26 mm its roots draw with ease. " * 4
    told = job(
        "a",
        opens=1,
        best=8,
        closes=12,
        harm=1.0,
        cause=cause,
        why=(cause, "Rule.", "Cost.", "Basis: a guess."),
    )
    assert "…" not in "\n".join(away_sheet(plan(told), "Weir Meadow", ON).lines)


def test_only_those_who_stay_are_asked() -> None:
    heavy = job("a", opens=8, best=10, closes=14, harm=1.0, helpers=("steward",), demands=("lift",))
    light = job("b", opens=8, best=10, closes=14, harm=1.0, helpers=("steward",))
    found = plan(heavy, light)
    assert {e.job.plant: e.who for e in found.away} == {"a": (), "b": ("bench helper",)}
    assert plan(light, helpers=HELPERS[:1]).away[0].who == ()


def test_on_return_comes_from_the_jobs_of_that_day() -> None:
    found = plan(
        job("early", opens=1, best=10, closes=60, harm=1.0),
        returning=(
            job("early", "late", closes=60),
            job("waits", "due", closes=30),
            job("gone", "passed", closes=12, next_open=dt.date(2028, 2, 20)),
            job("long gone", "passed", closes=-30),
            job("done", "done", closes=30),
        ),
    )
    assert parts(found) == {"early": ["early"], "waiting": ["waits"], "passed": ["gone"]}
    text = "\n".join(away_sheet(found, "Weir Meadow", ON).lines)
    assert "mulch gone: ended 1 May, next from 20 Feb 2028" in text


def test_a_season_that_ends_meanwhile_takes_its_next_date_from_the_new_one() -> None:
    old = job("a", opens=1, best=8, closes=12, harm=1.0)
    new = job("a", "not yet", id="a:mulch:2028", opens=300, best=305, closes=320)
    (gone,) = plan(old, returning=(new,)).passed
    assert (gone.job.id, gone.next_open) == (old.id, ON + dt.timedelta(days=300))
    (lost,) = plan(old, returning=()).passed
    assert lost.next_open is None


@settings(max_examples=60, deadline=None)
@given(
    opens=st.integers(-40, 60),
    lasts=st.integers(0, 90),
    share=st.floats(0, 1),
    harm=st.floats(0, 3),
    state=st.sampled_from(["not yet", "soon", "due", "late"]),
)
def test_every_window_that_closes_meanwhile_is_in_some_part(
    opens: int, lasts: int, share: float, harm: float, state: str
) -> None:
    one = job("a", state, opens=opens, best=opens + round(share * lasts), closes=opens + lasts, harm=harm)
    found = plan(one)
    told = [e for part in (found.closing, found.early, found.away, found.small) for e in part]
    assert len(told) <= 1
    closes, begins = one.close.likely, one.open.likely
    assert closes is not None
    assert begins is not None
    if closes < BACK and begins < BACK:
        assert told
        assert told[0].must
    if begins >= BACK:
        assert not told
    if begins > LEAVE:
        assert not found.closing + found.early


# ---- frost ---------------------------------------------------------------------------------------


def frost(last: Likely, first: Likely) -> Frost:
    return Frost(threshold=0.0, last=last, first=first, last_gone=0.3)


AUTUMN = likely(180)
BLOOMS = (
    Bloom(plant="pear", first=ON + dt.timedelta(days=2), last=ON + dt.timedelta(days=20), frost_chance=0.3),
    Bloom(
        plant="quince", first=ON + dt.timedelta(days=30), last=ON + dt.timedelta(days=40), frost_chance=0.3
    ),
    Bloom(plant="apple", first=ON + dt.timedelta(days=2), last=ON + dt.timedelta(days=20), frost_chance=0.01),
)


def test_frost_is_watched_for_plants_in_flower_while_it_may_come() -> None:
    found = away_plan(TIME, (), (), HELPERS, frost(likely(8), AUTUMN), BLOOMS).frost
    assert found is not None
    assert (found.plants, found.first, found.who) == (("pear",), None, ("bench helper",))
    text = " ".join(away_sheet(plan_with_frost(likely(8), AUTUMN), "", ON).lines)
    assert "The last frost is about 27 Apr" in text
    assert "touchy: pear." in text


def plan_with_frost(last: Likely, first: Likely) -> AwayPlan:
    return away_plan(TIME, (), (), HELPERS, frost(last, first), BLOOMS)


def test_no_frost_is_foreseen_once_it_is_past() -> None:
    assert plan_with_frost(likely(-20), AUTUMN).frost is None


def test_the_first_frost_of_autumn_is_told_when_it_may_come() -> None:
    found = plan_with_frost(likely(-150), likely(12)).frost
    assert found is not None
    assert found.first is not None


# ---- paper ---------------------------------------------------------------------------------------


@settings(max_examples=40, deadline=None)
@given(
    title=NAMES, where=NAMES, place=NAMES, helper=NAMES, why=st.lists(NAMES, max_size=3),
    opens=st.integers(-10, 25), closes=st.integers(0, 90), harm=st.floats(0, 3),
)  # fmt: skip
def test_any_names_keep_to_the_width(
    title: str, where: str, place: str, helper: str, why: list[str], opens: int, closes: int, harm: float
) -> None:
    one = job(
        "a", title=title, where=where, why=tuple(why), cautions=(title,), opens=opens, closes=opens + closes,
        harm=harm, demands=("lift",) if closes % 2 else (),
    )  # fmt: skip
    found = away_plan(TIME, [one], [one], (*HELPERS, Helper(name=helper)))
    lines = away_sheet(found, place, ON, safe_text).lines
    assert all(cell_len(line) <= 72 for line in lines)
    assert all(safe_text(line) == line for line in lines)


def test_a_quiet_time_says_so_in_every_part() -> None:
    text = "\n".join(away_sheet(plan(), "Weir Meadow", ON).lines)
    assert "Nothing has to be done before." in text
    assert "Nothing falls due that could not be done before or after." in text
    assert "Nothing is waiting and nothing has passed." in text
