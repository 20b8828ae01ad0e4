"""Garden files written for a test."""

from __future__ import annotations

from pathlib import Path

from leafturn.garden.reading.reader import GardenReading, read_garden

PLACE = "[place]\nlat = 46.9\nlon = 15.9\n"  # three lines, so that what follows begins on line 4


def reading_of(text: str, folder: Path) -> GardenReading:
    """What comes of a garden file with this text."""
    file = folder / "garden.toml"
    file.write_text(text, encoding="utf-8")
    return read_garden(file)


def sentences(reading: GardenReading) -> list[str]:
    """Its faults, without the file's name."""
    return [fault.sentence().removeprefix("garden.toml, ") for fault in reading.faults]
