"""`python -m tests.skill.fit_priors FOLDER`: writes the coefficients of kinds that open records know.

FOLDER is where `python -m tests.skill.fetch FOLDER` keeps the records; they are fetched if they are not
there, and stay out of the project: only the coefficients fitted to them are written, with where they come
from. The same records give the same file. With `--workers 2` (extra `fleet`) on two cores it takes about
ten minutes.
"""

from __future__ import annotations

import argparse
import sys
from dataclasses import dataclass
from pathlib import Path
from typing import NoReturn

import msgspec
import tomli_w

from leafturn.base.faults import Fault, Unreadable
from leafturn.bloom.learning import fit_prior
from leafturn.bloom.priors import fitted
from leafturn.bloom.priors.fitted import FittedKind, Provenance
from leafturn.fleet.engines import engine_of
from tests.skill.fetch import PACKAGE, NotFetched, series_in
from tests.skill.fit_tables import add_engine, rounded
from tests.skill.records import read_observations, read_weather

OUT = Path(fitted.__file__).with_name("fitted.toml")
HEAD = """\
# Kinds fitted to open records, made by `python -m tests.skill.fit_priors FOLDER`; do not edit by hand. The
# records are those of the national weather services of Japan and Korea, as collected in {package}; they are
# theirs, so only what was fitted to them stands here. Levels and their variances are of ln warmth, days are
# day numbers (1 January 1), winters are mean temperatures of December to February [degC].

"""


@dataclass(frozen=True)
class Source:
    """Which series teach a kind, and which plants they are of."""

    kind: str
    series: tuple[str, ...]
    species: str


SOURCES = (
    Source(
        "flowering cherry", ("jp_cherry_first", "kr_cherry"), "Prunus x yedoensis and others, first flower"
    ),
    Source("japanese apricot", ("jp_plum",), "Prunus mume, first flower"),
    Source("camellia", ("jp_camellia",), "Camellia japonica, first flower"),
    Source("wisteria", ("jp_wisteria",), "Wisteria floribunda, first flower"),
    Source("forsythia", ("kr_forsythia",), "Forsythia koreana, flowering"),
    Source("azalea", ("kr_azalea",), "Rhododendron mucronulatum, flowering"),
    Source("peach", ("kr_peach",), "Prunus persica, flowering"),
    Source("asian pear", ("kr_pear",), "Pyrus pyrifolia, flowering"),
    Source("black locust", ("kr_locust",), "Robinia pseudoacacia, flowering"),
)
SERVICES = {"jp": "Japan Meteorological Agency", "kr": "Korea Meteorological Administration"}


def fit(work: tuple[Source, Path]) -> tuple[str, dict]:
    """One kind, as it is written."""
    source, folder = work
    records, weather = {}, {}
    for name in source.series:
        country = name[:2]
        known = read_weather(folder / f"{country}_weather.csv").by_site
        for site, days in read_observations(folder / f"{name}.csv").by_site.items():
            if site in known:
                records[f"{country} {site}"], weather[f"{country} {site}"] = days, known[site]
    years = [year for days in records.values() for year in days]
    services = " and ".join(SERVICES[country] for country in dict.fromkeys(n[:2] for n in source.series))
    where = Provenance(
        records=f"{services}, through {PACKAGE.replace('==', ' ')}", species=source.species,
        sites=len(records), notes=len(years), years=(min(years), max(years)),
    )  # fmt: skip
    return source.kind, rounded(msgspec.to_builtins(FittedKind.of(fit_prior(records, weather), where)))


def _lost(work: tuple[Source, Path], why: str) -> NoReturn:
    raise Unreadable(Fault(file=work[0].kind, line=None, message=why))


def main(words: list[str] | None = None) -> int:
    """Fit all kinds and write the file; 0, or 2 with a plain sentence."""
    parser = argparse.ArgumentParser(
        prog="python -m tests.skill.fit_priors", description=__doc__.split("\n")[0]
    )
    parser.add_argument("folder", type=Path)
    add_engine(parser)
    given = parser.parse_args(words)
    try:
        folder = series_in(given.folder)
        with engine_of(given.workers, given.scheduler) as engine:
            kinds = dict(engine(fit, [(source, folder.absolute()) for source in SOURCES], _lost))
    except (NotFetched, Unreadable) as why:
        print(why, file=sys.stderr)
        return 2
    text = HEAD.format(package=PACKAGE.replace("==", " ")) + tomli_w.dumps(dict(sorted(kinds.items())))
    OUT.write_text(text, encoding="utf-8")
    print(f"{len(kinds)} kinds are in {OUT.name}.")
    return 0


if __name__ == "__main__":
    sys.exit(main())
