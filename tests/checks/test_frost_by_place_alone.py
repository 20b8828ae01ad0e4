"""Last and first freezes told from where a garden lies and nothing else, against towns.

Of `TOWNS`: British towns from a gardening page's list of last frosts, read, whose middle day is taken; the
others are means of airports' records, recalled to about a week. Of `MORE_TOWNS`, all read: the same British
page; a newspaper's means of thirty years for Atlantic Canada (2018); an almanac's chart and a gardening book
for the rest of Canada; freeze tables of Massachusetts and Connecticut (University of Massachusetts, half the
years); a page of frost dates of the United States as printed about 2000 (half the years). Heights are
recalled.
"""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import numpy as np
import pytest
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

MORE_TOWNS = {  # latitude, longitude, height [m], usual last and first freeze
    "Aberdeen": (57.15, -2.1, 40, "05-05", ""), "Aberystwyth": (52.4, -4.1, 30, "05-15", ""),
    "Barnsley": (53.55, -1.5, 100, "04-15", ""), "Bath": (51.4, -2.4, 50, "03-11", ""),
    "Bournemouth": (50.7, -1.9, 20, "04-15", ""), "Bradford": (53.8, -1.75, 150, "04-25", ""),
    "Bristol": (51.45, -2.6, 40, "03-15", ""), "Cardiff": (51.5, -3.2, 30, "03-15", ""),
    "Carlisle": (54.9, -2.9, 30, "05-15", ""), "Derby": (52.9, -1.5, 60, "05-05", ""),
    "Dumfries": (55.07, -3.6, 30, "04-25", ""), "Dundee": (56.5, -3.0, 30, "04-05", ""),
    "Durham": (54.8, -1.6, 90, "04-05", ""), "Edinburgh": (55.95, -3.2, 50, "05-05", ""),
    "Exeter": (50.7, -3.5, 40, "05-05", ""), "Gloucester": (51.9, -2.2, 20, "03-15", ""),
    "Hereford": (52.05, -2.7, 60, "04-25", ""), "Hull": (53.75, -0.3, 10, "04-25", ""),
    "Inverness": (57.5, -4.2, 20, "04-25", ""), "Leeds": (53.8, -1.5, 60, "04-25", ""),
    "Liverpool": (53.4, -2.95, 30, "04-25", ""), "Manchester": (53.5, -2.25, 50, "04-05", ""),
    "Newcastle": (54.97, -1.6, 50, "04-25", ""), "Nottingham": (52.95, -1.15, 60, "05-05", ""),
    "Penzance": (50.1, -5.5, 20, "03-26", ""), "Peterborough": (52.6, -0.25, 20, "04-25", ""),
    "Reading": (51.45, -0.97, 50, "05-05", ""), "Sheffield": (53.4, -1.5, 130, "04-25", ""),
    "Southampton": (50.9, -1.4, 20, "04-16", ""), "Swansea": (51.6, -3.95, 20, "03-26", ""),
    "Wolverhampton": (52.6, -2.1, 140, "05-05", ""), "Yarmouth": (43.83, -66.1, 40, "05-01", ""),
    "Kentville": (45.08, -64.5, 30, "05-16", ""), "Sydney NS": (46.15, -60.2, 60, "05-24", ""),
    "Saint John": (45.3, -66.0, 70, "05-18", ""), "Fredericton": (45.95, -66.6, 20, "05-20", ""),
    "Moncton": (46.1, -64.8, 60, "05-24", ""), "Charlottetown": (46.25, -63.1, 50, "05-17", ""),
    "Edmundston": (47.37, -68.3, 150, "05-28", ""), "St. John's": (47.6, -52.7, 140, "06-02", "10-12"),
    "Corner Brook": (48.95, -57.95, 30, "05-22", ""), "Calgary": (51.05, -114.05, 1050, "05-23", "09-15"),
    "Edmonton": (53.55, -113.5, 670, "05-07", "09-23"),
    "Lethbridge": (49.7, -112.8, 910, "05-17", "09-18"), "Kamloops": (50.7, -120.4, 345, "05-01", "10-05"),
    "Kelowna": (49.9, -119.5, 350, "05-04", "10-08"), "Chilliwack": (49.15, -121.95, 10, "04-06", "11-09"),
    "Nanaimo": (49.15, -123.95, 30, "04-28", "10-17"), "Nelson BC": (49.5, -117.3, 600, "05-04", "10-13"),
    "Prince George": (53.9, -122.75, 600, "06-04", "09-03"),
    "Toronto": (43.7, -79.4, 110, "05-09", "10-06"), "Regina": (50.45, -104.6, 577, "05-21", "09-10"),
    "Whitehorse": (60.7, -135.05, 700, "06-11", "08-25"), "Lawrence": (42.7, -71.15, 20, "04-20", "10-20"),
    "Middleton MA": (42.6, -71.0, 30, "04-27", "10-11"),
    "Nantucket": (41.25, -70.05, 10, "04-18", "11-03"),
    "New Bedford": (41.63, -70.93, 20, "04-06", "11-10"),
    "Plymouth MA": (41.98, -70.7, 20, "05-02", "10-16"),
    "Knightville": (42.28, -72.87, 190, "05-19", "09-23"),
    "Danbury": (41.4, -73.45, 130, "04-30", "10-06"),
    "Middletown CT": (41.55, -72.7, 110, "04-23", "10-12"),
    "Mount Carmel": (41.4, -72.9, 60, "05-01", "10-08"),
    "Norfolk CT": (41.97, -73.22, 410, "05-14", "10-02"), "Mobile": (30.7, -88.2, 60, "02-27", "11-26"),
    "Phoenix": (33.43, -112.0, 340, "02-05", "12-15"), "Tucson": (32.2, -110.95, 780, "02-28", "11-29"),
    "Pine Bluff": (34.2, -92.0, 65, "03-19", "11-08"), "Eureka": (40.8, -124.15, 20, "01-30", "12-15"),
    "Sacramento": (38.55, -121.5, 10, "02-14", "12-01"), "Denver": (39.75, -104.9, 1610, "05-03", "10-08"),
    "Wilmington DE": (39.7, -75.6, 20, "04-13", "10-29"),
    "South Bend": (41.7, -86.3, 235, "05-01", "10-18"),
    "Cedar Rapids": (41.9, -91.7, 260, "04-29", "10-07"),
    "Portland ME": (43.65, -70.3, 20, "05-10", "09-30"), "Baltimore": (39.2, -76.65, 40, "03-26", "11-13"),
    "Worcester": (42.27, -71.87, 300, "04-27", "10-17"),
    "Marquette": (46.55, -87.4, 200, "05-12", "10-19"), "Duluth": (46.85, -92.2, 430, "05-21", "09-21"),
    "Willmar": (45.1, -95.05, 340, "05-04", "10-04"), "Vicksburg": (32.35, -90.85, 60, "03-13", "11-18"),
    "Jefferson City": (38.6, -92.2, 190, "04-26", "10-16"),
    "Fort Peck": (48.0, -106.4, 640, "05-05", "09-28"), "Helena": (46.6, -112.0, 1180, "05-18", "09-18"),
    "Blair": (41.55, -96.1, 350, "04-27", ""), "Atlantic IA": (41.4, -95.0, 355, "05-09", "09-28"),
    "Monroe LA": (32.5, -92.05, 25, "03-09", "11-07"), "Savannah": (32.1, -81.2, 15, "03-10", "11-15"),
    "Juneau": (58.35, -134.6, 5, "05-16", "09-26"),
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


@pytest.mark.long
def test_freezes_of_more_towns_are_told_early_about_as_often_as_late(tmp_path: Path) -> None:
    """Last freezes were missed by 15 days, first ones by 17 and told 13 days late on the mean, while
    nights were held to be as far from days everywhere and the year's wave as late."""
    last, first = {}, {}
    for town, (lat, lon, height, last_day, first_day) in MORE_TOWNS.items():
        (tmp_path / town).mkdir()
        text = f"[place]\nlat = {lat}\nlon = {lon}\nheight_m = {height}\n" + plant(
            "apple", "apple", year=2010
        )
        frost = almanac_of(tmp_path / town, text, dt.date(2027, 1, 10)).season().frosts[0]
        pairs = (last, frost.last.likely, last_day), (first, frost.first.likely, first_day)
        for off, told, day in pairs:
            if day:
                assert told is not None, town
                off[town] = (told - dt.date.fromisoformat(f"2027-{day}")).days
    spring, autumn = np.array(list(last.values())), np.array(list(first.values()))
    assert abs(np.mean(spring)) <= 3, last
    assert np.mean(np.abs(spring)) <= 11, last
    assert abs(np.mean(autumn)) <= 8, first
    assert np.mean(np.abs(autumn)) <= 12, first
