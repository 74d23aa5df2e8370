"""Each rule file against its shape: unknown keys and values, told with the line and the nearest match."""

from __future__ import annotations

import difflib
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import TYPE_CHECKING, Any

from benchmate.fault import Fault
from benchmate.rulebase.lines import line_of
from benchmate.rulebase.read import RuleFile, RuleTables, Table

if TYPE_CHECKING:
    from pydantic import BaseModel
    from pydantic_core import ErrorDetails

# sections that are lists of tables, and those that are tables by name
_ROWS = ("rule", "cap", "root_cap")


def nearest(word: str, among: Iterable[str]) -> str:
    """ "; did you mean 'verdict'?" where something is near, else nothing."""
    found = difflib.get_close_matches(word, list(among), 1, 0.6)
    return f"; did you mean '{found[0]}'?" if found else ""


def check_shapes(tables: RuleTables) -> list[Fault]:
    """Faults of shape in every file, each file by itself and each rule by itself, so that one fault hides no other."""
    faults: list[Fault] = []
    for file in tables.files:
        faults += list(_check_file(file))
    return sorted(faults)


def _check_file(file: RuleFile) -> Iterator[Fault]:
    from benchmate.rulebase import model_figures as figures
    from benchmate.rulebase import model_rules as rules
    from benchmate.rulebase import model_species as species
    from benchmate.rulebase import model_words as words

    rows: dict[str, type[BaseModel]] = {"rule": rules.RuleShape, "cap": rules.CapShape, "root_cap": rules.CapShape}
    named: dict[str, type[BaseModel]] = {
        "caution": rules.CautionShape,
        "question": rules.QuestionShape,
        "work": words.WorkShape,
        "group": species.GroupShape,
        "source": species.SourceShape,
        "term": words.TermShape,
    }
    if of_figures := figures.SHAPES.get(file.name):
        named["figure"] = of_figures[1]
    table = dict(file.table)
    if "taxon" in table:
        yield from _faults(species.TaxonShape, table, file, str(table["taxon"]), whole_file=True)
        return
    shape = of_figures[0] if of_figures and file.layer == 0 else _shape_of(file, words)
    for section in _ROWS:
        if (isinstance(table.get(section), list) and file.name.startswith("practice/")) or _in_overlay(file, section):
            for number, row in enumerate(table.pop(section, []), 1):
                id = str(row.get("id", f"number {number}")) if isinstance(row, dict) else f"number {number}"
                yield from _faults(rows[section], row, file, id)
    for section, model in named.items():
        if isinstance(table.get(section), dict):
            for id, row in table.pop(section).items():
                yield from _faults(model, row, file, f"{section}.{id}")
    if shape is not None:
        yield from _faults(shape, {**_emptied(shape, file), **table}, file, "", whole_file=True)
    elif file.name.startswith("practice/"):
        for key in table:
            yield _unknown_key(file, "", key, ("rule",))


def _in_overlay(file: RuleFile, section: str) -> bool:
    return file.layer > 0 and isinstance(file.table.get(section), list)


def _shape_of(file: RuleFile, words: Any) -> type[BaseModel] | None:
    shapes: Mapping[str, type[BaseModel]] = {
        "practice/budget.toml": words.BudgetFile,
        "practice/places.toml": words.PlacesFile,
        "words/questions.toml": words.QuestionsFile,
        "words/traits.toml": words.TraitsFile,
        "words/kind_questions.toml": words.KindQuestionsFile,
        "words/states.toml": words.StatesFile,
    }
    return shapes.get(file.name) if file.layer == 0 else None


def _emptied(shape: type[BaseModel], file: RuleFile) -> Table:
    """Sections whose rows were checked one by one stand in as empty, so that they are not told as missing."""
    return {name: [] for name in _ROWS if name in shape.model_fields and name in file.table}


def _faults(model: type[BaseModel], row: Any, file: RuleFile, id: str, whole_file: bool = False) -> Iterator[Fault]:
    from pydantic import ValidationError

    if not isinstance(row, dict):
        yield Fault(file.path, 0, id, "must be a table", "write it as [[rule]] or as a table of its own")
        return
    try:
        model.model_validate(row)
    except ValidationError as error:
        told = set()
        for details in error.errors(include_url=False):
            fault = _fault(details, model, file, id, whole_file)
            if fault not in told:
                told.add(fault)
                yield fault


def _fault(details: ErrorDetails, model: type[BaseModel], file: RuleFile, id: str, whole_file: bool) -> Fault:
    path = [str(step) for step in details["loc"] if isinstance(step, str)]
    key = path[-1] if path else ""
    # pydantic names the branch of a union as a step of the path; such a step is no key of the file
    keys = [step for step in path if not step[:1].isupper() and "[" not in step and step not in ("str", "int", "float")]
    key = keys[-1] if keys else key
    kind = details["type"]
    if kind == "extra_forbidden":
        return _unknown_key(file, "" if whole_file else id, key, _keys_at(model, details["loc"]))
    line = line_of(file.text, id if not whole_file or id else "", key) or line_of(file.text, id)
    if kind == "missing":
        return Fault(file.path, line, id, f"'{key}' is missing", f"add {key}")
    if kind == "literal_error":
        allowed = str(details.get("ctx", {}).get("expected", "")).replace(" or ", ", ")
        found = str(details["input"])
        near = nearest(found, [word.strip("' ") for word in allowed.split(",")])
        return Fault(file.path, line, id, f"'{key}' cannot be '{found}'{near}", f"use one of {allowed}")
    problem = str(details["msg"]).removeprefix("Value error, ")
    if kind == "value_error":
        return Fault(file.path, line, id, f"{key}: {problem}" if key else problem, "mend it as said")
    wanted = {"string_type": "text", "list_type": "a list", "dict_type": "a table", "bool_type": "true or false"}
    what = wanted.get(kind) or ("a number" if "int" in kind or "float" in kind else "another kind of value")
    bounds = details.get("ctx", {})
    if kind in ("greater_than_equal", "less_than_equal"):
        what = f"at {'least' if 'ge' in bounds else 'most'} {bounds.get('ge', bounds.get('le'))}"
    return Fault(file.path, line, id, f"'{key}' is '{details['input']}'", f"it must be {what}")


def _unknown_key(file: RuleFile, id: str, key: str, allowed: Sequence[str]) -> Fault:
    line = line_of(file.text, id, key)
    near = nearest(key, allowed)
    return Fault(file.path, line, id, f"unknown key '{key}'{near}", f"known here: {', '.join(sorted(allowed))}")


def _keys_at(model: type[BaseModel], loc: Sequence[int | str]) -> list[str]:
    """The keys that are known where an unknown one stood."""
    from pydantic import BaseModel as Base

    here: Any = model
    for step in loc[:-1]:
        if isinstance(here, type) and issubclass(here, Base) and isinstance(step, str) and step in here.model_fields:
            here = here.model_fields[step].annotation
            while getattr(here, "__args__", None):
                inner = [a for a in here.__args__ if a is not type(None)]
                models = [a for a in inner if isinstance(a, type) and issubclass(a, Base)]
                here = models[0] if models else inner[-1]
    if isinstance(here, type) and issubclass(here, Base):
        return [field.alias or name for name, field in here.model_fields.items() if name != "yours"]
    return []
