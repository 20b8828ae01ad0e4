"""The lock pins what the project asks for, each package by its hashes."""

from __future__ import annotations

import re
import tomllib

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name
from tests.samples.places import ROOT

LOCK = (ROOT / "requirements.lock").read_text()
PINNED = re.compile(
    r"^(?P<name>[A-Za-z0-9_.-]+)==(?P<version>\S+)[^\n]*\n(?P<hashes>(?:    --hash=[^\n]*\n?)*)", re.MULTILINE
)
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text())["project"]
EXTRAS = PROJECT["optional-dependencies"].values()
ASKED = {*PROJECT["dependencies"], *(one for extra in EXTRAS for one in extra)}


def pinned() -> dict[str, tuple[str, int]]:
    """Version and number of hashes of each package."""
    found = PINNED.finditer(LOCK)
    return {
        canonicalize_name(p["name"]): (p["version"], len(re.findall("sha256:[0-9a-f]{64}", p["hashes"])))
        for p in found
    }


def test_every_package_of_the_lock_has_its_hashes() -> None:
    packages = pinned()
    assert len(packages) == len(re.findall(r"^[A-Za-z0-9_.-]+==", LOCK, re.M)) > 20
    assert [name for name, (_, hashes) in packages.items() if not hashes] == []


@pytest.mark.parametrize("asked", sorted(one for one in ASKED if not one.startswith("leafturn[")))
def test_what_the_project_asks_for_is_pinned_within_its_bounds(asked: str) -> None:
    wanted = Requirement(asked)
    version, _ = pinned()[canonicalize_name(wanted.name)]
    assert wanted.specifier.contains(version)
