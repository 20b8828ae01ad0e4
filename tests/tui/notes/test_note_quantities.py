"""Amounts and degrees as people type them."""

from __future__ import annotations

import pytest

from leafturn_tui.notes import NotUnderstood, quantities


def test_amounts_in_kilograms_and_pounds() -> None:
    # 1 lb = 0.45359237 kg exactly: International Yard and Pound Agreement, 1959.
    assert quantities.amount("4.5 kg") == quantities.Amount(4.5, "4.5 kg")
    assert quantities.amount("4,5kg").kg == 4.5
    assert quantities.amount("300 g").kg == 0.3
    assert quantities.amount("10 lb").kg == pytest.approx(4.536)
    assert quantities.amount("2 baskets") == quantities.Amount(None, "2 baskets")
    assert quantities.amount("half a bucket").kg is None


def test_degrees_of_both_scales() -> None:
    # 136.4 F is 58 C by definition of the two scales.
    assert quantities.celsius("58") == 58
    assert quantities.celsius("58 C") == 58
    assert quantities.celsius("136.4F") == 58
    assert quantities.celsius("-3") == -3
    for wrong in ("warm", "", "900"):
        with pytest.raises(NotUnderstood):
            quantities.celsius(wrong)
