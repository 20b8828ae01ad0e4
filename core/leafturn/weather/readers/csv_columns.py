"""What the columns of a weather file hold, from the line of their heads."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from leafturn.base.faults import Fault, nearest_word
from leafturn.base.value import Value
from leafturn.weather.readers.columns_read import NOT_USED, ColumnRead
from leafturn.weather.readers.head_words import DayPart, Meaning, Quantity, Unit, day_part_of, meaning_of

HEADER_EXAMPLE = "a line such as date,tmin_c,tmax_c,rain_mm"
MOST_LINES_ABOVE = 60  # what stands above the heads in files of archives; a guess
KNOWN_COLUMNS = {
    "tmin": ("tmin_c", "tmin_f"),
    "tmax": ("tmax_c", "tmax_f"),
    "rain": ("rain_mm", "rain_in"),
}
QUANTITY_WORDS: Mapping[Quantity, str] = {
    "tmin": "minimum",
    "tmax": "maximum",
    "rain": "rain",
    "temp": "temperature of an hour",
}
UNIT_WORDS: Mapping[Unit, str] = {
    "C": "degrees Celsius",
    "F": "degrees Fahrenheit",
    "mm": "mm",
    "in": "inches",
}


class Column(Value):
    """A column of weather: its place in the row, counted from 0, and its unit where the head gives one."""

    place: int
    unit: Unit | None


class Layout(Value):
    """Where things stand in the rows.

    Parameters
    ----------
    separator : str
        What stands between cells.
    names : tuple of str
        The columns in the order of the file.
    day : tuple of int
        The column of the date; or its year, month and day; or date and time: cells put together with hyphens,
        a time after a blank.
    time : int or None
        The column of the hour, where it has one of its own.
    values : mapping of quantity to Column
    """

    separator: str
    names: tuple[str, ...]
    day: tuple[int, ...]
    time: int | None
    values: dict[Quantity, Column]

    @property
    def width(self) -> int:
        """Cells in a row."""
        return len(self.names)

    def date_of(self, cells: Sequence[str]) -> str:
        """The date of a row as one text."""
        written = "-".join(cells[place].strip() for place in self.day)
        return written if self.time is None else f"{written} {cells[self.time].strip()}"

    def columns_read(self, units: Mapping[Quantity, str]) -> tuple[ColumnRead, ...]:
        """Each column with what it was read as; `units` in words, by quantity."""
        words = {column.place: f"{QUANTITY_WORDS[q]}, {units[q]}" for q, column in self.values.items()}
        words |= dict.fromkeys(self.day, "the day") | ({} if self.time is None else {self.time: "the hour"})
        return tuple(
            ColumnRead(name=name, words=words.get(place, NOT_USED))
            for place, name in enumerate(self.names)
            if name
        )


def heads_of(line: str) -> tuple[str, list[str]]:
    """What parts the cells of a line, and the cells."""
    separator = next((s for s in ("\t", ";") if s in line), ",")
    return separator, [cell.strip().strip('"').strip() for cell in line.split(separator)]


def line_of_heads(lines: Sequence[str]) -> int | None:
    """Which line names the columns, counted from 0: the first that names a date and weather, else the first.

    None where nothing but blanks and comments stands there.
    """
    written = [
        i for i, line in enumerate(lines[:MOST_LINES_ABOVE]) if line.strip() and not line.startswith("#")
    ]
    for place in written:
        _, heads = heads_of(lines[place])
        if _day_columns(heads)[0] and any(map(meaning_of, heads)):
            return place
    return written[0] if written else None


def layout_of(header: str, name: str, line: int, faults: list[Fault], notes: list[str]) -> Layout | None:
    """Understand the line of heads of a weather file.

    Parameters
    ----------
    header : str
        The line.
    name, line : str, int
        The file and where the line stands in it, for faults.
    faults, notes : list
        What is wrong, and what is left unused, is added to these.

    Returns
    -------
    Layout or None
        None if a column is lacking without which the file cannot be used.
    """
    separator, heads = heads_of(header)

    def fault(message: str, hint: str) -> None:
        faults.append(Fault(file=name, line=line, message=message, hint=hint))

    day, time = _day_columns(heads)
    if not day:
        fault("no column is named date, so the rows cannot be understood.", f"Begin with {HEADER_EXAMPLE}.")
        return None
    values, doubled = _weather_columns(heads)
    for first, second in doubled:
        fault(f"{first} and {second} are both given; {first} was used.", "Keep one of them.")
    if "tmin" not in values and "tmax" not in values and "temp" in values:
        pass  # readings by the hour give both
    else:
        for quantity in ("tmin", "tmax"):
            if quantity not in values:
                twins = " or ".join(KNOWN_COLUMNS[quantity])
                fault(f"no column holds the daily {QUANTITY_WORDS[quantity]}.", f"Name it {twins}.")
                return None
        values.pop("temp", None)
    used = {column.place for column in values.values()} | set(day) | ({time} - {None})
    notes.extend(_unused([head for i, head in enumerate(heads) if head and i not in used], name))
    return Layout(separator=separator, names=tuple(heads), day=day, time=time, values=values)


def _day_columns(heads: Sequence[str]) -> tuple[tuple[int, ...], int | None]:
    """Columns of the date, and of the hour; no columns where no date is named."""
    parts: dict[DayPart, int] = {}
    for place, head in enumerate(heads):
        if (part := day_part_of(head)) is not None:
            parts.setdefault(part, place)
    time = parts.get("time")
    if "date" in parts:
        return (parts["date"],), time
    if {"year", "month", "day"} <= parts.keys():
        return (parts["year"], parts["month"], parts["day"]), time
    alone = parts.get("day", time)
    return ((), None) if alone is None else ((alone,), None)


def _weather_columns(heads: Sequence[str]) -> tuple[dict[Quantity, Column], list[tuple[str, str]]]:
    """The column of each quantity, the first of several; and pairs of heads that say the same."""
    values: dict[Quantity, Column] = {}
    doubled = []
    for place, head in enumerate(heads):
        meaning: Meaning | None = meaning_of(head)
        if meaning is None:
            continue
        if meaning.quantity in values:
            doubled.append((heads[values[meaning.quantity].place], head))
        else:
            values[meaning.quantity] = Column(place=place, unit=meaning.unit)
    return values, doubled


def _unused(heads: Sequence[str], name: str) -> list[str]:
    """What is said of columns that are not used: those near a known name one by one, the rest together."""
    said, others = [], []
    for head in dict.fromkeys(heads):
        near = nearest_word(head, [twin for twins in KNOWN_COLUMNS.values() for twin in twins])
        if near is None:
            others.append(head)
        else:
            twins = next(twins for twins in KNOWN_COLUMNS.values() if near in twins)
            said.append(f"The column {head} of {name} is not used. Did you mean {' or '.join(twins)}?")
    if len(others) == 1:
        said.append(f"The column {others[0]} of {name} is not used.")
    elif others:
        listed = ", ".join(others[:3]) + (" and others" if len(others) > 3 else "")
        said.append(f"{len(others)} columns of {name} are not used: {listed}.")
    return said
