"""What many gardens come to together, from rows as their parts hold them."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

from leafturn.fleet.parts import Parts, Settings
from leafturn.fleet.summary import Beside, FrostRisk, Lack, Skill, Summary, summary
from leafturn.fleet.tables import QUESTIONS, Answered, Question, Row

DAY = dt.date(2026, 4, 20)


def tree(garden: str, plant: str, standing: str, kind: str = "pear") -> Row:
    return (garden, "styria", plant, kind, "", standing, 0.3, 0.1, 0.5, "")


def night(garden: str, plant: str, chance: float) -> Row:
    return (garden, "styria", plant, "apricot", "flowers", chance, -2.0, -1.5, "handbook")


def foretold(miss: int, published: int | None, notes: int | None) -> Row:
    return ("a", "styria", "first open", "pip", "apple", DAY, DAY, DAY, miss, published, notes)


def told(folder: Path, questions: tuple[Question, ...] = QUESTIONS, **rows: tuple[Row, ...]) -> Summary:
    settings = Settings(on=DAY, questions=questions, form="csv")
    out = Parts(folder, settings, lambda: 0.0, str)
    ledger = ("a", "styria", "answered", "", "a", 46.9, 15.9, 1, 0)
    out.add(Answered(garden="a", state="answered", said="", rows={"gardens": (ledger,), **rows}))
    out.close()
    return summary(out, settings)


def test_who_lacks_partners_is_counted_by_kind_and_area(tmp_path: Path) -> None:
    rows = (
        tree("a", "p1", "lacks"), tree("a", "p2", "lacks"), tree("b", "p3", "thin"),
        tree("b", "p4", "served"), tree("b", "q", "served", "plum"),
        tree("b", "quince", "needs none", "quince"),
    )  # fmt: skip
    assert told(tmp_path, partners=rows).lacks == (
        Lack(kind="pear", area="styria", trees=4, lacking=2, thin=1, gardens=1),
        Lack(kind="plum", area="styria", trees=1, lacking=0, thin=0, gardens=0),
    )


def test_a_loss_by_frost_is_likely_from_even_odds_on(tmp_path: Path) -> None:
    rows = (night("a", "x", 0.5), night("b", "y", 0.9), night("b", "z", 0.4))
    assert told(tmp_path, frost=rows).frost == (
        FrostRisk(
            kind="apricot",
            area="styria",
            part="flowers",
            plants=3,
            likely=2,
            gardens=2,
            highest_chance=0.9,
        ),
    )


def test_forecasts_stand_beside_other_dates_where_both_were_made(tmp_path: Path) -> None:
    """Misses of 2, -4 and 3 days: 3 on the mean, a third too late; of the published date 8 and -4."""
    misses = (foretold(2, 8, None), foretold(-4, -4, None), foretold(3, None, None))
    found = told(tmp_path, forecasts=misses)
    (skill,) = found.skill
    assert skill == Skill(
        what="first open", kind="apple", events=3, missed_days=3.0, late_days=1 / 3,
        published=Beside(events=2, forecast_days=3.0, other_days=6.0), notes=None,
    )  # fmt: skip
    tables = {name: rows for name, _, rows in found.tables()}
    assert tables["forecasts"] == [("first open", "apple", 3, 3.0, 1 / 3, 2, 3.0, 6.0, 0, None, None)]
    assert (tables["partners"], tables["frost"]) == ([], [])


def test_of_what_was_not_asked_nothing_is_told(tmp_path: Path) -> None:
    found = told(tmp_path, ("round",), partners=(tree("a", "p1", "lacks"),))
    assert found == Summary(lacks=(), frost=(), skill=())
