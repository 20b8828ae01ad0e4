"""Where the project's files and the gardens of tests lie."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

ROOT = Path(__file__).parents[2]
DEMO = ROOT / "demo_garden"
DEMO_DAY = dt.date(2027, 4, 19)  # on which its stories are told
GARDENS = Path(__file__).parent / "gardens"
