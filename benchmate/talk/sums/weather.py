"""Arguments of the sums of warmth, frost, feed, dilution, water and pots, one function a figure."""

from __future__ import annotations

import datetime as dt
from typing import Any

from benchmate.talk.sums.said import Given, across

_NO_NIGHT_C = 20  # a lone temperature above it is the day's
_NO_DOSE_G_L = 700  # grams to a litre: as much as the liquid itself weighs
_STOUTEST = 0.5  # trunk over height; what is wider than that is the crown


def degree_days(given: Given) -> dict[str, Any]:
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
    elif len(pairs) == 1 and (days := _days_ahead(given)):
        pairs *= days
    pairs = _told_by_halves(given, pairs)
    return out | {"scale": _scale(given)} | ({"temperatures": tuple(pairs)} if pairs else {})


def _told_by_halves(given: Given, pairs: list[Any]) -> list[Any]:
    """The pairs, put right where the highs were told first and the words beside them reach the first of a list only."""
    if len(pairs) < 2 or all(low <= high for low, high in pairs):
        return pairs
    told = {
        place: value
        for name in ("low_c", "temperature_c")
        for value, place in zip(given.many.get(name, []), given.places.get(name, []), strict=True)
    }
    ends = [told[place] for place in sorted(told)]
    half = len(ends) // 2
    halves = list(zip(ends[half:], ends[:half], strict=False))
    turns = list(zip(ends[1::2], ends[::2], strict=False))
    sound = [one for one in (halves, turns) if len(ends) % 2 == 0 and all(low <= high for low, high in one)]
    return sound[0] if sound else pairs


def _scale(given: Given) -> str:
    """F where the base was told in Fahrenheit and no other scale is asked for; else C."""
    base = given.one("base_c")
    told_in_f = base is not None and base != given.numbers[given.places["base_c"][0]].raw
    return str(given.said.get("scale", "F" if told_in_f else "C"))


def _days_ahead(given: Given) -> int:
    """Days of a span told as a date to come ("in a fortnight"), 1 to 31; else 0."""
    for number in given.numbers:
        ahead = number.told[1] if number.unit == "date" else None
        if ahead and len(ahead) == 10 and 1 < (days := (dt.date.fromisoformat(ahead) - given.on).days) <= 31:
            return days
    return 0


def frost(given: Given) -> dict[str, Any]:
    out = given.single("needed_days", "spread_days") | given.words("which", "wanted")
    if told := given.one("risk_percent"):
        sure = "certain" in given.said
        out |= {"wanted": "risk", "risk": (100 - told if sure and told > 50 else told) / 100}
        out.setdefault("which", "last" if (given.on.month <= 6) != given.southern else "first")
    if mean := given.one("mean_on"):
        out |= {f"{given.said.get('which', 'first')}_frost": (mean.month, mean.day), "of_place": False}
    days = [day for day in given.many.get("on", []) if day is not None]
    out |= {"on": days[0], "days_said": tuple(days)} if days else {}
    if out.get("wanted") == "chance" and "which" not in out:
        spring = (out.get("on", given.on).month <= 6) != given.southern
        out["which"] = "last" if spring else "first"
    return out


def feed(given: Given) -> dict[str, Any]:
    out = given.single("label", "ppm", "volume_l", "injector_ratio") | given.words("nutrient")
    if "label" not in out and given.one("nitrogen_percent"):
        out["label"] = (given.one("nitrogen_percent"),)
    if density := _density(given):
        out["density_g_ml"] = density
    elif "label" not in out and "ppm" not in out:
        out |= _of_label(given)
    elif "ppm" not in out:
        out["strength"] = _strength(given)
    a_litre = "a_litre" in given.said or any("per" in one.tags and one.value == 1 for one in given.numbers)
    if "injector_ratio" in out and ("volume_l" not in out or a_litre):
        out |= {"volume_l": 1.0, "of_stock": True}
    if given.one("per_l") and "volume_l" not in out and "dose" not in out and not density:
        out["volume_l"] = given.one("per_l")  # "5-1-1 per gallon"
    out |= _of_mixed(given, out)
    out |= _unmeasured(given, out)
    return out | _told_in(given, out)


def _told_in(given: Given, out: dict[str, Any]) -> dict[str, Any]:
    """The unit of the answer: of a liquid whose density is known millilitres, unless its weight is asked for."""
    wanted = given.said.get("asked_in")
    if wanted == "ounces" and "density_g_ml" not in out:
        return {"unit": "oz"}
    if "density_g_ml" in out and wanted != "grams":
        return {"unit": "mL"}
    if wanted == "millilitres" and "dose" not in out:
        return {"unit": "mL", "density_g_ml": 1.0, "notes": ("A millilitre of the feed is taken to weigh a gram",)}
    return {}


def _density(given: Given) -> float | None:
    """Grams in a millilitre of a liquid feed: told by that name, or as a weight to a measure that no dose comes to."""
    if given.one("density"):
        return float(given.one("density"))
    if given.one("density_g"):
        grams = float(given.one("density_g"))
        return grams if grams < _NO_DOSE_G_L else grams / 1000  # of a millilitre, or of a litre
    weight, measure = given.one("dose_g"), given.one("per_l") or (1.0 if "weighs" in given.said else None)
    return weight / measure / 1000 if weight and measure and weight / measure >= _NO_DOSE_G_L else None


def _of_mixed(given: Given, out: dict[str, Any]) -> dict[str, Any]:
    """The grams that went into so much water, where it is asked how strong that is."""
    grams = next((number.value for number in given.numbers if number.unit == "mass"), None)
    if "ppm_asked" not in given.said or grams is None or "ppm" in out:
        return {}
    litres = max((one.value for one in given.numbers if one.unit == "volume"), default=out.get("volume_l"))
    lacks = () if litres or "a_litre" in given.said else ("volume_l",)
    return {"given_g": grams, "dose": None, "lacks": lacks} | ({"volume_l": litres} if litres else {})


def _of_label(given: Given) -> dict[str, Any]:
    """The label's dose, in its own unit, to so much water, and how much of that strength is wanted."""
    role = next((name for name in ("dose_l", "dose_g", "dose_count") if given.one(name)), None)
    if role is None or not given.one("per_l"):
        return {}
    number = given.numbers[given.places[role][0]]
    out = {
        "dose": number.raw,
        "unit": given.unit_names.get((number.unit, number.size), number.word),
        "per_l": given.one("per_l"),
    }
    return out | {"strength": _strength(given)}


def _strength(given: Given) -> float:
    """How much of the usual strength is wanted, 1 where nothing is said of it."""
    told = given.one("strength_percent")
    return told / 100 if told else float(given.said.get("strength", 1))


def dilution(given: Given) -> dict[str, Any]:
    if "never" in given.said:
        return {"never": True}
    out = given.single("stock_percent", "wanted_percent", "volume_l", "dose_l", "per_l", "have_l") | given.words(
        "wanted"
    )
    if "per_l" in out and not {"dose_l", "volume_l"} & set(out):
        out["volume_l"] = out.pop("per_l")  # there is no dose for it to hold of
    stock, water, whole = (given.one(name) for name in ("stock_parts", "water_parts", "whole_parts"))
    if whole and not water:
        out["parts"] = whole / (stock or 1.0) - 1
    elif water:
        out["parts"] = water / (stock or 1.0)
    if "stock_percent" in out and "wanted_percent" not in out and "parts" not in out:
        out["wanted_percent"] = out.pop("stock_percent")  # "10 % bleach": of what is made
    if "wanted_percent" in out and "stock_percent" not in out:
        share = out.pop("wanted_percent") / 100
        return out | {"share": share} | _unmeasured(given, out)
    if "parts" in out:
        out = {name: value for name, value in out.items() if not name.endswith("percent")}
    if "dose_l" in out and "per_l" not in out:
        out.setdefault("volume_l", out["dose_l"])  # "ten litres of a one in forty mix"
        out = {name: value for name, value in out.items() if name != "dose_l"}
    return out | {"share": None} | _unmeasured(given, out)


def _unmeasured(given: Given, out: dict[str, Any]) -> dict[str, Any]:
    """What lacks where it is asked how much goes into nobody knows how much."""
    if "given_g" in out or "of_stock" in out:
        return {}
    measured = any(number.unit == "volume" for number in given.numbers) or "a_litre" in given.said
    return {} if measured or "amount" not in given.said else {"lacks": ("volume_l",)}


def _squared(out: dict[str, Any]) -> dict[str, Any]:
    """The shape of a pot told as "40 by 30", where none is said."""
    return {"shape": "rectangle"} if "pot_width_mm" in out else {}


def water(given: Given) -> dict[str, Any]:
    out = _squared(given.single()) | given.words("shape") | _numbers(given, "factor", "leached", "days")
    out |= _warmth(given.single())
    if "leached_percent" in out:
        out["leached"] = out.pop("leached_percent") / 100
    if days := _days_ahead(given):
        out.setdefault("days", float(days))
    if "leaf_off_percent" in out:
        out["leaf_left"] = 1 - out.pop("leaf_off_percent") / 100
    if "leaf_on_percent" in out:
        out["leaf_left"] = out.pop("leaf_on_percent") / 100
    return out | {"month": _northern_month(given)}


def _northern_month(given: Given) -> str:
    """The month of the day asked on, "01" to "12", half a year later in the south."""
    return f"{(given.on.month - 1 + (6 if given.southern else 0)) % 12 + 1:02}"


def _warmth(out: dict[str, Any]) -> dict[str, Any]:
    """The values with the colder of two temperatures as the night's: "30 degrees, down to 16"."""
    low, high = out.get("low_c"), out.get("temperature_c")
    if low is not None and high is None and low > _NO_NIGHT_C:
        out = {name: value for name, value in out.items() if name != "low_c"}
        return out | {"temperature_c": low}
    return out | ({"low_c": high, "temperature_c": low} if low is not None and high is not None and low > high else {})


def drying(given: Given) -> dict[str, Any]:
    out = _warmth(_squared(given.single()) | given.single()) | given.words("shape")
    if "use_l" in out and "volume_l" in out and "held_l" not in out and "lasting" in given.said:
        out["held_l"] = out.pop("volume_l")  # "how long will 2 litres last"
    if "loss_g" in out and not {"wet_g", "limit_g", "held_g"} & set(out):
        out["use_l"] = out.pop("loss_g") / 1000  # of what the pot holds by its size
    if "held_g" in out:
        out["held_l"] = out.pop("held_g") / 1000  # a gram of water is a millilitre
    if "available_percent" in out:
        out["available"] = out.pop("available_percent") / 100
        if "held_l" in out and "volume_l" not in out:
            out["volume_l"] = out.pop("held_l")  # "holds 2.4 litres, a quarter of that is water"
    return out


def _numbers(given: Given, *names: str) -> dict[str, float]:
    return {name: float(value) for name, value in given.words(*names).items()}


def pot_size(given: Given) -> dict[str, Any]:
    out = across(given, given.single())
    if given.said.get("wanted") == "now" and not given.many:
        return {"wanted": "now", "of_now": True}
    out |= {"wanted": "deep"} if given.said.get("wanted") == "deep" else {}
    if "share_percent" in out:
        out["share_of_height"] = out.pop("share_percent") / 100
    tall, thick = out.get("height_mm"), out.get("diameter_mm")
    if tall and thick and thick > _STOUTEST * tall and "spread_mm" not in out:
        out["spread_mm"] = out.pop("diameter_mm")  # "40 high, 54 across" is no trunk
    return out


def pot_volume(given: Given) -> dict[str, Any]:
    out = given.single() | given.words("shape")
    out.pop("bottom_width_mm", None)  # the width narrows as the length does
    if out.get("shape") == "round" and "diameter_mm" not in out and ("length_mm" in out) != ("width_mm" in out):
        out["diameter_mm"] = out.pop("length_mm" if "length_mm" in out else "width_mm")
    if "diameter_mm" in out and "bottom_mm" not in out and "length_mm" in out and out.get("shape") == "round":
        out["bottom_mm"] = out.pop("length_mm")
    return out
