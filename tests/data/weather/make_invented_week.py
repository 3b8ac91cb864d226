#!/usr/bin/env python3
"""Writes invented_week_hourly.json: an invented week in the layout of the Weather Service's hourly forecast.

Nothing of it was ever forecast or measured: each day is there to meet limits. Usage: make_invented_week.py > FILE
"""
import datetime
import json
import math

START = datetime.datetime(2026, 4, 13, 5, tzinfo=datetime.timezone(datetime.timedelta(hours=-4)))
# Low and high in F, humidity at night and by day, wind in mph, hours of rain (from, to), words.
DAYS = [
    (44, 66, 88, 45, "5 mph", (0, 0), "Sunny"),
    (28, 60, 92, 50, "0 mph", (0, 0), "Frost then Sunny"),
    (52, 64, 95, 85, "8 mph", (11, 15), "Chance Rain Showers"),
    (50, 68, 80, 55, "10 to 20 mph", (0, 0), "Breezy"),
    (58, 89, 70, 35, "4 to 8 mph", (0, 0), "Hot"),
    (55, 72, 85, 50, "6 mph", (0, 0), "Partly Sunny"),
    (54, 70, 85, 52, "7 mph", (0, 0), "Partly Sunny"),
]


def quantity(value):
    return {"unitCode": "wmoUnit:percent", "value": value}


periods = []
for number in range(163):
    start = START + datetime.timedelta(hours=number)
    end = start + datetime.timedelta(hours=1)
    day = (start.date() - START.date()).days
    low, high, night, noon, wind, rain, words = DAYS[day]
    warmth = (1 - math.cos(2 * math.pi * ((start.hour - 5) % 24) / 24)) / 2
    period = {
        "number": number + 1,
        "name": "",
        "startTime": start.isoformat(),
        "endTime": end.isoformat(),
        "isDaytime": 6 <= start.hour < 18,
        "temperature": round(low + (high - low) * warmth),
        "temperatureUnit": "F",
        "probabilityOfPrecipitation": quantity(70 if rain[0] <= start.hour < rain[1] else 5),
        "relativeHumidity": quantity(round(night + (noon - night) * warmth)),
        "windSpeed": wind,
        "windDirection": "SW",
        "shortForecast": words,
    }
    if day == 5 and start.hour in (13, 14):  # what the service leaves out
        period["relativeHumidity"] = quantity(None)
        del period["windSpeed"]
    if day == 5 and start.hour == 16:
        period["temperature"] = None
    periods.append(period)
print(json.dumps({"note": "Invented, all of it: see make_invented_week.py.", "properties": {
    "updated": "2026-04-13T08:00:00+00:00", "units": "us", "periods": periods}}, indent=1))
