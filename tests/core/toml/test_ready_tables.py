"""Tables parsed at the install: read as if parsed now, never believed of other files, never needed."""

from __future__ import annotations

import importlib.util
import stat
import sys
from pathlib import Path
from types import ModuleType
from typing import Any, Generic, TypeVar

import msgspec
import pytest

from leafturn.toml import kept_tables
from leafturn.toml.kept_tables import files_below, read_tables
from leafturn.toml.ready_tables import make_ready

PEAR = b'[pear]\nheat = [215.0, "x", "fair"]\n'
HOOK = Path(__file__).parents[3] / "core" / "ready_when_installed.py"
T = TypeVar("T")


@pytest.fixture
def package(tmp_path: Path) -> Path:
    """Some files of the program, in its own folders."""
    folder = tmp_path / "core" / "leafturn"
    for name, data in {
        "kinds/data/groups/pome.toml": PEAR,
        "kinds/data/pests.toml": b"[moth]\n",
        "garden/regions.toml": b"[ohio]\n",
        "base/tunables.toml": b"[rule]\n",
    }.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_bytes(data)
    return folder


@pytest.fixture
def never_parsed(monkeypatch: pytest.MonkeyPatch, package: Path) -> None:
    """An install whose tables are ready, where nothing may be parsed any more."""
    make_ready(package)

    def parsed(text: str) -> dict[str, Any]:
        raise AssertionError("it was parsed again")

    monkeypatch.setattr(kept_tables.tomllib, "loads", parsed)


def held(files: dict[str, bytes], source: Path) -> dict[str, Any]:
    return {name: msgspec.msgpack.decode(raw) for name, raw in read_tables(files, [], source).items()}


def test_the_library_is_made_ready_as_one_and_other_tables_each(package: Path) -> None:
    made = make_ready(package)
    assert [path.relative_to(package).as_posix() for path in made] == [
        "kinds/data.kept",
        "garden/regions.kept",
    ]
    assert all(stat.S_IMODE(path.stat().st_mode) == 0o644 for path in made)


@pytest.mark.usefixtures("never_parsed")
def test_what_is_ready_is_not_parsed_again(package: Path) -> None:
    library, regions = package / "kinds" / "data", package / "garden" / "regions.toml"
    assert held(files_below(library), library)["groups/pome.toml"] == {"pear": {"heat": [215.0, "x", "fair"]}}
    assert held({regions.name: regions.read_bytes()}, regions) == {"regions.toml": {"ohio": {}}}


def test_a_file_changed_since_is_parsed_and_what_the_install_made_is_left(package: Path) -> None:
    made, regions = make_ready(package)[1], package / "garden" / "regions.toml"
    before = made.read_bytes()
    assert held({regions.name: b"[kent]\n"}, regions) == {"regions.toml": {"kent": {}}}
    assert made.read_bytes() == before


def test_where_nothing_may_be_written_nothing_is_ready(package: Path) -> None:
    for blocked in ("kinds/data.kept", "garden/regions.kept"):
        (package / blocked).mkdir()
    assert make_ready(package) == []


@pytest.mark.parametrize("version", ["standard", "editable"])
def test_an_install_takes_them_along_or_compiles_what_runs_in_place(
    package: Path, monkeypatch: pytest.MonkeyPatch, version: str
) -> None:
    root = package.parents[1]
    source = root / "tui" / "page.py"
    source.parent.mkdir()
    source.write_text("PAGE = 1\n")
    monkeypatch.setattr(sys, "path", [*sys.path])
    monkeypatch.setattr(sys, "pycache_prefix", None)
    build_data: dict[str, Any] = {"artifacts": []}
    _hook(monkeypatch)(root).initialize(version, build_data)
    taken = (
        []
        if version == "editable"
        else ["core/leafturn/kinds/data.kept", "core/leafturn/garden/regions.kept"]
    )
    assert build_data["artifacts"] == taken
    assert Path(importlib.util.cache_from_source(str(source))).exists() == (version == "editable")


def _hook(monkeypatch: pytest.MonkeyPatch) -> Any:
    """The hook's class, with a stand-in for the builder, which is there only while something is installed."""

    class Interface(Generic[T]):
        def __init__(self, root: Path) -> None:
            self.root = str(root)

    stand_in = ModuleType("interface")
    stand_in.BuildHookInterface = Interface  # type: ignore[attr-defined]
    monkeypatch.setitem(sys.modules, "hatchling.builders.hooks.plugin.interface", stand_in)
    for name in (
        "hatchling",
        "hatchling.builders",
        "hatchling.builders.hooks",
        "hatchling.builders.hooks.plugin",
    ):
        monkeypatch.setitem(sys.modules, name, ModuleType(name))
    spec = importlib.util.spec_from_file_location("ready_when_installed", HOOK)
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module.ReadyWhenInstalled
