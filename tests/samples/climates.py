"""Months of three climates as a garden file states them, January first: rough, and of no one station."""

from __future__ import annotations

# As in the south of England.
MILD = {
    "tmax_c": [8.4, 9.0, 11.7, 15.0, 18.4, 21.6, 23.9, 23.4, 20.2, 15.8, 11.5, 8.8],
    "tmin_c": [2.7, 2.6, 4.1, 6.0, 9.1, 12.0, 14.2, 14.1, 11.6, 8.8, 5.3, 3.1],
    "rain_mm": [58, 43, 38, 42, 46, 43, 45, 52, 48, 62, 64, 55],
}
# As in Wisconsin.
COLD = {
    "tmax_c": [-4, -2, 5, 12, 18, 23, 25, 24, 19, 12, 4, -2],
    "tmin_c": [-13, -11, -5, 1, 6, 11, 13, 12, 8, 2, -4, -10],
    "rain_mm": [30, 30, 50, 80, 90, 110, 100, 100, 90, 60, 55, 40],
}
# As in the hills of Georgia.
WARM = {
    "tmax_c": [11.7, 13.9, 18.3, 22.8, 27.2, 30.6, 32.8, 31.7, 28.9, 23.3, 17.2, 12.8],
    "tmin_c": [0.6, 2.2, 6.1, 10.0, 14.4, 19.4, 21.1, 21.1, 17.8, 11.1, 5.6, 2.2],
    "rain_mm": [110, 112, 112, 91, 81, 112, 114, 107, 99, 79, 94, 114],
}
