"""What a plain run leaves out, CI runs: by the markers, and of a sweep by the case."""

from __future__ import annotations

import re
import tomllib

import pytest
from tests.samples.places import ROOT
from tests.samples.sweeps import mark_sweeps

BY_HAND = {"bench", "faults"}  # which have a short form among the plain tests


class Case:
    """As much of a test's case as marking asks."""

    def __init__(self, nodeid: str, *marks: pytest.MarkDecorator) -> None:
        self.nodeid, self.marks = nodeid, {one.name: one.mark for one in marks}

    def get_closest_marker(self, name: str) -> pytest.Mark | None:
        return self.marks.get(name)

    def add_marker(self, mark: pytest.MarkDecorator) -> None:
        self.marks[mark.name] = mark.mark


def test_of_a_sweep_the_first_of_each_so_many_cases_is_plain() -> None:
    sweep = pytest.mark.sweep(each=3)
    swept = [Case(f"test_a.py::test_one[{n}]", sweep) for n in range(7)]
    others = [
        Case("test_a.py::test_two", sweep),
        Case("test_a.py::test_three[0]"),
        Case("test_a.py::test_three[1]"),
    ]
    mark_sweeps([*swept, *others])  # type: ignore[list-item]
    assert [n for n, case in enumerate(swept) if "long" not in case.marks] == [0, 3, 6]
    assert not any("long" in case.marks for case in others)


def test_what_a_plain_run_leaves_out_is_run_by_ci_or_by_hand() -> None:
    options = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["tool"]["pytest"]["ini_options"]
    left_out = set(re.findall(r"not (\w+)", options["addopts"]))
    (by_ci,) = re.findall(r"-m pytest -m [\"'](.*?)[\"']", (ROOT / ".ci" / "run").read_text("utf-8"))
    assert left_out == {*by_ci.split(" or "), *BY_HAND}
    assert left_out <= {line.partition(":")[0] for line in options["markers"]}
