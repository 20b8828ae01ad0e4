"""What decides.toml says against the program: entries that exist, and numbers that are really taken."""

from __future__ import annotations

from operator import attrgetter

import pytest

from leafturn.bloom.ripening import PICK_DAYS, RIPE_SPREAD_DAYS
from leafturn.kinds.checks.gaps import KINDS_MEANT, Deciding, assumed, decides
from leafturn.kinds.defaults import Defaults, fill
from leafturn.kinds.model import Kind
from leafturn.kinds.packaged import packaged
from leafturn.partners.genetics.self_fertility import PARTLY_SELF_FERTILE

BLANK = Kind(name="x", botanical="X y", family="", habit="tree", layer="canopy")


def row(fact: str) -> Deciding:
    return next(row for row in decides().fact if fact in row.facts)


def test_every_row_is_of_entries_and_kinds_that_exist() -> None:
    for one in decides().fact:
        assert one.of in KINDS_MEANT, one.of
        for fact in one.facts:
            section, _, field = fact.partition(".")
            assert field in getattr(BLANK, section).__struct_fields__ if field else section == "stages", fact
    assert {one.of for one in decides().fact} == set(KINDS_MEANT)
    assert set(decides().required) <= set(Kind.__struct_fields__)


def test_rows_without_words_are_just_those_that_defaults_fill() -> None:
    defaults = packaged("defaults", Defaults)
    filled = fill(BLANK, defaults)
    for one in decides().fact:
        values = [attrgetter(fact)(filled) for fact in one.facts]
        assert any(values) == (not one.then), one.facts


@pytest.mark.parametrize(
    ("fact", "number"),
    [
        ("harvest.length_days", PICK_DAYS),
        ("harvest.spread_days", RIPE_SPREAD_DAYS),
        ("pollination.self_share", PARTLY_SELF_FERTILE),
    ],
)
def test_numbers_in_words_are_those_that_are_taken(fact: str, number: float) -> None:
    assert f"{number:g} " in row(fact).then


def test_a_kind_that_is_not_grown_for_its_fruit_is_asked_for_no_harvest() -> None:
    defaults = packaged("defaults", Defaults)
    said = " ".join(gap.says for gap in assumed(BLANK, defaults))
    assert "(pollination.system)" in said
    assert "harvest.after_full_bloom_days" not in said
    assert "females" not in said
    assert "climbs" not in said
