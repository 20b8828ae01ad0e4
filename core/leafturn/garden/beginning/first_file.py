"""The garden file that a garden begins with, from a few answers."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from leafturn.base.closed_words import SKILLS
from leafturn.base.value import Value
from leafturn.garden.regions import region_by_place
from leafturn.toml.writing import value_text

BEFORE = """\
# Yours: change what you like, here or on the page Plants. leafturn writes into it only what it has shown you
# first, and leaves every other line as it is.

"""
EXAMPLE = """
# A plant needs only its kind; every further line makes its dates and partners surer.
#
# [[plant]]
# id = "pear-1"
# kind = "pear"
# cultivar = "Comice"
# year = 2012
# at = "5 m north of gate"
#
# [[heap]]
# id = "bay-1"
# stage = "filling"
"""
WIDE = 28
BY_PLACE = "by latitude and longitude; a country or state tells more"
SAID = {
    "region": "decides when birds nest, what spreads, where oak wilt is",
    "height_m": "above the sea",
    "height_ft": "above the sea",
    "weather": "daily weather, beside this file",
    "last_frost": "the usual last frost of spring, or how often it freezes",
    "first_frost": "the usual first frost of autumn",
}


class Beginning(Value):
    """What is known of a garden that begins. Only the latitude is needed.

    Parameters
    ----------
    name : str
    lat, lon : float or None [deg]
        North and east.
    region : str
        A country, state or continent as typed; empty if none is.
    height : mapping
        `height_m` or `height_ft`; empty if not known.
    weather : str
        Name of a weather file that lies beside the garden file.
    last_frost, first_frost : str
        "04-24", "never" or "1 year in 5"; empty if not known.
    helpers : tuple of dict
        As `answers.helper_typed` gives them.
    """

    name: str = ""
    lat: float | None = None
    lon: float | None = None
    region: str = ""
    height: tuple[tuple[str, float], ...] = ()
    weather: str = ""
    last_frost: str = ""
    first_frost: str = ""
    helpers: tuple[dict[str, Any], ...] = ()

    @property
    def likely_region(self) -> str:
        """That of the latitude and longitude; empty where they tell none."""
        return "" if self.lat is None or self.lon is None else region_by_place(self.lat, self.lon)

    def text(self) -> str:
        """The garden file, with comments.

        Raises
        ------
        ValueError
            If there is no latitude.
        """
        if self.lat is None:
            raise ValueError("without a latitude there is no season")
        return BEFORE + "".join(f"{line}\n" for line in self._lines()) + EXAMPLE

    def _lines(self) -> Iterator[str]:
        yield "[place]"
        given: dict[str, Any] = {"name": self.name, "lat": self.lat, "lon": self.lon}
        given |= {"region": self.region or self.likely_region, **dict(self.height)}
        given |= {"weather": self.weather, "last_frost": self.last_frost, "first_frost": self.first_frost}
        for key, value in given.items():
            if value in ("", None) and key != "lon":
                continue
            line = f"{key} = {value_text(0.0 if value is None else value)}"
            said = (
                "not given: sunrise and sunset are those of longitude 0" if value is None else SAID.get(key)
            )
            if key == "region" and not self.region:
                said = BY_PLACE
            yield f"{line:<{WIDE}}# {said}" if said else line
        if self.helpers:
            yield ""
            yield f"# Who helps, and what they can: {', '.join(SKILLS)}."
        for n, helper in enumerate(self.helpers):
            yield from [""] * (n > 0)
            yield "[[helper]]"
            yield from (f"{key} = {value_text(value)}" for key, value in helper.items())
