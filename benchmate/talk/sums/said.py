"""What a figure question gives: values by the role of their numbers, and what words alone say."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Mapping, Sequence
from typing import Any

from benchmate.hearing.figures.said import SaidNumber
from benchmate.value import dataclass

MOST = {"": 12, "count": 200}  # as many of one size as are told: "twenty twigs of 2 mm"


@dataclass(frozen=True, slots=True)
class Given:
    """many: values by role, in the order said; places: which numbers they were. said: what words alone say, by name.
    numbers: all of the statement. unit_names: what answers call a unit, by its kind and size. on: today."""

    many: Mapping[str, list[Any]]
    places: Mapping[str, list[int]]
    said: Mapping[str, str]
    numbers: Sequence[SaidNumber]
    unit_names: Mapping[tuple[str, float], str]
    on: dt.date
    southern: bool

    def one(self, name: str) -> Any:
        values = self.many.get(name)
        return values[0] if values else None

    def single(self, *names: str) -> dict[str, Any]:
        """The first value of each role, or of those named, where one was said."""
        return {
            name: values[0]
            for name, values in self.many.items()
            if (not names or name in names) and values[0] is not None
        }

    def words(self, *names: str) -> dict[str, str]:
        return {name: self.said[name] for name in names if name in self.said}

    def each(self, name: str) -> list[float]:
        """The values of a role, one for each thing counted: "three at 9 mm", "two of 6 and one of 10"."""
        values, places = self.many.get(name, []), self.places.get(name, [])
        times = [
            self._times(place, places[n + 1] if n + 1 < len(places) else None, len(values))
            for n, place in enumerate(places)
        ]
        if times and times[0] == 1 + sum(times[1:]) and len(times) > 2:
            times[0] = 1  # "four branches, one is 4 mm, two are 6 and one 12": the first count is of them all
        return [value for value, count in zip(values, times, strict=True) for _ in range(count)]

    def _times(self, place: int, following: int | None, several: int) -> int:
        """How many things a size is told of."""
        number = self.numbers[place]
        counts = [
            n for n, one in enumerate(self.numbers) if n != place and one.unit in MOST and 1 < one.raw <= MOST[one.unit]
        ]
        counts = [n for n in counts if one_whole(self.numbers[n]) and n not in self._taken()]
        if "each" in number.tags or several == 1:
            near = [n for n in counts if n < place] or counts
            return int(self.numbers[near[-1]].raw) if near else 1
        if place - 1 in counts and several > 2 and following == place + 1:
            count = int(self.numbers[place - 1].raw)
            return 1 if count >= several else count  # "four of 6, 7, 8 and 9 mm", "two of 6, one of 8"
        if place - 1 in counts and (following is None or following > place + 1 or several == 2):
            lone = following is None or any(n in range(place + 1, following) for n in range(len(self.numbers)))
            return (
                int(self.numbers[place - 1].raw) if lone and several < self.numbers[place - 1].raw + several - 1 else 1
            )
        return 1

    def _taken(self) -> set[int]:
        return {place for name, places in self.places.items() if name != "branch_count" for place in places}


def one_whole(number: SaidNumber) -> bool:
    return number.raw == int(number.raw)


def across(given: Given, out: dict[str, Any]) -> dict[str, Any]:
    """The values with a girth made the thickness that sums are of."""
    girth = out.get("diameter_mm")
    if girth is None or given.said.get("measured") != "girth":
        return out
    return out | {
        "diameter_mm": girth / math.pi,
        "notes": (f"Worked from the girth: {girth:.3g} mm round is {girth / math.pi:.3g} mm across",),
    }
