"""Every figure of docs/speed.md, taken in one run: `python -m tests.bench [--write]`, on a quiet machine.

Seconds are those of this machine on this day; what compares is the ratios, each against its baseline in the
same run, and the exponents, by which a time grows with the number of plants, notes or years.
"""

from __future__ import annotations

import contextlib
import datetime as dt
import io
import math
import os
import platform
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator, Mapping, Sequence
from pathlib import Path

from tests.bench.first_picture import first_pictures
from tests.bench.grown_garden import ON, grown_garden
from tests.bench.keys import Press, bare, walk
from tests.bench.long_records import long_watched, much_noted
from tests.samples.places import DEMO
from tests.stories.terminal import COMMAND, environment

from leafturn.almanac import Almanac, open_almanac
from leafturn_tui.cli.kept_answers import FOLDER as ANSWERS
from leafturn_tui.command_line import main as main_of_command
from leafturn_tui.render.book import lines as book_lines

PAGE = Path(__file__).parents[2] / "docs" / "speed.md"
BEGINS, ENDS = "<!-- measured -->", "<!-- end -->"
SIZES = (125, 250, 500, 1000, 2000)
NOTES = (12_500, 25_000, 50_000, 100_000)
YEARS = (50, 100)
TURNS = 3
NUMPY = [sys.executable, "-c", "import numpy"]
DAY = ["--on", ON.isoformat()]


def main() -> None:
    """Measure everything, print it, and with `--write` put it into the page."""
    with tempfile.TemporaryDirectory() as folder:
        lines = []
        for line in _measured(Path(folder)):
            print(line, flush=True)
            lines.append(line)
    if "--write" in sys.argv:
        page = PAGE.read_text(encoding="utf-8")
        before, after = page.split(BEGINS)[0], page.split(ENDS)[1]
        PAGE.write_text("\n".join([f"{before}{BEGINS}", *lines, f"{ENDS}{after}"]), encoding="utf-8")


def _measured(folder: Path) -> Iterator[str]:
    load = f"{os.getloadavg()[0]:.1f} on {os.cpu_count()} processors"
    yield f"Taken on {dt.date.today()} with Python {platform.python_version()}; load at the beginning {load}."
    env = {
        "XDG_CACHE_HOME": str(folder / "cache"),
        "PYTHONPYCACHEPREFIX": str(folder / "bytecode"),
        "PYTHONDONTWRITEBYTECODE": "",
    }
    os.environ["XDG_CACHE_HOME"] = env["XDG_CACHE_HOME"]
    for part in (_first_pictures, _commands, _by_size, _by_notes, _by_years, _keys):
        yield ""
        yield from part(folder, env)


# ---- the start ---------------------------------------------------------------------------


def _first_pictures(folder: Path, env: dict[str, str]) -> Iterator[str]:
    yield "## From the start to the first job on the screen"
    yield ""
    yield "| garden | warm | cold | uncached | bare Textual app |"
    yield "|---|---|---|---|---|"
    for name, garden, words in (
        ("demo, 44 plants", DEMO, "boskoop"),
        ("200 plants", grown_garden(folder, 200), "p1"),
    ):
        took = first_pictures([str(garden), *DAY], words, folder)
        ratios = (f"{took[kind] / took['bare']:.2f}" for kind in ("warm", "cold", "uncached"))
        yield f"| {name} | {' | '.join(ratios)} | 1 ({took['bare']:.2f} s) |"


def _processor_seconds(command: Sequence[str], env: dict[str, str], *, again: bool = False) -> float:
    """The least processor time of some runs, children included; `again` with what the last one answered."""
    took = []
    for _ in range(TURNS):
        if not again:
            shutil.rmtree(Path(env["XDG_CACHE_HOME"]) / ANSWERS, ignore_errors=True)
        before = os.times()
        subprocess.run(command, env=environment(env), stdout=subprocess.DEVNULL, check=False)
        after = os.times()
        took.append(
            after.children_user - before.children_user + after.children_system - before.children_system
        )
    return min(took)


def _commands(folder: Path, env: dict[str, str]) -> Iterator[str]:
    numpy = _processor_seconds(NUMPY, env)
    yield f"## Commands, in processor time beside that of importing numpy: the least of {TURNS} runs"
    yield ""
    yield "| command | seconds | imports of numpy | asked again, seconds |"
    yield "|---|---|---|---|"
    for name, garden in (("demo", DEMO), ("2,000 plants", grown_garden(folder / "commands", 2_000))):
        for command in ("round", "season", "partners"):
            words = [*COMMAND, command, str(garden), "--json", *DAY]
            first, again = _processor_seconds(words, env), _processor_seconds(words, env, again=True)
            yield f"| `leafturn {command} --json`, {name} | {first:.2f} | {first / numpy:.1f} | {again:.2f} |"
    took = _processor_seconds([*COMMAND, "--help"], env)
    yield f"| `leafturn --help` | {took:.2f} | {took / numpy:.1f} | |"
    yield f"| importing numpy | {numpy:.2f} | 1 | |"


# ---- more plants -------------------------------------------------------------------------

Question = Callable[[Almanac], object]
QUESTIONS: tuple[tuple[str, Question], ...] = (
    ("the week", lambda almanac: almanac.round()),
    ("the season", lambda almanac: (almanac.season(), almanac.season_days())),
    ("pages of all plants", lambda almanac: almanac.plants()),
    ("what to heed", lambda almanac: almanac.heed()),
    ("the larder", lambda almanac: almanac.larder()),
    ("thirty years of light", lambda almanac: almanac.canopy()),
)


def _timed(work: Callable[[], object]) -> float:
    begun = time.process_time()
    work()
    return time.process_time() - begun


def _table(title: str, work: Mapping[str, Callable[[int], object]], sizes: Sequence[int]) -> Iterator[str]:
    """The processor seconds of some work, a row each, by size; the exponent is that of the four largest."""
    yield title
    yield ""
    yield f"| | {' | '.join(f'{n:,}' for n in sizes)} | exponent |"
    yield f"|---{'|---' * len(sizes)}|---|"
    for name, of in work.items():
        took = [_timed(lambda n=n, of=of: of(n)) for n in sizes]  # type: ignore[misc]
        yield f"| {name} | {' | '.join(f'{t:.2f}' for t in took)} | {_exponent(sizes[-4:], took[-4:]):.2f} |"


def _asked(gardens: Mapping[int, Path], asked: Mapping[str, Question]) -> dict[str, Callable[[int], object]]:
    """Reading each of some gardens, then questions to it, each asked after those above it."""
    almanacs: dict[int, Almanac] = {}

    def opened(n: int) -> None:
        almanacs[n] = open_almanac(gardens[n], ON)

    asking = {name: lambda n, ask=ask: ask(almanacs[n]) for name, ask in asked.items()}  # type: ignore[misc]
    return {"reading for the first time": opened, "reading again": opened, **asking}


def _by_size(folder: Path, env: dict[str, str]) -> Iterator[str]:
    title = "## By the number of plants, in processor seconds, each asked after those above it"
    yield from _table(title, _asked({n: grown_garden(folder, n) for n in SIZES}, dict(QUESTIONS)), SIZES)


# ---- more notes, more weather ------------------------------------------------------------


def _noted(gardens: Mapping[int, Path], asked: Mapping[str, Question]) -> dict[str, Callable[[int], object]]:
    """The same, and a note by the command."""

    def note(n: int) -> None:
        with contextlib.redirect_stdout(io.StringIO()):
            main_of_command(["note", str(gardens[n]), "a robin sings", *DAY])

    return {**_asked(gardens, asked), "a note": note}


def _by_notes(folder: Path, env: dict[str, str]) -> Iterator[str]:
    title = "## By the number of notes, in processor seconds, of the demo with as many more"
    asked = {"the week": QUESTIONS[0][1], "the book": lambda almanac: list(book_lines(almanac))}
    open_almanac(DEMO, ON).round()  # what is loaded but once belongs to none of them
    yield from _table(title, _noted({n: much_noted(folder, n) for n in NOTES}, asked), NOTES)


def _by_years(folder: Path, env: dict[str, str]) -> Iterator[str]:
    title = "## By the years of weather, in processor seconds, of the demo with its own told again"
    asked = {"the week": QUESTIONS[0][1]}
    yield from _table(title, _noted({n: long_watched(folder, n) for n in YEARS}, asked), YEARS)


def _exponent(sizes: Sequence[int], took: Sequence[float]) -> float:
    logs = [[math.log(one) for one in of] for of in (sizes, took)]
    return statistics.linear_regression(*logs).slope


# ---- keys --------------------------------------------------------------------------------


def _keys(folder: Path, env: dict[str, str]) -> Iterator[str]:
    yield "## From a key to its picture, in milliseconds: the middle one and that of 95 in 100"
    yield ""
    yield "| garden | keys | first byte | whole picture | bare Textual apps |"
    yield "|---|---|---|---|---|"
    env = env | {"XDG_CACHE_HOME": str(folder / "no picture")}
    least = bare(env)
    shares = f"{_shares(least, 'first')} | {_shares(least, 'whole')}"
    yield f"| bare Textual app | changing a line | {shares} | 1 |"
    for name, garden in (("demo, 44 plants", DEMO), ("2,000 plants", folder / "of_2000")):
        presses = walk([str(garden), *DAY], env)
        for what, keys in (("opening a page", ("page",)), ("moving the bar", ("down", "end", "home"))):
            of = [press for press in presses if press.key in keys and press.whole > 0]
            ratio = statistics.median(p.whole for p in of) / statistics.median(p.whole for p in least)
            yield f"| {name} | {what} | {_shares(of, 'first')} | {_shares(of, 'whole')} | {ratio:.1f} |"


def _shares(presses: Sequence[Press], which: str) -> str:
    took = sorted(1000 * getattr(press, which) for press in presses)
    return f"{took[len(took) // 2]:.0f}, {took[min(round(0.95 * len(took)), len(took) - 1)]:.0f}"


if __name__ == "__main__":
    main()
