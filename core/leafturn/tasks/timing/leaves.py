"""When the leaves of a subject's plants come and fall."""

from __future__ import annotations

import numpy as np

from leafturn.base import day_words
from leafturn.base.arrays import FloatArray, median
from leafturn.base.explained_days import ExplainedDays, Told
from leafturn.bloom.leafing import fall_after_frost, leaf_need, leaf_out_days
from leafturn.bloom.priors.stated import leaf_prior
from leafturn.tasks.season_model import SeasonModel
from leafturn.tasks.subjects import Subject, names_of
from leafturn.tasks.timing.frost_words import by_short_days


def leaf_out(subject: Subject, season: SeasonModel) -> ExplainedDays:
    """When the first of a subject's plants comes into leaf."""
    ensemble, on = season.weather.now, season.day.on
    leaves = [(p, season.leaves[p.id]) for p in subject.plants if p.id in season.leaves]
    if leaves:
        days = np.min([days for _, days in leaves], axis=0)
    else:
        need = leaf_need(subject.kind, season.day.numbers)
        days = ensemble.spread(leaf_out_days(ensemble, need))

    def telling() -> Told:
        first = [min(leaves, key=lambda leaf: median(leaf[1]))[0]] if leaves else subject.plants
        whose, likely = names_of(first) or subject.name, ensemble.likely(days)
        grows = "Leaf-out" if _sheds_leaves(subject, season) else "New growth"
        return Told(
            says=f"{grows} of {whose} {day_words.comes('comes', 'came', likely, on)}.",
            event=day_words.with_day(f"{grows[0].lower()}{grows[1:]} of {whose}", likely, on),
        )

    return ExplainedDays(days, telling)


def leaf_out_before(subject: Subject, season: SeasonModel, days: float, out: FloatArray) -> FloatArray:
    """So many days before it, (draws,); `out` are its own days."""
    prior = leaf_prior(leaf_need(subject.kind, season.day.numbers))
    lead_time = season.lead_times.before_warmth(prior.response, prior.usual.levels.middle, days)
    return out - days if lead_time is None else np.minimum(lead_time, out)


def leaf_fall(subject: Subject, season: SeasonModel, *, winter: bool) -> ExplainedDays:
    """When leaves are down; nothing is said of a subject that keeps them.

    Parameters
    ----------
    winter : bool
        Whether the fall before the season is meant.
    """
    days = season.cold.leaf_fall(subject.kind, winter=winter)
    if not _sheds_leaves(subject, season):
        return ExplainedDays(days)
    return ExplainedDays(days, lambda: _fall_told(days, season))


def _fall_told(days: FloatArray, season: SeasonModel) -> Told:
    likely, on = season.weather.now.likely(days), season.day.on
    if likely.has_passed(on):
        says = f"Leaves are usually down by {day_words.day(likely.likely, on)}."
    elif season.cold.short_days:
        says = f"Leaves come down {by_short_days(days, season)}, with short days rather than frost."
    else:
        says = f"Leaves come down {day_words.about(likely, on)}."
    return Told(says=says, event=day_words.with_day("leaf fall", likely, on, unseen=True))


def leaf_fall_before(subject: Subject, season: SeasonModel, days: float) -> FloatArray | None:
    """So many days before it, (draws,); None where the calendar serves, as they lie after the frost."""
    if days <= fall_after_frost(subject.kind, season.day.numbers):
        return None
    return season.cold.before_leaf_fall(subject.kind, days)


def _sheds_leaves(subject: Subject, season: SeasonModel) -> bool:
    """Whether any of a subject's plants loses its leaves in winter; one without plants is taken to."""
    return not subject.plants or any(not season.kind(plant).evergreen for plant in subject.plants)
