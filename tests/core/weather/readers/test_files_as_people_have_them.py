"""Weather files of people's own: heads in common words, dates in any order, units that do not fit, hours."""

from __future__ import annotations

import datetime as dt

import numpy as np
import pytest

from leafturn.garden.model import Place
from leafturn.weather.normals.rough_year import rough_year, year_by_place
from leafturn.weather.readers.day_cells import moment_in, order_of
from leafturn.weather.readers.head_words import meaning_of
from leafturn.weather.readers.reading import read_weather

LATITUDE, LONGITUDE = 40.0, -82.0
YEAR = [dt.date(2023, 1, 1) + dt.timedelta(days=day) for day in range(365)]


@pytest.fixture
def read(tmp_path):
    def reading(content, latitude=None):
        (tmp_path / "w.csv").write_text(content)
        usual = None if latitude is None else rough_year(latitude, LONGITUDE, 0.0, None, None)
        return read_weather(tmp_path / "w.csv", "w.csv", usual)

    return reading


def sentences(reading):
    return [fault.sentence() for fault in reading.faults]


def a_year(low, high):
    """Rows of 2023: a year at 40 degrees north [degC], as `low` and `high` make cells of it."""
    mean = [11 - 12 * np.cos(2 * np.pi * (day.timetuple().tm_yday - 20) / 365) for day in YEAR]
    return [f"{day},{low(m - 5):.1f},{high(m + 6):.1f}" for day, m in zip(YEAR, mean, strict=True)]


def rain_of(year, days, digits):
    """Rain of a year's days, on so many of them: few heavy and many light falls, as exponentials have it."""
    shares = -np.log((np.arange(days) + 0.5) / days)
    falls = np.zeros(len(YEAR))
    falls[:: len(YEAR) // days][:days] = shares * year / shares.sum()
    least = 10.0**-digits
    return [f"{fall:.{digits}f}" if fall == 0 else f"{max(fall, least):.{digits}f}" for fall in falls]


def fahrenheit(celsius):
    return celsius * 1.8 + 32


@pytest.mark.parametrize(
    ("head", "quantity", "unit"),
    [
        ("tmin_c", "tmin", "C"), ("TMIN", "tmin", None), ("temp_min", "tmin", None),
        ("min temp", "tmin", None),
        ("MinTemp", "tmin", None), ("Minimum temperature (°C)", "tmin", "C"),
        ("Low [F]", "tmin", "F"),
        ("temperature_2m_min (°C)", "tmin", "C"), ("T2M_MAX", "tmax", None),
        ("Daily Max Temp °F", "tmax", "F"),
        ("TX", "tmax", None), ("High Temperature (deg F)", "tmax", "F"), ("rain", "rain", None),
        ("precipitation_sum (mm)", "rain", "mm"), ("PRCP", "rain", None), ("Rainfall (inches)", "rain", "in"),
        ("temp_f", "temp", "F"), ("Air temperature (Celsius)", "temp", "C"),
        ("Tiefsttemperatur (°C)", "tmin", "C"), ("Température maximale", "tmax", None),
        ("Höchsttemperatur [°C]", "tmax", "C"), ("TNK", "tmin", "C"), ("TXK", "tmax", "C"),
        (" RSK", "rain", "mm"),
        ("Niederschlag (mm)", "rain", "mm"), ("Précipitations", "rain", None),
    ],
)  # fmt: skip
def test_common_heads_are_known(head, quantity, unit):
    meaning = meaning_of(head)
    assert meaning is not None
    assert (meaning.quantity, meaning.unit) == (quantity, unit)


@pytest.mark.parametrize(
    "head",
    ["wind", "dew point min", "soil temperature", "minimum grass temperature", "rain rate", "min max temp",
     "TMIN_ATTRIBUTES", "humidity", "rain (C)", "tmax_mm", "rain_m", "", "mean", "snow"],
)  # fmt: skip
def test_heads_of_other_things_are_left_alone(head):
    assert meaning_of(head) is None


@pytest.mark.parametrize(
    ("cells", "order"),
    [
        (["2027-04-20", "2027-04-21T00:00:00"], "year first"),
        (["20.4.2027", "1.5.2027"], "day first"),
        (["4/20/2027", "5/1/2027"], "month first"),
        (["01/02/2027", "02/02/2027", "03/02/2027"], "day first"),
        (["01/02/2027", "01/03/2027", "01/04/2027"], "month first"),
        (["01/02/2027", "02/01/2028"], "not told"),
        (["30.4.27", "1.5.27"], "day first"),
        (["4/30/27", "5/1/27"], "month first"),
        (["27/4/30", "27/5/1"], "year first"),
        (["4/5/27", "7/8/27"], "not told"),
    ],
)
def test_the_file_as_a_whole_tells_what_stands_first(cells, order):
    assert order_of(cells) == order


@pytest.mark.parametrize(
    ("cell", "order", "hour"),
    [
        ("2027-04-20", "year first", None), ("2027-04-20T00:00:00", "year first", 0),
        ("20270420", "year first", None), ("2027/4/20 13:30", "year first", 13.5),
        ("20.4.2027", "day first", None), ("20. 4. 2027", "day first", None),
        ("4/20/2027 1:00 PM", "month first", 13), ("20 Apr 2027", "year first", None),
        ("20.04.27", "day first", None), ("4/20/27", "month first", None), ("27-04-20", "year first", None),
        ("2027年4月20日", "year first", None),
        ("April 20, 2027", "year first", None), ("2027-04-20 06:00:00+02:00", "year first", 6),
    ],
)  # fmt: skip
def test_dates_are_read(cell, order, hour):
    moment = moment_in(cell, order)
    assert moment is not None
    assert moment.day == dt.date(2027, 4, 20)
    assert np.isnan(moment.hour) if hour is None else moment.hour == hour


@pytest.mark.parametrize(
    "cell",
    ["", "today", "2027-04", "2027-13-01", "20270", "31.2.2027", "4/20/27", "2027-04-20T25:00"],
)
def test_what_is_no_date_is_none(cell):
    assert moment_in(cell, "day first") is None


@pytest.mark.parametrize("written", ["%d.%m.%y", "%m/%d/%y", "%y/%m/%d", "%d.%m.%Y"])
def test_a_file_with_years_of_two_figures_is_read(read, written):
    """As spreadsheets show dates where nobody chose a form; all its rows were left out."""
    rows = [f"{day.strftime(written)},1,9" for day in YEAR]
    reading = read("\n".join(["date,tmin_c,tmax_c", *rows]))
    assert reading.faults == ()
    assert (reading.record.first, len(reading.record)) == (YEAR[0], len(YEAR))


def test_dates_that_nothing_settles_are_asked_about(read):
    reading = read("date,tmin_c,tmax_c\n01/02/2027,1,9\n05/06/2027,3,12\n")
    assert reading.record is None
    assert sentences(reading)[0] == (
        'w.csv, line 2: "01/02/2027" may put the day or the month first, and no other row tells which; '
        "the row was left out. So it is with 1 more row, on line 3. Write year-month-day."
    )


def test_a_trace_of_rain_keeps_its_day(read):
    reading = read(
        "date,tmin_c,tmax_c,rain_mm\n2024-03-01,1,9,T\n2024-03-02,2,8,trace\n2024-03-03,0,7,lots\n"
    )
    np.testing.assert_array_equal(reading.record.tmin, [1, 2, 0])
    np.testing.assert_array_equal(reading.record.rain, [0, 0, np.nan])
    assert [fault.line for fault in reading.faults] == [4]


def test_fahrenheit_under_a_celsius_head_is_asked_about_and_not_used(read):
    rows = a_year(fahrenheit, fahrenheit)
    reading = read("\n".join(["date,tmin_c,tmax_c", *rows]))
    assert reading.record is None
    hot = sum(float(row.split(",")[2]) > 50 for row in rows)
    (said,) = sentences(reading)
    assert said == (
        f"w.csv, line 1: {hot} of 365 maxima lie over 50, hotter than any summer in Celsius. "
        "Are tmin_c and tmax_c in degrees Fahrenheit rather than degrees Celsius? "
        "No temperature of the file is used until that is told. If so, name the columns tmin_f and tmax_f."
    )
    followed = read("\n".join(["date,tmin_f,tmax_f", *rows]))
    assert followed.faults == ()
    assert followed.record.tmax.max() == pytest.approx(29, abs=0.5)


def test_a_cold_season_in_fahrenheit_is_told_by_the_latitude(read):
    winter = a_year(fahrenheit, fahrenheit)[:45]
    assert read("\n".join(["date,tmin_c,tmax_c", *winter])).faults == ()  # nothing to tell it by
    reading = read("\n".join(["date,tmin_c,tmax_c", *winter]), LATITUDE)
    assert reading.record is None
    assert "warmer than is usual at this latitude" in sentences(reading)[0]
    assert "tmin_f and tmax_f" in sentences(reading)[0]


def test_celsius_under_a_fahrenheit_head_is_asked_about_too(read):
    rows = a_year(float, float)
    reading = read("\n".join(["date,tmin_f,tmax_f,rain_in", *(row + ",0.1" for row in rows)]), LATITUDE)
    assert "tmin_c and tmax_c" in sentences(reading)[0]
    assert reading.record is not None
    assert np.isnan(reading.record.tmin).all()
    assert reading.record.rain[0] == pytest.approx(2.54)


# Rain of a year, and days on which some falls: from memory of the NOAA normals 1991 to 2020, elsewhere from
# memory of atlases. Mawsynram is the wettest place that is measured, Cairo and Lima are among the driest.
@pytest.mark.parametrize(
    ("inches", "days"),
    [(7.2, 33), (39.3, 156), (67.4, 141), (126.7, 270), (14.3, 89)],
    ids=["Phoenix", "Seattle", "Miami", "Hilo", "Denver"],
)
def test_inches_of_rain_under_mm_are_asked_about_and_not_used(read, inches, days):
    falls = rain_of(inches, days, digits=2)
    rows = [f"{row},{fall}" for row, fall in zip(a_year(float, float), falls, strict=True)]
    reading = read("\n".join(["date,tmin_c,tmax_c,rain_mm", *rows]))
    assert np.isfinite(reading.record.tmin).all()
    assert np.isnan(reading.record.rain).all()
    (said,) = sentences(reading)
    assert "Is rain_mm in inches rather than mm? No rain of the file is used until that is told." in said
    assert said.endswith("If so, name the column rain_in.")
    followed = read("\n".join(["date,tmin_c,tmax_c,rain_in", *rows]))
    assert followed.faults == ()
    assert np.nansum(followed.record.rain) == pytest.approx(inches * 25.4, rel=0.05)


@pytest.mark.parametrize(
    ("mm", "days"),
    [(183, 33), (600, 160), (998, 156), (1700, 110), (190, 130), (11_870, 180), (25, 14), (9, 40)],
    ids=["Phoenix", "London", "Seattle", "Darwin", "Longyearbyen", "Mawsynram", "Cairo", "Lima"],
)
def test_rain_of_any_place_is_not_doubted_in_mm_and_asked_about_as_inches(read, mm, days):
    falls = rain_of(mm, days, digits=1)
    rows = [f"{row},{fall}" for row, fall in zip(a_year(float, float), falls, strict=True)]
    assert read("\n".join(["date,tmin_c,tmax_c,rain_mm", *rows])).faults == ()
    asked = read("\n".join(["date,tmin_c,tmax_c,rain_in", *rows]))
    if mm / days > 3.5 and days >= 20:
        assert "Is rain_in in mm rather than inches?" in sentences(asked)[0]
        assert np.isnan(asked.record.rain).all()


@pytest.mark.parametrize("latitude", [0.0, 15.0, 25.0, 36.0, 52.0, 68.0, -34.0, -45.0])
def test_a_sound_file_of_any_latitude_is_not_doubted(read, latitude):
    usual = rough_year(latitude, LONGITUDE, 0.0, None, None)
    for shift in (-8, 0, 8):  # [degC] deserts and sea sides lie off the rough year
        rows = [f"{d},{usual.tmin[i] + shift:.1f},{usual.tmax[i] + shift:.1f}" for i, d in enumerate(YEAR)]
        assert read("\n".join(["date,tmin_c,tmax_c", *rows]), latitude).faults == ()


def test_heads_without_a_unit_leave_it_to_the_numbers(read):
    rows = [row + ",0.5" for row in a_year(fahrenheit, fahrenheit)]
    reading = read("\n".join(["DATE,TMIN,TMAX,PRCP", *rows]))
    assert reading.faults == ()
    assert reading.record.tmax.max() == pytest.approx(29, abs=0.5)
    assert reading.record.rain[0] == pytest.approx(12.7)
    assert reading.notes[0].endswith("They are read as degrees Fahrenheit, and rain in inches.")
    celsius = read("\n".join(["DATE,TMIN,TMAX", *a_year(float, float)]), LATITUDE)
    assert celsius.faults == ()
    assert celsius.notes[0].endswith("They are read as degrees Celsius.")
    assert celsius.record.tmax.max() == pytest.approx(29, abs=0.5)


def test_the_unit_of_a_garden_in_the_mountains_is_judged_by_the_height_of_the_towns_there(tmp_path):
    """Srinagar in January, minima of 28 F and maxima of 45 F (from memory), where 0 m would be 12 C off."""
    rows = [f"2024-01-{day:02},{28 + day % 3},{45 + day % 3}" for day in range(1, 32)]
    (tmp_path / "w.csv").write_text("\n".join(["date,tmin,tmax", *rows]))
    usual = year_by_place(Place(lat=34.1, lon=74.8))
    reading = read_weather(tmp_path / "w.csv", "w.csv", usual)
    assert reading.notes[0].endswith("They are read as degrees Fahrenheit.")


def test_a_unit_that_nothing_tells_is_asked_for(read):
    reading = read("Date,MaxT,MinT\n2026-01-01,9,3\n", LATITUDE)
    assert reading.record is None
    (said,) = sentences(reading)
    assert said == (
        "w.csv, line 1: MinT and MaxT name no unit, and the numbers do not tell it. No temperature of "
        "the file is used until that is told. Name the columns tmin_c and tmax_c, or tmin_f and tmax_f."
    )
    assert read("Date,tmax_c,tmin_c\n2026-01-01,9,3\n", LATITUDE).faults == ()


def test_swapped_columns_are_noticed_and_read(read):
    rows = a_year(float, float)
    reading = read("\n".join(["date,tmax_c,tmin_c", *rows]))
    (said,) = sentences(reading)
    assert said == (
        "w.csv, line 1: the minimum lies above the maximum on 365 days: "
        "the two columns are read the other way round. Change their names about."
    )
    sound = read("\n".join(["date,tmin_c,tmax_c", *rows]))
    np.testing.assert_array_equal(reading.record.tmin, sound.record.tmin)


def test_hours_become_days(read):
    rows = []
    for day in range(1, 4):
        for hour in range(24 if day < 3 else 10):
            rows.append(f"2024-03-{day:02d}T{hour:02d}:00,{day + 10 * np.sin(np.pi * hour / 24):.2f},0.5")
    reading = read("\n".join(["time,temperature_2m (°C),rain (mm)", *rows]))
    assert reading.faults == ()
    np.testing.assert_allclose(reading.record.tmin, [1, 2, np.nan])
    np.testing.assert_allclose(reading.record.tmax, [11, 12, np.nan])
    assert reading.record.rain[0] == pytest.approx(12)
    (said,) = reading.notes
    assert said == (
        "w.csv holds about 24 readings a day: the lowest and the highest of each day are taken. "
        "1 day lacks over a quarter of them and counts as a gap."
    )


def test_two_readings_a_day_are_too_few(read):
    rows = [f"2024-03-{day:02d} {hour:02d}:00,{hour}" for day in range(1, 9) for hour in (7, 14)]
    reading = read("\n".join(["date,temp_c", *rows]))
    assert reading.record is None
    assert "2 readings a day" in sentences(reading)[0]


def test_year_month_and_day_in_columns_below_words_of_an_archive(read):
    text = "-BEGIN HEADER-\nMonth and year of issue, May 2026\nmissing: -999\n-END HEADER-\n"
    rows = "2024,3,1,1.5,9,0\n2024,3,2,-999,8,1.2\n"
    reading = read(f"{text}YEAR,MO,DY,TMIN_C,TMAX_C,PRECTOTCORR\n{rows}")
    assert reading.faults == ()
    assert reading.record.first == dt.date(2024, 3, 1)
    np.testing.assert_array_equal(reading.record.tmin, [1.5, np.nan])
    np.testing.assert_array_equal(reading.record.rain, [0, 1.2])


def test_how_each_column_was_read_is_told(read):
    reading = read("Date,Low (F),High (F),wind\n4/20/2027,30,55,3\n4/21/2027,31,56,3\n")
    assert [(column.name, column.words) for column in reading.columns] == [
        ("Date", "the day"),
        ("Low (F)", "minimum, degrees Fahrenheit"),
        ("High (F)", "maximum, degrees Fahrenheit"),
        ("wind", "not used"),
    ]


@pytest.mark.parametrize(
    ("written", "day"),
    [
        ("1. Jänner 2023", (2023, 1, 1)), ("20. März 2023", (2023, 3, 20)), ("3 Mrz 2023", (2023, 3, 3)),
        ("7. Mai 2023", (2023, 5, 7)), ("31-Okt-2023", (2023, 10, 31)), ("24. Dez. 2023", (2023, 12, 24)),
        ("1er avril 2023", (2023, 4, 1)), ("14 juil. 2023", (2023, 7, 14)), ("15 août 2023", (2023, 8, 15)),
        ("2 févr. 2023", (2023, 2, 2)), ("25 décembre 2023", (2023, 12, 25)), ("9 Sept 2023", (2023, 9, 9)),
    ],
)  # fmt: skip
def test_months_are_known_as_germans_and_french_write_them(written, day):
    """The names of the two calendars, from memory; Jänner as in Austria."""
    found = moment_in(written, "day first")
    assert found is not None
    assert found.day == dt.date(*day)


def test_a_month_that_may_be_two_is_no_month():
    assert moment_in("3 jui 2023", "day first") is None


def test_a_french_table_with_its_units_in_the_cells_is_read_whole(read):
    months = (
        "janv.",
        "févr.",
        "mars",
        "avril",
        "mai",
        "juin",
        "juil.",
        "août",
        "sept.",
        "oct.",
        "nov.",
        "déc.",
    )
    rows = [
        f"{day.day} {months[day.month - 1]} {day.year};{day.month - 3},5 °C;{day.month + 9},5 °C;0,2 mm"
        for day in YEAR
    ]
    reading = read("\n".join(["Jour;Température minimale;Température maximale;Pluie", *rows]))
    assert not reading.faults
    assert reading.record.tmin[100] == 1.5
    assert reading.record.rain[100] == 0.2
    assert [c.words for c in reading.columns][1:] == [
        "minimum, degrees Celsius", "maximum, degrees Celsius", "rain, mm",
    ]  # fmt: skip


def test_degrees_fahrenheit_in_the_cells_are_the_unit_of_their_column(read):
    rows = a_year(fahrenheit, fahrenheit)
    rows = [row.replace(",", "F,") + "F" for row in rows]
    rows = [row.replace("F,", ",", 1) for row in rows]
    reading = read("\n".join(["date,low,high", *rows]), LATITUDE)
    assert not reading.faults
    assert reading.record.tmin[0] == pytest.approx(11 - 12 - 5, abs=1)


def test_a_cell_of_another_unit_than_its_column_is_asked_about(read):
    rows = a_year(float, float)
    rows[7] = rows[7].split(",")[0] + ",20 F,41 F"
    reading = read("\n".join(["date,tmin_c,tmax_c", *rows]), LATITUDE)
    assert any('reads "20 F", which is no number' in said for said in sentences(reading))


def test_a_table_saved_by_a_western_spreadsheet_is_read_with_its_umlauts(tmp_path):
    """Windows-1252, as spreadsheets of the West save CSV where nobody asks (from memory)."""
    rows = [row.replace(",", ";").replace(".", ",") for row in a_year(float, float)]
    table = "\n".join(["Datum;Tiefsttemperatur [°C];Höchsttemperatur [°C]", *rows])
    (tmp_path / "hof.csv").write_bytes(table.encode("cp1252"))
    reading = read_weather(tmp_path / "hof.csv", "hof.csv", None)
    assert not reading.faults
    assert [column.words for column in reading.columns] == [
        "the day", "minimum, degrees Celsius", "maximum, degrees Celsius",
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("heads", "row"),
    [
        # Deutscher Wetterdienst, daily climate: MESS_DATUM, RSK [mm], TXK, TNK [degC]; -999 is a gap.
        ("STATIONS_ID;MESS_DATUM;QN_4; RSK; TXK; TNK;eor", "  1420;{:%Y%m%d};    3;   0.2;{high};{low};eor"),
        # Meteo-France, daily data: AAAAMMJJ, RR [mm], TN, TX [degC].
        ("NUM_POSTE;NOM_USUEL;AAAAMMJJ;RR;TN;TX", "38384001;GRENOBLE;{:%Y%m%d};0.2;{low};{high}"),
    ],
)  # fmt: skip
def test_daily_tables_of_two_met_services_are_read_as_they_come(read, heads, row):
    rows = [row.format(day, low=f"{day.month - 3}.5", high=f"{day.month + 9}.5") for day in YEAR]
    reading = read("\n".join([heads, *rows]), LATITUDE)
    assert not reading.faults
    assert reading.record.first == YEAR[0]
    assert (reading.record.tmin[100], reading.record.tmax[100]) == (1.5, 13.5)
    assert reading.record.rain[100] == 0.2
