"""The questions with which a garden begins, alike in the pages and as a plain dialog."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any, NamedTuple

from msgspec.structs import replace

from leafturn.assembly.sources import OWN_KINDS
from leafturn.base.faults import clipped
from leafturn.files.reasons import reason
from leafturn.files.writing import write_new
from leafturn.garden.beginning.answers import frost_typed, height_typed, helper_typed, region_typed
from leafturn.garden.beginning.coordinates import EXAMPLES, read_coordinates
from leafturn.garden.beginning.first_file import Beginning
from leafturn.garden.editing.edits import NotTaken
from leafturn.garden.editing.garden_text import GardenText, text_of
from leafturn.garden.reading.file import GARDEN_FILE
from leafturn.garden.reading.frost_dates import month_and_day
from leafturn.kinds.library import Library, load_library
from leafturn_tui.notes import NotUnderstood, plainly

NOTHING = "Nothing was written."
_RARE = ("rare", "rarely", "frost is rare", "frost is rare here", "seldom")


class Step(NamedTuple):
    """One question.

    Parameters
    ----------
    question : str
    hint : callable
        What may be typed, after the answers before it.
    take : callable
        The beginning with what was typed; raises NotUnderstood with what to write instead.
    asked : callable
        Whether the question is asked, after those before it.
    repeats : bool
        Whether it is asked again until nothing is typed.
    """

    question: str
    hint: Callable[[Beginning], str]
    take: Callable[[Beginning, str], Beginning]
    asked: Callable[[Beginning], bool] = lambda beginning: True
    repeats: bool = False


def steps(folder: Path) -> Sequence[Step]:
    """The questions before the plants; `folder` is where the garden will lie."""
    return (
        Step("What is the garden called?", _always("any words; or nothing"), _name),
        Step("Where does it lie?", _always(f"{EXAMPLES}; maps on phones tell it"), _place),
        Step(
            "How far east or west?",
            _always("15.9E, or 71°6' W; or nothing"),
            _longitude,
            lambda beginning: beginning.lon is None,
        ),
        Step("In which country or state?", _region_hint, _region),
        Step("How high above the sea?", _always("360, 360 m, 1200 ft; or nothing"), _height),
        Step(
            "The usual last frost of spring, or a weather file?",
            lambda beginning: (
                f"24 {'October' if _is_southern(beginning) else 'April'}; or frost is rare: never, or 1 year "
                "in 5; or weather.csv; or nothing"
            ),
            lambda beginning, text: _frost_or_file(beginning, text, folder),
        ),
        Step(
            "And the usual first frost of autumn?",
            lambda beginning: f"30 {'April' if _is_southern(beginning) else 'October'}; or nothing",
            _first_frost,
            lambda beginning: month_and_day(beginning.last_frost) is not None,
        ),
        Step(
            "Who helps you, how many hours a week, and what can they do?",
            _always("Ana 3; or: bench helper 2 seated light; nothing: that is all"),
            _helper,
            repeats=True,
        ),
    )


def _always(hint: str) -> Callable[[Beginning], str]:
    return lambda beginning: hint


def next_step(asked: Sequence[Step], n: int, beginning: Beginning) -> int:
    """The first question from number `n` on that is to be asked."""
    while n < len(asked) and not asked[n].asked(beginning):
        n += 1
    return n


def _name(beginning: Beginning, text: str) -> Beginning:
    return replace(beginning, name=" ".join(text.split()))


def _place(beginning: Beginning, text: str) -> Beginning:
    if not text.strip():
        raise NotUnderstood("Without a latitude there is no season. A rough one will do, such as 47 N.")
    with plainly():
        place = read_coordinates(text)
    if place.lat is None:
        raise NotUnderstood("That is east or west; the latitude too, please, such as 47 N.")
    return replace(beginning, lat=place.lat, lon=place.lon)


def _longitude(beginning: Beginning, text: str) -> Beginning:
    if not text.strip():
        return beginning
    with plainly():
        place = read_coordinates(text)
    degrees = place.lat if place.lon is None else place.lon
    letter = text.strip()[-1:].lower() in "ns" or text.strip()[:1].lower() in "ns"
    if degrees is None or letter:
        raise NotUnderstood(f"{clipped(text.strip())!r} is north or south. Write 15.9E, 71 W or -71.")
    return replace(beginning, lon=degrees)


def _region_hint(beginning: Beginning) -> str:
    """What Enter alone takes is told, where the place tells a region."""
    likely = beginning.likely_region
    return f"germany, oregon; nothing: {f'{likely}, by its place' if likely else 'none is written'}"


def _region(beginning: Beginning, text: str) -> Beginning:
    with plainly():
        return replace(beginning, region=region_typed(text))


def _height(beginning: Beginning, text: str) -> Beginning:
    with plainly():
        height = height_typed(text) if text.strip() else {}
    return replace(beginning, height=tuple(height.items()))


def _frost_or_file(beginning: Beginning, text: str, folder: Path) -> Beginning:
    """The last frost, how often it freezes, or a weather file that lies here or in the garden's folder."""
    text = " ".join(text.split())
    beginning = replace(beginning, weather="", last_frost="", first_frost="")
    if not text:
        return beginning
    if text.lower() in _RARE:
        raise NotUnderstood("How rare? Write never, or 1 year in 5, or 2 years in 10.")
    if weather_file(text, folder) is not None:
        _require_weather(text, folder)
        return replace(beginning, weather=text)
    try:
        return replace(beginning, last_frost=frost_typed(text))
    except NotTaken as why:
        if "/" in text or "." in text.rstrip("."):
            raise NotUnderstood(f"There is no file {clipped(text)!r}, here or in {folder}.") from None
        raise NotUnderstood(str(why)) from None


def _first_frost(beginning: Beginning, text: str) -> Beginning:
    with plainly():
        return replace(beginning, first_frost=frost_typed(text) if text.strip() else "")


def _helper(beginning: Beginning, text: str) -> Beginning:
    if not text.strip():
        return beginning
    with plainly():
        helper = helper_typed(text)
    if any(helper["name"] == other["name"] for other in beginning.helpers):
        raise NotUnderstood(f"{helper['name']} is among the helpers already.")
    return replace(beginning, helpers=(*beginning.helpers, helper))


def weather_file(name: str, folder: Path) -> Path | None:
    """The file that is meant: from here, or in the garden's folder; None if there is none."""
    try:
        return next((p for p in (Path(name).expanduser(), folder / name) if p.is_file()), None)
    except (OSError, ValueError, RuntimeError):
        return None


def _require_weather(name: str, folder: Path) -> None:
    """Raise NotUnderstood if nothing in a weather file can be used."""
    from leafturn.weather.readers.reading import read_weather

    path = weather_file(name, folder)
    reading = read_weather(path, name) if path is not None else None
    if reading is None or reading.record is None:
        raise NotUnderstood(
            reading.faults[0].sentence() if reading and reading.faults else f"no file {clipped(name)!r}"
        )


def _is_southern(beginning: Beginning) -> bool:
    return beginning.lat is not None and beginning.lat < 0


def understood(step: Step, beginning: Beginning, text: str) -> str:
    """What a line comes to, told while it is typed: the line of the file, or the hint."""
    if not text.strip():
        return step.hint(beginning)
    after = step.take(beginning, text)
    was, now = (replace(b, lat=b.lat or 0.0) for b in (beginning, after))  # before it is asked there is none
    new = [line for line in now.text().splitlines() if line not in was.text().splitlines()]
    return "; ".join(line.split("  #")[0].rstrip() for line in new if line and line[0] not in "[#")


def library_of(folder: Path) -> Library:
    """The plant library, with kinds of the steward's own where such a file lies in the folder already."""
    own = folder / OWN_KINDS
    return load_library(own if own.exists() else None)[0]


def first_text(beginning: Beginning, folder: Path) -> GardenText:
    """The file as it stands before the plants."""
    named = replace(beginning, weather=Path(beginning.weather).name if beginning.weather else "")
    return text_of(named.text().encode(), folder / GARDEN_FILE)


def with_plant(text: GardenText, fields: dict[str, Any]) -> GardenText:
    """The file with a plant more; raises NotUnderstood."""
    with plainly():
        return text_of(text.adding(fields).after, text.file)


def write_garden(text: GardenText, weather: str, folder: Path) -> None:
    """Write the file, and a copy of the weather file beside it, into a folder that is made if need be.

    Raises
    ------
    NotUnderstood
        If it cannot be written, or something of that name is there; nothing is then left of it.
    """
    try:
        folder.mkdir(parents=True, exist_ok=True)
        path = weather_file(weather, folder) if weather else None
        copy = folder / path.name if path is not None else None
        if path is not None and copy is not None and not copy.exists():
            write_new(copy, path.read_bytes())
        write_new(text.file, text.data)
    except OSError as why:
        raise NotUnderstood(f"It cannot be written: {reason(why, writing=True)}.") from None
