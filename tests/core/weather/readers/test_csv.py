"""Daily weather files: what is understood, and what is said of the rest."""

from __future__ import annotations

import datetime as dt

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from leafturn.weather.readers.file_rows import LARGEST_FILE
from leafturn.weather.readers.reading import read_weather

PLAIN = "date,tmin_c,tmax_c,rain_mm\n2024-03-01,1.5,9.0,0.0\n2024-03-02,-2.0,7.5,4.2\n2024-03-03,0.0,8.0,\n"


@pytest.fixture
def read(tmp_path):
    def reading(content):
        path = tmp_path / "weather.csv"
        path.write_bytes(content if isinstance(content, bytes) else content.encode())
        return read_weather(path, "weather.csv")

    return reading


def sentences(reading):
    return [fault.sentence() for fault in reading.faults]


def test_a_plain_file(read):
    reading = read(PLAIN)
    assert reading.faults == ()
    assert reading.notes == ()
    record = reading.record
    assert (record.first, record.last) == (dt.date(2024, 3, 1), dt.date(2024, 3, 3))
    np.testing.assert_array_equal(record.tmin, [1.5, -2.0, 0.0])
    np.testing.assert_array_equal(record.tmax, [9.0, 7.5, 8.0])
    np.testing.assert_array_equal(record.rain, [0.0, 4.2, np.nan])


@pytest.mark.parametrize(
    "same",
    [
        "﻿" + PLAIN,
        PLAIN.replace("\n", "\r\n"),
        PLAIN.replace("\n", "\r"),
        "# our own station\n# by the gate\n" + PLAIN,
        PLAIN.rstrip("\n"),
        PLAIN + "\n\n",
        PLAIN.replace("\n2024-03-02", "\n\n# thermometer moved\n2024-03-02"),
        PLAIN.replace(",", ";"),
        PLAIN.replace(",", ";").replace(".", ","),
        PLAIN.replace(",", "\t"),
        PLAIN.replace(",", " , "),
        PLAIN.replace("date", "Date").replace("tmin_c", '"TMIN_C"'),
        PLAIN.replace("2024-03-02", '"2024-03-02"'),
    ],
    ids=["byte order mark", "crlf", "cr", "comments", "no last newline", "blank lines at the end",
         "blank and comment", "semicolons", "decimal commas", "tabs", "blanks", "capitals and quotes",
         "quoted cell"],
)  # fmt: skip
def test_other_ways_to_write_the_same_file(read, same):
    expected, reading = read(PLAIN).record, read(same)
    assert reading.faults == ()
    assert reading.record.first == expected.first
    for quantity in ("tmin", "tmax", "rain"):
        np.testing.assert_array_equal(getattr(reading.record, quantity), getattr(expected, quantity))


def test_columns_in_any_order_and_in_other_units(read):
    reading = read("rain_in,tmax_f,date,tmin_f\n1,50,2024-03-01,23\n")
    assert reading.faults == ()
    assert reading.record.tmin == pytest.approx([-5.0])
    assert reading.record.tmax == pytest.approx([10.0])
    assert reading.record.rain == pytest.approx([25.4])


def test_rain_may_be_missing(read):
    reading = read("date,tmin_c,tmax_c\n2024-03-01,1,9\n")
    assert reading.faults == ()
    assert np.isnan(reading.record.rain).all()


@pytest.mark.filterwarnings("error")
def test_rain_beyond_any_number_costs_no_more_than_its_day(read):
    days = [f"2024-{month:02}-{day:02},1,9," for month in (3, 4) for day in range(1, 29)]
    rows = [f"{day}{1e308 if n in (3, 9) else 4.3}\n" for n, day in enumerate(days)]
    reading = read("date,tmin_c,tmax_c,rain_mm\n" + "".join(rows))
    assert reading.record is not None
    assert np.nanmedian(reading.record.rain) == pytest.approx(4.3)


def test_missing_days_and_blank_cells_are_gaps(read):
    reading = read("date,tmin_c,tmax_c\n2024-02-28,1,9\n2024-03-02,,8\n")
    assert reading.faults == ()
    np.testing.assert_array_equal(reading.record.tmin, [1, np.nan, np.nan, np.nan])
    np.testing.assert_array_equal(reading.record.tmax, [9, np.nan, np.nan, 8])


@pytest.mark.parametrize(
    ("row", "line", "words"),
    [
        ("2024-02-30,-2.0,7.5,4.2", 3, ('"2024-02-30" is no date',)),
        ("2024-03,-2.0,7.5,4.2", 3, ("no date",)),
        ("today,-2.0,7.5,4.2", 3, ("no date",)),
        (",-2.0,7.5,4.2", 3, ("no date",)),
        ("2024-03-02,-2.0,7.5", 3, ("3 cells", "4 columns")),
        ("2024-03-02,-2.0,7.5,4.2,1", 3, ("5 cells",)),
        ("2024-03-01,-2.0,7.5,4.2", 3, ("2024-03-01 stands on line 2 already",)),
        ("1874-03-02,-2.0,7.5,4.2", 3, ("over a hundred years", "year")),
    ],
)
def test_a_bad_row_is_named_and_left_out(read, row, line, words):
    reading = read(PLAIN.replace("2024-03-02,-2.0,7.5,4.2", row))
    assert len(reading.faults) == 1
    assert reading.faults[0].line == line
    assert reading.faults[0].file == "weather.csv"
    for word in words:
        assert word in sentences(reading)[0]
    assert "left out" in sentences(reading)[0]
    np.testing.assert_array_equal(reading.record.tmin, [1.5, np.nan, 0.0])


@pytest.mark.parametrize("cell", ["abc", "inf", "1e999"])
def test_what_is_no_number_is_a_gap_and_the_rest_of_the_day_is_kept(read, cell):
    reading = read(PLAIN.replace("2024-03-02,-2.0", f"2024-03-02,{cell}"))
    assert " ".join(sentences(reading)) == (
        f'weather.csv, line 3: tmin_c reads "{cell}", which is no number; it counts as a gap. '
        "Write a number such as 3.5, or leave the cell empty for a gap."
    )
    np.testing.assert_array_equal(reading.record.tmin, [1.5, np.nan, 0.0])
    np.testing.assert_array_equal(reading.record.tmax, [9.0, 7.5, 8.0])


def test_unsorted_rows_are_sorted_and_that_is_said(read):
    head, *rows = PLAIN.splitlines()
    reading = read("\n".join([head, *reversed(rows)]))
    assert reading.faults == ()
    assert "sorted" in reading.notes[0]
    np.testing.assert_array_equal(reading.record.tmin, [1.5, -2.0, 0.0])


def test_many_bad_rows_are_one_sentence(read):
    start = dt.date(2024, 1, 1)
    bad = "".join(f"day {start + dt.timedelta(days=i)},0,1\n" for i in range(60))
    reading = read(f"date,tmin_c,tmax_c\n{bad}2024-05-01,1,2\n")
    assert " ".join(sentences(reading)) == (
        'weather.csv, line 2: "day 2024-01-01" is no date; the row was left out. So it is with 59 more rows, '
        "up to line 61. Write year-month-day, such as 2024-03-05."
    )
    assert len(reading.record) == 1


@pytest.mark.parametrize(
    ("content", "words"),
    [
        ("", "empty"),
        ("# only words\n\n", "empty"),
        ("2024-01-01,1,2,3\n", "no column is named date"),
        ("date,tmax_c\n2024-01-01,1\n", "no column holds the daily minimum"),
        ("date,tmin_c\n2024-01-01,1\n", "no column holds the daily maximum"),
        ("date,tmin_c,tmax_c\n", "no row could be used"),
        ("date,tmin_c,tmax_c\nx,y,z\n", "no row could be used"),
        ("date,tmin_c,tmax_c\n".encode("utf-16-le"), "not plain text"),
        (b"\x00\x01\x02", "not plain text"),
        (b" " * (LARGEST_FILE + 1), "is the most that is read"),
    ],
    ids=["empty", "comments only", "no header", "no minimum", "no maximum", "no rows", "no good rows",
         "utf-16 without its mark", "binary", "too large"],
)  # fmt: skip
def test_a_file_that_cannot_be_used_is_one_plain_sentence(read, content, words):
    reading = read(content)
    assert reading.record is None
    assert words in sentences(reading)[-1]


def test_a_missing_file_and_a_folder(tmp_path):
    for path in (tmp_path / "none.csv", tmp_path):
        reading = read_weather(path, "none.csv")
        assert reading.record is None
        assert sentences(reading)[0].startswith("none.csv: the file cannot be read")


def test_columns_that_are_not_used_are_said(read):
    reading = read("date,tmin_c,tmax_c,rain_m,wind\n2024-03-01,1,9,0,3\n")
    assert reading.record is not None
    assert "Did you mean rain_mm or rain_in?" in reading.notes[0]
    assert "wind" in reading.notes[1]


def test_twins_given_both(read):
    reading = read("date,tmin_c,tmin_f,tmax_c\n2024-03-01,1,99,9\n")
    assert reading.record.tmin.tolist() == [1.0]
    assert "tmin_c and tmin_f" in sentences(reading)[0]


def test_wild_encodings_and_controls_never_raise(read):
    reading = read(b"date,tmin_c,tmax_c,\xff\x1b[31m\n2024-03-01,1,9,\xe9\n")
    assert reading.record.tmin.tolist() == [1.0]


number = st.floats(-60, 29).map(lambda t: round(t, 1))  # with 20 more, still no heat that asks for Fahrenheit


@settings(max_examples=40, deadline=None)
@given(
    rows=st.lists(st.tuples(st.one_of(number, st.none()), st.floats(0, 20)), min_size=1, max_size=40),
    comment=st.booleans(),
)
def test_the_slow_way_reads_what_the_fast_way_reads(tmp_path_factory, rows, comment):
    """A comment between rows forces the slow way; the record must not notice."""
    start = dt.date(2023, 12, 20)
    pairs = ["," if low is None else f"{low},{round(low + up, 1)}" for low, up in rows]
    lines = [f"{start + dt.timedelta(days=i)},{pair}" for i, pair in enumerate(pairs)]
    folder = tmp_path_factory.mktemp("w")
    (folder / "fast.csv").write_text("\n".join(["date,tmin_c,tmax_c", *lines]))
    (folder / "slow.csv").write_text("\n".join(["date,tmin_c,tmax_c", *lines, "# end", ""]))
    fast, slow = read_weather(folder / "fast.csv", "f"), read_weather(folder / "slow.csv", "f")
    assert fast.faults == slow.faults == ()
    np.testing.assert_array_equal(fast.record.tmin, slow.record.tmin)
    np.testing.assert_array_equal(fast.record.tmax, slow.record.tmax)


@settings(max_examples=40, deadline=None)
@given(content=st.text(alphabet='date,tmin_cax0123456789-.\n;\t"# ', max_size=200))
def test_no_file_raises(tmp_path_factory, content):
    path = tmp_path_factory.mktemp("w") / "any.csv"
    path.write_text("date,tmin_c,tmax_c\n" + content)
    reading = read_weather(path, "any.csv")
    assert reading.record is not None or reading.faults
