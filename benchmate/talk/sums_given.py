"""From what the numbers of a figure question stand for to the arguments of its sum, one function a figure."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from typing import Any

from benchmate.talk.sums_dates import measured_on, year_day
from benchmate.talk.sums_said import Given

_A_YEAR = 365
_STOUTEST = 0.5  # trunk over height; what is wider than that is the crown


def _wire_diameter(given: Given) -> dict[str, Any]:
    out = given.single("diameter_mm", "length_mm", "angle_deg") | given.words("metal")
    strands = given.one("strand_count") or given.said.get("strands")
    return out | ({"strands": float(strands)} if strands else {})


def _wire_length(given: Given) -> dict[str, Any]:
    out = given.single("diameter_mm", "wire_mm", "angle_deg", "gauge", "wire_length_mm", "turn_mm") | given.words(
        "metal", "gauge_kind"
    )
    lengths = given.many.get("length_mm", [])
    if gauge := next((one for one in given.numbers if one.unit == "gauge"), None):
        out |= {"gauge_kind": gauge.word} if gauge.word in ("awg", "swg") else {}
    wanted = given.said.get("wanted")
    if wanted == "weight" and "wire_length_mm" in out and "wire_mm" in out:
        lengths = []
    if wanted == "weight" and lengths and "wire_length_mm" not in out:
        sizes = sorted([*lengths, *(out[name] for name in ("wire_mm", "diameter_mm") if name in out)])
        out = {name: value for name, value in out.items() if name != "diameter_mm"}
        return out | {"wire_length_mm": sizes[-1], **({"wire_mm": sizes[0]} if len(sizes) > 1 else {})}
    if wanted == "gauge" and not lengths and (thick := out.get("wire_mm") or out.get("diameter_mm")):
        return out | {"wire_mm": thick, "gauge_wanted": True}
    if "wire_length_mm" in out and not lengths and "wire_mm" not in out and "diameter_mm" in out:
        out["wire_mm"] = out.pop("diameter_mm")
    return out | ({"length_mm": sum(given.each("length_mm"))} if lengths else {})


def _guy_pull(given: Given) -> dict[str, Any]:
    out = given.single()
    return out if "angle_deg" in out or "angle" not in given.said else out | {"angle_deg": float(given.said["angle"])}


def _bite_date(given: Given) -> dict[str, Any]:
    out = given.single("wired_on", "gap_mm", "yearly_mm", "tolerated_mm")
    bounds = given.one("season_from"), given.one("season_to")
    if all(isinstance(day, dt.date) for day in bounds):
        turn = 183 if given.southern else 0  # the sum turns northern days for the south
        start, end = ((day.timetuple().tm_yday + turn - 1) % 365 + 1 for day in bounds)
        out |= {"season_start": start, "season_end": end, "first_frost": None, "last_frost": None}
    if isinstance(out.get("wired_on"), dt.date) and out["wired_on"] > given.on:
        out["on"] = out["wired_on"]
    return out


def _leaf_share(given: Given) -> dict[str, Any]:
    out = given.single("leaves_cut", "leaves_total", "leaves_left", "leaves_halved")
    each = given.one("each_percent") / 100 if given.one("each_percent") else float(given.said.get("each", 0)) or None
    crown = (
        given.one("crown_percent") / 100 if given.one("crown_percent") else float(given.said.get("of_crown", 0)) or None
    )
    branches = given.each("branches_mm")
    lost = given.many.get("lost_mm", [])
    if (one_in := given.one("one_in")) and (of := given.one("in_how_many")):
        return {"share": one_in / of}
    if branches and lost and not out:
        return {"branches_mm": tuple(branches), "lost_mm": tuple(lost) * int(given.one("lost_count") or 1)}
    if "leaves_halved" in out and "leaves_cut" not in out and each != 0.5:
        out["leaves_cut"] = out.pop("leaves_halved")
    if "leaves_halved" in out and "leaves_cut" not in out and each == 0.5:
        out["leaves_cut"] = out.pop("leaves_halved")
    if out.get("leaves_cut") == 1 and each and "leaves_total" not in out:
        del out["leaves_cut"]  # "one leaf off every pair"
    if "leaves_cut" in out:
        lone = "leaves_total" not in out  # some of nobody knows how many
        out |= {"taken": None, "share": None if lone or "leaves_halved" in out else each}
    elif crown or each:
        # "half the leaves", "each leaf by a third", "every leaf of the top half in two"
        apart = crown != each or given.said.get("of_crown") or given.said.get("each_cut")
        out["share"] = (crown or 1.0) * (each or 1.0) if apart else crown
    return out


def _taper(given: Given) -> dict[str, Any]:
    return given.single("base_mm", "upper_mm", "length_mm", "height_mm") | given.words("measured")


def _stems(given: Given) -> dict[str, Any]:
    sizes = given.each("diameters_mm")
    out = given.single("parent_mm", "grown_mm") | given.words("wanted")
    return out | ({"diameters_mm": tuple(sizes)} if sizes else {})


def _fork(given: Given) -> dict[str, Any]:
    sizes = given.many.get("diameters_mm", [])
    return {"diameters_mm": tuple(sizes)} if len(sizes) > 1 else {}


def _day_length(given: Given) -> dict[str, Any]:
    out = given.single("on", "latitude_deg") | given.words("wanted") | given.single("hours")
    if "latitude_deg" in out and given.said.get("hemisphere") == "south":
        out["latitude_deg"] = -abs(out["latitude_deg"])
    return out


def _degree_days(given: Given) -> dict[str, Any]:
    out: dict[str, Any] = given.single("base_c", "upper_c") | given.words("method") | {"temperature_c": None}
    lows, highs = given.many.get("low_c", []), given.many.get("temperature_c", [])
    pairs = list(zip(lows, highs, strict=False))
    if len(lows) != len(highs) and (len(lows) + len(highs)) % 2 == 0:  # told by turns, and not which is which
        at = sorted(
            zip(given.places.get("low_c", []) + given.places.get("temperature_c", []), lows + highs, strict=True)
        )
        ends = [value for _, value in at]
        pairs = [(min(pair), max(pair)) for pair in zip(ends[::2], ends[1::2], strict=True)]
    if not pairs and given.one("mean_c") is not None:
        pairs = [(given.one("mean_c"), given.one("mean_c"))]
    days = given.one("day_count")
    if len(pairs) == 1 and days and 1 <= days <= 366:
        pairs *= int(days)
    elif len(pairs) == 1 and any(number.unit == "date" and "week" in number.word for number in given.numbers):
        pairs *= 7
    return out | ({"temperatures": tuple(pairs)} if pairs else {})


def _frost(given: Given) -> dict[str, Any]:
    out = given.single("needed_days", "spread_days") | given.words("which", "wanted")
    days = [day for day in given.many.get("on", []) if day is not None]
    out |= {"on": days[0], "days_said": tuple(days)} if days else {}
    if out.get("wanted") == "chance" and "which" not in out:
        spring = (out.get("on", given.on).month <= 6) != given.southern
        out["which"] = "last" if spring else "first"
    return out


def _feed(given: Given) -> dict[str, Any]:
    out = given.single("label", "ppm", "volume_l", "injector_ratio") | given.words("nutrient")
    if "label" not in out and given.one("nitrogen_percent"):
        out["label"] = (given.one("nitrogen_percent"),)
    return out | ({"unit": "oz"} if given.said.get("asked_in") == "ounces" else {})


def _dilution(given: Given) -> dict[str, Any]:
    out = given.single("stock_percent", "wanted_percent", "volume_l", "dose_l", "per_l", "have_l") | given.words(
        "wanted"
    )
    stock, water, whole = (given.one(name) for name in ("stock_parts", "water_parts", "whole_parts"))
    if whole and not water:
        out["parts"] = whole / (stock or 1.0) - 1
    elif water:
        out["parts"] = water / (stock or 1.0)
    if "stock_percent" in out and "wanted_percent" not in out and "parts" not in out:
        out["wanted_percent"] = out.pop("stock_percent")  # "10 % bleach": of what is made
    if "wanted_percent" in out and "stock_percent" not in out:
        return {name: value for name, value in out.items() if name != "wanted_percent"} | {
            "share": out["wanted_percent"] / 100
        }
    if "parts" in out:
        out = {name: value for name, value in out.items() if not name.endswith("percent")}
    if "dose_l" in out and "per_l" not in out:
        out = {name: value for name, value in out.items() if name != "dose_l"}
    return out | {"share": None}


def _water(given: Given) -> dict[str, Any]:
    return given.words("shape") | _numbers(given, "factor", "leached") | _warmth(given.single())


def _warmth(out: dict[str, Any]) -> dict[str, Any]:
    """The values with the colder of two temperatures as the night's: "30 degrees, down to 16"."""
    low, high = out.get("low_c"), out.get("temperature_c")
    return out | ({"low_c": high, "temperature_c": low} if low is not None and high is not None and low > high else {})


def _drying(given: Given) -> dict[str, Any]:
    out = _warmth(given.single()) | given.words("shape")
    if "available_percent" in out:
        out["available"] = out.pop("available_percent") / 100
    return out


def _numbers(given: Given, *names: str) -> dict[str, float]:
    return {name: float(value) for name, value in given.words(*names).items()}


def _pot_size(given: Given) -> dict[str, Any]:
    out = given.single()
    tall, thick = out.get("height_mm"), out.get("diameter_mm")
    if tall and thick and thick > _STOUTEST * tall and "spread_mm" not in out:
        out["spread_mm"] = out.pop("diameter_mm")  # "40 high, 54 across" is no trunk
    return out


def _pot_volume(given: Given) -> dict[str, Any]:
    out = given.single() | given.words("shape")
    if out.get("shape") == "round" and "diameter_mm" not in out and ("length_mm" in out) != ("width_mm" in out):
        out["diameter_mm"] = out.pop("length_mm" if "length_mm" in out else "width_mm")
    if "diameter_mm" in out and "bottom_mm" not in out and "length_mm" in out and out.get("shape") == "round":
        out["bottom_mm"] = out.pop("length_mm")
    return out


def _growth(given: Given) -> dict[str, Any]:
    out = given.single("yearly_mm", "goal_mm") | given.words("what")
    dates: list[tuple[float, dt.date]] = []
    for told, place in zip(given.many.get("dates", []), given.places.get("dates", []), strict=True):
        days = [year_day(text, given.on, given.southern) for text in told]
        if day := days[0] if days[0] and days[0] <= given.on else days[1]:
            touches = place + 1 < len(given.numbers) and given.numbers[place + 1].first == given.numbers[place].end
            dates.append((place + (0.4 if touches else 0.0), day))  # "this spring 59": it is of what follows
    for place, number in enumerate(given.numbers):
        if number.unit == "years" and "ago" in number.tags:
            dates.append((place, given.on - dt.timedelta(days=round(number.raw * 365.25))))
    dates.sort()
    sizes, places = given.many.get("sizes_mm", []), given.places.get("sizes_mm", [])
    past = [(place, day) for place, day in dates if day <= given.on]
    since = next((day for place, day in past if "since" in given.numbers[int(place)].tags), None)
    past = [(places[0], since)] if since and places else past
    readings = measured_on(sizes, places, past, given.on)
    ahead = [day for _, day in dates if day > given.on]
    if readings and dates[-1][1] == given.on and len(dates) > 1 and dates[-1][0] > places[-1] + 1:
        ahead = [given.on]  # "46 in 2024; what in 2026", asked in 2026
    if ahead:
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
    if wanted == "rate" and "yearly_mm" not in out and not ahead and "days" not in out:
        out["wanted"] = "rate"
    return out | ({"wanted": "limit"} if given.said.get("limit") else {})


def _spread_over_years(given: Given, out: dict[str, Any]) -> None:
    """A gain told for several years becomes that of one: "half an inch every 3 years"."""
    if "yearly_mm" in out and (years := given.one("per_years")):
        out["yearly_mm"] /= years


def _wound(given: Given) -> dict[str, Any]:
    out = given.single("diameter_mm", "earlier_mm", "yearly_mm", "ago_years")
    place = given.places.get("yearly_mm", [None])[0]
    _spread_over_years(given, out)
    if place is not None and "side" in given.numbers[place].tags:
        out["yearly_mm"] *= 2
    told = given.one("earlier_on")
    day = year_day(told[0], given.on, given.southern) if told else None
    if "earlier_mm" in out and day is not None and (given.on - day).days > 30:
        out["ago_years"] = (given.on - day).days / 365.25
    return out


#: Figure -> what gives its arguments.
GIVEN: dict[str, Callable[[Given], dict[str, Any]]] = {
    "wire-diameter": _wire_diameter,
    "wire-length": _wire_length,
    "guy-pull": _guy_pull,
    "bite-date": _bite_date,
    "leaf-share": _leaf_share,
    "taper": _taper,
    "union-ratio": _fork,
    "pipe-sum": _stems,
    "day-length": _day_length,
    "degree-days": _degree_days,
    "frost-margin": _frost,
    "feed-dose": _feed,
    "dilution": _dilution,
    "water-need": _water,
    "days-to-dry": _drying,
    "pot-size": _pot_size,
    "pot-volume": _pot_volume,
    "growth-forecast": _growth,
    "wound-close": _wound,
}
