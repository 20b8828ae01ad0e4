"""The line under every question: the frost that is next, and nothing that tells nothing."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.in_process import run

DEMO = Path(__file__).parents[2] / "demo_garden"


@pytest.mark.sweep(each=4)
@pytest.mark.parametrize(
    ("on", "begins"),
    [
        (
            "2027-04-19",
            "heat 187 degree-days, 10 days early; last frost 24 Apr (20 Apr-7 May), still to come;",
        ),
        ("2027-04-26", "heat 232 degree-days, 8 days early; last frost 24 Apr (by 7 May), 6 of 10 that"),
        ("2027-07-01", "heat 938 degree-days, 8 days early; first frost 8 Oct (21 Sep-31 Oct);"),
        ("2027-12-20", "254 of 354 days from the usual year"),
    ],
)
def test_the_next_frost_stands_in_the_head_line(on: str, begins: str) -> None:
    assert run("plants", str(DEMO), "--on", on).stdout.splitlines()[1].startswith(begins)
