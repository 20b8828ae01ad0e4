"""Where the project's files and the gardens of tests lie."""

from __future__ import annotations

from pathlib import Path

ROOT = Path(__file__).parents[2]
DEMO = ROOT / "demo_garden"
GARDENS = Path(__file__).parent / "gardens"
