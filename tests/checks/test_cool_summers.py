"""Fruit of cool summers and of canes of one year, when growers pick and see it flower.

Pages read: Newburgh Orchard Group in The Press and Journal, 12 September 2020 (plums from mid-August to
mid-September); a grocer's page on Lyth Valley damsons (ripe by September); a gardener of London, 1 September
2015 (Autumn Bliss and Polka picked all August); a grower's journal of 15 July 2015 (first buds on this year's
canes of Heritage while last year's ripen). Temperatures are recalled, to about one degree C.
"""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest
from tests.samples.garden_text import almanac_of, garden_text, plant

EAST_SCOTLAND = (56.4, -3.2), {
    "tmax_c": [6.7, 7.2, 9.2, 11.6, 14.6, 17.3, 19.3, 18.9, 16.5, 12.9, 9.3, 6.8],
    "tmin_c": [1.0, 1.1, 2.2, 3.9, 6.2, 9.2, 11.1, 10.9, 9.0, 6.2, 3.2, 1.0],
}  # fmt: skip
LYTH_VALLEY = (54.3, -2.8), {
    "tmax_c": [7.2, 7.7, 9.7, 12.5, 15.8, 18.2, 19.8, 19.4, 17.2, 13.6, 10.1, 7.6],
    "tmin_c": [1.5, 1.5, 2.7, 4.3, 6.9, 9.8, 11.8, 11.6, 9.6, 6.9, 4.1, 1.8],
}  # fmt: skip
LONDON = (51.5, -0.2), {
    "tmax_c": [8.4, 9.0, 11.7, 15.0, 18.4, 21.6, 23.9, 23.4, 20.2, 15.8, 11.5, 8.8],
    "tmin_c": [2.7, 2.8, 4.2, 6.1, 9.2, 12.3, 14.4, 14.2, 11.6, 8.8, 5.4, 3.1],
}  # fmt: skip


def likely(
    folder: Path, site: tuple[tuple[float, float], dict[str, object]], thing: str, event: str
) -> dt.date:
    (lat, lon), climate = site
    almanac = almanac_of(folder, garden_text(thing, climate=climate, lat=lat, lon=lon), "2027-12-31")
    found = next(e.when.likely for e in almanac.season().events if e.event == event)
    assert found is not None
    return found


@pytest.mark.parametrize(
    ("site", "kind", "cultivar", "begins", "ends"),
    [
        (EAST_SCOTLAND, "european plum", "Victoria", "08-20", "09-20"),
        (EAST_SCOTLAND, "european plum", "Czar", "08-10", "09-15"),
        (LYTH_VALLEY, "damson", "", "09-01", "10-05"),
        (LONDON, "raspberry", "Autumn Bliss", "07-20", "08-10"),
        (LONDON, "raspberry", "Polka", "07-20", "08-10"),
    ],
)
def test_picking_begins_when_growers_begin(
    site: tuple[tuple[float, float], dict[str, object]],
    kind: str,
    cultivar: str,
    begins: str,
    ends: str,
    tmp_path: Path,
) -> None:
    named = {"cultivar": cultivar} if cultivar else {}
    ripe = likely(tmp_path, site, plant("one", kind, year=2010, **named), "ripe")
    assert dt.date.fromisoformat(f"2027-{begins}") <= ripe <= dt.date.fromisoformat(f"2027-{ends}")


def test_canes_of_this_year_flower_when_those_of_last_year_ripen(tmp_path: Path) -> None:
    """Buds on new canes of Heritage in the middle of July, as the old ones ripen; not in May with them."""
    opens = likely(tmp_path, LONDON, plant("one", "raspberry", year=2015, cultivar="Heritage"), "first open")
    ripe = likely(tmp_path, LONDON, plant("one", "raspberry", year=2015, cultivar="Glen Ample"), "ripe")
    assert abs((opens - ripe).days) <= 21


def test_rhubarb_is_picked_for_ten_weeks_and_no_longer_where_it_warms_slowly(tmp_path: Path) -> None:
    """For 8 to 10 weeks (gardening pages, read); months of St. John's, Newfoundland: recalled."""
    months = {
        "tmax_c": [-0.5, -0.9, 1.1, 5.4, 11.0, 15.8, 20.5, 20.6, 16.5, 10.9, 6.5, 2.2],
        "tmin_c": [-8.3, -8.7, -5.7, -1.0, 2.0, 6.3, 11.2, 12.0, 8.5, 4.0, 0.4, -4.8],
    }
    text = garden_text(plant("crown", "rhubarb", year=2010), climate=months, lat=47.56, lon=-52.71)
    pick = almanac_of(tmp_path, text, "2027-04-10").job("crown:pick")
    assert pick is not None
    first, last = pick.open.likely, pick.close.likely
    assert first is not None
    assert last is not None
    assert 7 * 7 <= (last - first).days <= 11 * 7
