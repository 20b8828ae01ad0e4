"""The head of a small garden's file: a place with its months, to which each test adds what stands there."""

CLIMATE = """
[climate]
tmax_c = [2.5, 5.5, 10.8, 15.9, 20.4, 24.0, 26.0, 25.6, 20.6, 15.0, 8.2, 3.3]
tmin_c = [-5.0, -3.9, -0.3, 3.9, 8.4, 12.0, 13.6, 13.2, 9.3, 4.9, 0.8, -3.5]
rain_mm = [28, 32, 44, 55, 88, 112, 118, 105, 88, 68, 58, 42]
"""

PLACE = f"""
[place]
lat = 46.93
lon = 15.87
{CLIMATE}"""
