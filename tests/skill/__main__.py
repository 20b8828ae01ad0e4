"""`python -m tests.skill --observations OBS.csv --weather WX.csv [--notes 3] [--lead DAYS] [--json]`."""

from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Sequence
from pathlib import Path

from tests.skill.measure import Score, priors, score, trials
from tests.skill.records import Unusable, read_observations, read_weather


def main(words: Sequence[str] | None = None) -> int:
    """Measure, print, and give 0; 2 where the files or words cannot be used."""
    parser = argparse.ArgumentParser(
        prog="python -m tests.skill",
        description="How well bloom is forecast from a few notes, with a kind learnt from other sites only.",
    )
    parser.add_argument("--observations", type=Path, required=True, help="CSV site,year,day_of_year")
    parser.add_argument("--weather", type=Path, required=True, help="CSV site,date,tmin_c,tmax_c")
    parser.add_argument("--notes", type=int, default=3, help="how many of the latest notes may be used (3)")
    parser.add_argument(
        "--lead", help="days before the observed date at which weather ends, or jan1 (default: all known)"
    )
    parser.add_argument("--json", action="store_true", help="print one JSON object")
    given = parser.parse_args(words)
    lead = given.lead if given.lead in (None, "jan1") else _days(given.lead, parser)
    if given.notes < 0:
        parser.error("--notes takes a whole number from 0 on")
    try:
        observations, weather = read_observations(given.observations), read_weather(given.weather)
        for remark in (*observations.remarks, *weather.remarks):
            print(remark, file=sys.stderr)
        learnt = priors(observations.by_site, weather.by_site)
        found = score(list(trials(observations.by_site, weather.by_site, learnt, given.notes, lead)))
    except (Unusable, ValueError) as why:
        print(str(why), file=sys.stderr)
        return 2
    print(json.dumps(found.as_json()) if given.json else _words(found))
    return 0


def _days(text: str, parser: argparse.ArgumentParser) -> int:
    if not text.isdigit():
        parser.error("--lead takes a number of days, or jan1")
    return int(text)


def _words(found: Score) -> str:
    return "\n".join((
        f"blooms forecast:    {found.n}",
        f"forecast missed by: {found.rmse:.2f} d RMSE, {found.mae:.2f} d mean, bias {found.bias:+.2f} d",
        f"80 % range held:    {100 * found.coverage80:.0f} %",
        f"mean of the notes:  {found.notes_rmse:.2f} d RMSE, {found.notes_mae:.2f} d mean",
        f"RMSE over notes':   {found.rmse / found.notes_rmse:.3f}",
    ))  # fmt: skip


if __name__ == "__main__":
    sys.exit(main())
