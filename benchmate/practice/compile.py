"""Rule tables into the rule book: conditions read by ear, groups spread out, everything turned to plain data."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from typing import Any, Protocol

from benchmate.fault import Fault
from benchmate.hearing.reading import Reading
from benchmate.practice.book import Limit, Plain, Rule, RuleBook, works_offered
from benchmate.practice.condition import READ_ON, Condition, Hear, left_open, read_condition
from benchmate.practice.gates import build_index
from benchmate.practice.names import vocabulary_names
from benchmate.practice.taxa import Taxa, own_cells

_KINDS = {"rule": "rule", "cap": "cap", "root_cap": "root_cap"}
_OVER, _UNDER = "_over", "_under"


class Places(Protocol):
    """Tells where a rule stands, for faults: path and line."""

    def __call__(self, name: str, id: str, key: str = "", /) -> tuple[str, int]: ...


def _nowhere(name: str, id: str, key: str = "") -> tuple[str, int]:
    return name, 0


def compile_book(
    tables: Mapping[str, Plain], lexicon: Any, place_of: Places = _nowhere, hear: Hear | None = None
) -> RuleBook:
    """The rule book of some rule tables.

    lexicon: as hearing made it of the same tables. place_of: where a rule stands, for faults. hear: for tests, an ear
    of
    one's own. A rule whose condition does not read whole is left out, with a fault; the others stand.
    """
    ear = hear or _ear(lexicon)
    maker = _Maker(tables, ear, place_of)
    rules = maker.rules()
    places = dict(tables.get("practice/places.toml", {}))
    own = own_cells(tables)
    places["groups"] = maker.groups
    places["kinds"] = _kinds(tables.get("words/kind_questions.toml", {}))
    places["traits"] = sorted({name for table in own.values() for name in table.get("traits", ())})
    budget = {k: v for k, v in tables.get("practice/budget.toml", {}).items() if k not in ("rule", *_KINDS)}
    for kind in ("cap", "root_cap"):
        budget[kind] = [number for number, rule in enumerate(rules) if rule.kind == kind]
    return RuleBook(
        rules=rules,
        index=build_index(rules),
        taxa=Taxa(own),
        works={work: _without(table, "says", "nouns") for work, table in maker.works.items()},
        cautions=_merged(tables, "caution"),
        questions=_merged(tables, "ask"),
        sources=_merged(tables, "source"),
        budget=budget,
        places=places,
        seasons={
            name.removeprefix("seasons/").removesuffix(".toml"): t
            for name, t in tables.items()
            if name.startswith("seasons/")
        },
        faults=tuple(sorted(maker.faults)),
        by_id={rule.id: number for number, rule in enumerate(rules)},
        offered_works=works_offered(rules),
    )


def _ear(lexicon: Any) -> Hear:
    from benchmate.hearing import hear

    def listen(words: str) -> Reading:
        reading: Reading = hear(words, lexicon, READ_ON)
        return reading

    return listen


def _kinds(table: Plain) -> Plain:
    """What is told of a kind by what is asked, without the patterns that only hearing needs."""
    asked = {name: _without(cell, "asks") for name, cell in table.get("asked", {}).items()}
    return {"asked": asked, "zone": table.get("zone", {})}


def _without(table: Plain, *keys: str) -> Plain:
    """The words of a work are for hearing alone."""
    return {key: value for key, value in table.items() if key not in keys}


def _merged(tables: Mapping[str, Plain], section: str) -> dict[str, Plain]:
    out: dict[str, Plain] = {}
    for _, table in sorted(tables.items()):
        found = table.get(section)
        if isinstance(found, dict):
            out |= _plain(found)
    return out


def works_told(tables: Mapping[str, Plain]) -> dict[str, Plain]:
    """Work -> the words that it is told by, as rules/works have them; with what lessens the harm of a wrong time."""
    return {
        work: table["told"] | ({"lessens": table["lessens"]} if "lessens" in table else {})
        for work, table in _merged(tables, "work").items()
        if isinstance(table.get("told"), dict)
    }


class _Maker:
    """Compiles rules one by one and gathers what is wrong."""

    def __init__(self, tables: Mapping[str, Plain], ear: Hear, place_of: Places) -> None:
        self.tables = tables
        self.ear = ear
        self.place_of = place_of
        self.faults: list[Fault] = []
        self.works = _merged(tables, "work")
        self.groups = _groups(self.works)
        self.names = vocabulary_names(tables)
        self._heard: dict[str, tuple[Any, list[str]]] = {}

    def rules(self) -> list[Rule]:
        out: list[Rule] = []
        for name, table in sorted(self.tables.items()):
            for section, kind in _KINDS.items():
                rows = table.get(section, ())
                for row in rows if isinstance(rows, list) else ():
                    out += self._made(row, kind, name)
            cautions = table.get("caution", {}) if name.startswith("cautions/") else {}
            for id, row in cautions.items() if isinstance(cautions, dict) else ():
                if any(key in row for key in ("when", "limits", "within", "between")) or "work" in row:
                    out += self._made({**row, "id": f"caution:{id}", "cautions": [id]}, "caution", name)
        return out

    def _made(self, row: Plain, kind: str, name: str) -> list[Rule]:
        try:
            rule = self._rule(row, kind, name)
        except (KeyError, TypeError, ValueError, AttributeError) as error:
            problem = f"does not compile: {error!r}" if not str(error) else f"does not compile: {error}"
            self._fault(name, str(row.get("id", "")), "", problem, "see DEVELOPERS.md for the shape of a rule")
            return []
        return [] if rule is None else [rule]

    def _rule(self, row: Plain, kind: str, name: str) -> Rule | None:
        id = str(row["id"])
        condition: Condition = ()
        wrong: list[str] = []
        if row.get("when"):
            condition, wrong = self._condition(row["when"])
            condition = left_open(condition, row.get("unseen", ()))
        for problem in wrong:
            self._fault(
                name,
                id,
                "when",
                f"the condition does not read whole: {problem}",
                "say it in words that `hear` takes in",
            )
        seen = {test.value for clause in condition for tests in clause for test in tests if test.kind == "finding"}
        for finding in sorted(set(row.get("unseen", ())) - seen):
            problem = f"`unseen` names '{finding}', of which `when` does not speak"
            self._fault(name, id, "unseen", problem, "name a finding of the condition")
        if wrong:
            return None
        amount = dict(row.get("amount", {}))
        if kind in ("cap", "root_cap"):
            amount["share"] = float(row["share"])
        return Rule(
            id=id,
            kind=kind,
            work=self._works(row.get("work", "all" if kind == "caution" else ())),
            part=_listed(row.get("part", ())),
            manner=row.get("manner"),
            when=row.get("when", ""),
            condition=condition,
            limits=tuple(_limit(key, value) for key, value in row.get("limits", {}).items()),
            within=tuple(row.get("within", {}).items()),
            not_within=tuple(row.get("not_within", {}).items()),
            between=tuple(row["between"]) if "between" in row else None,
            verdict=row.get("verdict"),
            weight=int(row.get("weight", 0)),
            offers=bool(row.get("offers", False)),
            first=bool(row.get("first", False)),
            bring=row.get("bring"),
            spot=row.get("spot"),
            says=row.get("says", ""),
            amount=amount,
            opens=row.get("opens"),
            closes=row.get("closes"),
            follow=tuple(row.get("follow", ())),
            cautions=_listed(row.get("cautions", ())),
            beats=_listed(row.get("beats", ())),
            disputes=_listed(row.get("disputes", ())),
            ask=bool(row.get("ask", True)),
            mark=row.get("mark") or ("published" if "source" in row else "practice"),
            source=row.get("source"),
            where=row.get("where"),
            yours=bool(row.get("yours", False)),
            file=name,
        )

    def _condition(self, words: str) -> tuple[Any, list[str]]:
        if words not in self._heard:
            self._heard[words] = read_condition(words, self.ear, self.names)
        return self._heard[words]

    def _works(self, value: str | list[str]) -> tuple[str, ...]:
        names = _listed(value)
        return tuple(dict.fromkeys(work for name in names for work in self.groups.get(name, [name])))

    def _fault(self, name: str, id: str, key: str, problem: str, remedy: str) -> None:
        path, line = self.place_of(name, id.removeprefix("caution:"), key)
        self.faults.append(Fault(path, line, id, problem, remedy))


def _groups(works: Mapping[str, Plain]) -> dict[str, list[str]]:
    """Works by group; "any" is all but those that do nothing to the tree, "all" is all."""
    groups: dict[str, list[str]] = {}
    for work, table in works.items():
        groups.setdefault(str(table.get("group", "none")), []).append(work)
    groups["any"] = [work for name, rows in groups.items() if name != "none" for work in rows]
    groups["all"] = [work for name, rows in groups.items() if name != "any" for work in rows]
    return groups


def _plain(value: Any) -> Any:
    """Days as text: the book must go through JSON unchanged."""
    if isinstance(value, Mapping):
        return {key: _plain(inner) for key, inner in value.items()}
    if isinstance(value, list | tuple):
        return [_plain(inner) for inner in value]
    return value.isoformat() if isinstance(value, dt.date) else value


def _limit(key: str, value: float) -> Limit:
    for ending, above in ((_OVER, True), (_UNDER, False)):
        if key.endswith(ending):
            return Limit(key.removesuffix(ending), above, float(value))
    raise ValueError(f"limit '{key}' must end in _over or _under")


def _listed(value: str | list[str] | tuple[str, ...]) -> tuple[str, ...]:
    return (value,) if isinstance(value, str) else tuple(value)
