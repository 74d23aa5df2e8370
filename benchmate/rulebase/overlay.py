"""A grower's own rules laid over the built-in ones: by id, whatever the files are called and however they sort."""

from __future__ import annotations

import copy
from collections.abc import Iterable
from typing import Any

from benchmate.fault import Fault
from benchmate.rulebase.read import RuleFile, RuleTables, Table

# sections that are lists of tables with an id of their own
_LISTED = ("rule", "cap", "root_cap")


def lay_over(files: Iterable[RuleFile], faults: Iterable[Fault]) -> RuleTables:
    """One set of tables out of all layers.

    `[[rule]]` tables replace the rule of the same id wherever that stands, else they are added. Other tables are merged
    key by key, the later layer's value winning. Twice the same id within one layer is a fault; the first one stands.
    """
    tables: dict[str, Table] = {}
    found: dict[tuple[str, str], tuple[int, str]] = {}
    wrong = list(faults)
    yours: set[str] = set()
    replaced: dict[str, str] = {}
    kept = sorted(files, key=lambda file: (file.layer, file.name))
    for file in kept:
        name = file.home
        target = tables.setdefault(name, {})
        for section, value in file.table.items():
            if section not in _LISTED or not isinstance(value, list):
                _merge(target, section, copy.deepcopy(value))
                continue
            for row in value:
                id = row.get("id") if isinstance(row, dict) else None
                if not isinstance(id, str):
                    target.setdefault(section, []).append(row)
                    continue
                earlier = found.get((section, id))
                if earlier and earlier[0] == file.layer:
                    wrong.append(_twice(file, id, earlier[1]))
                    continue
                row = dict(row)
                if file.layer:
                    row["yours"] = True
                    yours.add(id)
                if earlier:
                    replaced[id] = earlier[1]
                    home = tables[earlier[1]][section]
                    tables[earlier[1]][section] = [row if old.get("id") == id else old for old in home]
                    found[section, id] = (file.layer, earlier[1])
                else:
                    target.setdefault(section, []).append(row)
                    found[section, id] = (file.layer, name)
    return RuleTables(tables, tuple(kept), tuple(sorted(wrong)), frozenset(yours), replaced)


def _merge(target: Table, key: str, value: Any) -> None:
    if isinstance(value, dict) and isinstance(target.get(key), dict):
        for inner, what in value.items():
            _merge(target[key], inner, what)
    else:
        target[key] = value


def _twice(file: RuleFile, id: str, other: str) -> Fault:
    from benchmate.rulebase.lines import line_of

    lines = [number for number, line in enumerate(file.text.splitlines(), 1) if f'"{id}"' in line and "id" in line]
    line = lines[-1] if lines else line_of(file.text, id)
    return Fault(file.path, line, id, f"this id already stands in {other}", "give one of the two another id")
