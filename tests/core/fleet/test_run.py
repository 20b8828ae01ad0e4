"""Asking all: stopped and gone on with, none twice, by this process or by a scheduler of Dask."""

from __future__ import annotations

import datetime as dt
import subprocess
import sys
from collections.abc import Iterable, Iterator
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest
from tests.samples.garden_text import garden_text, plant
from tests.samples.places import ROOT

from leafturn.base import quantities
from leafturn.base.faults import Unreadable
from leafturn.fleet import engines, one_garden
from leafturn.fleet.engines import Engine, cluster_at, this_process
from leafturn.fleet.gardens import FoundGarden, find_gardens
from leafturn.fleet.one_garden import Asked, ask
from leafturn.fleet.parts import Parts, Settings
from leafturn.fleet.run import Progress, _lost, ask_all
from leafturn.fleet.tables import Answered, without_answers

SETTINGS = Settings(on=dt.date(2027, 4, 19), questions=("partners",), form="csv")


def gardens(count: int) -> list[FoundGarden]:
    return [FoundGarden(name=f"g{n}", path=Path(f"/nowhere/g{n}")) for n in range(count)]


class Counting:
    """An engine that remembers whom it asked, and is stopped after so many."""

    def __init__(self, most: int = 1000) -> None:
        self.asked: list[str] = []
        self._most = most

    def __call__(self, work: object, things: Iterable[Asked], lost: object) -> Iterator[Answered]:
        for one in things:
            if len(self.asked) == self._most:
                raise KeyboardInterrupt
            self.asked.append(one.name)
            yield without_answers(one.name, "cannot be read", "why")


def run(folder: Path, count: int, engine: Engine) -> tuple[Progress, list[Progress]]:
    parts = Parts(folder, SETTINGS, lambda: 0.0, str)
    seen: list[Progress] = []
    try:
        return ask_all(gardens(count), SETTINGS, parts, engine, seen.append), seen
    finally:
        parts.close()


def test_a_run_that_was_stopped_goes_on_and_asks_nobody_twice(tmp_path: Path) -> None:
    first, second, third = Counting(most=7), Counting(), Counting()
    with pytest.raises(KeyboardInterrupt):
        run(tmp_path, 20, first)
    progress, seen = run(tmp_path, 20, second)
    assert first.asked + second.asked == [f"g{n}" for n in range(20)]
    assert (progress.done, progress.before, progress.gardens) == (20, 7, 20)
    assert [one.done for one in seen] == list(range(7, 21))
    assert len(progress.without_answers) == 20
    run(tmp_path, 22, third)  # two that are new
    assert third.asked == ["g20", "g21"]


def test_what_the_program_itself_fails_on_costs_one_garden(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fails(*of: object) -> None:
        raise ZeroDivisionError("of a year without days")

    monkeypatch.setattr(one_garden, "open_almanac", fails)
    answered = ask(Asked(name="g", path="/nowhere", on=SETTINGS.on, questions=("round",)))
    assert answered.state == "failed"
    assert answered.said == "the program failed on it: ZeroDivisionError: of a year without days"
    assert answered.rows["gardens"][0][:4] == ("g", "", "failed", answered.said)


def test_a_garden_answers_as_its_almanac_does(tmp_path: Path) -> None:
    text = garden_text(plant("lone", "pear", cultivar="Comice", year=2005, at=[0, 0]), region="Styria ")
    (tmp_path / "garden.toml").write_text(text)
    answered = ask(
        Asked(name="g", path=str(tmp_path), on=SETTINGS.on, questions=("round", "partners", "frost"))
    )
    assert answered.state == "answered"
    ((garden, area, plant_id, kind, cultivar, standing, *_),) = answered.rows["partners"]
    assert (garden, area, plant_id, kind, cultivar, standing) == (
        "g",
        "styria",
        "lone",
        "pear",
        "Comice",
        "lacks",
    )
    assert all(row[1] == "styria" for row in answered.rows["round"])


def test_words_are_in_the_units_of_their_garden_also_where_threads_ask(tmp_path: Path) -> None:
    asked = []
    for n in range(6):
        (tmp_path / f"{n}").mkdir()
        text = garden_text(plant("young", "apple", year=2024, at=[0, 0]), units=("metric", "us")[n % 2])
        (tmp_path / f"{n}" / "garden.toml").write_text(text)
        path = str(tmp_path / f"{n}")
        asked.append(Asked(name=f"{n}", path=path, on=dt.date(2027, 6, 20), questions=("round",)))
    with ThreadPoolExecutor(3) as threads:
        rows = [str(answered.rows["round"]) for answered in threads.map(ask, asked)]
    assert ["litres fill it" in row for row in rows] == [True, False] * 3
    assert ["gallons fill it" in row for row in rows] == [False, True] * 3
    assert quantities.spoken() == "metric"


def test_without_a_region_a_garden_is_told_by_its_degrees(tmp_path: Path) -> None:
    (tmp_path / "garden.toml").write_text(garden_text(lat=-43.4, lon=172.6))
    answered = ask(Asked(name="g", path=str(tmp_path), on=SETTINGS.on, questions=()))
    assert answered.rows["gardens"][0][1] == "43S 173E"


def test_no_module_of_the_fleet_imports_dask_or_pyarrow_before_it_is_asked_to() -> None:
    code = (
        "import sys, leafturn_tui.cli.fleet\n"
        "print([name for name in ('dask', 'distributed', 'pyarrow') if name in sys.modules])"
    )
    paths = [str(ROOT / "core"), str(ROOT / "tui")]
    done = subprocess.run(
        [sys.executable, "-c", f"import sys; sys.path[:0] = {paths}\n{code}"], capture_output=True, text=True
    )
    assert done.stdout == "[]\n", done.stderr


@pytest.mark.long
def test_a_scheduler_of_dask_is_asked_as_this_process_would(tmp_path: Path) -> None:
    distributed = pytest.importorskip("distributed")
    for name in ("a", "b", "c"):
        (tmp_path / "all" / name).mkdir(parents=True)
        text = garden_text(plant("p", "pear", year=2005, at=[0, 0]), name=name)
        (tmp_path / "all" / name / "garden.toml").write_text(text if name != "b" else "[place\n")
    asked = [
        Asked(name=one.name, path=str(one.path), on=SETTINGS.on, questions=("partners",))
        for one in find_gardens(tmp_path / "all")
    ]
    with (
        distributed.LocalCluster(
            processes=False, n_workers=1, threads_per_worker=2, dashboard_address=None
        ) as cluster,
        cluster_at(cluster.scheduler_address) as engine,
    ):
        by_dask = {one.garden: one for one in engine(ask, iter(asked), _lost)}
    with this_process() as engine:
        assert by_dask == {one.garden: one for one in engine(ask, asked, _lost)}
    assert [by_dask[name].state for name in "abc"] == ["answered", "cannot be read", "answered"]


@pytest.mark.long
def test_a_garden_whose_process_ends_with_it_is_named() -> None:
    distributed = pytest.importorskip("distributed")

    def ends(asked: Asked) -> Answered:
        raise MemoryError

    asked = [Asked(name=f"g{n}", path="/nowhere", on=SETTINGS.on, questions=()) for n in range(40)]
    with (
        distributed.LocalCluster(
            processes=False, n_workers=1, threads_per_worker=1, dashboard_address=None
        ) as cluster,
        cluster_at(cluster.scheduler_address) as engine,
    ):
        found = list(engine(ends, asked, _lost))
    assert sorted(one.garden for one in found) == sorted(one.name for one in asked)
    assert {one.said for one in found} == {"the process that worked on it ended: MemoryError."}


def test_an_address_where_no_scheduler_answers_costs_one_sentence(monkeypatch: pytest.MonkeyPatch) -> None:
    pytest.importorskip("distributed")
    monkeypatch.setattr(engines, "CONNECT_SECONDS", 0.5)
    for address in ("tcp://127.0.0.1:1", "nonsense://x"):
        with pytest.raises(Unreadable, match="no scheduler of Dask answers there"), cluster_at(address):
            pass


def test_without_dask_many_processes_and_schedulers_are_refused_in_a_sentence(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    for name in ("dask", "distributed"):
        monkeypatch.setitem(sys.modules, name, None)
    for workers, scheduler in ((2, None), (0, "tcp://127.0.0.1:8786")):
        with (
            pytest.raises(Unreadable, match="Dask is not installed, so that only this process can ask"),
            engines.engine_of(workers, scheduler),
        ):
            pass
