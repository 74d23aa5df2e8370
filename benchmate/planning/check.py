"""What is wrong with the files of rules/planning: names that nothing has, wrong numbers, claims without a mark."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import Any

from benchmate.fault import Fault
from benchmate.planning.observe import OBSERVERS
from benchmate.planning.spans import ANY, TRAIT

Tables = Mapping[str, Mapping[str, Any]]
Place = Callable[..., tuple[str, int]]
_MARKS = ("practice", "memory")
_NEEDED = ("work", "aim", "says", "worth", "windows")
# what planning itself says where it stands against a work
SAID = (
    "order", "heavy", "rest", "spacing", "per-season", "flushes", "after", "mending", "mended", "untouched",
    "under-wire", "outweighed", "no-window", "unwise", "not-exact", "usual-dates",
)  # fmt: skip
_BOUNDS = (
    "piece_days", "least_open_days", "pieces_per_season", "pieces_without_season", "least_weight", "weight_share",
    "year_keeps", "overdue_worth", "overdue_keeps", "look_days", "health", "recovery", "mending", "untouched",
    "capacity", "says",
)  # fmt: skip


def _nowhere(name: str, id: str, key: str = "") -> tuple[str, int]:
    return name, 0


def plan_faults(tables: Tables, place_of: Place = _nowhere) -> list[Fault]:
    """Faults of the wishes, bounds, lessons and forecasts, sorted by place.

    tables: all rule files, parsed, by relative name. place_of: gives path and line for a file, an id and a key.
    """
    names = _Names(tables)
    found: list[Fault] = []
    for file, table in sorted(tables.items()):
        if not file.startswith("planning/") and "wish" not in table:
            continue
        checks = (_wishes, _lessons, _ranges, _marks)
        for id, key, problem, remedy in (row for check in checks for row in check(table, names)):
            path, line = place_of(file, id, key)
            found.append(Fault(path, line, id, problem, remedy))
    missing = [key for key in _BOUNDS if key not in names.bounds]
    missing += [f"says.{kind}" for kind in SAID if kind not in names.bounds.get("says", {})]
    for key in missing:
        found.append(Fault("planning/bounds.toml", 0, f"bounds.{key}", "it is missing", "plans cannot be made without"))
    return sorted(found)


Row = tuple[str, str, str, str]


class _Names:
    """What wishes may name."""

    def __init__(self, tables: Tables) -> None:
        merged: dict[str, dict[str, Any]] = {}
        for table in tables.values():
            for section in ("work", "stage", "window", "lesson", "bounds", "source"):
                if isinstance(table.get(section), Mapping):
                    merged.setdefault(section, {}).update(table[section])
        self.works = set(merged.get("work", {}))
        self.groups = {str(row.get("group")) for row in merged.get("work", {}).values()} | {"any"}
        self.windows = {ANY, "flowering", "after-flowering", *merged.get("stage", {}), *merged.get("window", {})}
        self.lessons = {name for name, row in merged.get("lesson", {}).items() if row.get("unit") == "days"}
        self.bounds = merged.get("bounds", {})
        self.sources = set(merged.get("source", {}))


def _wishes(table: Mapping[str, Any], names: _Names) -> Iterator[Row]:
    for name, wish in table.get("wish", {}).items():
        id = f"wish.{name}"
        for key in _NEEDED:
            if not wish.get(key):
                yield id, key, f"'{key}' is missing", f"a wish has {', '.join(_NEEDED)}"
        if not 1 <= wish.get("worth", 1) <= 100:
            yield id, "worth", f"a worth of {wish['worth']} cannot be", "give 1 to 100"
        if not str(wish.get("says", ".")).endswith("."):
            yield id, "says", "it says no whole sentence", "end it with a full stop"
        steps = [*wish.get("after", ()), *wish.get("then", ())]
        yield from _known(id, "work", [wish.get("work"), *(step.get("work") for step in steps)], names.works, "work")
        yield from _known(id, "rest", wish.get("rest", ()), names.works | names.groups, "work or group")
        windows = [one for key in ("windows", "else_windows") for one in _listed(wish.get(key, ()))]
        yield from _known(
            id, "windows", (one for one in windows if not one.startswith(TRAIT)), names.windows, "stage or window"
        )
        lengths = [step.get(key) for step in steps for key in ("days", "least_days")]
        yield from _known(id, "days", (one for one in lengths if isinstance(one, str)), names.lessons, "lesson in days")
        if wish.get("spot") not in (None, "finding"):
            yield id, "spot", f"'{wish['spot']}' is no kind of spot", 'leave it out or write "finding"'


def _lessons(table: Mapping[str, Any], names: _Names) -> Iterator[Row]:
    for name, row in table.get("lesson", {}).items():
        id = f"lesson.{name}"
        yield from _known(id, "", [name], set(OBSERVERS), "lesson that is looked for in journals")
        for key in ("says", "unit", "counts_as", "others_count", "most"):
            if key not in row:
                yield id, key, f"'{key}' is missing", "a lesson has says, unit, counts_as, others_count and most"
        yield from _known(id, "works", row.get("works", ()), names.works, "work")


def _ranges(table: Mapping[str, Any], names: _Names) -> Iterator[Row]:
    """Values with a low and a high in their order."""
    for id, row in _claims(table):
        if "value" in row and not row.get("low", row["value"]) <= row["value"] <= row.get("high", row["value"]):
            yield id, "value", "the value lies outside its low and high", "put the three in order"


def _marks(table: Mapping[str, Any], names: _Names) -> Iterator[Row]:
    for id, row in _claims(table):
        if row.get("mark") in _MARKS or row.get("source") in names.sources:
            continue
        if "source" in row:
            yield id, "source", f"'{row['source']}' is no source", "name one of sources.toml"
        else:
            yield id, "mark", "it has no provenance", 'give source = "...", mark = "practice" or mark = "memory"'


def _claims(table: Mapping[str, Any]) -> Iterator[tuple[str, Mapping[str, Any]]]:
    """Every table that claims something, with its id."""
    for name, row in table.get("wish", {}).items():
        yield f"wish.{name}", row
    for section in ("tips", "toward"):
        for name, row in table.get(section, {}).items():
            yield f"{section}.{name}", row
    for name, row in table.get("bounds", {}).get("says", {}).items():
        yield f"bounds.says.{name}", row
    for name, row in table.get("lesson", {}).items():
        for usual in row.get("usual", ()):
            yield f"lesson.{name}", usual
    for name, row in table.get("come_off", {}).items():
        if name != "growth":
            yield f"come_off.{name}", row
    for name, row in table.get("come_off", {}).get("growth", {}).items():
        yield f"come_off.growth.{name}", row


def _known(id: str, key: str, said: Iterable[Any], known: Iterable[str], what: str) -> Iterator[Row]:
    from difflib import get_close_matches  # slow to load, and seldom needed

    held = set(known)
    for one in said:
        if one is not None and one not in held:
            close = get_close_matches(str(one), held, n=1)
            yield id, key, f"'{one}' is no {what}", f"did you mean '{close[0]}'?" if close else "name one that is there"


def _listed(value: Any) -> list[str]:
    return [value] if isinstance(value, str) else list(value)
