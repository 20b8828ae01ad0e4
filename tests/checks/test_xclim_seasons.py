"""Heat and frost of Seattle 2012, 2013 and 2015 against xclim 0.62 (vega-datasets' daily weather).

The frozen figures run always; the live comparison needs the `reference` extra. The single-sine
sums were computed with pandas, apart from this project.
"""

from __future__ import annotations

import numpy as np
import pytest
from seattle_weather import seattle, year_of

from leafturn.season.degree_days import single_sine
from leafturn.season.frost import freezes_by_year

YEARS = (2012, 2013, 2015)
DATES, TMIN, TMAX, _ = seattle()


def yearly(values):
    return [float(values[year_of(DATES) == year].sum()) for year in YEARS]


def strictly_below(tmin):
    """Minima of which those below 0 alone are at or below it: readings are of whole tenths."""
    return tmin + 0.01


def test_single_sine():
    assert yearly(single_sine(TMIN, TMAX, 5.0)) == pytest.approx([2451.02, 2759.32, 3049.91], abs=0.1)


def test_last_and_first_day_below_freezing():
    """xclim counts strictly below 0 here, unlike freeze-date normals."""
    found = freezes_by_year(DATES, strictly_below(TMIN))
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
    for minima, sign in ((strictly_below(TMIN), "<"), (TMIN, "<=")):
        found = freezes_by_year(DATES, minima)
        chosen = np.isin(found.years, all_years)
        last = xclim.last_spring_frost(series(TMIN), op=sign).values
        first = xclim.first_day_temperature_below(series(TMIN), op=sign).values
        np.testing.assert_array_equal(found.last[chosen], last)
        np.testing.assert_array_equal(found.first[chosen][~np.isnan(first)], first[~np.isnan(first)])
