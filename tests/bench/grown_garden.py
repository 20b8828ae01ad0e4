"""A garden of any number of plants, for speed alone: ten kinds in turn on a grid, and nothing else."""

from __future__ import annotations

import datetime as dt
import math
from pathlib import Path

ON = dt.date(2027, 4, 19)
KINDS = (
    "apple", "pear", "european plum", "hazel", "redcurrant", "heartnut", "comfrey", "medlar", "hardy kiwi",
    "sweet cherry",
)  # fmt: skip
APART_M = 6.0


def grown_garden(folder: Path, plants: int) -> Path:
    """Write a garden of so many plants, six metres apart, near the demo's place, and give its folder.

    Its first tree is old and failing, so that the canopy has something to foresee.
    """
    garden = folder / f"of_{plants}"
    garden.mkdir(parents=True)
    a_row = math.ceil(math.sqrt(plants))
    parts = ['[place]\nlat = 46.9\nlon = 15.9\nlast_frost = "04-24"\nfirst_frost = "10-16"\n']
    for n in range(plants):
        state = 'state = "declining"\n' if n == 0 else ""
        north, east = divmod(n, a_row)
        parts.append(
            f'[[plant]]\nid = "p{n}"\nkind = "{KINDS[n % len(KINDS)]}"\nyear = {2005 + n % 18}\n{state}'
            f"at = [{east * APART_M}, {north * APART_M}]\n"
        )
    (garden / "garden.toml").write_text("\n".join(parts), encoding="utf-8")
    return garden
