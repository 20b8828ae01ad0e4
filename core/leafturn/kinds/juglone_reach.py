"""How far from its stem the roots of a grown black walnut reach, and their juglone with them.

Source: Funt and Martin, Ohio State University Extension HYG-1148 (read in a copy): 50 to 60 ft on average, up
to 80 ft.
"""

from __future__ import annotations

AVERAGE_M, HIGH_AVERAGE_M, FARTHEST_M = 15.0, 18.0, 24.0
