"""From what the numbers of a figure question stand for to the arguments of its sum, one function a figure."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Callable
from typing import Any

from benchmate.hearing.figures.beside import AGAIN
from benchmate.talk.sums.growth import growth, wound
from benchmate.talk.sums.said import Given, across
from benchmate.talk.sums.weather import degree_days, dilution, drying, feed, frost, pot_size, pot_volume, water

_RATE_DAYS = {"monthly": 30.4, "weekly": 7, "daily": 1}
_THICKEST_WIRE_MM = 10  # beyond it a thickness is the branch's


def _wire_diameter(given: Given) -> dict[str, Any]:
    sizes = given.single("diameter_mm", "length_mm", "angle_deg", "tried_mm", "gauge")
    out = across(given, sizes | given.words("metal", "gauge_kind")) | _kind_of_gauge(given)
    if given.said.get("wanted") == "gauge" and "gauge" not in out and (gauged := _gauged(given, out)):
        return gauged
    if swap := _swapped(given, out):
        return swap
    wire = out.get("tried_mm") or out.get("diameter_mm")
    if given.said.get("wanted") == "branch" and wire and not (out.get("tried_mm") and out.get("diameter_mm")):
        return {"held_by_mm": wire} | given.words("metal")
    if given.said.get("wanted") == "strands":
        out["wanted"] = "strands"
    strands = given.one("strand_count") or given.said.get("strands")
    return out | ({"strands": float(strands)} if strands else {})


def _kind_of_gauge(given: Given) -> dict[str, Any]:
    """Whose gauge it is, where the number was said with it ("12 AWG")."""
    gauge = next((one for one in given.numbers if one.unit == "gauge"), None)
    return {"gauge_kind": gauge.word} if gauge and gauge.word in ("awg", "swg") else {}


def _gauged(given: Given, out: dict[str, Any]) -> dict[str, Any]:
    """A wire of which one size alone is told and the gauge asked for."""
    thick = out.get("tried_mm") or out.get("diameter_mm")
    if "of_branch" in given.said or not thick or thick > _THICKEST_WIRE_MM or "of_wire" not in given.said:
        return {}
    return {"gauged_mm": thick} | {name: out[name] for name in ("gauge_kind",) if name in out}


def _swapped(given: Given, out: dict[str, Any]) -> dict[str, Any]:
    """A wire of one metal that another is to stand in for: both are named, and one thickness, which is the wire's."""
    metals = {metal for metal in ("copper", "aluminium") if f"has_{metal}" in given.said}
    sizes = [number for number in given.numbers if number.unit == "length" or not number.unit]
    thick = out.get("tried_mm") or out.get("diameter_mm")
    old = given.said.get("of_metal") or given.said.get("far_metal")
    new = given.said.get("asked_metal") or (given.said.get("new_metal") if "of_metal" not in given.said else None)
    if new:
        old = next((metal for metal in metals if metal != new), old)  # "which copper would take over from 6 mm"
    thick = thick or out.get("length_mm")
    compared = len(sizes) == 2 and "compared" in given.said and "of_metal" in given.said
    if compared:  # "is 2 mm copper the same as 2.5 mm aluminium"
        thick = sizes[0].value if sizes[0].unit else sizes[0].raw
    if len(metals) < 2 or (len(sizes) != 1 and not compared) or not thick or not old or "of_branch" in given.said:
        return {}
    return {"swapped_mm": thick, "swapped_metal": old, "metal": next(metal for metal in metals if metal != old)}


def _wire_length(given: Given) -> dict[str, Any]:
    out = given.single("diameter_mm", "wire_mm", "angle_deg", "gauge", "wire_length_mm", "turn_mm") | given.words(
        "metal", "gauge_kind"
    )
    lengths = given.many.get("length_mm", [])
    if over := given.one("turns_over_mm"):
        out["turn_mm"] = over / (given.one("turn_count") or 1)
    out |= _kind_of_gauge(given)
    wanted = given.said.get("wanted")
    if wanted == "weight" and "wire_length_mm" in out and "wire_mm" in out:
        lengths = []
    if wanted == "weight" and lengths and "wire_length_mm" not in out:
        sizes = sorted([*lengths, *(out[name] for name in ("wire_mm", "diameter_mm") if name in out)])
        out = {name: value for name, value in out.items() if name != "diameter_mm"}
        return out | {"wire_length_mm": sizes[-1], **({"wire_mm": sizes[0]} if len(sizes) > 1 else {})}
    if "wire_length_mm" in out and not lengths and "wire_mm" not in out and "diameter_mm" in out:
        out["wire_mm"] = out.pop("diameter_mm")
    return out | ({"length_mm": sum(given.each("length_mm"))} if lengths else {})


def _bend_limit(given: Given) -> dict[str, Any]:
    out = across(given, given.single() | given.words("wanted"))
    if "diameter_mm" not in out and "radius_mm" in out and len(given.numbers) == 1:
        out["diameter_mm"] = out.pop("radius_mm")  # "bend radius 9 mm" wants it of such a branch
    return out


def _guy_pull(given: Given) -> dict[str, Any]:
    out = given.single()
    return out if "angle_deg" in out or "angle" not in given.said else out | {"angle_deg": float(given.said["angle"])}


def _bite_date(given: Given) -> dict[str, Any]:
    out = given.single("wired_on", "gap_mm", "yearly_mm", "tolerated_mm")
    tags = given.numbers[given.places["yearly_mm"][0]].tags if "yearly_mm" in out else frozenset()
    if days := next((days for tag, days in _RATE_DAYS.items() if tag in tags), 0):
        out["daily_mm"] = out.pop("yearly_mm") / days
    bounds = given.one("season_from"), given.one("season_to")
    if all(isinstance(day, dt.date) for day in bounds):
        turn = 183 if given.southern else 0  # the sum turns northern days for the south
        start, end = ((day.timetuple().tm_yday + turn - 1) % 365 + 1 for day in bounds)
        out |= {"season_start": start, "season_end": end, "first_frost": None, "last_frost": None}
    if isinstance(out.get("wired_on"), dt.date) and out["wired_on"] > given.on:
        out |= {"on": out["wired_on"], "stage": None}  # what the tree shows now is past by then
    return out


def _leaf_share(given: Given) -> dict[str, Any]:
    out = given.single("leaves_cut", "leaves_total", "leaves_left", "leaves_halved")
    each, crown, tip, place = (_part(given, name, said) for name, said in _PARTS)
    if place:  # "half the leaves off the top half"
        crown = place if "spared" in given.said else (crown or 1.0) * place
    of_leaves = _part(given, "", "of_leaves")
    if not tip and (kept := given.one("kept_percent")):
        tip = 1 - kept / 100
    branches, lost = given.each("branches_mm"), given.many.get("lost_mm", [])
    counted = next((name for name in ("leaves_halved", "leaves_cut") if name in out), None)
    if "counted" in given.said and counted and "leaves_total" not in out:
        out["leaves_total"] = out[counted]  # "halved all 80 leaves"
    if (one_in := given.one("one_in")) and (of := given.one("in_how_many")):
        of_leaves, out = one_in / of, {}
    if "equal" in given.said and not branches and (count := given.one("branch_count") or given.one("lost_count")):
        return {"share": 1 / count} if count > 1 else {}  # "one of three equal branches"
    if branches and not lost and (which := given.said.get("lost_which")):
        lost = [min(branches) if which == "thin" else max(branches)]
    if branches and lost and not out and not of_leaves:
        lost = lost * int(given.one("lost_count") or 1)
        again = any(given.numbers[place].unit == AGAIN for place in given.places.get("lost_mm", ()))
        among = again or (all(one in branches for one in lost) and "others" not in given.said)
        told = branches if among else [*branches, *lost]
        return {"branches_mm": tuple(told), "lost_mm": tuple(lost)} | given.words("wanted")
    out |= given.words("wanted")
    if "leaves_halved" in out and "leaves_cut" not in out:
        out["leaves_cut"] = out.pop("leaves_halved")
    if out.get("leaves_cut") == 1 and (each or of_leaves) and "leaves_total" not in out:
        del out["leaves_cut"]  # "one leaf off every pair"
    if tip:
        whole = {} if "leaves_cut" in out else {"of_leaves": (crown or 1.0) * (of_leaves or 1.0)}
        return out | whole | {"tip": tip, "taken": None} | given.words("blade")
    if "leaves_cut" in out:
        lone = "leaves_total" not in out  # some of nobody knows how many
        out |= {"taken": None, "share": None if lone or "leaves_halved" in out else each}
    elif "of_rest" in given.said and len(shares := [one.value for one in given.numbers if one.unit == "share"]) > 1:
        out["share"] = 1 - math.prod(1 - share / 100 for share in shares)  # "a third, then a quarter of the rest"
    elif crown or each or of_leaves:
        # "half the leaves", "each leaf by a third", "every leaf of the top half in two", "half off one leaf in four"
        out["share"] = (crown or 1.0) * (each or 1.0) * (of_leaves or 1.0)
    return out


_PARTS = (
    ("each_percent", "each"),
    ("crown_percent", "of_crown"),
    ("tip_percent", "tip"),
    ("place_percent", "place"),
)


def _part(given: Given, role: str, said: str) -> float | None:
    """A share, 0 to 1, told as a number or by words alone; None where neither is said."""
    return given.one(role) / 100 if given.one(role) else float(given.said.get(said, 0)) or None


def _taper(given: Given) -> dict[str, Any]:
    out = given.single("base_mm", "upper_mm", "length_mm", "height_mm") | given.words("measured")
    if (loss := given.one("loss_mm")) and "base_mm" in out and "upper_mm" not in out:
        out["upper_mm"] = out["base_mm"] - loss
    if (wanted := given.said.get("wanted")) and "length_mm" not in out and "upper_mm" not in out:
        size = given.one("height_mm") if wanted == "base" else given.one("base_mm")
        size = size or next((one.value for one in given.numbers if one.unit == "length"), None)
        if size:
            name, other = ("height_mm", "of_height") if wanted == "base" else ("base_mm", "of_base")
            return {"wanted": wanted, name: size, other: True}
    lone = "length_mm" in out and "upper_mm" not in out and "height_mm" not in out
    return out | ({"lacks": ("upper_mm",)} if lone else {})


def _stems(given: Given) -> dict[str, Any]:
    sizes = given.each("diameters_mm")
    out = given.single("parent_mm", "grown_mm") | given.words("wanted")
    if "one_of" in given.said and "every_one" not in given.said:
        sizes = given.many.get("diameters_mm", [])
    if not sizes and "grown_mm" in out:
        out.pop("grown_mm")
        sizes = given.each("grown_mm")  # "if I grow two shoots to 10 mm each"
    if out.get("wanted") == "child" and "parent_mm" not in out and len(sizes) == 2 and "above" in given.said:
        out["parent_mm"], sizes = max(sizes), [min(sizes)]  # "trunk 25 below, branch 15, what's above"
    if len(sizes) < 2 and not ({"parent_mm", "grown_mm"} & set(out)):
        return out  # one branch adds up to nothing
    return out | ({"diameters_mm": tuple(sizes)} if sizes else {})


def _fork(given: Given) -> dict[str, Any]:
    sizes = given.many.get("diameters_mm", [])
    if len(sizes) == 1 and given.said.get("wanted") == "branch":
        return {"trunk_mm": sizes[0]}
    if len(sizes) == 1 and "of_trunk" in given.said:
        return {"branch_mm": sizes[0]}  # the trunk's size is the record's
    return {"diameters_mm": tuple(sizes)} if len(sizes) > 1 else {}


def _regrowth(given: Given) -> dict[str, Any]:
    return given.single() | given.words("wanted")


def _day_length(given: Given) -> dict[str, Any]:
    out = given.single("on", "latitude_deg") | given.words("wanted") | given.single("hours")
    if "latitude_deg" in out and given.said.get("hemisphere") == "south":
        out["latitude_deg"] = -abs(out["latitude_deg"])
    return out


#: Figure -> what gives its arguments.
GIVEN: dict[str, Callable[[Given], dict[str, Any]]] = {
    "wire-diameter": _wire_diameter,
    "wire-length": _wire_length,
    "bend-limit": _bend_limit,
    "guy-pull": _guy_pull,
    "bite-date": _bite_date,
    "leaf-share": _leaf_share,
    "taper": _taper,
    "union-ratio": _fork,
    "pipe-sum": _stems,
    "day-length": _day_length,
    "degree-days": degree_days,
    "frost-margin": frost,
    "feed-dose": feed,
    "dilution": dilution,
    "water-need": water,
    "days-to-dry": drying,
    "pot-size": pot_size,
    "pot-volume": pot_volume,
    "growth-forecast": growth,
    "regrowth-date": _regrowth,
    "wound-close": wound,
}
