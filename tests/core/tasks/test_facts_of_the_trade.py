"""Facts of the trade that the rules and the library must agree with: common practice, no source."""

from __future__ import annotations

from leafturn.kinds.library import load_library
from leafturn.tasks.rules import load_rules

LIBRARY, _ = load_library()


def test_currants_bear_shade_and_crop_more_with_more_sun() -> None:
    """Common practice, no source."""
    for name in ("redcurrant", "blackcurrant"):
        light = LIBRARY.match(name).kind.light
        assert light.shade is not None
        assert light.shade.value in ("tolerant", "very tolerant", "intermediate")
        assert light.sun_hours is not None
        least, wished = light.sun_hours.value
        assert least < wished


def test_look_for_toads_and_nests_before_heaps_leaves_and_cuts() -> None:
    """Common practice, no source: every rule that moves a heap, leaves or grass says to look first."""
    for rule in load_rules().rules:
        if rule.id in ("turn-heap", "cover-heap", "gather-leaves", "keep-grass-short", "clear-top-growth"):
            assert any("ook for" in caution for caution in rule.cautions), rule.id
