"""Arguments of the sums of growth and of closing wounds."""

from __future__ import annotations

import datetime as dt
from typing import Any

from benchmate.talk.sums.dates import measured_on, year_day
from benchmate.talk.sums.said import Given

_A_YEAR = 365
_HARDLY_PAST = 150  # days: nobody measures a wound again within the same season


def growth(given: Given) -> dict[str, Any]:
    out = given.single("yearly_mm", "goal_mm") | given.words("what")
    dates: list[tuple[float, dt.date]] = []
    for told, place in zip(given.many.get("dates", []), given.places.get("dates", []), strict=True):
        days = [year_day(text, given.on, given.southern) for text in told]
        if day := days[0] if days[0] and days[0] <= given.on else days[1]:
            touches = place + 1 < len(given.numbers) and given.numbers[place + 1].first == given.numbers[place].end
            behind = place > 0 and given.numbers[place - 1].end == given.numbers[place].first
            # "this spring 59": the day is of what follows
            dates.append((place + (0.4 if touches and not behind else 0.0), day))
    for place, number in enumerate(given.numbers):
        if number.unit == "years" and "ago" in number.tags:
            dates.append((place, given.on - dt.timedelta(days=round(number.raw * 365.25))))
    dates.sort()
    sizes, places = given.many.get("sizes_mm", []), given.places.get("sizes_mm", [])
    told = len(dates) > 1 or (dates and given.said.get("wanted") == "rate")
    if "goal_mm" in out and len(sizes) == 1 and told and all(day <= given.on for _, day in dates):
        sizes, places = [*sizes, out.pop("goal_mm")], [*places, given.places["goal_mm"][0]]  # "from 44 to 56 mm"
    past = [(place, day) for place, day in dates if day <= given.on]
    # "since May", "between May and now": of what was measured first
    opens = {"since", "from"} if len(past) == 1 else {"since"}
    since = next((day for place, day in past if opens & given.numbers[int(place)].tags), None)
    past = [(places[0], since)] if since and places else past
    readings = measured_on(sizes, places, past, given.on)
    ahead = [day for _, day in dates if day > given.on]
    if readings and dates[-1][1] == given.on and len(dates) > 1 and dates[-1][0] > places[-1] + 1:
        ahead = [given.on]  # "46 in 2024; what in 2026", asked in 2026
    if ahead and "series" in given.said and "ahead" in given.said:
        out["days"] = float(given.said["ahead"])  # "the last three springs ... what next spring?"
    elif ahead:
        out["days"] = (ahead[-1] - given.on).days
    if given.one("ahead_years"):
        out["days"] = round(given.one("ahead_years") * _A_YEAR)
    elif given.one("ahead_days"):
        out["days"] = given.one("ahead_days")
    elif "ahead" in given.said and not ahead:
        out["days"] = float(given.said["ahead"])
    if len(sizes) == 2 and "yearly_mm" in out and "goal_mm" not in out and not readings:
        out["goal_mm"] = max(sizes)
        sizes = [min(sizes)]
    if readings:
        out["readings"] = readings
    elif "yearly_mm" in out:
        out["readings"] = ()
        out |= {"now_mm": sizes[-1]} if sizes else {}
    if (
        len(sizes) > 2 and not readings and "yearly_mm" not in out and "series" in given.said
    ):  # one a year, the last now
        out["readings"] = tuple(
            (given.on - dt.timedelta(days=round(365.25 * (len(sizes) - 1 - n))), size) for n, size in enumerate(sizes)
        )
    _spread_over_years(given, out)
    wanted = given.said.get("wanted")
    if wanted == "rate" and "yearly_mm" not in out:
        out["wanted"] = "rate"
    if wanted == "now" and not sizes and not {"days", "goal_mm", "yearly_mm"} & set(out):
        out |= {"wanted": "now", "of_now": True}
    return out | ({"wanted": "limit"} if given.said.get("limit") else {})


def _spread_over_years(given: Given, out: dict[str, Any]) -> None:
    """A gain told for several years becomes that of one: "half an inch every 3 years"."""
    if "yearly_mm" in out and (years := given.one("per_years")):
        out["yearly_mm"] /= years


def wound(given: Given) -> dict[str, Any]:
    out = given.single("diameter_mm", "earlier_mm", "yearly_mm", "ago_years")
    place = given.places.get("yearly_mm", [None])[0]
    _spread_over_years(given, out)
    if place is not None and "side" in given.numbers[place].tags:
        out["yearly_mm"] *= 2
    told = given.one("earlier_on")
    day = year_day(told[0], given.on, given.southern) if told else None
    if day is not None and 0 <= (given.on - day).days < _HARDLY_PAST and not str(told[0])[-1].isdigit():
        return out | {"ago_years": 1.0}  # "last spring", said in summer: a year's growth ago
    if "earlier_mm" in out and day is not None and (given.on - day).days > 30:
        out["ago_years"] = (given.on - day).days / 365.25
    if "earlier_mm" in out and not {"diameter_mm", "ago_years"} & set(out) and day is None:
        out["diameter_mm"] = out.pop("earlier_mm")  # "the cut was 12 mm": as it is made, since nothing tells when
    return out
