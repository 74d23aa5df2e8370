"""Rule folders are read whole, laid over by id, cached by content and never trusted blindly."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from benchmate.fault import UserError
from benchmate.rulebase import CompiledStore, RuleFolders, compiled, find_rules, fingerprint, read_tables

RULE = '[[rule]]\nid = "{id}"\nwork = ["feed"]\nverdict = "go"\nsays = "{says}"\nmark = "practice"\n'


def write(folder: Path, name: str, text: str) -> Path:
    path = folder / name
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8")
    return path


def rules_of(tables):
    return {rule["id"]: rule for table in tables.tables.values() for rule in table.get("rule", [])}


def test_a_bad_file_is_a_fault_with_its_line_and_stops_no_other(tmp_path):
    write(tmp_path, "practice/good.toml", RULE.format(id="a", says="A."))
    write(tmp_path, "practice/bad.toml", "[[rule]]\nid = \n")
    (tmp_path / "practice/latin.toml").write_bytes(b'x = "\xe9"\n')
    tables = read_tables(RuleFolders(tmp_path))
    assert set(rules_of(tables)) == {"a"}
    assert [(Path(fault.path).name, fault.line) for fault in tables.faults] == [("bad.toml", 2), ("latin.toml", 1)]


@pytest.mark.parametrize("name", ["aaa.toml", "practice/zzz.toml", "practice/good.toml"])
def test_an_overlay_wins_by_id_whatever_its_file_is_called(tmp_path, name):
    base, mine = tmp_path / "base", tmp_path / "mine"
    write(base, "practice/good.toml", RULE.format(id="a", says="Built in.") + RULE.format(id="b", says="B."))
    write(mine, name, RULE.format(id="a", says="Mine.") + RULE.format(id="c", says="New."))
    tables = read_tables(RuleFolders(base, (mine,)))
    rules = rules_of(tables)
    assert {id: rule["says"] for id, rule in rules.items()} == {"a": "Mine.", "b": "B.", "c": "New."}
    assert tables.yours == {"a", "c"}
    assert tables.replaced == {"a": "practice/good.toml"}
    assert rules["a"]["yours"] and "yours" not in rules["b"]


def test_the_same_id_twice_in_one_layer_is_a_fault_and_the_first_stands(tmp_path):
    write(tmp_path, "practice/a.toml", RULE.format(id="a", says="First."))
    write(tmp_path, "practice/b.toml", "\n" + RULE.format(id="a", says="Second."))
    tables = read_tables(RuleFolders(tmp_path))
    assert rules_of(tables)["a"]["says"] == "First."
    assert [(Path(fault.path).name, fault.line, fault.id) for fault in tables.faults] == [("b.toml", 3, "a")]


def test_an_overlay_changes_one_cell_of_a_species(tmp_path):
    base, mine = tmp_path / "base", tmp_path / "mine"
    write(base, "species/acer.toml", 'taxon = "Acer"\n[traits]\nleaf = {is = "deciduous"}\nthorns = {is = false}\n')
    write(mine, "acer.toml", 'taxon = "Acer"\n[traits]\nthorns = {is = true}\n')
    traits = read_tables(RuleFolders(base, (mine,))).tables["species/acer.toml"]["traits"]
    assert traits == {"leaf": {"is": "deciduous"}, "thorns": {"is": True}}


def test_rules_that_are_nowhere_are_one_plain_line(tmp_path):
    with pytest.raises(UserError, match="no folder of rules"):
        find_rules(tmp_path / "none")


def test_the_fingerprint_follows_content_and_not_time(tmp_path):
    store = CompiledStore((tmp_path / "store",))
    path = write(tmp_path / "rules", "practice/a.toml", "x = 1\n")
    folders = RuleFolders(tmp_path / "rules")
    first = fingerprint(folders, store)
    os.utime(path, (1, 1))
    assert fingerprint(folders, store) == first
    path.write_text("x = 2\n")
    assert fingerprint(folders, store) != first


class Build:
    def __init__(self) -> None:
        self.runs = 0

    def __call__(self):
        self.runs += 1
        return {"runs": self.runs}


def test_a_warm_start_builds_nothing(tmp_path):
    write(tmp_path / "rules", "practice/a.toml", "x = 1\n")
    store, folders, build = CompiledStore((tmp_path / "store",)), RuleFolders(tmp_path / "rules"), Build()
    assert compiled("book", folders, store, build) == {"runs": 1}
    assert compiled("book", folders, store, build) == {"runs": 1}
    write(tmp_path / "rules", "practice/b.toml", "y = 1\n")
    assert compiled("book", folders, store, build) == {"runs": 2}


def harm(kind: str, path: Path) -> None:
    body = path.read_bytes()
    head, _, rest = body.partition(b"\n")
    path.write_bytes(
        {
            "cut": body[:-4],
            "empty": b"",
            "altered": body.replace(b'"runs":1', b'"runs":9'),
            "foreign": b"benchmate other " + head.split()[-1] + b"\n" + rest,
            "not-ours": b"\x80\x04K\x01.",
        }[kind]
    )


@pytest.mark.parametrize("kind", ["cut", "empty", "altered", "foreign", "not-ours"])
def test_a_harmed_cache_is_rebuilt(tmp_path, kind):
    write(tmp_path / "rules", "practice/a.toml", "x = 1\n")
    store, folders, build = CompiledStore((tmp_path / "store",)), RuleFolders(tmp_path / "rules"), Build()
    compiled("book", folders, store, build)
    [kept] = (tmp_path / "store").glob("book-*.json")
    harm(kind, kept)
    assert compiled("book", folders, store, build) == {"runs": 2}
    assert compiled("book", folders, store, build) == {"runs": 2}


def test_where_nothing_can_be_written_all_is_built_in_memory(tmp_path):
    write(tmp_path / "rules", "practice/a.toml", "x = 1\n")
    (tmp_path / "blocked").write_text("a file, not a folder")
    store, folders, build = CompiledStore((tmp_path / "blocked" / "store",)), RuleFolders(tmp_path / "rules"), Build()
    assert compiled("book", folders, store, build) == {"runs": 1}
    assert compiled("book", folders, store, build) == {"runs": 2}


@pytest.mark.parametrize("name", ["my-rules.toml", "practice/anything.toml"])
def test_a_fault_of_a_growers_rule_points_into_the_growers_file(tmp_path, name):
    base, mine = tmp_path / "base", tmp_path / "mine"
    write(base, "practice/good.toml", RULE.format(id="a", says="Built in."))
    write(mine, name, "# mine\n" + RULE.format(id="a", says="Mine.") + RULE.format(id="c", says="New."))
    tables = read_tables(RuleFolders(base, (mine,)))
    assert tables.place_of("practice/good.toml", "a") == (str(mine / name), 3)
    added = next(file for file, table in tables.tables.items() if any(r["id"] == "c" for r in table.get("rule", ())))
    assert tables.place_of(added, "c", "says") == (str(mine / name), 12)
