"""What rule files say of one another: names that nothing bears, provenance that leads nowhere, examples that are
lacking.

A check is a function of the tables that gives faults; the decorator gives it its place in the run.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator

from benchmate.fault import Fault
from benchmate.rulebase.read import RuleTables, Table
from benchmate.rulebase.validate import nearest
from benchmate.rulebase.vocabulary import Vocabulary, vocabulary

Check = Callable[[RuleTables, Vocabulary], Iterator[Fault]]
CHECKS: list[Check] = []
_ROWS = ("rule", "cap", "root_cap")


def check(function: Check) -> Check:
    CHECKS.append(function)
    return function


def check_names(tables: RuleTables) -> list[Fault]:
    """All checks over the tables as they are laid over one another."""
    words = vocabulary(tables)
    return sorted({fault for run in CHECKS for fault in run(tables, words)})


def rows(tables: RuleTables) -> Iterator[tuple[str, str, Table]]:
    """(file, section, row) of every rule and cap that has an id."""
    for name, table in sorted(tables.tables.items()):
        for section in _ROWS:
            for row in table.get(section, ()) if isinstance(table.get(section, ()), list) else ():
                if isinstance(row, dict) and isinstance(row.get("id"), str):
                    yield name, section, row


def listed(value: object) -> list[str]:
    return [value] if isinstance(value, str) else [str(v) for v in value] if isinstance(value, list | tuple) else []


def fault(tables: RuleTables, name: str, id: str, key: str, problem: str, remedy: str) -> Fault:
    path, line = tables.place_of(name, id, key)
    return Fault(path, line, id, problem, remedy)


def unknown(
    tables: RuleTables, name: str, id: str, key: str, values: Iterable[str], known: frozenset[str], what: str
) -> Iterator[Fault]:
    for value in values:
        if value not in known:
            problem = f"'{value}' is no {what}{nearest(value, known)}"
            yield fault(tables, name, id, key, problem, f"name a {what} that the rules know, or add it")


@check
def named_works(tables: RuleTables, words: Vocabulary) -> Iterator[Fault]:
    for name, _, row in rows(tables):
        yield from unknown(tables, name, row["id"], "work", listed(row.get("work", ())), words["work"], "work")
        for key in ("within", "not_within"):
            yield from unknown(tables, name, row["id"], key, listed(list(row.get(key, {}))), words["work"], "work")
        follows = [str(f.get("work")) for f in row.get("follow", ()) if isinstance(f, dict)]
        yield from unknown(tables, name, row["id"], "follow", follows, words["work"], "work")
        after = row.get("opens", {}).get("after") if isinstance(row.get("opens"), dict) else None
        yield from unknown(tables, name, row["id"], "opens", listed(after), words["work"], "work")


@check
def named_parts(tables: RuleTables, words: Vocabulary) -> Iterator[Fault]:
    for name, _, row in rows(tables):
        parts = listed(row.get("part", ())) + [f["part"] for f in row.get("follow", ()) if "part" in f]
        yield from unknown(tables, name, row["id"], "part", parts, words["part"], "part")


@check
def named_stages(tables: RuleTables, words: Vocabulary) -> Iterator[Fault]:
    for name, _, row in rows(tables):
        for key in ("opens", "closes"):
            stage = row.get(key, {}).get("stage") if isinstance(row.get(key), dict) else None
            yield from unknown(tables, name, row["id"], key, listed(stage), words["stage"], "stage")
        stages = [f["stage"] for f in row.get("follow", ()) if "stage" in f]
        yield from unknown(tables, name, row["id"], "follow", stages, words["stage"], "stage")


@check
def named_cautions(tables: RuleTables, words: Vocabulary) -> Iterator[Fault]:
    for name, _, row in rows(tables):
        named = listed(row.get("cautions", ()))
        yield from unknown(tables, name, row["id"], "cautions", named, words["caution"], "caution")


@check
def named_rules(tables: RuleTables, words: Vocabulary) -> Iterator[Fault]:
    for name, _, row in rows(tables):
        for key in ("beats", "disputes"):
            yield from unknown(tables, name, row["id"], key, listed(row.get(key, ())), words["rule"], "rule")


@check
def named_of_a_kind(tables: RuleTables, words: Vocabulary) -> Iterator[Fault]:
    """What questions about a kind are answered from."""
    name = "words/kind_questions.toml"
    for id, cell in tables.tables.get(name, {}).get("asked", {}).items():
        where = f"asked.{id}"
        yield from unknown(tables, name, where, "rules", listed(cell.get("rules", ())), words["rule"], "rule")
        yield from unknown(
            tables, name, where, "cautions", listed(cell.get("cautions", ())), words["caution"], "caution"
        )
        yield from unknown(tables, name, where, "of_works", listed(cell.get("of_works", ())), words["work"], "work")


@check
def disputes_are_mutual(tables: RuleTables, words: Vocabulary) -> Iterator[Fault]:
    disputes = {row["id"]: listed(row.get("disputes", ())) for _, _, row in rows(tables)}
    for name, _, row in rows(tables):
        for other in disputes[row["id"]]:
            if other in disputes and row["id"] not in disputes[other]:
                yield fault(
                    tables,
                    name,
                    row["id"],
                    "disputes",
                    f"disputes '{other}', which does not name it in turn",
                    f'add disputes = ["{row["id"]}"] to {other}: both sides are shown',
                )


@check
def named_sources(tables: RuleTables, words: Vocabulary) -> Iterator[Fault]:
    for name, id, cell in cited(tables):
        source = cell.get("source")
        if isinstance(source, str):
            yield from unknown(tables, name, id, "source", [source], words["source"], "source of sources.toml")


def idle_sources(tables: RuleTables) -> list[str]:
    """Sources that no rule, trait or table cites: no fault, since figures cite by name, but worth knowing."""
    used = {cell.get("source") for _, _, cell in cited(tables)}
    return sorted(vocabulary(tables)["source"] - used)


def cited(tables: RuleTables) -> Iterator[tuple[str, str, Table]]:
    """(file, id, table) of everything that can carry a source, at any depth."""

    def walk(value: object, name: str, id: str) -> Iterator[tuple[str, str, Table]]:
        if isinstance(value, dict):
            own = str(value.get("id") or value.get("taxon") or id)
            if "source" in value and isinstance(value["source"], str):
                yield name, own, value
            for key, inner in value.items():
                yield from walk(inner, name, own or key)
        elif isinstance(value, list):
            for inner in value:
                yield from walk(inner, name, id)

    for name, table in sorted(tables.tables.items()):
        if name != "sources.toml":
            for section, value in table.items():
                if section in ("caution", "work", "group", "term") and isinstance(value, dict):
                    for id, inner in value.items():
                        yield from walk(inner, name, f"{section}.{id}")
                else:
                    yield from walk(value, name, str(table.get("taxon", "")))


@check
def examples_of_each_kind(tables: RuleTables, words: Vocabulary) -> Iterator[Fault]:
    for name, section, row in rows(tables):
        if section != "rule" or row.get("yours"):
            continue
        claims = [set(example) for example in row.get("example", ()) if isinstance(example, dict)]
        if not any("gives" in claim for claim in claims):
            yield fault(tables, name, row["id"], "", "no example that it speaks on", "add one with `gives`")
        if not any("fires" in claim for claim in claims) and not always(row):
            problem = "no example that it keeps silent on"
            yield fault(tables, name, row["id"], "", problem, "add one with `fires = false`")


def always(row: Table) -> bool:
    """A rule without any condition speaks whenever its work is asked about."""
    return not any(row.get(key) for key in ("when", "limits", "within", "not_within", "between", "manner", "part"))


@check
def groups_and_traits(tables: RuleTables, words: Vocabulary) -> Iterator[Fault]:
    used: set[str] = set()
    for name, table in sorted(tables.tables.items()):
        if "taxon" not in table:
            continue
        used |= set(table.get("groups", ()))
        yield from unknown(
            tables, name, str(table["taxon"]), "groups", listed(table.get("groups", ())), words["group"], "group"
        )
    for group in sorted(words["group"] - used):
        problem = "no taxon is in this group"
        yield fault(tables, "species/groups.toml", f"group.{group}", "", problem, "give it one or drop it")


@check
def species_have_a_genus(tables: RuleTables, words: Vocabulary) -> Iterator[Fault]:
    for name, table in sorted(tables.tables.items()):
        taxon = str(table.get("taxon", ""))
        genus = taxon.partition(" ")[0]
        if taxon and genus not in words["taxon"]:
            yield fault(
                tables,
                name,
                taxon,
                "taxon",
                f"there is no file for the genus {genus}",
                f"add species/{genus.lower()}.toml: what all its species share stands there",
            )


@check
def classes_of_patterns(tables: RuleTables, words: Vocabulary) -> Iterator[Fault]:
    """Classes of words that first aid and questions are told by, and the traits and groups that answers go by."""
    sense = tables.tables.get("words/filler.toml", {}).get("sense", {})
    hurt, seen_so = set(sense.get("hurt", {})), words["finding"] | set(sense.get("circumstances", ()))
    answers = {name: table for name, table in sorted(tables.tables.items()) if name.startswith("answers/")}
    own = {one for table in answers.values() for one in table.get("class", {})}
    for name, table in answers.items():
        for one in table.get("class", {}):
            others = [other for other, more in answers.items() if other < name and one in more.get("class", {})]
            if others or one in hurt:  # all are one set of names, and the later one would hold for both
                where = others[0] if others else "[sense.hurt] of words/filler.toml"
                yield fault(tables, name, f"class.{one}", "", f"{where} has a class of this name", "give it another")
    for name, table in sorted(tables.tables.items()):
        for section, known, keys in (("caution", hurt, ("told", "beside")), ("question", hurt | own, ("asked", "but"))):
            for id, row in table.get(section, {}).items() if isinstance(table.get(section), dict) else ():
                named = {one for key in keys for one in re.findall(r"<(\w+)>", " ".join(row.get(key, ())))}
                path = f"{section}.{id}"
                yield from unknown(tables, name, path, "", sorted(named), frozenset(known), "class of words")
                seen = listed(row.get("seen", ()))
                yield from unknown(tables, name, path, "seen", seen, frozenset(seen_so), "finding")
                for answer in row.get("answer", ()):
                    groups = listed(answer.get("groups", ()))
                    yield from unknown(tables, name, path, "groups", groups, words["group"], "group")
                    yield from unknown(
                        tables, name, path, "taxa", listed(answer.get("taxa", ())), words["taxon"], "taxon"
                    )
                    traits = [f"{trait}:{value}" for trait, values in answer.get("of", {}).items() for value in values]
                    yield from unknown(tables, name, path, "of", traits, words["trait"], "trait")
