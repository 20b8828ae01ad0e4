"""Counts the functions and types between a garden file and the printed line of one job.

    python docs/main_path.py          prints them
    python docs/main_path.py --write  renews the list in docs/main_path.md, beside this file

How it counts stands at the head of docs/main_path.md.
"""

from __future__ import annotations

import argparse
import contextlib
import io
import sys
import tempfile
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from types import CodeType, FrameType
from typing import Any

PACKAGES = ("leafturn", "leafturn_tui")
KEEPING = "leafturn.base.kept"  # which calls a function only where its answer is not kept
DAY = "2027-01-20"
GARDEN = """\
[place]
name = "Tiny"
lat = 46.9
lon = 15.9
last_frost = "05-10"
first_frost = "10-10"

[[plant]]
id = "pip"
name = "Pip"
kind = "apple"
year = 2012
at = [4, 0]
"""
PLANT, VERB = "pip", "winter prune"
JOB, TITLE = "pip:winter-prune:2027", "winter prune Pip"
# What is made of a rule and a subject on the way to their job: its moments, their days, its window, where it
# stands, and the reasons.
OF_THE_JOB = (
    "leafturn.tasks.timing.phrases.Moment",
    "leafturn.base.explained_days.ExplainedDays",
    "leafturn.tasks.timing.windows.Window",
    "leafturn.tasks.timing.windows.JobStatus",
    "leafturn.tasks.model.Hold",
    "leafturn.tasks.model.Reasons",
)
PAGE = Path(__file__).with_name("main_path.md")
BEGINS, ENDS = "<!-- counted -->", "<!-- end -->"


@dataclass
class Counted:
    """Functions and types by name, in the order in which they came."""

    functions: dict[str, None] = field(default_factory=dict)
    types: dict[str, None] = field(default_factory=dict)

    def note(self, frame: FrameType, value: Any) -> None:
        """Count a function that gives a value back, and all that wait for it."""
        self._note_type(value)
        for above in reversed(list(_stack(frame))):
            self.functions.setdefault(f"{above.f_globals['__name__']}.{above.f_code.co_qualname}")
            for given in _given(above):
                self._note_type(given)

    def _note_type(self, value: Any) -> None:
        if type(value).__module__.partition(".")[0] in PACKAGES:
            self.types.setdefault(_name(type(value)))


@dataclass
class MainPath:
    """A profiler that follows one job: where it is `made`, and where it is `handed` on as well."""

    made: Counted = field(default_factory=Counted)
    handed: Counted = field(default_factory=Counted)
    called: set[CodeType] = field(default_factory=set)
    _seen: dict[object, Any] = field(default_factory=dict)

    def __call__(self, frame: FrameType, event: str, value: Any) -> None:
        """Follow one call or return; a generator's values come as returns."""
        if not _is_ours(frame):
            return
        if event == "call":
            self.called.add(frame.f_code)
        elif event == "return":
            on_the_way = [one for one in _held(value) if _is_on_the_way(one, frame)]
            if on_the_way:
                self.handed.note(frame, value)
            if any([self._is_new(one) for one in on_the_way]):  # noqa: C419 - all of them are to be seen
                self.made.note(frame, value)

    def _is_new(self, value: Any) -> bool:
        key = value if isinstance(value, str) else id(value)
        new = key not in self._seen
        self._seen[key] = value  # held, so that no other value takes its identity
        return new

    def lines(self) -> Iterator[str]:
        """The lists, as they stand in the page."""
        made, handed = self.made, self.handed
        yield f"{len(made.functions)} functions, of {len(self.called)} that the command calls in all:"
        yield ""
        yield from (f"{n}. `{name}`" for n, name in enumerate(made.functions, 1))
        yield ""
        yield f"{len(made.types)} types that they take or give:"
        yield ""
        yield from (f"{n}. `{name}`" for n, name in enumerate(made.types, 1))
        yield ""
        counted = f"{len(handed.functions)} functions and {len(handed.types)} types"
        yield f"Counting those as well through which it is only handed on there are {counted}."


def _name(kind: type) -> str:
    return f"{kind.__module__}.{kind.__qualname__}"


def _held(value: Any) -> Iterator[Any]:
    """A value, or each of those that a plain tuple or list holds."""
    if type(value) in (tuple, list):
        for one in value:
            yield from _held(one)
    else:
        yield value


def _is_ours(frame: FrameType) -> bool:
    return str(frame.f_globals.get("__name__", "")).partition(".")[0] in PACKAGES


def _stack(frame: FrameType) -> Iterator[FrameType]:
    """The frames of the project from the innermost out.

    A comprehension or lambda is part of its function, and so is what keeps its answer.
    """
    at: FrameType | None = frame
    while at is not None:
        kept = at.f_globals.get("__name__") == KEEPING
        if _is_ours(at) and not kept and not at.f_code.co_name.startswith("<"):
            yield at
        at = at.f_back


def _given(frame: FrameType) -> Iterator[Any]:
    """The arguments of a call."""
    code = frame.f_code
    for name in code.co_varnames[: code.co_argcount + code.co_kwonlyargcount]:
        yield frame.f_locals.get(name)


def _is_on_the_way(value: Any, frame: FrameType) -> bool:
    """Whether a value carries the plant, or its job, from the file to the line."""
    match value:
        case str():
            return TITLE in value
        case dict():
            return value.get("id") == PLANT
    match type(value).__name__:
        case "Plant" | "Subject":
            return bool(value.id == PLANT)
        case "Garden":
            return any(plant.id == PLANT for plant in value.plants)
        case "Sources" | "GardenReading":
            return _is_on_the_way(value.garden, frame)
        case "Job" | "Occurrence":
            return bool(str(value.id) == JOB)
        case "Round":
            return any(_is_on_the_way(job, frame) for job in (*value.jobs, *value.waiting))
        case _:
            return _name(type(value)) in OF_THE_JOB and _makes_the_job(frame)


def _makes_the_job(frame: FrameType) -> bool:
    """Whether a call is made for the job: it, or its rule and plant, are given to one that has not ended."""
    for above in _stack(frame):
        given = {type(one).__name__: one for one in _given(above)}
        if "Occurrence" in given:
            return _is_on_the_way(given["Occurrence"], above)
        if "Rule" in given and "Subject" in given:
            return bool(given["Rule"].verb == VERB and given["Subject"].id == PLANT)
    return False


def count() -> MainPath:
    """Run `leafturn round` over a garden of one tree, and follow the job of its winter pruning."""
    from leafturn_tui.command_line import main

    path = MainPath()
    with tempfile.TemporaryDirectory() as folder, contextlib.redirect_stdout(io.StringIO()) as printed:
        Path(folder, "garden.toml").write_text(GARDEN, encoding="utf-8")
        sys.setprofile(path)
        try:
            main(["round", folder, "--on", DAY])
        finally:
            sys.setprofile(None)
    if TITLE not in printed.getvalue():
        raise SystemExit(f"no line tells of {TITLE!r}: the garden or the day wants changing")
    if unmet := set(OF_THE_JOB) - set(path.made.types):
        raise SystemExit(f"never met on the way, perhaps called otherwise by now: {', '.join(sorted(unmet))}")
    return path


if __name__ == "__main__":
    asked = argparse.ArgumentParser(description="Counts the way from a garden file to the line of a job.")
    asked.add_argument("--write", action="store_true", help="renew the list in docs/main_path.md")
    told = "\n".join([BEGINS, *count().lines(), ENDS])
    if asked.parse_args().write:
        text = PAGE.read_text(encoding="utf-8")
        before, _, rest = text.partition(BEGINS)
        PAGE.write_text(before + told + rest.partition(ENDS)[2], encoding="utf-8")
    else:
        print(told)
