"""The steward's own numbers."""

from __future__ import annotations

from dataclasses import fields

import pytest

from leafturn.partners.settings import DEFAULT, SETTINGS, Settings, read_settings


def test_every_number_has_a_source_and_lies_in_its_own_span():
    for name, setting in SETTINGS.items():
        assert setting.source, name
        assert setting.least <= setting.value <= setting.most
    assert {f.name for f in fields(Settings)} - {"half_metres"} == {
        name for name in SETTINGS if not name.startswith("half_metres_")
    }


def test_other_rules_are_left_alone():
    settings, complaints = read_settings({"fall_chance_declining": 0.12, "partner_borrow": 0.4})
    assert complaints == ()
    assert settings.borrow == 0.4
    assert settings.lacks_below == DEFAULT.lacks_below


@pytest.mark.parametrize(
    ("rule", "said"),
    [
        ({"partner_thin_below": 4}, "partner_thin_below = 4 is outside 0 to 1; 0.45 is used."),
        ({"partner_borrow": "often"}, "partner_borrow = often is not a number; 0.6 is used."),
        ({"partner_borrow": True}, "partner_borrow = True is not a number; 0.6 is used."),
        ({"partner_borrow": float("nan")}, "partner_borrow = nan is not a number; 0.6 is used."),
        ({"partner_half_metres_wind": 0}, "partner_half_metres_wind = 0 is outside 0.5 to 5000; 27 is used."),
        ({"partner_magic": 1}, "partner_magic is no rule of partnership and changes nothing."),
        (
            {"partner_lacks_below": 0.9},
            "partner_lacks_below is above partner_thin_below; both usual limits are used instead.",
        ),
    ],
)
def test_a_rule_that_cannot_be_used_costs_one_sentence(rule, said):
    settings, complaints = read_settings(rule)
    assert complaints == (said,)
    assert settings == DEFAULT
