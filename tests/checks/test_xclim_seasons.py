"""Heat and frost of Seattle 2012, 2013 and 2015 against xclim 0.62 (vega-datasets' daily weather).

The frozen figures run always; the live comparison needs the `reference` extra. The single-sine
sums were computed with pandas, apart from this project.
"""

from __future__ import annotations

import numpy as np
import pytest
from seattle_weather import seattle, year_of

from leafturn.season.degree_days import average, single_sine
from leafturn.season.frost import freezes_by_year

YEARS = (2012, 2013, 2015)
DATES, TMIN, TMAX, _ = seattle()


def yearly(values):
    return [float(values[year_of(DATES) == year].sum()) for year in YEARS]


@pytest.mark.parametrize(
    ("base", "expected"), [(5.0, [2396.20, 2720.70, 3017.95]), (10.0, [1133.40, 1369.25, 1541.05])]
)
def test_mean_method(base, expected):
    assert yearly(average(TMIN, TMAX, base)) == pytest.approx(expected, abs=0.05)


def test_single_sine():
    assert yearly(single_sine(TMIN, TMAX, 5.0)) == pytest.approx([2451.02, 2759.32, 3049.91], abs=0.1)


def test_last_and_first_day_below_freezing():
    """xclim counts strictly below 0 here, unlike freeze-date normals."""
    found = freezes_by_year(DATES, TMIN, strictly_below=True)
    chosen = np.isin(found.years, YEARS)
    assert found.last[chosen].tolist() == [79, 22, 63]
    assert found.first[chosen].tolist() == [315, 325, 330]


@pytest.mark.reference
def test_xclim_itself():
    xclim = pytest.importorskip("xclim.indices")
    xarray = pytest.importorskip("xarray")

    def series(values):
        return xarray.DataArray(
            values, dims="time", coords={"time": DATES.astype("datetime64[ns]")}, attrs={"units": "degC"}
        )

    all_years = range(2012, 2016)
    for base in (0.0, 5.0, 10.0):
        theirs = xclim.growing_degree_days(series((TMIN + TMAX) / 2), thresh=f"{base} degC").values
        ours = [average(TMIN, TMAX, base)[year_of(DATES) == year].sum() for year in all_years]
        np.testing.assert_allclose(ours, theirs, atol=1e-6)
    for strictly, sign in ((True, "<"), (False, "<=")):
        found = freezes_by_year(DATES, TMIN, strictly_below=strictly)
        chosen = np.isin(found.years, all_years)
        last = xclim.last_spring_frost(series(TMIN), op=sign).values
        first = xclim.first_day_temperature_below(series(TMIN), op=sign).values
        np.testing.assert_array_equal(found.last[chosen], last)
        np.testing.assert_array_equal(found.first[chosen][~np.isnan(first)], first[~np.isnan(first)])
