"""The built-in numbers a steward may change under `[rule]`, each with where it comes from."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from typing import NamedTuple

Rules = Mapping[str, float | str | bool]


class Number(NamedTuple):
    """A built-in value, the bounds of sense, its unit, and its source."""

    value: float
    least: float
    most: float
    unit: str
    source: str


NUMBERS: Mapping[str, Number] = {
    "heap_hot_c": Number(55, 40, 80, "degC", "hot range of composting, NRAES-54 (recalled)"),
    "heap_too_hot_c": Number(70, 55, 90, "degC", "too hot for what rots it (Manitoba Agriculture, read)"),
    "heap_cooled_c": Number(45, 20, 70, "degC", "rule of thumb: out of the hot range, time to turn"),
    "heap_usual_days": Number(14, 2, 120, "days", "guess: a garden heap at about 12 degC, without readings"),
    "hard_frost_c": Number(-2.2, -15, 0, "degC", "28 degF: a tenth of open pome flowers die (extension)"),
    "sap_rise_heat": Number(15, 0, 500, "degC d above 5", "guess"),
    "leaf_out_heat": Number(150, 10, 900, "degC d above 5", "guess, for kinds without their own"),
    "leaf_fall_after_frost_days": Number(21, 0, 90, "days", "guess, for kinds without their own"),
    "leaf_fall_latest_days": Number(79, 40, 120, "days", "guess: from autumn equinox, where frost is rare"),
    "leaf_rest_days": Number(70, 0, 120, "days", "guess: rest after leaf fall where frost is rare"),
    "young_root_m": Number(0.3, 0.1, 2, "m", "guess: rooting depth in the year of planting"),
    "root_years": Number(6, 1, 40, "years", "guess: until roots are as deep as a grown plant's"),
    "soil_depletion": Number(0.5, 0.1, 0.9, "share", "FAO-56 table 22, fruit trees (read)"),
    "ground_crop_factor": Number(0.5, 0.1, 1.3, "Kc", "FAO-56 table 12, green ground before leaves (read)"),
    "book_doubt": Number(1, 0.1, 10, "times", "how sure published bloom is, against what records bear out"),
    "pressing_days": Number(10, 0, 60, "days", "rule of thumb: what can wait longer is not pressing"),
    "round_lines": Number(8, 1, 200, "lines", "rule of thumb: more kinds of work nobody does in a week"),
    "passed_shown_days": Number(42, 0, 365, "days", "rule of thumb: so long a missed window is shown"),
    "note_far_days": Number(14, 1, 200, "days", "rule of thumb: a note so far out of range is asked about"),
    "climber_past_top_m": Number(2, 0, 20, "m", "guess: so far past its host's top a climber wants cutting"),
    "growth_bend": Number(1.3, 1, 3, "exponent", "rule of thumb: trees start slowly; planted pines fit 1.8"),
    "nursery_height_m": Number(2.5, 0, 6, "m", "guess: a tree set out, from whips to 3 m street trees"),
    "growth_doubt": Number(0.4, 0, 0.9, "share", "guess: growth to come may be so much slower or quicker"),
    "light_direct_share": Number(0.55, 0, 1, "share", "guess: straight from the sun, May to September"),
    "dead_wood_shade": Number(0.3, 0, 1, "share", "guess: what dead wood keeps of a leafless crown's shade"),
    "elder_bare_percent": Number(10, 1, 40, "% live", "guess: below it a crown gives hardly any shade"),
    "elder_look_points": Number(3, 0.5, 20, "points", "guess: two people differ by so much over one crown"),
    "elder_pace_factor": Number(1.75, 1, 5, "times", "guess: a decline may go so much quicker or slower"),
    "fall_chance_well": Number(0.01, 0, 1, "a year", "rule of thumb, never a safety figure"),
    "fall_chance_weak": Number(0.04, 0, 1, "a year", "rule of thumb, never a safety figure"),
    "fall_chance_declining": Number(0.12, 0, 1, "a year", "rule of thumb, never a safety figure"),
    "fall_chance_dead": Number(0.2, 0, 1, "a year", "rule of thumb, never a safety figure"),
    "fall_storm_factor": Number(1.5, 1, 5, "times", "guess: in the year after wind broke something off it"),
    "brittle_reach": Number(1.5, 1, 3, "heights", "felling practice: work zone of 1.5 heights (recalled)"),
    "unmeasured_reach": Number(1.2, 1, 2, "times", "guess: a height not measured may be so much greater"),
    "kept_stem_m": Number(5, 0.5, 15, "m", "common practice, no source: standing stems of 3 to 5 m"),
    "warming_doubt": Number(0.5, 0, 1, "share", "guess: the stated warming may be so much less or more"),
    "gap_height_share": Number(0.4, 0.1, 1, "share", "guess: from so much of the old tree's height on"),
    "gap_spread_m": Number(0.1, 0, 0.5, "m a year", "forest gaps: 0.06 to 0.2 (Hibbs 1982, recalled)"),
    "move_until_years": Number(5, 1, 15, "years", "common practice, no source: older ones seldom live"),
    "path_clear_m": Number(2.5, 0, 20, "m", "common practice, no source: room for people beside a stem"),
    "partner_lacks_below": Number(
        0.15, 0, 1, "chance",
        "guess: under about 1 in 7 a crop is not to be counted on",
    ),
    "partner_thin_below": Number(0.45, 0, 1, "chance", "guess: under about even odds"),
    "partner_enough_overlap": Number(
        0.5, 0.05, 1, "share",
        "guess: half of the days on which a tree takes pollen are enough; growers' lists let flowering "
        "groups that share about half their days serve each other",
    ),
    "partner_stray_days": Number(
        2, 0, 30, "days",
        "guess: two plants of one kind in one garden keep their order of bloom to so many days a spring",
    ),
    "partner_listed": Number(
        0.8, 0, 1, "share",
        "guess: a pair in a published list meets in so many springs, whatever its flower order",
    ),
    "partner_disputed": Number(
        0.3, 0, 1, "share",
        "guess: a pair that one published page names and another refuses; so low that it alone never counts "
        "as served",
    ),
    "partner_not_listed": Number(
        0.2, 0, 1, "share",
        "guess: a cultivar that a published list names for others but not for this one",
    ),
    "partner_half_metres_insect": Number(
        45, 0.5, 5000, "m",
        "set so that pairs serve at 15 to 30 m, the planting distances of growers' pages for tree fruit",
    ),
    "partner_half_metres_wind": Number(
        28, 0.5, 5000, "m",
        "set so that pairs serve at 15 to 18 m, the planting distance of growers' pages for hazel",
    ),
    "partner_half_metres_fly": Number(
        13, 0.5, 5000, "m",
        "set so that pairs serve at 6 to 9 m, the planting distance of growers' pages for pawpaw",
    ),
    "partner_reach_halves": Number(
        4, 1, 12, "half distances",
        "guess: beyond four half distances a partner counts under 1 in 60",
    ),
    "partner_poor_pollen": Number(
        0.05, 0, 1, "share",
        "guess; triploid apples are listed as giving no useful pollen (extension pages)",
    ),
    "partner_poor_pollen_most": Number(
        0.3, 0, 1, "share",
        "guess, from the sets after triploid pollen in Crane and Lawrence, second-hand",
    ),
    "partner_semi_compatible": Number(
        0.75, 0, 1, "share",
        "guess: half the grains are refused, but a flower gets more grains than it has ovules",
    ),
    "partner_unknown_cultivar": Number(
        0.3, 0, 1, "share",
        "guess: a cultivar without a name, or with one the library lacks, may be the same clone or "
        "its sport; so low that it alone never counts as served",
    ),
    "partner_unknown_sex": Number(
        0.3, 0, 1, "share",
        "guess: about half of all seedlings are of either sex; so low that it alone never counts as served",
    ),
    "partner_unknown_order": Number(
        0.3, 0, 1, "share",
        "guess: of trees that open one sex first about half open females first; so low that it alone never "
        "counts as served",
    ),
    "partner_unknown_alleles": Number(
        0.9, 0, 1, "share",
        "guess: most pairs of different cultivars can serve each other",
    ),
    "partner_unknown_overlap": Number(0.6, 0, 1, "share", "guess, where flowering days are not known"),
    "partner_unknown_age": Number(0.75, 0, 1, "share", "guess, where the planting year is not known"),
    "partner_unknown_nearness": Number(0.5, 0, 1, "share", "guess, where a place is not given"),
    "partner_enough_alone": Number(0.8, 0, 1, "share", "guess: a self share from here on needs no partner"),
    "partner_borrow": Number(
        0.6, 0, 1, "share",
        "guess: what one dry afternoon with a brush and fresh pollen does",
    ),
    "partner_graft_flowers": Number(
        0.8, 0, 1, "chance",
        "guess: chance that the branch has taken and flowers by then",
    ),
    "partner_graft_pollen": Number(0.9, 0, 1, "share", "guess: one branch gives less pollen than a tree"),
    "partner_wind_lean": Number(
        0.5, 0, 0.9, "share",
        "guess: of wind kinds the half distance is half as long again straight downwind",
    ),
    "partner_flies_from_c": Number(
        10, 0, 25, "degC",
        "guess: on a day no warmer bees hardly leave the hive (about 10-12 degC, from memory)",
    ),
    "partner_flies_fully_c": Number(14, 0, 35, "degC", "guess: highest of the day from which flight is full"),
    "partner_rain_halves_mm": Number(
        4, 0.5, 100, "mm",
        "guess: so much rain in a day halves what is carried",
    ),
    "partner_carrying_days": Number(
        2, 0.1, 10, "days",
        "guess: days of full flight, or of dry air, that set a crop",
    ),
    "partner_shade_points_a_year": Number(
        10, 1, 100, "points",
        "guess: each so many points of light short of the kind's need put flowers off a year",
    ),
    "partner_shade_years_most": Number(
        4, 0, 20, "years",
        "guess: shade puts flowers off no more years than this",
    ),
    "partner_set_none": Number(0, 0, 1, "share", "what a noted set counts as"),
    "partner_set_poor": Number(0.25, 0, 1, "share", "guess: what a noted set counts as"),
    "partner_set_fair": Number(0.6, 0, 1, "share", "guess: what a noted set counts as"),
    "partner_set_good": Number(1, 0, 1, "share", "what a noted set counts as"),
    "partner_set_weighs": Number(
        2, 0.2, 50, "years",
        "guess: the computed chance weighs as much as two noted years",
    ),
    "partner_set_alike": Number(
        0.3, 0.01, 1, "chance",
        "guess: a noted year tells nothing of years whose chance lies so far from its own",
    ),
    "partner_spare_below": Number(
        0.02, 0, 0.5, "chance",
        "guess: a change of chance that no garden record could show",
    ),
}  # fmt: skip

HALF_METRES = "partner_half_metres_"  # a kind's name may follow, spaces written "_"
IN_ORDER = (("partner_lacks_below", "partner_thin_below"),)  # the first of each pair is not above the second


class Numbers(Mapping[str, float]):
    """The numbers in force: the steward's own laid over the built-in ones.

    Parameters
    ----------
    rules : mapping
        The garden's `[rule]` table; what `complaints` finds wrong is left out.
    """

    def __init__(self, rules: Rules) -> None:
        self._own = _usable(rules)
        self._values = {name: self._own.get(name, number.value) for name, number in NUMBERS.items()}

    def __getitem__(self, name: str) -> float:
        return self._values[name]

    def __iter__(self) -> Iterator[str]:
        return iter(self._values)

    def __len__(self) -> int:
        return len(self._values)

    def own(self, name: str) -> float | None:
        """The steward's own value, also of a name that goes on with a kind's; None without one."""
        return self._own.get(name)


def number_named(name: str) -> Number | None:
    """The number of a name, or of the family whose names go on with a kind's; None if there is none."""
    family = NUMBERS[f"{HALF_METRES}insect"] if name.startswith(HALF_METRES) else None
    return NUMBERS.get(name, family)


def complaints(rules: Rules) -> tuple[tuple[str, str], ...]:
    """Each of the steward's own values that cannot be used: its name, and a sentence that tells why."""
    said = [(name, wrong) for name, value in rules.items() if (wrong := complaint(name, value)) is not None]
    return (*said, *((a, f"{a} is above {b}; the usual of both are used.") for a, b in _crossed(rules)))


def complaint(name: str, value: float | str | bool) -> str | None:
    """What is wrong with a steward's own value for a built-in number; None if it can be used."""
    number = number_named(name)
    if number is None:
        return None
    usual = f"The usual {number.value:g} is used."
    if isinstance(value, bool | str) or not math.isfinite(value):
        return f"{name} = {value} is not a number. {usual}"
    if not number.least <= value <= number.most:
        return f"{name} = {value:g} is outside {number.least:g} to {number.most:g} {number.unit}. {usual}"
    return None


def _usable(rules: Rules) -> dict[str, float]:
    own = _in_bounds(rules)
    for name in {name for pair in _crossed(rules) for name in pair}:
        own.pop(name, None)
    return own


def _crossed(rules: Rules) -> list[tuple[str, str]]:
    """Pairs of which the first would be above the second."""
    used = {name: number.value for name, number in NUMBERS.items()} | _in_bounds(rules)
    return [(low, high) for low, high in IN_ORDER if used[low] > used[high]]


def _in_bounds(rules: Rules) -> dict[str, float]:
    return {
        name: float(value)
        for name, value in rules.items()
        if number_named(name) is not None and complaint(name, value) is None
    }


USUAL = Numbers({})
"""The built-in numbers, as they are where a steward has changed none."""
