"""Priors fitted to open records, from fitted.toml, which `python -m tests.skill.fit_priors` writes."""

from functools import lru_cache

import msgspec

from leafturn.bloom.priors.prior import BloomPrior, KindHere, LevelSpreads
from leafturn.bloom.priors.response import Response
from leafturn.toml.packaged import packaged


class Provenance(msgspec.Struct, frozen=True):
    """Which records a kind was fitted to."""

    records: str
    species: str
    sites: int
    notes: int
    years: tuple[int, int]


class ClimateRow(msgspec.Struct, frozen=True):
    """The kind where winters have a mean [degC]; variances are of ln warmth, days are day numbers."""

    winter: float
    level: float
    lasting: float
    drifting: float
    chance: float
    day: float
    site_spread: float
    year_spread: float


class FittedKind(msgspec.Struct, frozen=True):
    """One kind of fitted.toml."""

    provenance: Provenance
    response: Response
    drift_years: float
    widening: float
    widening_ahead: float
    usual: ClimateRow
    climates: tuple[ClimateRow, ...]

    def prior(self) -> BloomPrior:
        """The same as a prior."""
        return BloomPrior(
            response=self.response,
            usual=self._here(self.usual),
            climates=tuple((row.winter, self._here(row)) for row in self.climates),
            winters=(self.climates[0].winter, self.climates[-1].winter),
            origin="fitted",
            widening=self.widening,
            widening_ahead=self.widening_ahead,
        )

    def _here(self, row: ClimateRow) -> KindHere:
        levels = LevelSpreads(
            middle=row.level, lasting=row.lasting, drifting=row.drifting, chance=row.chance,
            drift_years=self.drift_years,
        )  # fmt: skip
        return KindHere(levels=levels, day=row.day, site_spread=row.site_spread, year_spread=row.year_spread)

    @classmethod
    def of(cls, prior: BloomPrior, provenance: Provenance) -> "FittedKind":
        """A fitted prior as it is written."""
        assert isinstance(prior.response, Response)
        return cls(
            provenance=provenance,
            response=prior.response,
            drift_years=prior.usual.levels.drift_years,
            widening=prior.widening,
            widening_ahead=prior.widening_ahead,
            usual=_row(0.0, prior.usual),
            climates=tuple(_row(winter, here) for winter, here in prior.climates),
        )


fitted_kinds = packaged("leafturn.bloom.priors", "fitted.toml", dict[str, FittedKind])
"""All fitted kinds by the library's name, as the packaged file has them."""


@lru_cache(maxsize=1)
def fitted() -> dict[str, BloomPrior]:
    """Priors of all fitted kinds by the library's name."""
    return {name: kind.prior() for name, kind in fitted_kinds().items()}


def _row(winter: float, here: KindHere) -> ClimateRow:
    levels = here.levels
    return ClimateRow(
        winter=winter, level=levels.middle, lasting=levels.lasting, drifting=levels.drifting,
        chance=levels.chance, day=here.day, site_spread=here.site_spread, year_spread=here.year_spread,
    )  # fmt: skip
