"""How each word of a note is written, for sentences that say what to write instead."""

from __future__ import annotations

from leafturn.base.bounds import COLDEST_AIR_C, HOTTEST_AIR_C

_OF_AIR = f"between {COLDEST_AIR_C:g} and {HOTTEST_AIR_C:g}"
EXAMPLES = {
    "id": 'id = "2027-04-19.1"',
    "on": "on = 2027-04-19",
    "until": "until = 2027-05-01",
    "what": 'what = "note"',
    "plant": 'plant = "comice-1"',
    "heap": 'heap = "bay-2"',
    "task": 'task = "comice-1:prune:2027"',
    "tasks": 'tasks = ["comice-1:prune:2027", "comice-2:prune:2027"]',
    "stage": 'stage = "first open"',
    "bbch": "bbch = 61, a growth stage from 0 to 99",
    "kg": "kg = 4.5, not below 0",
    "set": 'set = "fair"',
    "tmin_c": f"tmin_c = -2.8, {_OF_AIR}",
    "tmax_c": f"tmax_c = 14.0, {_OF_AIR}",
    "rain_mm": "rain_mm = 12.5, between 0 and 2000",
    "temp_c": "temp_c = 58, between -40 and 100",
    "live_percent": "live_percent = 40, from 0 to 100",
    "wind": "wind = true",
    "snow": "snow = true",
    "minutes": "minutes = 35, not below 0",
    "plan": 'plan = "keep"',
    "to": 'to = "bench helper"',
    "by": 'by = "steward"',
    "entry": 'entry = "2027-04-11.1"',
    "sheet": 'sheet = "16-A"',
}
