"""What depends on the part of the world: nesting, oak wilt, lists of invasive plants."""

import datetime as dt
import re
from collections.abc import Iterable
from itertools import pairwise

from msgspec import Struct

from leafturn.base import day_words, prose
from leafturn.base.closed_words import Land, WorldPart
from leafturn.garden.model import Place
from leafturn.toml.packaged import row_named, rows_by_name

# rows that hold others: a state or country named beside one of them is meant
WIDE = frozenset({"united states", "north america", "europe", "south america", "asia", "africa", "elsewhere"})
# Longitude and latitude [deg] of points of the southern border of the United States, recalled to about a
# quarter of a degree: beyond it live other pests and other wild trees. The Florida Keys lie north of it.
SOUTHERN_BORDER = (
    (-117.1, 32.5), (-114.8, 32.5), (-111.0, 31.3), (-106.5, 31.7), (-103.0, 29.0), (-101.0, 29.7),
    (-99.2, 26.4), (-97.1, 25.85), (-97.0, 24.4),
)  # fmt: skip
SHORT_NAME = 3  # letters of a name that is short for others, such as "uk"


class Region(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """A region as `region = "..."` under [place] may name it.

    `nesting` and `oak_wilt` are first and last day, northern month and day; None where no dates of its own
    are known. `areas` are words that lists of invasive plants use for it. `longitudes` [deg], from west to
    east, are given where another country bears one of its names; `namesakes` then tells by that name where
    the other lies.
    """

    source: str
    also: tuple[str, ...] = ()
    areas: tuple[str, ...] = ()
    nesting: tuple[str, str] | None = None
    oak_wilt: tuple[str, str] | None = None
    longitudes: tuple[float, float] = (-180.0, 180.0)
    namesakes: dict[str, str] = {}
    name: str = ""

    def lists(self, where: Iterable[str]) -> bool:
        """Whether places given as words ("central Europe, locally", "parts of North America") take it in."""
        own = {area.casefold() for area in self.areas}
        return any(_whole(place) in own for place in where)

    def may_hold(self, lon: float) -> bool:
        """Whether a place at a longitude [deg] may lie in it."""
        west, east = self.longitudes
        return west <= lon <= east

    def namesake(self, text: str) -> str | None:
        """The region of another country that bears a name of this one; None where none is known."""
        return self.namesakes.get(_bare(text))

    def days(self, what: str) -> tuple[str, str] | None:
        """First and last day of a season of the region: "nesting" or "oak wilt"."""
        return {"nesting": self.nesting, "oak wilt": self.oak_wilt}.get(what)


def _southern_border(lon: float) -> float:
    """Latitude [deg] of the southern border of the United States at a longitude [deg]."""
    for (west, north), (east, south) in pairwise(SOUTHERN_BORDER):
        if lon <= east:
            return north + (south - north) * max(lon - west, 0.0) / (east - west)
    return SOUTHERN_BORDER[-1][1]


def world_part(lat: float, lon: float) -> WorldPart:
    """The part of the world whose pests and animals to expect, by latitude and longitude [deg] alone."""
    if lon < -30.0 and lat > _southern_border(lon):
        return "north america"
    if lon < -30.0:
        return "elsewhere" if lat > 15.0 else "south america"
    if lat > 34.0 and lon < 60.0:
        return "europe"
    if lat < -8.0 and lon > 110.0:
        return "new zealand" if lon > 160.0 else "australia"
    if lat < -15.0:
        return "southern africa"
    if lat > 20.0 and lon > 95.0:
        return "eastern asia"
    if 5.0 < lat < 38.0 and lon > 60.0:
        return "southern asia"
    return "elsewhere"


def land(lat: float, lon: float) -> Land | None:
    """The land that a place [deg] lies in, of those that are told apart; borders are coarse (recalled)."""
    part = world_part(lat, lon)
    if part == "eastern asia" and ((lat < 41.0 and lon > 129.5) or (lat < 45.7 and lon > 139.5)):
        return "japan" if lat > 24.0 else None
    if part == "europe" and lat > 49.9 and -11.0 < lon < 1.8:
        return "british isles"
    if part == "south america" and lat < -18.0:
        andes = -69.0 if lat > -26.0 else -70.3 if lat > -37.5 else -71.7
        return "chile" if lon < andes else None
    return None


def region_by_place(lat: float, lon: float) -> str:
    """The region that a place [deg] likely lies in, as the garden file may name it; empty where none is told.

    Of Europe and North America only the continent, whose countries and states have dates of their own.
    """
    part = world_part(lat, lon)
    return part if part != "elsewhere" and part in regions() else ""


def _whole(place: str) -> str:
    """The region a place is in or all of: "woods of eastern North America (by name)" is that of the woods."""
    bare = re.split(r"[(,]", place)[0].removesuffix(" outside its home").strip()
    return re.sub(r"^(parts|woods|prairies|river banks|coasts) of (the )?", "", bare).casefold()


regions = rows_by_name("leafturn.garden", "regions.toml", Region)
"""Every known region by name."""


def region_named(text: str | None) -> Region | None:
    """A region by one of its names; None for an unknown one, and where none is stated.

    Words may stand beside the name ("upstate New York"), and of several names, as in "Wisconsin, USA", the
    first that is the least of them counts.
    """
    whole = row_named(regions(), text)
    if whole is not None or not text:
        return whole
    rows = [regions()[name] for name in _named_within(_bare(text))]
    return min(rows, key=lambda row: row.name in WIDE, default=None)


def _named_within(words: str) -> list[str]:
    """The regions whose names stand in some words, by place; of names that lie in one another the longest."""
    spans: list[tuple[int, int, str]] = []
    for row in regions().values():
        for name in (row.name, *row.also):
            if found := re.search(rf"\b{re.escape(_bare(name))}\b", words):
                spans.append((*found.span(), row.name))
    return [
        name
        for begin, end, name in sorted(spans)
        if not any(b <= begin and end <= e and (b, e) != (begin, end) for b, e, _ in spans)
    ]


def _bare(text: str) -> str:
    """Words in small letters with a blank between them and no marks."""
    return " ".join(re.findall(r"[^\W_]+", text.lower().replace(".", "")))


def proper_name(region: str) -> str:
    """A region's name as it stands in a sentence: "united kingdom" is United Kingdom, "uk" is UK."""
    if len(region) <= SHORT_NAME:
        return region.upper()
    return " ".join(word if word in ("of", "and", "the") else prose.capital(word) for word in region.split())


def dates_that_follow(place: Place) -> str:
    """Which dates follow from the region that a garden file states, in words; empty where none is known."""
    here = region_named(place.region)
    if here is None or here.name == "elsewhere":
        return ""
    usual = "the usual dates, moved by half a year" if place.southern else "the usual dates"
    nests = f"nests {_stretch(here.nesting)}" if here.nesting else f"nests on {usual}"
    dates = nests + (f", oak wilt {_stretch(here.oak_wilt)}" if here.oak_wilt else ", no oak wilt")
    source = prose.capital(here.source)
    return f'region = "{place.region}" gives the dates of {proper_name(here.name)}: {dates}. {source}.'


def _stretch(days: tuple[str, str]) -> str:
    """Northern month and day of two days in words: "1 Apr to 31 Jul"."""
    first, last = (dt.date.fromisoformat(f"2024-{day}") for day in days)
    return day_words.stretch(first, last)
