"""Names that people give to keys and tables of a garden file, and how they are written here.

They are not read under those names: each costs one sentence that says what to write instead.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from leafturn.base.faults import clipped

_KEYS: Mapping[str, Mapping[str, str]] = {
    "plant": {
        **dict.fromkeys(("variety", "cv", "sort", "cultivar_name"), "cultivar"),
        **dict.fromkeys(("species", "type", "genus", "latin", "botanical", "scientific_name"), "kind"),
        **dict.fromkeys(("planted", "plant_year", "year_planted", "planted_in", "planting_year"), "year"),
        **dict.fromkeys(("location", "position", "where", "place", "coordinates"), "at"),
        **dict.fromkeys(("x", "y", "x_m", "y_m", "east", "north", "east_m", "north_m"), "at"),
        **dict.fromkeys(("gender",), "sex"),
        **dict.fromkeys(("condition", "health", "status"), "state"),
        **dict.fromkeys(("quantity", "number", "qty", "how_many"), "count"),
        **dict.fromkeys(("height", "tall", "size"), "height_m"),
        **dict.fromkeys(("radius", "crown", "crown_radius_m"), "crown_m"),
        **dict.fromkeys(("diameter", "dbh", "trunk", "trunk_diameter"), "trunk_cm"),
        **dict.fromkeys(("area", "patch"), "patch_m2"),
        **dict.fromkeys(("flowers", "blooms", "bloom"), "opens"),
        **dict.fromkeys(("harvest", "ripens", "picked"), "ripe"),
        **dict.fromkeys(("stock", "root_stock", "rootstock_name"), "rootstock"),
        **dict.fromkeys(("on", "climbs", "climbs_on", "grows_on", "support"), "host"),
        **dict.fromkeys(("note", "notes", "comment", "comments", "description", "remarks"), "words"),
        **dict.fromkeys(("alleles", "s_genotype", "s_allele"), "s_alleles"),
        **dict.fromkeys(("age", "years", "age_years"), "age_when_planted"),
    },
    "place": {
        **dict.fromkeys(("latitude",), "lat"),
        **dict.fromkeys(("longitude", "long", "lng"), "lon"),
        **dict.fromkeys(("elevation", "altitude", "height", "elevation_m", "altitude_m"), "height_m"),
        **dict.fromkeys(("country", "state", "province"), "region"),
        **dict.fromkeys(("weather_file",), "weather"),
        **dict.fromkeys(("forecast_file",), "forecast"),
        **dict.fromkeys(("slope",), "slope_deg"),
        **dict.fromkeys(("aspect", "exposure"), "faces_deg"),
    },
    "heap": {
        **dict.fromkeys(("state", "status", "phase"), "stage"),
        **dict.fromkeys(("location", "position", "where", "place"), "at"),
        **dict.fromkeys(("size", "size_m", "bay"), "bay_m"),
        **dict.fromkeys(("kind", "type", "container", "made_of"), "words"),
    },
    "helper": {
        **dict.fromkeys(("hours", "time", "hours_a_week"), "hours_per_week"),
        **dict.fromkeys(("skills", "abilities"), "can"),
    },
}  # fmt: skip
_TABLES: Mapping[str, str] = {
    **dict.fromkeys(("tree", "trees", "shrub", "shrubs", "bush", "bushes", "vine", "climber"), "plant"),
    **dict.fromkeys(("plants", "planting", "crop", "crops", "perennial"), "plant"),
    **dict.fromkeys(("compost", "pile", "bay", "bays", "bin", "bins", "tumbler", "heaps"), "heap"),
    **dict.fromkeys(("bench", "benches", "table", "seats"), "seat"),
    **dict.fromkeys(("building", "buildings", "shed", "house", "roofs"), "roof"),
    **dict.fromkeys(("person", "people", "volunteer", "volunteers", "helpers"), "helper"),
    **dict.fromkeys(("task", "tasks", "todo", "jobs"), "job"),
    **dict.fromkeys(("garden", "site", "location"), "place"),
}  # fmt: skip
# What to write where the value itself cannot be taken over.
_EXAMPLES = {"at": '"8 m west of gate"', "year": "2012", "opens": '"28 April"', "ripe": '"20 September"',
             "stage": '"working"', "bay_m": "[1.2, 1.2, 1.1]", "can": '["light"]', "words": '"by the wall"',
             "region": '"germany"', "state": '"well"', "faces_deg": "160", "slope_deg": "8"}  # fmt: skip
_NUMBERS = {"count": 3, "height_m": 4.5, "crown_m": 2.5, "trunk_cm": 18, "patch_m2": 6, "hours_per_week": 3}
# Facts of a place by which nothing is reckoned.
_UNUSED = ("water_table", "groundwater", "groundwater_m", "ph", "soil_ph", "zone", "hardiness_zone")
_NOTHING = "Nothing is reckoned by it: keep it as a comment, behind a #."
_AGE = "Write year = 2012, the year it was planted, and age_when_planted = 2 if it was older than a seedling."


def hint_for_key(key: str, noun: str, value: Any) -> str:
    """What to write for a key that has another name here; empty where none is meant.

    Parameters
    ----------
    key : str
        As written.
    noun : str
        What kind of table holds it: "plant".
    value : object
        Its value, taken over where it is a number or text that fits.
    """
    if noun == "place" and key.casefold() in _UNUSED:
        return _NOTHING
    meant = _KEYS.get(noun, {}).get(key.casefold())
    if meant is None:
        return ""
    if meant == "age_when_planted":
        return _AGE
    return f"Write {meant} = {_written(meant, value)}"


def _written(key: str, value: Any) -> str:
    is_number = isinstance(value, int | float) and not isinstance(value, bool)
    if key in ("lat", "lon", "height_m", "year", *_NUMBERS) and is_number:
        return f"{value}"
    if key in ("cultivar", "kind", "rootstock", "host", "words") and isinstance(value, str) and value.strip():
        return f'"{clipped(value.strip(), 40)}"'
    if key == "at" and is_number:
        return "[6, 4] # metres east and north of where you measure from, in place of x and y"
    if key in _EXAMPLES:
        return _EXAMPLES[key]
    return f"{_NUMBERS[key]}" if key in _NUMBERS else '"..."'


def hint_for_table(key: str) -> str:
    """What to write for a table that has another name here; empty where none is meant."""
    meant = _TABLES.get(key.casefold())
    if meant is None:
        return ""
    return "Write [place]" if meant == "place" else f"Write [[{meant}]]"
