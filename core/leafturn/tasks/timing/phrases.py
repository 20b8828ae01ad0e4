"""Moments in the words a steward uses: "3 w after bloom end", "heat 150 above 5", "grown 2 m", "12-01"."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Collection
from functools import cached_property, lru_cache

from msgspec.structs import replace

from leafturn.base.bloom_stages import BY_MOMENT, COURSE, PETAL_FALL
from leafturn.base.faults import clipped, did_you_mean
from leafturn.base.patterns import pattern
from leafturn.base.value import Value
from leafturn.season.heat_count import BASE_C

ANCHORS = (
    *BY_MOMENT, "leaf out", "leaf fall", "sap rise",
    "last frost", "last hard frost", "first frost", "growth end", "done", "heap cools", "soil dry",
    "frost threat", "season start", "host topped", "wind", "wet snow",
)  # fmt: skip

# Those that a named plant may have: "bloom end of early-plum".
OF_A_PLANT = (*BY_MOMENT, "leaf out", "leaf fall")
# Those that are the same whatever is tended.
OF_THE_GARDEN = (
    "date", "day", "season start", "heat", "sap rise", "last frost", "last hard frost", "first frost",
    "growth end",
)  # fmt: skip
# What "after ..." means where it names no moment by its own word.
AFTER = {
    "frost": "last frost", "frosts": "last frost", "bloom": "bloom end", "flowering": "bloom end",
    "picking": "picked", "harvest": "picked",
}  # fmt: skip
ALSO_CALLED = {PETAL_FALL.name: PETAL_FALL.moment}
DOING = {stage.doing: stage.moment for stage in COURSE if stage.doing}

_SHIFT = pattern(
    r"(?P<n>\d+)\s*(?P<unit>d|days?|w|weeks?)\s+(?P<way>before|after)\s+(?P<rest>.+)", re.IGNORECASE
)
_OF = pattern(rf"(?P<what>{'|'.join((*OF_A_PLANT, *ALSO_CALLED))}) of (?P<plant>.+)", re.IGNORECASE)
_WHEN = pattern(rf"(?:when|once|after) (?P<plant>.+) (?P<does>{'|'.join(DOING)})", re.IGNORECASE)
_AFTER = pattern(r"(?:after|once) (?:the )?(?P<rest>.+)", re.IGNORECASE)
_HEAT = pattern(
    r"heat\s+(?P<need>\d+(?:\.\d+)?)(?:\s+above\s+(?P<base>-?\d+(?:\.\d+)?))?(?:\s+from\s+(?P<start>\d\d-\d\d))?"
)
_GROWN = pattern(r"grown\s+(?P<metres>\d+(?:\.\d+)?)\s*m")
_DAY = pattern(r"\d{4}-\d\d-\d\d")
_MONTH_DAY = pattern(r"(?P<month>\d\d)-(?P<day>\d\d)")


class NoMoment(ValueError):
    """A phrase that is no moment; the message says what to write."""


class Moment(Value, kw_only=False):
    """An anchor and a shift from it.

    Parameters
    ----------
    anchor : str
        One of ANCHORS, "heat", "grown", "date" or "day".
    shift : int [d]
        Days after the anchor, negative before.
    month_day : str
        For "date" the northern month and day, for "day" the whole date; for "heat" the northern month and
        day it is counted from, empty for the season's start.
    plant : str
        Id of the plant whose moment is meant; empty for that of whatever is tended.
    need, base : float
        For "heat": degree-days [degC d] above `base` [degC]. For "grown": `need` metres of new shoot [m].
    """

    anchor: str
    shift: int = 0
    month_day: str = ""
    need: float = 0.0
    base: float = BASE_C
    plant: str = ""

    @cached_property
    def of_garden(self) -> bool:
        """Whether it is the same whatever is tended."""
        return self.anchor in OF_THE_GARDEN

    @cached_property
    def is_foretold(self) -> bool:
        """Whether it is the same for plants of which the same is foretold, and done on the same day."""
        return self.of_garden or self.anchor in OF_A_PLANT or self.anchor == "done"

    @cached_property
    def unshifted(self) -> Moment:
        """The anchor itself."""
        return replace(self, shift=0) if self.shift else self


@lru_cache(maxsize=1024)
def read_moment(phrase: str) -> Moment:
    """Read a phrase into a Moment.

    Raises
    ------
    NoMoment
        If it is none; the message names the nearest anchor.
    """
    written = " ".join(phrase.split())
    text = written.lower()
    shifted = _SHIFT.fullmatch(written)
    if shifted:
        days = int(shifted["n"]) * (7 if shifted["unit"].lower().startswith("w") else 1)
        inner = read_moment(shifted["rest"])
        sign = -1 if shifted["way"].lower() == "before" else 1
        return replace(inner, shift=inner.shift + sign * days)
    if of_plant := _OF.fullmatch(written):
        what = of_plant["what"].lower()
        return Moment(ALSO_CALLED.get(what, what), plant=of_plant["plant"])
    if doing := _WHEN.fullmatch(written):
        return Moment(DOING[doing["does"].lower()], plant=doing["plant"])
    if after := _AFTER.fullmatch(written):
        what, of, plant = after["rest"].partition(" of ")
        try:
            return read_moment(f"{AFTER.get(what.lower(), what)}{of}{plant}")
        except NoMoment:
            pass  # told below, as it was written
    text = ALSO_CALLED.get(text, text)
    if text in ANCHORS:
        return Moment(text)
    heat = _HEAT.fullmatch(text)
    if heat and (heat["start"] is None or _is_date(f"2024-{heat['start']}")):
        need, base = float(heat["need"]), float(heat["base"] or BASE_C)
        return Moment("heat", month_day=heat["start"] or "", need=need, base=base)
    grown = _GROWN.fullmatch(text)
    if grown:
        return Moment("grown", need=float(grown["metres"]))
    date = _MONTH_DAY.fullmatch(text)
    if date and _is_date(f"2024-{text}"):
        return Moment("date", month_day=text)
    if _DAY.fullmatch(text) and _is_date(text):
        return Moment("day", month_day=text)
    known = (
        "Write a date such as 03-20, heat 150 above 5, grown 2 m, bloom end of a plant's id, "
        f"or one of: {', '.join(ANCHORS)}."
    )
    raise NoMoment(
        f"{clipped(phrase)!r} is no moment. {did_you_mean(text, ANCHORS)} {known}".replace("  ", " ")
    )


def stranger(moment: Moment, plants: Collection[str]) -> str:
    """A sentence where a moment names a plant that is none of the garden's ids; else empty."""
    if not moment.plant or moment.plant in plants:
        return ""
    said = f"there is no plant {clipped(moment.plant)!r} in the garden file."
    return f"{said} {did_you_mean(moment.plant, plants)}".strip()


def wrong_with(text: str, plants: Collection[str]) -> str:
    """What is wrong with a moment in a garden of such plant ids, in a sentence; empty if nothing is."""
    try:
        return stranger(read_moment(text), plants)
    except NoMoment as error:
        return str(error)


def _is_date(text: str) -> bool:
    try:
        dt.date.fromisoformat(text)
    except ValueError:
        return False
    return True
