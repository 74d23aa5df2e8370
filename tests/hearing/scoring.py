"""How a reading is held against the one expected: what lacks, what is too much, and whether the grower would notice."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

MEASURES = {
    *("diameter_mm", "length_mm", "height_mm", "width_mm", "depth_mm", "gap_mm", "temperature_c", "angle_deg"),
    *("volume_l", "ppm", "share", "leaves", "pairs", "buds", "days", "age_years"),
}
TELLING = MEASURES | {"kind", "value", "work", "part", "side", "level", "ordinal", "count", "not", "when", "done"}
SINGLE = ("topic", "figure", "when", "pick", "tree")
TOLERANCE = 0.02  # share of the larger value; a third may be told as 0.33

Thing = tuple[str, frozenset[tuple[str, Any]]]  # the field it stands in, and what it says


@dataclass(frozen=True, slots=True)
class Verdict:
    """One statement's reading against the expected one."""

    lacking: tuple[Thing, ...]
    extra: tuple[Thing, ...]
    nothing_missed: bool  # a word from outside the bench went by unreported
    unsaid: bool  # neither a missed word nor a guess warns the grower

    @property
    def exact(self) -> bool:
        """Nothing lacks, nothing is too much, and what had to be missed was."""
        return not (self.lacking or self.extra or self.nothing_missed)

    @property
    def silent(self) -> bool:
        """Wrong without a sign of doubt: the worst kind."""
        return self.unsaid and not self.exact


def judge(expected: Mapping[str, Any], got: Mapping[str, Any]) -> Verdict:
    """Compare by meaning: order is free, an absent key equals null, false or empty, unknown keys count for nothing."""
    lacking, extra = _unmatched(list(_things(expected)), list(_things(got)))
    return Verdict(
        lacking=tuple(lacking),
        extra=tuple(extra),
        nothing_missed=bool(expected.get("missed_some")) and not got.get("missed"),
        unsaid=not got.get("missed") and not got.get("guessed"),
    )


def told(thing: Thing) -> str:
    """A thing in one short line, for a failure."""
    field, pairs = thing
    return f"{field}: " + ", ".join(f"{key} {value}" for key, value in sorted(pairs))


def _things(reading: Mapping[str, Any]) -> Iterable[Thing]:
    for act in sorted(set(reading.get("acts") or ())):
        yield "acts", frozenset({("is", act)})
    for field in SINGLE:
        if _says(reading.get(field)):
            yield field, frozenset({("is", _plain(reading[field]))})
    for field in ("facts", "work"):
        for table in reading.get(field) or ():
            yield field, frozenset((k, _plain(v)) for k, v in table.items() if k in TELLING and _says(v))
    for key, value in (reading.get("measures") or {}).items():
        if key in MEASURES and _says(value):
            yield "measures", frozenset({(key, _plain(value))})


def _unmatched(wanted: list[Thing], given: list[Thing]) -> tuple[list[Thing], list[Thing]]:
    """Each thing given answers for one thing wanted, as a whole or not at all."""
    lacking = []
    for thing in wanted:
        hit = next((other for other in given if _same(thing, other)), None)
        if hit is None:
            lacking.append(thing)
        else:
            given.remove(hit)
    return lacking, given


def _same(one: Thing, other: Thing) -> bool:
    a, b = dict(one[1]), dict(other[1])
    return one[0] == other[0] and a.keys() == b.keys() and all(_alike(key, a[key], b[key]) for key in a)


def _alike(key: str, a: Any, b: Any) -> bool:
    if key in MEASURES and isinstance(a, float) and isinstance(b, float):
        return abs(a - b) <= TOLERANCE * max(abs(a), abs(b))
    return bool(a == b)


def _plain(value: Any) -> Any:
    if isinstance(value, bool):
        return value
    if isinstance(value, int | float):
        return float(value)
    return value.isoformat() if isinstance(value, dt.date) else value


def _says(value: Any) -> bool:
    return value is not None and value is not False and value not in ("", [], {})
