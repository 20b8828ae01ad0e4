"""Scouting windows of the packaged rules, and facts of the ways of pruning, against published figures.

Windows of pruning by climate: test_pruning_windows.py.
"""

from __future__ import annotations

import pytest

from leafturn.kinds.library import load_library
from leafturn.tasks.rule_model import Phrases, load_rules
from leafturn.tasks.timing.phrases import read_moment

RULES = {rule.id: rule for rule in load_rules().rules}
LIBRARY, _ = load_library()
FOUR_FIFTHS = 0.8  # a guess of our own: looking starts before the published sum


def phrases(found: Phrases) -> tuple[str, ...]:
    return (found,) if isinstance(found, str) else found


@pytest.mark.parametrize(
    ("rule_id", "base_f", "opens_f", "best_f"),
    [
        # Washington State University, codling moth model (read): first flight 175 degF-days from 1 January.
        ("scout-codling-moth", 50, 175 * FOUR_FIFTHS, 175),
        # Scaffolds Fruit Journal, New York 1995 (read): first figures of each range.
        ("scout-oriental-fruit-moth", 43, 331 * FOUR_FIFTHS, 331),
        ("scout-cherry-fruit-fly", 43, 755 * FOUR_FIFTHS, 755),
        ("scout-apple-maggot", 43, 1226 * FOUR_FIFTHS, 1226),
        ("scout-pear-psylla", 43, 31 * FOUR_FIFTHS, 99),
        # Ohio State University phenology sequence (read): 550 degF-days.
        ("scout-emerald-ash-borer", 50, 550 * FOUR_FIFTHS, 550),
        # University of Wisconsin XHT1087 (read): 150 to 240 degF-days.
        ("scout-asparagus-beetle", 50, 150 * FOUR_FIFTHS, 150),
    ],
)
def test_pest_heat_sums_with_base_and_start(
    rule_id: str, base_f: float, opens_f: float, best_f: float
) -> None:
    rule = RULES[rule_id]
    opens, best = read_moment(phrases(rule.open)[0]), read_moment(phrases(rule.best)[0])
    assert opens.base == pytest.approx((base_f - 32) / 1.8, abs=0.06)
    assert opens.month_day in ("01-01", "03-01")
    assert opens.need == pytest.approx(opens_f / 1.8, abs=1.0)
    assert best.need == pytest.approx(best_f / 1.8, abs=1.0)
    assert (best.base, best.month_day) == (opens.base, opens.month_day)


def test_sums_and_hosts_agree_with_the_library_of_pests() -> None:
    for rule_id, pest in (
        ("scout-codling-moth", "codling moth"),
        ("scout-oriental-fruit-moth", "oriental fruit moth"),
        ("scout-apple-maggot", "apple maggot"),
        ("scout-pear-psylla", "pear psylla"),
        ("scout-emerald-ash-borer", "emerald ash borer"),
        ("scout-cherry-fruit-fly", "cherry fruit fly"),
    ):
        known = LIBRARY.pests[pest]
        assert set(RULES[rule_id].applies.kinds) <= set(known.hosts)
        need = read_moment(phrases(RULES[rule_id].best)[0]).need
        assert any(abs(s.low / 1.8 - need) < 1 or abs(s.high / 1.8 - need) < 1 for s in known.heat_sums)


WAYS = LIBRARY.pruning


def test_plums_where_silver_leaf_flies_are_cut_from_june_to_august_and_not_in_wet_weather() -> None:
    """Silver leaf: spores September to May (extension advice, recalled)."""
    cut = WAYS["plums, cool summers"].cuts["summer"]
    assert "06-01" <= str(cut.open) < str(cut.close) <= "08-31"
    assert "wet bark" in RULES["prune-tree-in-dry-summer"].holds


def test_oaks_are_closed_from_april_to_july() -> None:
    """Wisconsin: not April to July; Michigan: not 15 April to 15 July (notices, read)."""
    way = WAYS["oaks"]
    cut = way.cuts["winter"]
    assert cut.winter
    assert phrases(cut.open)[0] >= "11-01"
    assert str(cut.close) <= "03-31"
    assert way.closed == (("04-01", "07-31"),)
    assert "oak wilt" in cut.holds


def test_bleeding_trees_are_cut_in_full_leaf_or_right_after_leaf_fall() -> None:
    """Walnuts July to September, maples and birches June to August; leaf fall to midwinter (handbooks)."""
    mild, cold = WAYS["bleeders, mild winters"], WAYS["bleeders, cold winters"]
    assert set(mild.cuts) == {"early", "summer"}
    assert set(cold.cuts) == {"summer"}
    for way in (mild, cold):
        summer = way.cuts["summer"]
        assert "06-01" <= str(summer.open) < phrases(summer.close)[0] <= "09-30"


def test_kiwis_close_six_weeks_before_leaf_out_and_grapes_with_bud_burst() -> None:
    """Kiwi: before sap, at least six weeks before bud burst (handbooks, recalled). Grape: bleeding does
    little or no harm, and it is better cut late than not at all (Washington Post 1977; read)."""
    assert read_moment(str(WAYS["kiwis"].cuts["winter"].close)).shift <= -42
    assert WAYS["grapes"].cuts["winter"].close == "leaf out"


def test_pome_fruit_is_not_cut_in_fire_blight_weather() -> None:
    """Not from bloom to the set of end buds in warm wet weather (handbooks, recalled)."""
    cut = WAYS["pome"].cuts["winter"]
    assert any("before first open" in phrase for phrase in phrases(cut.close))
    assert "wet bark" in cut.holds


def test_early_shrubs_are_cut_within_three_weeks_after_bloom() -> None:
    """Within two to three weeks after their own bloom (handbooks, recalled)."""
    cut = WAYS["old wood"].cuts["bloom"]
    assert read_moment(str(cut.open)).anchor == "bloom end"
    assert 14 <= read_moment(str(cut.best)).shift <= 21


def test_only_what_is_grown_for_it_is_chopped_and_dropped() -> None:
    for name in ("osier", "jerusalem artichoke", "miscanthus"):
        assert not LIBRARY.kinds[name].has("chop and drop"), name
    assert LIBRARY.kinds["comfrey"].has("chop and drop")
