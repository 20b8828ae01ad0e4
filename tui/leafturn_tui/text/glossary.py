"""The words that people meet on the pages, and what each means.

A figure within them stands as `{name}` in the file and is that of the rule which goes by it, in the units
that are spoken.
"""

from __future__ import annotations

from collections.abc import Mapping

from msgspec.structs import replace

from leafturn.base import prose, quantities
from leafturn.base.bloom_stages import FLOWERING
from leafturn.base.date_range import SHARES
from leafturn.base.value import Value
from leafturn.toml.packaged import packaged
from leafturn_tui.text.states import CLOSING_DAYS


class Word(Value):
    """A word as it stands on the pages.

    Parameters
    ----------
    word : str
    means : str
        In one or two sentences.
    pages : tuple of str
        The pages that use it, by name; none for all of them.
    """

    word: str
    means: str
    pages: tuple[str, ...] = ()


class Glossary(Value):
    """The whole file, in its order."""

    word: tuple[Word, ...]


written = packaged("leafturn_tui.text", "words.toml", Glossary)
"""The file as it is, with the names of its figures."""


def words() -> tuple[Word, ...]:
    """All words with their figures, in the order of the file."""
    figures = _figures()
    return tuple(replace(word, means=word.means.format_map(figures)) for word in written().word)


def words_of(page: str) -> tuple[Word, ...]:
    """The words of a page, its own before those of every page."""
    every = words()
    own = tuple(word for word in every if page in word.pages)
    return own + tuple(word for word in every if not word.pages)


def meaning(word: str) -> str:
    """A word and what it means, in one line."""
    return next(f"{one.word}: {one.means}" for one in words() if one.word == word)


def _figures() -> Mapping[str, str]:
    from leafturn.answers.harvest_calendar import FEW
    from leafturn.canopy.stand.growing_season import growing_season
    from leafturn.season.chill import CHILL_HOUR_WARMEST
    from leafturn.season.heat_count import BASE_C
    from leafturn.soil.compost import heat_rule, mix

    return {
        "in_range": prose.of_ten(SHARES[-1] - SHARES[0], "spring"),
        "heat_base": quantities.celsius(BASE_C, 0),
        "closing_days": str(CLOSING_DAYS),
        "stages": "; ".join(stage.sign for stage in FLOWERING),
        "stages_bbch": prose.joined([str(stage.bbch) for stage in FLOWERING]),
        "chill_hour": quantities.celsius(CHILL_HOUR_WARMEST),
        "light_months": growing_season(1.0),
        "light_months_south": growing_season(-1.0),
        "best_c_to_n": _range(mix.BEST_C_TO_N),
        "fair_c_to_n": _range(mix.FAIR_C_TO_N),
        "hot": quantities.celsius(heat_rule.HOT_C, 0),
        "few": str(FEW),
    }


def _range(ends: tuple[float, float]) -> str:
    return f"{ends[0]:g} to {ends[1]:g}"
