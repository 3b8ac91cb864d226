#!/usr/bin/env python3
"""Writes an invented hourly forecast of rain and wind on every hour of three days, in the Weather Service's layout.
usage: make_wet_week.py >wet_and_windy_hourly.json"""
import datetime
import json
import sys

start = datetime.datetime(2012, 4, 15, 0, tzinfo=datetime.timezone(datetime.timedelta(hours=-4)))
periods = []
for hour in range(72):
    time = start + datetime.timedelta(hours=hour)
    periods.append({"number": hour + 1, "startTime": time.isoformat(),
                    "endTime": (time + datetime.timedelta(hours=1)).isoformat(),
                    "isDaytime": 6 <= time.hour < 18, "temperature": 55, "temperatureUnit": "F",
                    "probabilityOfPrecipitation": {"unitCode": "wmoUnit:percent", "value": 80},
                    "relativeHumidity": {"unitCode": "wmoUnit:percent", "value": 95},
                    "windSpeed": "15 to 20 mph", "windDirection": "NE", "shortForecast": "Rain And Wind"})
corners = [[-82.2, 40.5], [-81.5, 40.5], [-81.5, 41.0], [-82.2, 41.0], [-82.2, 40.5]]
json.dump({"note": "Invented, all of it: see make_wet_week.py.",
           "geometry": {"type": "Polygon", "coordinates": [corners]},
           "properties": {"units": "us", "periods": periods}}, sys.stdout)
print()
