"""Every rule that comes with the program can be read, says why, and names its source."""

import tomllib
from importlib import resources

import pytest

from leafturn.tasks.demands import cautions_of
from leafturn.tasks.rule_model import Rule, load_rules
from leafturn.tasks.timing.phrases import read_moment

RULES = load_rules().rules


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.id)
def test_a_rule_is_whole(rule: Rule) -> None:
    book = load_rules()
    for phrases in (rule.open, rule.best, rule.close):
        for phrase in (phrases,) if isinstance(phrases, str) else phrases:
            read_moment(phrase)
    assert set(rule.holds) <= set(book.holds)
    assert rule.instead is None or rule.instead in {r.id for r in book.rules}
    assert rule.if_skipped.endswith(".")
    if rule.cut is None:
        assert rule.because.endswith(".")
        assert rule.source
    else:  # dates and reasons are those of the way of pruning: tests/checks/test_ways_of_pruning.py
        assert (rule.open, rule.best, rule.close, rule.because, rule.source) == ((), (), (), "", "")
    assert "{name}" in rule.title


def test_a_rule_asks_for_what_its_file_gives_and_no_more() -> None:
    """Against the files themselves, read by Python's own parser."""
    files = (resources.files("leafturn.tasks") / "rules").iterdir()
    written = {
        table["id"]: set(table.get("applies", {}))
        for file in files
        if file.name.endswith(".toml")
        for table in tomllib.loads(file.read_text(encoding="utf-8")).get("rule", [])
    }
    assert {rule.id: set(rule.applies.given) for rule in RULES} == written


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.id)
def test_work_with_ladder_or_saw_carries_a_caution(rule: Rule) -> None:
    """Common practice, no source: ladder work is never told without a word of caution."""
    if {"ladder", "saw", "two people"}.intersection(rule.demands):
        assert cautions_of(rule, rule.demands, frost_ahead=False)


def test_no_rule_calls_anything_safe() -> None:
    for rule in RULES:
        words = " ".join((rule.because, rule.if_skipped, *rule.cautions)).lower()
        assert "safe" not in words.split()


def test_the_four_sources_of_the_calendar_are_there() -> None:
    verbs = {rule.verb for rule in RULES}
    assert {"winter cut", "summer cut", "bring pollen", "spring mulch", "autumn mulch", "turn"} <= verbs
