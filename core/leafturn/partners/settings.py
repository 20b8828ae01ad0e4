"""The numbers that partnership is reckoned with, each with its source and open to the steward's rule."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field, fields, replace
from types import MappingProxyType

PREFIX = "partner_"
HALF_PREFIX = "half_metres_"


@dataclass(frozen=True, slots=True)
class Setting:
    """One number: its usual value, the least and most that make sense, and where it comes from."""

    value: float
    least: float
    most: float
    source: str


# Keys as the garden file writes them under [rule], with "partner_" before.
SETTINGS: Mapping[str, Setting] = MappingProxyType({
    "lacks_below": Setting(0.15, 0, 1, "guess: under about 1 in 7 a crop is not to be counted on"),
    "thin_below": Setting(0.45, 0, 1, "guess: under about even odds"),
    "half_metres_insect": Setting(
        25, 0.5, 5000, "guess, after Free 1993 (from memory): most pollen that works moves under 20 m"
    ),
    "half_metres_wind": Setting(
        27, 0.5, 5000, "guess, between the 15-20 m and under 45 m that growers' pages give for hazel"
    ),
    "half_metres_fly": Setting(
        8, 0.5, 5000, "guess, from the 10 m that growers give for pawpaw (from memory)"
    ),
    "reach_halves": Setting(6, 1, 12, "guess: beyond six half distances a partner counts under 1 in 60"),
    "poor_pollen": Setting(
        0.05, 0, 1, "guess; triploid apples are listed as giving no useful pollen (extension pages)"
    ),
    "poor_pollen_most": Setting(
        0.3, 0, 1, "guess, from the sets after triploid pollen in Crane and Lawrence, second-hand"
    ),
    "semi_compatible": Setting(
        0.75, 0, 1, "guess: half the grains are refused, but a flower gets more grains than it has ovules"
    ),
    "unknown_cultivar": Setting(0.7, 0, 1, "guess: two unnamed trees may be one clone"),
    "unknown_alleles": Setting(0.9, 0, 1, "guess: most pairs of different cultivars can serve each other"),
    "unknown_overlap": Setting(0.6, 0, 1, "guess, where flowering days are not known"),
    "unknown_age": Setting(0.75, 0, 1, "guess, where the planting year is not known"),
    "unknown_nearness": Setting(0.5, 0, 1, "guess, where a place is not given"),
    "enough_alone": Setting(0.8, 0, 1, "guess: a self share from here on needs no partner"),
    "borrow": Setting(0.6, 0, 1, "guess: what one dry afternoon with a brush and fresh pollen does"),
    "graft_flowers": Setting(0.8, 0, 1, "guess: chance that the branch has taken and flowers by then"),
    "graft_pollen": Setting(0.9, 0, 1, "guess: one branch gives less pollen than a tree"),
    "wind_lean": Setting(
        0.5, 0, 0.9, "guess: of wind kinds the half distance is half as long again straight downwind"
    ),
    "flies_from_c": Setting(
        10, 0, 25, "guess: on a day no warmer bees hardly leave the hive (about 10-12 degC, from memory)"
    ),
    "flies_fully_c": Setting(14, 0, 35, "guess: highest of the day from which flight is full"),
    "rain_halves_mm": Setting(4, 0.5, 100, "guess: so much rain in a day halves what is carried"),
    "carrying_days": Setting(2, 0.1, 10, "guess: days of full flight, or of dry air, that set a crop"),
    "shade_points_a_year": Setting(
        10, 1, 100, "guess: each so many points of light short of the kind's need put flowers off a year"
    ),
    "shade_years_most": Setting(4, 0, 20, "guess: shade puts flowers off no more years than this"),
    "set_none": Setting(0.0, 0, 1, "what a noted set counts as"),
    "set_poor": Setting(0.25, 0, 1, "guess: what a noted set counts as"),
    "set_fair": Setting(0.6, 0, 1, "guess: what a noted set counts as"),
    "set_good": Setting(1.0, 0, 1, "what a noted set counts as"),
    "set_weighs": Setting(2, 0.2, 50, "guess: the computed chance weighs as much as two noted years"),
    "set_alike": Setting(
        0.3, 0.01, 1, "guess: a noted year tells nothing of years whose chance lies so far from its own"
    ),
    "spare_below": Setting(0.02, 0, 0.5, "guess: a change of chance that no garden record could show"),
})  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Settings:
    """The numbers in force. Same names as in SETTINGS; `half_metres` holds the steward's own only.

    `half_metres` maps a carrier ("insect", "wind", "fly") or a kind's name, spaces written "_", to
    the distance [m] at which a partner counts half.
    """

    lacks_below: float = SETTINGS["lacks_below"].value
    thin_below: float = SETTINGS["thin_below"].value
    reach_halves: float = SETTINGS["reach_halves"].value
    poor_pollen: float = SETTINGS["poor_pollen"].value
    poor_pollen_most: float = SETTINGS["poor_pollen_most"].value
    semi_compatible: float = SETTINGS["semi_compatible"].value
    unknown_cultivar: float = SETTINGS["unknown_cultivar"].value
    unknown_alleles: float = SETTINGS["unknown_alleles"].value
    unknown_overlap: float = SETTINGS["unknown_overlap"].value
    unknown_age: float = SETTINGS["unknown_age"].value
    unknown_nearness: float = SETTINGS["unknown_nearness"].value
    enough_alone: float = SETTINGS["enough_alone"].value
    borrow: float = SETTINGS["borrow"].value
    graft_flowers: float = SETTINGS["graft_flowers"].value
    graft_pollen: float = SETTINGS["graft_pollen"].value
    wind_lean: float = SETTINGS["wind_lean"].value
    flies_from_c: float = SETTINGS["flies_from_c"].value
    flies_fully_c: float = SETTINGS["flies_fully_c"].value
    rain_halves_mm: float = SETTINGS["rain_halves_mm"].value
    carrying_days: float = SETTINGS["carrying_days"].value
    shade_points_a_year: float = SETTINGS["shade_points_a_year"].value
    shade_years_most: float = SETTINGS["shade_years_most"].value
    set_none: float = SETTINGS["set_none"].value
    set_poor: float = SETTINGS["set_poor"].value
    set_fair: float = SETTINGS["set_fair"].value
    set_good: float = SETTINGS["set_good"].value
    set_weighs: float = SETTINGS["set_weighs"].value
    set_alike: float = SETTINGS["set_alike"].value
    spare_below: float = SETTINGS["spare_below"].value
    half_metres: Mapping[str, float] = field(default_factory=dict)


DEFAULT = Settings()


def read_settings(rules: Mapping[str, float | str | bool]) -> tuple[Settings, tuple[str, ...]]:
    """The steward's own numbers laid over the usual ones.

    Parameters
    ----------
    rules : mapping
        The garden's `[rule]` table; only keys that begin with "partner_" are looked at.

    Returns
    -------
    settings : Settings
    complaints : tuple of str
        One plain sentence for each rule that could not be used; the usual value then stands.
    """
    known = {f.name for f in fields(Settings)}
    own: dict[str, float] = {}
    halves: dict[str, float] = {}
    complaints: list[str] = []
    for key, value in rules.items():
        if not key.startswith(PREFIX):
            continue
        name = key.removeprefix(PREFIX)
        half = name.removeprefix(HALF_PREFIX) if name.startswith(HALF_PREFIX) else None
        setting = SETTINGS.get(name) or (SETTINGS["half_metres_insect"] if half else None)
        if setting is None:
            complaints.append(f"{key} is no rule of partnership and changes nothing.")
        elif isinstance(value, bool | str) or not math.isfinite(value):
            complaints.append(f"{key} = {value} is not a number; {setting.value:g} is used.")
        elif not setting.least <= value <= setting.most:
            span = f"{setting.least:g} to {setting.most:g}"
            complaints.append(f"{key} = {value:g} is outside {span}; {setting.value:g} is used.")
        elif half:
            halves[half] = float(value)
        elif name in known:
            own[name] = float(value)
    own_limits = (own.get("lacks_below", DEFAULT.lacks_below), own.get("thin_below", DEFAULT.thin_below))
    if own_limits[0] > own_limits[1]:
        complaints.append(
            f"{PREFIX}lacks_below is above {PREFIX}thin_below; both usual limits are used instead."
        )
        own.pop("lacks_below", None)
        own.pop("thin_below", None)
    return replace(DEFAULT, half_metres=MappingProxyType(halves), **own), tuple(complaints)
