"""`python -m tests.skill --observations OBS.csv --weather WX.csv [--kind NAME] [--notes 3] [--lead DAYS]`."""

from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Mapping, Sequence
from pathlib import Path

from leafturn.bloom.priors.fitted import fitted
from leafturn.bloom.priors.prior import BloomPrior
from leafturn.weather.record import DailyRecord
from tests.skill.measure import Score, priors, score, trials
from tests.skill.pages import Place, answers, library_name, score_of, wanted
from tests.skill.records import Unusable, read_observations, read_weather


def main(words: Sequence[str] | None = None) -> int:
    """Measure, print, and give 0; 2 where the files or words cannot be used."""
    parser = argparse.ArgumentParser(
        prog="python -m tests.skill",
        description="How well bloom is forecast from a few notes. With --kind gardens of one plant are "
        "written and opened, as a steward does; without, a kind is learnt from the other sites and asked "
        "directly.",
    )
    parser.add_argument("--observations", type=Path, required=True, help="CSV site,year,day_of_year")
    parser.add_argument("--weather", type=Path, required=True, help="CSV site,date,tmin_c,tmax_c")
    parser.add_argument("--kind", help='as the library calls it, such as "sweet cherry"')
    parser.add_argument("--latitude", type=float, default=45.0, help="of the sites, with --kind (45)")
    parser.add_argument("--longitude", type=float, default=10.0, help="of the sites, with --kind (10)")
    parser.add_argument("--notes", type=int, default=3, help="how many of the latest notes may be used (3)")
    parser.add_argument(
        "--lead", help="days before the observed date at which weather ends, or jan1 (default: all known)"
    )
    parser.add_argument(
        "--stated",
        action="store_true",
        help="with --kind: set its fitted prior aside, only class and book are left",
    )
    parser.add_argument(
        "--sample", type=int, default=0, help="with --kind: so many blooms drawn at random (all)"
    )
    parser.add_argument("--json", action="store_true", help="print one JSON object")
    given = parser.parse_args(words)
    lead = given.lead if given.lead in (None, "jan1") else _days(given.lead, parser)
    if given.notes < 0:
        parser.error("--notes takes a whole number from 0 on")
    if given.stated and not given.kind:
        parser.error("--stated goes with --kind")
    try:
        observations, weather = read_observations(given.observations), read_weather(given.weather)
        for remark in (*observations.remarks, *weather.remarks):
            print(remark, file=sys.stderr)
        if given.kind:
            found = through_the_pages(observations.by_site, weather.by_site, given, lead)
        else:
            learnt = priors(observations.by_site, weather.by_site)
            found = score(list(trials(observations.by_site, weather.by_site, learnt, given.notes, lead)))
    except (Unusable, ValueError) as why:
        print(str(why), file=sys.stderr)
        return 2
    print(json.dumps(found.as_json()) if given.json else _words(found))
    return 0


def through_the_pages(
    records: Mapping[str, Mapping[int, float]],
    weather: Mapping[str, DailyRecord],
    given: argparse.Namespace,
    lead: int | str | None,
) -> Score:
    """Figures of gardens opened on the day asked.

    A kind that the program has a fitted prior of is fitted anew from the other sites, in folds, and the
    garden is opened with that; with `--stated` with none.
    """
    kind = library_name(given.kind)
    asked = wanted(records, weather, given.notes, lead, given.sample)
    handed: dict[str, BloomPrior | None] = {}
    if given.stated:
        handed = dict.fromkeys(records)
    elif kind in fitted():
        handed = dict(priors(records, weather))
    place = Place(latitude=given.latitude, longitude=given.longitude)
    return score_of(answers(asked, weather, kind, place, handed))


def _days(text: str, parser: argparse.ArgumentParser) -> int:
    if not text.isdigit():
        parser.error("--lead takes a number of days, or jan1")
    return int(text)


def _words(found: Score) -> str:
    return "\n".join((
        f"blooms forecast:    {found.n}",
        f"forecast missed by: {found.rmse:.2f} d RMSE, {found.mae:.2f} d mean, bias {found.bias:+.2f} d",
        f"80 % range held:    {100 * found.coverage80:.0f} %",
        f"no date given:      {found.unsaid}",
        f"mean of the notes:  {found.notes_rmse:.2f} d RMSE, {found.notes_mae:.2f} d mean",
        f"RMSE over notes':   {found.rmse / found.notes_rmse:.3f}",
    ))  # fmt: skip


if __name__ == "__main__":
    sys.exit(main())
