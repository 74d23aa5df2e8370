"""Measures in plain English, in the units of the place. Files are metric; only what is shown changes."""

from __future__ import annotations

from collections.abc import Mapping

_UNITS = ("mm", "c", "l", "h", "deg", "days", "years", "percent")
_LABEL = {"n_percent": "N", "p2o5_percent": "P2O5", "k2o_percent": "K2O"}


def measure_tail(measures: Mapping[str, float], units: str = "metric") -> str:
    """Measures of a work, as they follow it: " to 2 leaves", " by 25 %"."""
    said = []
    for key, value in measures.items():
        match key:
            case "leaves" | "pairs" | "buds":
                noun = {"leaves": "leaf", "pairs": "pair", "buds": "bud"}[key]
                said.append(f"to {value:g} {noun if value == 1 else key}")
            case "share":
                said.append(f"by {value * 100:.0f} %")
            case "angle_deg":
                said.append(f"by {value:g} degrees")
            case "ppm":
                said.append(f"at {value:g} ppm")
            case "every_days":
                said.append(often_words(round(value)))
            case _:
                said.append(f"({measure_words(key, value, units)})")
    return " " + " ".join(said) if said else ""


def often_words(days: int) -> str:
    """How often, in words.

    >>> often_words(1), often_words(14), often_words(10)
    ('every day', 'every 2 weeks', 'every 10 days')
    """
    count, unit = (days // 7, "week") if days % 7 == 0 else (days, "day")
    return f"every {unit}" if count == 1 else f"every {count} {unit}s"


def measure_words(key: str, value: float, units: str = "metric") -> str:
    """One measure with its name and unit: "diameter 8 mm", "5 litres", in inches and Fahrenheit where units say so."""
    name, _, unit = key.rpartition("_")
    if unit == "mm":
        return f"{name or 'length'} {millimetres(value, units)}"
    if key == "temperature_c":
        return f"{value * 9 / 5 + 32:.0f} F" if units == "imperial" else f"{value:g} C"
    if key == "volume_l":
        return f"{value / 3.785411784:.2g} US gallons" if units == "imperial" else f"{value:.3g} l"
    if key in _LABEL:
        return f"{value:g} % {_LABEL[key]}"
    plain = {
        "mass_g": f"{value:.3g} g",
        "angle_deg": f"{value:g} degrees",
        "share": f"{value * 100:.0f} %",
        "age_years": f"{value:g} years old",
        "ppm": f"{value:g} ppm",
    }
    return plain.get(key, f"{value:g} {key.replace('_', ' ')}")


_LACKING = {
    "health": "how strong it is",
    "stage": "where it is in its year",
    "further stage": "how far on it is in its year",
    "flush": "which flush of the year it is",
    "phase": "what it is grown for now",
    "species": "its species",
    "trait": "a habit of its kind",
    "event": "what was done to it before",
    "weather": "the weather",
    "finding": "what is seen on it",
    "share": "how much of it is meant",
    "kept at": "how warm it is kept",
}


def lack_words(name: str) -> str:
    """What is not known, in plain words: a kind of fact, or a measure by its name.

    >>> lack_words("temperature c"), lack_words("diameter_mm"), lack_words("health")
    ('the temperature', 'the diameter', 'how strong it is')
    """
    plain = name.replace("_", " ")
    bare = " ".join(word for word in plain.split() if word not in _UNITS)
    return _LACKING.get(plain, _LACKING.get(bare, f"the {bare}"))


def millimetres(value: float, units: str = "metric") -> str:
    """A length: "8 mm", "410 mm", or inches."""
    if units == "imperial":
        return f"{value / 25.4:.2g} in" if value < 254 else f"{value / 25.4:.0f} in"
    return f"{value:.3g} mm" if value < 1000 else f"{value / 1000:.3g} m"
