"""A garden knows when one of its files was changed since it was read, by whomever."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from pathlib import Path

import pytest
from tests.samples.garden_text import almanac_of, garden_text, plant

from leafturn.assembly import sources
from leafturn.garden.reading.reader import GardenReading
from leafturn.journal.entries import PlainNote
from leafturn.journal.store.store import Store

TODAY = dt.date(2027, 4, 19)
NOTE = PlainNote(on=TODAY, text="the gate stuck")
TEXT = garden_text(plant("pip", "apple", year=2012), weather="weather.csv")
OLD = '[[entry]]\non = 2026-05-01\nwhat = "note"\ntext = "by hand"\n'

CHANGES: dict[str, Callable[[Path], object]] = {
    "another program notes": lambda folder: Store(folder).append(NOTE, TODAY),
    "a year by hand": lambda folder: (folder / "journal" / "2026.toml").write_text(OLD),
    "a copy beside a year": lambda folder: (folder / "journal" / "2027 (copy).toml").write_text(OLD),
    "the garden file": lambda folder: (folder / "garden.toml").write_text(f"{TEXT}\n"),
    "own kinds": lambda folder: (folder / "kinds.toml").write_text('["ugni"]\nhabit = "shrub"\n'),
    "the weather": lambda folder: (folder / "weather.csv").write_text("date,tmin_c,tmax_c\n"),
}


@pytest.mark.parametrize("change", CHANGES)
def test_it_is_stale_until_it_is_read_again(tmp_path: Path, change: str) -> None:
    almanac = almanac_of(tmp_path, TEXT, TODAY, NOTE)
    assert not almanac.stale()
    CHANGES[change](tmp_path)
    assert almanac.stale()
    assert not almanac.reread().stale()


def test_a_folder_in_which_nothing_lies_any_more_is_stale(tmp_path: Path) -> None:
    almanac = almanac_of(tmp_path / "garden", TEXT, TODAY)
    (tmp_path / "garden").rename(tmp_path / "away")
    assert almanac.stale()
    (tmp_path / "away").rename(tmp_path / "garden")
    assert not almanac.stale()


def test_a_garden_file_that_is_as_it_was_is_not_taken_apart_for_each_note(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    almanac = almanac_of(tmp_path, TEXT, TODAY)
    parsed = []
    taken_apart = sources.reading_of

    def reading_of(data: bytes, file: Path) -> GardenReading:
        parsed.append(file)
        return taken_apart(data, file)

    monkeypatch.setattr(sources, "reading_of", reading_of)
    almanac, _ = almanac.note(NOTE, TODAY)
    assert not parsed
    assert [entry.text for entry in almanac.entries] == [NOTE.text]
    (tmp_path / "garden.toml").write_text(TEXT.replace("pip", "pit"))
    assert [p.id for p in almanac.reread().garden.plants] == ["pit"]
    assert len(parsed) == 1


def test_a_garden_that_the_file_names_is_noticed_as_it_comes_and_as_it_is_mended(tmp_path: Path) -> None:
    """A shared folder is fetched: first the folder, then a file with a slip in it, then its mending."""
    also = f'also = ["../mill"]\n{garden_text()}'
    almanac = almanac_of(tmp_path / "here", also, TODAY)
    assert not almanac.stale()
    mill = tmp_path / "mill"
    for change in (
        mill.mkdir,
        lambda: (mill / "garden.toml").write_text("[place\n"),
        lambda: (mill / "garden.toml").write_text(garden_text()),
    ):
        change()
        assert almanac.stale()
        almanac = almanac.reread()
        assert [one.path for one in almanac.also()] == ["../mill"]
        assert not almanac.stale()
    assert not almanac.faults
    assert almanac.also()[0].garden is not None
