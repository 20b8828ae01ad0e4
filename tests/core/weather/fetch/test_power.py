"""What the archive on a grid sends, how it is set beside a garden, and the file it becomes."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import numpy as np
import pytest
from tests.core.weather.fetch.test_stations import kept
from tests.samples.archive_files import FIRST, LAST, power_answer
from tests.samples.archive_server import archive, reply
from tests.samples.garden_text import almanac_of, garden_text

from leafturn.answers.fetched_weather import fetched_weather
from leafturn.answers.weather_file import weather_file
from leafturn.base.faults import Unreadable
from leafturn.weather.fetch import own_file
from leafturn.weather.fetch.power import fetch_power
from leafturn.weather.fetch.source import Fetched
from leafturn.weather.readers.reading import read_weather

TODAY = dt.date(2026, 11, 23)
PATH = "/api/temporal/daily/point"
NOT_WRITTEN = "no fetch wrote this, or it was changed since; nothing was written."


@pytest.fixture(scope="module")
def fetched(tmp_path_factory: pytest.TempPathFactory) -> Fetched:
    with archive({PATH: reply(power_answer(), "application/json")}) as server:
        found = fetch_power(
            kept(server, tmp_path_factory.mktemp("kept")), server.address, (46.9312, -15.8), TODAY
        )
        (asked,) = server.paths()
    assert asked.startswith(PATH)
    return found


def test_the_days_of_a_cell(fetched: Fetched) -> None:
    assert fetched.where == "the cell of its grid that holds 46.93 N, 15.80 W"
    assert fetched.height_m == 512.4
    assert fetched.record.first == FIRST
    assert np.isnan(fetched.record.tmax[(dt.date(2020, 7, 4) - FIRST).days])  # 77 C


def test_what_is_no_weather_is_refused(tmp_path: Path) -> None:
    with (
        archive({PATH: reply(b'{"messages": ["closed"]}', "application/json")}) as server,
        pytest.raises(Unreadable),
    ):
        fetch_power(kept(server, tmp_path), server.address, (46.93, 15.87), TODAY)


def test_it_is_set_beside_what_the_garden_counts_with(fetched: Fetched, tmp_path: Path) -> None:
    """By the standard atmosphere (6.5 C a kilometre, ISO 2533) a cell 152.4 m higher is 1 C colder."""
    known = almanac_of(tmp_path, garden_text(), "2027-04-19").weather()
    found = fetched_weather(fetched, known, 360.0)
    assert (found.above_m, found.warmer_c) == (pytest.approx(152.4), pytest.approx(0.99, abs=0.01))
    assert (len(found.months), found.here) == (12, known.months)
    nowhere = fetched_weather(fetched, known, None)
    assert (nowhere.above_m, nowhere.warmer_c) == (None, None)


def test_the_file_reads_back_as_it_was_and_is_known_while_nobody_changed_it(
    fetched: Fetched, tmp_path: Path
) -> None:
    file, text = tmp_path / "weather.csv", own_file.file_text(fetched, "23 Nov 2026")
    own_file.write(file, text)
    again = read_weather(file, "weather.csv").record
    assert again is not None
    assert np.array_equal(again.tmin, np.round(fetched.record.tmin, 2), equal_nan=True)
    assert (again.first, len(again)) == (fetched.record.first, (LAST - FIRST).days + 1)
    own_file.write(file, text)  # anew
    file.write_text(text.replace("NASA", "ours"), encoding="utf-8")
    with pytest.raises(Unreadable, match=NOT_WRITTEN):
        own_file.write(file, text)
    file.unlink()
    file.symlink_to(tmp_path / "elsewhere.csv")
    with pytest.raises(Unreadable, match=NOT_WRITTEN):
        own_file.may_write(file)
    (tmp_path / "none").write_text("a file where a folder belongs")
    with pytest.raises(Unreadable, match="it cannot be written"):
        own_file.write(tmp_path / "none" / "weather.csv", text)


def test_a_file_of_ones_own_is_shown_as_it_would_be_used(fetched: Fetched, tmp_path: Path) -> None:
    file = tmp_path / "mine.csv"
    own_file.write(file, own_file.file_text(fetched, "23 Nov 2026"))
    garden = almanac_of(tmp_path / "garden", garden_text(), "2027-04-19").garden
    found = weather_file(file, garden)
    assert [column.name for column in found.columns] == ["date", "tmin_c", "tmax_c", "rain_mm"]
    assert found.recorded is not None
    assert found.recorded.first == FIRST
    assert (len(found.months), len(found.without), found.faults) == (12, 12, ())
    nobody = weather_file(file, None)
    assert (nobody.without, nobody.basis) == ((), None)
    assert nobody.months == found.months
    missing = weather_file(tmp_path / "none.csv", garden)
    assert (missing.recorded, missing.months) == (None, ())
    assert len(missing.faults) == 1
