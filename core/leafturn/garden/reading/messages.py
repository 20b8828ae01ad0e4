"""What msgspec says of a value that does not fit, in plain words.

msgspec tells its errors in words alone: they are a library's, and are read here for want of values.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from typing import Any

from leafturn.base.faults import clipped, did_you_mean
from leafturn.base.patterns import pattern
from leafturn.toml.messages import as_written
from leafturn.toml.positions import Step

_WHERE = pattern(r"^(?P<what>.*?)(?: - at `\$(?P<path>.*)`)?$", re.DOTALL)
_STEP = pattern(r"\.(?P<key>\w+)|\[(?P<place>\d+)\]")
_BOUND = pattern(r"Expected `\w+` (>=|<=|>|<) (\S+)")
_BEYOND = {">=": "lies below", ">": "is not above", "<=": "lies above", "<": "is not below"}
_WITHIN = {">=": "{} or more.", ">": "more than {}.", "<=": "{} or less.", "<": "less than {}."}
_TYPES = {
    "float": "a number",
    "int": "a whole number",
    "str": "text",
    "bool": "true or false",
    "array": "a list",
    "object": "a table { }",
    "date": "a date",
    "datetime": "a date",
    "time": "a time",
}
# What to write, for keys whose type alone does not say it.
_EXAMPLES = {
    "at": '[24, 18] or "8 m west of gate"',
    "reach_from": '[4, 34] or "the gate"',
    "line": "[[31, -30], [30, 20]]",
    "bay_m": "[1.2, 1.2, 1.1]",
    "size_m": "[4, 3]",
    "guard": "{ height_cm = 60, year = 2027 }",
    "mix": '[{ what = "leaves", kg = 18 }]',
    "year": "2012",
    "kind": '"pear"',
    "name": '"steward"',
    "what": '"mend the fence"',
    "when": "2027-04-19",
    "how_far_m": "60",
    "tmax_c": "twelve numbers, January first",
    "tmin_c": "twelve numbers, January first",
    "rain_mm": "twelve numbers, January first",
}


class Slip:
    """One value in a table that does not fit its field.

    Parameters
    ----------
    complaint : str
        msgspec's words.
    ready : mapping
        The table as msgspec saw it, in metric.
    written : mapping
        How the file spells each key of `ready`.
    """

    def __init__(self, complaint: str, ready: Mapping[str, Any], written: Mapping[str, str]) -> None:
        found = _WHERE.match(complaint)
        self._what = found["what"] if found else complaint
        path = (found["path"] or "") if found else ""
        self.steps: list[Step] = [
            step["key"] if step["key"] else int(step["place"]) for step in _STEP.finditer(path)
        ]
        self.key = str(self.steps[0]) if self.steps else ""
        self.written = written.get(self.key, self.key)
        value: Any = ready.get(self.key)
        for step in self.steps[1:]:
            value = value[step]
        self._value = value
        missing = re.match(r"Object missing required field `(\w+)`", self._what)
        self.missing = missing[1] if missing else ""

    @property
    def steps_written(self) -> list[Step]:
        """The way to the slip as the file spells it."""
        return [self.written, *self.steps[1:]] if self.steps else []

    def message(self, outcome: str) -> str:
        """What was understood, and then `outcome`."""
        if self.missing:
            where = f" in {self.written}" if self.steps else ""
            return f"{self.missing} is missing{where}; {outcome}"
        shown = as_written(self._value)
        if len(self.steps) == 1:
            subject = f"{self.written} = {shown}"
        elif isinstance(self.steps[-1], str):
            subject = f"{self.steps[-1]} = {shown} in {self.written}"
        else:
            subject = f"{shown} in {self.written}"
        return f"{subject} {self._wrong()}; {outcome}"

    def _wrong(self) -> str:
        if self._what.startswith("Invalid enum value"):
            return "is not a word known here"
        if bound := _BOUND.match(self._what):
            unit = "" if self.written == self.key else f" in {self.key}"
            return f"{_BEYOND[bound[1]]} {float(bound[2]):.10g}{unit}"
        if length := re.match(r"Expected `array` of length (\d+), got (\d+)", self._what):
            return f"holds {length[2]} items where {length[1]} belong"
        expected = re.match(r"Expected `([^`]+)`, got `(\w+)`", self._what)
        if expected is None:
            return "is not understood"
        wanted = [_TYPES[name] for name in expected[1].split(" | ") if name in _TYPES]
        return f"is {_TYPES.get(expected[2], 'something else')}, not {' or '.join(wanted)}"

    def hint(self, words_allowed: Sequence[str] = ()) -> str:
        """What to write instead; `words_allowed` are the only words its key takes."""
        if self.missing:
            return f"Write {self.missing} = {_EXAMPLES.get(self.missing, '...')}"
        if words_allowed and len(self.steps) == 1:
            near = did_you_mean(clipped(self._value), words_allowed) if isinstance(self._value, str) else ""
            return near or f"Write one of: {', '.join(words_allowed)}."
        if (bound := _BOUND.match(self._what)) and self.key not in _EXAMPLES:
            if self.written != self.key:
                return "Check the number and its unit."
            return f"Write {_WITHIN[bound[1]].format(f'{float(bound[2]):.10g}')}"
        return f"Write {self.written} = {self._example()}"

    def _example(self) -> str:
        if self.key == "year" and (year := re.search(r"\b[12][0-9]{3}\b", str(self._value))):
            return year[0]
        if self.key in _EXAMPLES:
            return _EXAMPLES[self.key]
        expected = re.match(r"Expected `(\w+)", self._what)
        wanted = expected[1] if expected else ""
        if wanted in ("float", "int"):
            return self._number_meant(whole=wanted == "int")
        if wanted == "str" and not isinstance(self._value, (bool, dict, list)):
            return f'"{clipped(str(self._value))}"'
        return {"bool": "true", "array": '["...", "..."]', "object": "{ ... }"}.get(wanted, '"..."')

    def _number_meant(self, *, whole: bool) -> str:
        """The number that a text such as "2,5 m" begins with, or any number at all."""
        pattern = r"\s*(-?[0-9]{1,9})\b(?![.,])" if whole else r"\s*(-?[0-9]{1,9}(?:[.,][0-9]{1,9})?)"
        number = re.match(pattern, self._value) if isinstance(self._value, str) else None
        return number[1].replace(",", ".") if number else ("3" if whole else "2.5")
