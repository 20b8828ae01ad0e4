"""Closed lists of words that stand in the data, so that a word is added without code."""

from __future__ import annotations

import functools
from collections.abc import Mapping

from leafturn.kinds.packaged import packaged


@functools.cache
def traits() -> Mapping[str, str]:
    """Every word a kind may be marked with, and what it says."""
    return packaged("traits", dict[str, str])


@functools.cache
def stage_lists() -> Mapping[str, Mapping[str, str]]:
    """Every list of stages a kind may go by: BBCH code to words."""
    return packaged("stages", dict[str, dict[str, str]])
