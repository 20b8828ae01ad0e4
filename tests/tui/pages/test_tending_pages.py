"""The pages of tending on the demo garden: nothing that tells what to do is cut off."""

from __future__ import annotations

import pytest

from leafturn.almanac import Almanac
from leafturn_tui.pages.climbers import ClimbersPage
from leafturn_tui.pages.heaps import HeapsPage
from leafturn_tui.pages.heed import HeedPage
from leafturn_tui.pages.larder import LarderPage
from leafturn_tui.render.heed import hazard_lines
from leafturn_tui.safe_text import ELLIPSIS
from leafturn_tui.text.layout import MARGINS


@pytest.mark.parametrize("columns", [60, 80, 120])
@pytest.mark.parametrize("page", [ClimbersPage(), HeapsPage(), HeedPage()])
def test_no_line_is_cut(
    page: ClimbersPage | HeapsPage | HeedPage, columns: int, weir_meadow: Almanac
) -> None:
    rows = page.rows(weir_meadow, columns - MARGINS)
    assert rows
    assert not [row.text for row in rows if ELLIPSIS in row.text]
    assert all(len(row.text.rstrip()) <= columns - MARGINS for row in rows)


@pytest.mark.parametrize("columns", [80, 120])
def test_the_gaps_of_the_larder_stand_above_the_weeks(columns: int, weir_meadow: Almanac) -> None:
    page = LarderPage()
    told = " ".join(" ".join(row.text.split()) for row in page.top(weir_meadow, columns - MARGINS))
    gap = weir_meadow.larder().forage_gaps[0]
    assert "nothing to pick or in store: 20 Aug to 2 Sep" in told, (
        "of the summer's fruit what hardly sets is left out"
    )
    assert f"under two plants open while bees fly: {gap.start.day} Jun" in told
    assert gap.fillers[0] in told
    assert len(page.rows(weir_meadow, columns - MARGINS)) == 52


def test_a_climber_tells_load_host_growth_and_where_to_train_it(weir_meadow: Almanac) -> None:
    lines = [row.text for row in ClimbersPage().rows(weir_meadow, 77)]
    first = lines.index(next(line for line in lines if line.startswith("rambler")))
    told = " ".join(" ".join(lines[first : first + 6]).split())
    assert "too much old-plum, declining lighten, held until 1 Sep" in told
    assert "0.4 m since winter if it was cut then: no cut is noted, so its height is not known" in told
    assert "train to another host by 2029 (mulberry, 36 m off" in told


def test_heaps_tell_what_fixes_nitrogen_and_care_who_wants_water(weir_meadow: Almanac) -> None:
    heaps = " ".join(row.text for row in HeapsPage().rows(weir_meadow, 117))
    assert "alder guild: " in heaps
    assert "cut and drop it as its flowers fade" in heaps
    care = dict(hazard_lines(weir_meadow.heed(), weir_meadow.water()))
    assert [plant for plant, _ in care["dry soil"]][:2] == ["kiwi-m", "hazel-new"]
    assert any("Established, leave: " in says for _, says in care["dry soil"])


def test_each_matter_of_care_is_told_once(weir_meadow: Almanac) -> None:
    for title, lines in hazard_lines(weir_meadow.heed(), weir_meadow.water()):
        says = [sentence for _, sentence in lines]
        assert len(says) == len(set(says)), title
    bark = dict(hazard_lines(weir_meadow.heed(), weir_meadow.water()))["bark"]
    assert len(bark) == 2
    assert bark[1][1] == "Guards that may come off, the bark being thick by now: found-lime, lone-pawpaw."
    assert "kiwi-m (2 years; off in 2034; lost here before to voles)" in bark[0][1]
    unknown = dict(hazard_lines(weir_meadow.heed(), weir_meadow.water()))[
        "roots of walnut kin: not known who bears them"
    ]
    assert len(unknown) == 2
    assert all("Not known is not harmless." in says for _, says in unknown)
