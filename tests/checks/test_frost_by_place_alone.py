"""Last freezes of spring told from where a garden lies and nothing else, against towns.

British towns: a gardening page's list of last frosts, read, whose middle day is taken. The others: means of
airports' records, recalled to about a week.
"""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import numpy as np
from tests.samples.garden_text import almanac_of, plant

TOWNS = {  # latitude, longitude, usual last freeze
    "Norwich": (52.6, 1.3, "04-05"), "Cambridge": (52.2, 0.1, "04-15"), "Oxford": (51.8, -1.3, "04-25"),
    "London": (51.5, -0.3, "03-16"), "Birmingham": (52.5, -1.9, "04-25"), "Plymouth": (50.4, -4.1, "03-26"),
    "Glasgow": (55.9, -4.3, "04-05"), "Belfast": (54.6, -5.9, "04-05"), "York": (54.0, -1.1, "05-05"),
    "Bergen": (60.4, 5.3, "04-25"), "Stockholm": (59.3, 18.0, "05-05"), "Berlin": (52.5, 13.4, "04-24"),
    "Warsaw": (52.2, 21.0, "04-27"), "Paris": (48.8, 2.3, "04-08"), "Kyiv": (50.4, 30.5, "04-20"),
    "Montreal": (45.5, -73.6, "05-02"), "Halifax": (44.9, -63.5, "05-08"), "Ithaca": (42.5, -76.5, "05-09"),
    "Chicago": (42.0, -87.9, "04-22"), "Minneapolis": (44.9, -93.2, "04-28"),
    "Winnipeg": (49.9, -97.2, "05-22"), "Seattle": (47.6, -122.3, "03-20"),
    "Boise": (43.6, -116.2, "05-03"), "Atlanta": (33.7, -84.4, "03-25"), "Tokyo": (35.7, 139.7, "02-25"),
    "Seoul": (37.6, 127.0, "04-01"),
}  # fmt: skip


def test_towns_freeze_last_about_when_they_are_told_to(tmp_path: Path) -> None:
    """By the latitude alone London was told the 8 June, Bergen the end of July and Montreal the 5 April."""
    off = {}
    for town, (lat, lon, day) in TOWNS.items():
        (tmp_path / town).mkdir()
        text = f"[place]\nlat = {lat}\nlon = {lon}\n" + plant("apple", "apple", year=2010)
        almanac = almanac_of(tmp_path / town, text, dt.date(2027, 1, 10))
        told = almanac.season().frosts[0].last.likely
        assert told is not None, town
        off[town] = (told - dt.date.fromisoformat(f"2027-{day}")).days
    days = np.array(list(off.values()))
    assert np.median(np.abs(days)) <= 9, off
    assert abs(np.mean(days)) <= 9, off
    assert np.abs(days).max() <= 40, off
