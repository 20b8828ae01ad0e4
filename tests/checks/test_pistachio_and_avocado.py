"""Pistachio and avocado: who serves whom, and by how much one cultivar is before another.

Sources, excerpts read: Kallsen, Parfitt and Maranto 2020, California Agriculture 74: 86-93 (female cultivars
and their male pollenizers); Kallsen in Western Farm Press (Golden Hills and Lost Hills two weeks before
Kerman); Pope as quoted in AgFax 2014 (58 chill portions); a grower's page on avocado (type A with type B, as
Hass with Fuerte; fruit alone, more with both).
"""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import numpy as np
import pytest
from tests.samples.garden_text import almanac_of, garden_text, plant
from tests.samples.towns import NAMBOUR, SAN_DIEGO, WHANGAREI

from leafturn.almanac import Almanac
from leafturn.kinds.library import load_library

MADERA = {
    "tmax_c": [13, 16.5, 20, 24, 29, 33.5, 36.5, 35.5, 32, 26, 18.5, 13],
    "tmin_c": [3, 4.5, 6.5, 8.5, 12, 15.5, 18, 17, 14, 9.5, 5, 2.5],
}
WAIKATO = {
    "tmax_c": [23.8, 24.4, 22.6, 19.8, 16.8, 14.3, 13.8, 14.7, 16.5, 18.2, 20.1, 22.2],
    "tmin_c": [12.9, 13.2, 11.1, 8.6, 6.3, 4.3, 3.6, 4.6, 6.6, 8.3, 9.6, 11.8],
}
"""Monthly means of maxima and minima [degC], from memory."""


def grown(
    folder: Path, kind: str, months: dict[str, object], lat: float, *cultivars: str, on: str = "2027-01-10"
) -> Almanac:
    """A garden of some cultivars side by side, before they flower."""
    things = [plant(name, kind, cultivar=name, year=2010, at=[5 * n, 0]) for n, name in enumerate(cultivars)]
    return almanac_of(folder, garden_text(*things, climate=months, lat=lat, lon=-118.0), on)


def standings(almanac: Almanac) -> dict[str, tuple[str, float]]:
    return {tree.plant: (tree.standing, tree.adequacy) for tree in almanac.partners()}


def ripe_on(almanac: Almanac, plant: str) -> dt.date:
    ripe = almanac.forecasts[plant].ripe
    assert ripe is not None
    return almanac.axis.date(float(np.median(ripe)))


def test_a_pistachio_wants_a_male_and_the_earlier_ones_are_two_weeks_before_kerman(tmp_path: Path) -> None:
    almanac = grown(
        tmp_path / "both", "pistachio", MADERA, 37.0, "Kerman", "Golden Hills", "Lost Hills", "Peters"
    )
    assert standings(almanac)["Kerman"][0] == "served"
    lone = grown(tmp_path / "lone", "pistachio", MADERA, 37.0, "Kerman", "Golden Hills")
    assert {standing for standing, _ in standings(lone).values()} == {"lacks"}
    assert almanac.forecasts["Peters"].ripe is None  # a male bears nothing
    kerman = ripe_on(almanac, "Kerman")
    assert dt.date(2027, 8, 25) <= kerman <= dt.date(2027, 9, 15)
    for early in ("Golden Hills", "Lost Hills"):
        assert (kerman - ripe_on(almanac, early)).days == pytest.approx(14, abs=4)


def test_a_pistachio_wants_the_chill_that_is_published() -> None:
    kind = load_library()[0].kinds["pistachio"]
    assert kind.chill.portions is not None
    low, high = kind.chill.portions.value
    assert low <= 58 <= high


def test_a_hass_is_picked_in_the_months_of_its_country(tmp_path: Path) -> None:
    """New Zealand Herald: flowers in October, picked from August to February; Australian growers: June on."""
    new_zealand = grown(tmp_path / "nz", "avocado", WHANGAREI, -35.7, "Hass", on="2027-07-03")
    assert new_zealand.axis.date(float(np.median(new_zealand.forecasts["Hass"].full))).month in (10, 11)
    assert dt.date(2028, 7, 20) <= ripe_on(new_zealand, "Hass") <= dt.date(2028, 10, 20)
    queensland = grown(tmp_path / "qld", "avocado", NAMBOUR, -26.6, "Hass", on="2027-07-03")
    assert dt.date(2028, 5, 15) <= ripe_on(queensland, "Hass") <= dt.date(2028, 7, 31)


def test_a_hass_of_cooler_winters_ripens_when_the_next_flowers_are_at_hand(tmp_path: Path) -> None:
    """Middle or late August on at Rangiuru, Bay of Plenty (a food journal, 2016, read); trees grow in many
    parts of the Waikato (Waikato Food Basket, read). It is told all the while that it can be picked.
    """
    for on, states in (
        ("2027-03-01", {"not yet"}),
        ("2027-09-25", {"due", "late"}),
        ("2027-12-01", {"due", "late"}),
    ):
        waikato = grown(tmp_path / on, "avocado", WAIKATO, -37.8, "Hass", on=on)
        assert waikato.job("Hass:pick:2026").state in states
    opens = waikato.job("Hass:pick:2026").open.likely
    assert opens is not None
    assert dt.date(2027, 8, 10) <= opens <= dt.date(2027, 9, 20)


def test_an_avocado_of_the_other_type_brings_it_more(tmp_path: Path) -> None:
    def chance(folder: str, *others: str) -> float:
        return standings(grown(tmp_path / folder, "avocado", SAN_DIEGO, 32.8, "Hass", *others))["Hass"][1]

    alone, alike, other = chance("alone"), chance("alike", "Reed"), chance("other", "Fuerte")
    assert other > alike + 0.1
    assert alone > 0.2
