"""The slow answers: thirty years of crowns and light, climates to come, and hindcasts of seasons past."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence
from functools import cached_property
from typing import TYPE_CHECKING, Literal

from leafturn.assembly.in_season import InSeason
from leafturn.assembly.sources import Sources

if TYPE_CHECKING:
    from leafturn.answers.forecast_score import Progress as ScoreProgress
    from leafturn.answers.forecast_score import Score
    from leafturn.answers.learnt import Learnt
    from leafturn.canopy.model import Canopy
    from leafturn.canopy.review import Progress
    from leafturn.projection.model import ClimateProjection
    from leafturn.projection.review import Progress as ProjectionProgress


SlowAnswer = Literal["canopy", "drift", "score"]


class LookingAhead(InSeason):
    """Answers that take a while: reckoned when first asked for and kept, with progress told meanwhile."""

    def __init__(self, sources: Sources, on: dt.date) -> None:
        super().__init__(sources, on)
        self._canopy: Canopy | None = None
        self._drift: ClimateProjection | None = None
        self._score: Score | None = None

    def ready(self, answer: SlowAnswer) -> bool:
        """Whether one of the slow answers is reckoned already and comes at once."""
        return {"canopy": self._canopy, "drift": self._drift, "score": self._score}[answer] is not None

    def canopy(self, progress: Progress | None = None) -> Canopy:
        """What changes when the old tree goes: light, heirs, reach, now and for thirty years.

        Parameters
        ----------
        progress : callable, optional
            Called with the year reckoned and the last; it may raise, to stop.
        """
        if self._canopy is None:
            lacking = sorted({r.kind for r in self.partners() if r.standing == "lacks" and not r.too_young})
            self._canopy = self._seasons.canopy.canopy(lacking, progress)
        return self._canopy

    def drift(self, progress: ProjectionProgress | None = None) -> ClimateProjection:
        """Bloom, frost, chill and heat now, in fifteen and in thirty years, under the stated warming.

        Parameters
        ----------
        progress : callable, optional
            Called with what is reckoned and how much there is in all; it may raise to stop.
        """
        if self._drift is None:
            self._drift = self._seasons.drift(progress)
        return self._drift

    def light_at(self, plant_id: str, year: int) -> float | None:
        """Light of a plant [% of open, growing season] in a year up to thirty on; None without a place.

        The first call reckons all years of all plants, later ones look it up.
        """
        return self._seasons.canopy.light_at(plant_id, year)

    def light_by_month(
        self, plants: Iterable[str], without: str | None = None
    ) -> dict[str, tuple[float, ...]]:
        """Light of some plants this year [% of open], January first; without an old tree if one is named."""
        return self._seasons.canopy.light_by_month(plants, without)

    def ground_light(
        self, year: int, at: Sequence[tuple[float, float]], without: str | None = None
    ) -> list[float]:
        """Light on the ground [% of open] of places east and north [m] in a year up to thirty on.

        Without an old tree if one is named.
        """
        review = self._seasons.canopy
        gone = review.stand.index.get(without) if without else None
        return [float(percent) for percent in review.ground_light(year, at, gone)]

    @cached_property
    def _learnt(self) -> Learnt:
        from leafturn.answers.learnt import learnt

        now = self._seasons.now
        return learnt(self.day, now.weather, now.outlook)

    def learnt(self) -> Learnt:
        """What the notes taught: what the place adds, and when each plant opens in a usual spring."""
        return self._learnt

    def score(self, progress: ScoreProgress | None = None) -> Score:
        """How far forecasts of the last seasons missed, beside the published date and the mean of notes.

        Bloom, leaves, picking and frost are foretold anew as of two weeks before each was noted: the first
        call takes a while.

        Parameters
        ----------
        progress : callable, optional
            Called with what is reckoned and how much there is in all; it may raise to stop.
        """
        from leafturn.answers.forecast_events import Event, observed_events
        from leafturn.answers.forecast_score import forecast_score
        from leafturn.answers.night_score import night_score
        from leafturn.assembly.hindcasts import frosts_of, likely_days

        if self._score is None:
            seasons, place = self._seasons, self.garden.place
            usual = likely_days(seasons.now, seasons.now.outlook) | {
                Event("first open", line.plant): line.published for line in self.learnt().lines
            }
            frosts = frosts_of(seasons.record, place.frost_pocket_c, southern=place.southern)
            noted = observed_events(self.axis, self.entries, usual, frosts)
            nights = night_score(self.entries, seasons.record, seasons.normals, place.frost_pocket_c)
            self._score = forecast_score(self.axis, noted, self._hindcasts, progress, nights)
        return self._score
