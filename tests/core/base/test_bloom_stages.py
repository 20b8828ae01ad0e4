"""The table of stages agrees with what it points to."""

from __future__ import annotations

from itertools import pairwise
from typing import get_args

from leafturn.base.bloom_stages import BBCH, BY_MOMENT, BY_NAME, COURSE, FLOWERING, StageName
from leafturn.bloom.model import BloomForecast
from leafturn.kinds.model import FROST_STAGES
from leafturn.tasks.timing.phrases import read_moment


def test_every_stage_has_days_in_a_forecast() -> None:
    assert all(hasattr(BloomForecast, stage.field) for stage in COURSE)


def test_stages_of_bloom_can_be_noted_and_have_a_place_in_frost_tables() -> None:
    assert {stage.name for stage in FLOWERING} <= set(get_args(StageName))
    assert set(BBCH) == set(get_args(StageName)) - {"none this year"}
    assert {stage.key for stage in FLOWERING} <= set(FROST_STAGES)


def test_stages_follow_each_other_and_no_word_stands_twice() -> None:
    assert all(one.bbch < after.bbch for one, after in pairwise(COURSE))
    assert len(BY_NAME) == len(BY_MOMENT) == len(COURSE)


def test_rules_may_name_every_stage() -> None:
    for stage in COURSE:
        assert read_moment(f"2 w after {stage.moment}").anchor == stage.moment
        if stage.doing:
            assert read_moment(f"when early-plum {stage.doing}").anchor == stage.moment
