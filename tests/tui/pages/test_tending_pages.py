"""The pages of tending on the demo garden: nothing that tells what to do is cut off."""

from __future__ import annotations

import datetime as dt
from copy import copy

import pytest
from msgspec.structs import replace

from leafturn.almanac import Almanac
from leafturn.answers.harvest_calendar import Gap
from leafturn_tui.pages.climbers import ClimbersPage
from leafturn_tui.pages.heaps import HeapsPage
from leafturn_tui.pages.larder import LarderPage
from leafturn_tui.render.heaps import nitrogen_lines
from leafturn_tui.render.heed import hazard_groups
from leafturn_tui.safe_text import ELLIPSIS
from leafturn_tui.text.layout import MARGINS


@pytest.mark.parametrize("columns", [60, 80, 120])
@pytest.mark.parametrize("page", [ClimbersPage(), HeapsPage()])
def test_no_line_is_cut(page: ClimbersPage | HeapsPage, columns: int, weir_meadow: Almanac) -> None:
    rows = page.rows(weir_meadow, columns - MARGINS)
    assert rows
    assert not [row.text for row in rows if ELLIPSIS in row.text]
    assert all(len(row.text.rstrip()) <= columns - MARGINS for row in rows)


@pytest.mark.parametrize("columns", [80, 120])
def test_the_larder_is_three_hills_a_sum_and_a_week_in_words(columns: int, weir_meadow: Almanac) -> None:
    page = LarderPage()
    gap = weir_meadow.larder().forage_gaps[0]
    told = "; ".join(page.sum(weir_meadow))
    assert told.startswith("nothing 23 to 29 Aug"), "of the summer's fruit what hardly sets is left out"
    assert f"bees go short {gap.start.day} Jun" in told
    labels = [row.text[:11].strip() for row in page.rows(weir_meadow, columns - MARGINS)]
    assert labels.index("picked") < labels.index("in store") < labels.index("bees") < labels.index("To pick")
    page.as_list = True
    assert sum(not row.joined for row in page.rows(weir_meadow, columns - MARGINS)) == 53


@pytest.mark.parametrize(
    ("on", "told"),
    [
        (dt.date(2027, 4, 12), "nothing 12 to 25 Apr; 17 to 23 May; bees go short 7 to 13 Jun"),
        (dt.date(2027, 5, 19), "nothing 17 to 23 May; bees go short 7 to 13 Jun"),
        (dt.date(2027, 6, 14), "no more empty weeks this year"),
    ],
)
def test_a_gap_that_is_over_is_no_news(
    on: dt.date, told: str, weir_meadow: Almanac, monkeypatch: pytest.MonkeyPatch
) -> None:
    def gap(month: int, first: int, end: dt.date) -> Gap:
        return Gap(first=0, last=0, start=dt.date(2027, month, first), end=end, fillers=())

    empty = (
        gap(1, 4, dt.date(2027, 1, 10)),
        gap(4, 12, dt.date(2027, 4, 25)),
        gap(5, 17, dt.date(2027, 5, 23)),
    )
    few = (gap(3, 1, dt.date(2027, 4, 11)), gap(6, 7, dt.date(2027, 6, 13)))
    almanac, year = copy(weir_meadow), replace(weir_meadow.larder(), picking_gaps=empty, forage_gaps=few)
    monkeypatch.setattr(almanac, "larder", lambda: year)
    monkeypatch.setattr(almanac, "on", on)
    assert "; ".join(LarderPage().sum(almanac)) == told


def test_a_climber_tells_load_host_growth_and_where_to_train_it(weir_meadow: Almanac) -> None:
    lines = [row.text for row in ClimbersPage().rows(weir_meadow, 77)]
    first = lines.index(next(line for line in lines if line.startswith("rambler")))
    told = " ".join(" ".join(lines[first : first + 9]).split())
    assert "old-plum" in told
    assert "lighten, held until 1 Sep" in told
    assert "* too much for old-plum: Its leaves cover about 54 of 100 parts" in told
    whole = " ".join(next(c for c in weir_meadow.climbers() if c.plant == "rambler").says)
    assert "how high it stands on old-plum is not known" in whole
    assert "train to another host by 2029 (mulberry, 36 m off" in told


def test_heaps_tell_what_fixes_nitrogen_and_care_who_wants_water(weir_meadow: Almanac) -> None:
    heaps = " ".join(nitrogen_lines(weir_meadow.nitrogen()))
    assert "alder guild: " in heaps
    assert "cut and drop it as its flowers fade" in heaps
    care = dict(hazard_groups(weir_meadow.heed(), weir_meadow.water()))
    assert [says.split()[0] for says in care["dry soil"]][:2] == ["kiwi-m", "hazel-new"]
    assert any("Established, leave: " in says for says in care["dry soil"])


def test_each_matter_of_care_is_told_once(weir_meadow: Almanac) -> None:
    for title, says in hazard_groups(weir_meadow.heed(), weir_meadow.water()):
        assert len(says) == len(set(says)), title
    bark = dict(hazard_groups(weir_meadow.heed(), weir_meadow.water()))["bark"]
    assert len(bark) == 2
    assert bark[1] == "Guards that may come off, the bark being thick by now: found-lime, lone-pawpaw."
    assert "kiwi-m (2 years; off in 2034; lost here before to voles)" in bark[0]
    unknown = dict(hazard_groups(weir_meadow.heed(), weir_meadow.water()))[
        "roots of walnut kin: not known who bears them"
    ]
    assert len(unknown) == 2
    assert all("Not known is not harmless." in says for says in unknown)
