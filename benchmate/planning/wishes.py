"""What each phase of development wants: wishes compiled from rules/planning, with the bounds of all plans."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields
from typing import Any

from benchmate.fault import Fault
from benchmate.practice.book import Rule, rule_as_plain, rule_from_plain
from benchmate.practice.condition import Hear, Names, read_condition
from benchmate.value import dataclass, field, replace

Plain = dict[str, Any]
# sections of rules/planning that are taken over as they stand
_TABLES = ("toward", "bounds", "tips", "lesson", "come_off")
_NO_NAMES: Names = {}
_ALWAYS = Rule("")


@dataclass(frozen=True, slots=True)
class After:
    """Work that must have been done before: at least `least_days` and at most `within_days` earlier."""

    work: str
    least_days: int | str = 1
    within_days: int = 400


@dataclass(frozen=True, slots=True)
class Then:
    """Work that follows of itself. days: from and until, counted from the parent's first and last day; or the name of a
    lesson that tells them ("wire-set")."""

    work: str
    days: tuple[int, int] | str
    says: str
    part: str | None = None


@dataclass(frozen=True, slots=True)
class Wish:
    """One work that a tree may want.

    wanted: when it is wanted, as a rule that is weighed on what is known of the tree. windows: growth stages, times
    such as "warm-season", "any", or "trait:NAME" for the taxon's own; else_windows where those never come. worth: 1 to
    100. least_days: from the last such work to the next. per_season: how often at most. rest_days, rest: how long the
    works or groups named wait after it. flush: it spends one of the season's flushes. gentle: it may be done to a tree
    that is otherwise left alone. looks: it tells whether the tree has mended. spot: "finding" where there is one item
    for each finding of the condition.
    """

    id: str
    work: str
    aim: str
    says: str
    worth: int
    windows: tuple[str, ...]
    else_windows: tuple[str, ...] = ()
    when: str = ""
    wanted: Rule = _ALWAYS
    part: str | None = None
    spot: str | None = None
    manner: tuple[str, ...] = ()
    share: float | None = None
    heavy: bool = False
    flush: bool = False
    gentle: bool = False
    looks: bool = False
    once: bool = False
    needs_frost: bool = False
    least_days: int = 0
    due_days: int = 0
    per_season: int = 1
    rest_days: int = 0
    rest: tuple[str, ...] = ()
    after: tuple[After, ...] = ()
    then: tuple[Then, ...] = ()
    mark: str = "practice"
    source: str | None = None
    where: str | None = None
    yours: bool = False


@dataclass(frozen=True, slots=True)
class PlanBook:
    """All that planning knows. wishes: by id. toward: phase -> what it leads to. bounds: for every plan. tips,
    come_off: for forecasts. lesson: defaults that the record replaces. faults: wishes that did not compile."""

    wishes: tuple[Wish, ...]
    toward: Mapping[str, Any] = field(default_factory=dict)
    bounds: Mapping[str, Any] = field(default_factory=dict)
    tips: Mapping[str, Any] = field(default_factory=dict)
    lesson: Mapping[str, Any] = field(default_factory=dict)
    come_off: Mapping[str, Any] = field(default_factory=dict)
    faults: tuple[Fault, ...] = ()

    def wish(self, id: str) -> Wish | None:
        return next((wish for wish in self.wishes if wish.id == id), None)


def compile_plan_book(tables: Mapping[str, Plain], hear: Hear, names: Names = _NO_NAMES) -> PlanBook:
    """Wishes and bounds of some rule tables, whatever their files are called.

    hear: the ear that reads conditions; names: vocabulary names that may stand for themselves. A wish that does not
    compile is left out, with a fault; the others stand.
    """
    wishes: dict[str, Wish] = {}
    faults: list[Fault] = []
    kept: dict[str, Plain] = {name: {} for name in _TABLES}
    for file, table in sorted(tables.items()):
        for name in _TABLES if file.startswith("planning/") else ():
            kept[name] |= table.get(name, {})
        rows = table.get("wish", {})
        for id, row in rows.items() if isinstance(rows, dict) else ():
            made = _wish(id, row, hear, names)
            if id in wishes:
                made = "this id already stands in another file"
            if isinstance(made, Wish):
                wishes[id] = made
            else:
                faults.append(Fault(file, 0, f"wish.{id}", made, "see DEVELOPERS.md for the shape of a wish"))
    return PlanBook(tuple(wishes[id] for id in sorted(wishes)), faults=tuple(faults), **kept)


def _wish(id: str, row: Plain, hear: Hear, names: Names) -> Wish | str:
    """The wish, or what is wrong with it in words."""
    wanted = Rule(id, work=(str(row.get("work", "")),))
    if row.get("when"):
        condition, wrong = read_condition(row["when"], hear, names)
        if wrong:
            return f"the condition does not read whole: {wrong[0]}"
        wanted = replace(wanted, condition=condition)
    values = dict(row) | {"id": id, "wanted": wanted}
    if "source" in row:
        values.setdefault("mark", "published")
    return _made(values)


def _made(values: Plain) -> Wish | str:
    known = {one.name for one in fields(Wish)}
    strange = sorted(set(values) - known)
    if strange:
        return f"unknown key '{strange[0]}'"
    try:
        for name in ("windows", "else_windows", "manner", "rest"):
            if name in values:
                values[name] = _listed(values[name])
        values["after"] = tuple(After(**one) for one in values.get("after", ()))
        values["then"] = tuple(Then(**{**one, "days": _days(one["days"])}) for one in values.get("then", ()))
        return Wish(**values)
    except (KeyError, TypeError, ValueError) as error:
        return f"does not compile: {error}"


def _listed(value: Any) -> tuple[str, ...]:
    return (value,) if isinstance(value, str) else tuple(value)


def _days(value: Any) -> tuple[int, int] | str:
    if isinstance(value, str):
        return value
    low, high = value
    return int(low), int(high)


def plan_book_as_plain(book: PlanBook) -> Plain:
    """The book as JSON-able data."""
    out: Plain = {name: dict(getattr(book, name)) for name in _TABLES}
    out["wishes"] = [_wish_as_plain(wish) for wish in book.wishes]
    out["faults"] = [fault.as_json() for fault in book.faults]
    return out


def _wish_as_plain(wish: Wish) -> Plain:
    row: Plain = {one.name: getattr(wish, one.name) for one in fields(Wish)}
    row["wanted"] = rule_as_plain(wish.wanted)
    row["after"] = [{one.name: getattr(after, one.name) for one in fields(After)} for after in wish.after]
    row["then"] = [{one.name: getattr(then, one.name) for one in fields(Then)} for then in wish.then]
    return row


def plan_book_from_plain(plain: Plain) -> PlanBook:
    """The book from what `plan_book_as_plain` gave, as it comes back from JSON."""
    made = [_made(dict(row) | {"wanted": rule_from_plain(row["wanted"])}) for row in plain["wishes"]]
    wishes = tuple(wish for wish in made if isinstance(wish, Wish))
    faults = tuple(Fault(**fault) for fault in plain["faults"])
    return PlanBook(wishes, faults=faults, **{name: plain[name] for name in _TABLES})
