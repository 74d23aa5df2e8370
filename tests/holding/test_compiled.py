"""What was compiled is never trusted: a harmed, stale or foreign file gives what a cold start gives, faults and all."""

import json
import random
import shutil

import pytest
from damaged import some_rules
from holding_files import ROOT

from benchmate.rulebase import CompiledStore, cache, compiled, fingerprint
from benchmate.rulebase.leaves import APART, Leaves, Sheets, from_lines, to_lines
from benchmate.rulebase.where import RuleFolders

SAID = "hornbeam, second flush, two competing leaders, what now"
BAD_RULE = """
[[rule]]
id = "grower-thinks"
work = "repot"
when = "weak or blorbing tree"
verdict = "avoid"
says = "It is not the time."
mark = "practice"
"""


@pytest.fixture
def own_rules(garden):
    """A garden with a rule of the grower's, so that all that is compiled stands in the garden or beside the package
    under a name of its own."""
    (garden / "rules" / "practice").mkdir(parents=True)
    (garden / "rules" / "practice" / "mine.toml").write_text(BAD_RULE, encoding="utf-8")
    return garden


@pytest.fixture
def copy(tmp_path):
    """The package and some of its rules in a folder of their own, nothing compiled."""
    site = tmp_path / "copy"
    shutil.copytree(ROOT / "benchmate", site / "benchmate", ignore=shutil.ignore_patterns("compiled", "__pycache__"))
    some_rules(site / "rules")
    return site


def told(program, site, garden, *words):
    env = {
        "PYTHONPATH": str(site),
        "PYTHONDONTWRITEBYTECODE": "",
    }  # the copy's byte code is made once, not at each start
    done = program(*words, "--garden", str(garden), "--on", "2026-06-14", env=env, cwd=site)
    assert "slip" not in done.stderr, done.stderr
    return done.returncode, done.stdout, done.stderr


@pytest.mark.parametrize("how", ["cut", "byte", "empty", "foreign", "swapped"])
def test_a_harmed_store_changes_no_answer_and_no_fault(program, copy, own_rules, how):
    asked = (("say", SAID, "--dry", "--json"), ("rules", "check", "--json"), ("hear", SAID, "--json"))
    cold = [told(program, copy, own_rules, *words) for words in asked]
    assert [told(program, copy, own_rules, *words) for words in asked] == cold
    assert any("blorbing" in fault["problem"] for fault in json.loads(cold[1][1])["faults"])
    kept = sorted((copy / "benchmate" / "compiled").glob("*.json"))
    assert kept and not [path for path in (own_rules / ".benchmate").glob("book-*")]
    chance = random.Random(how)
    bodies = [path.read_bytes() for path in kept]
    for number, (path, body) in enumerate(zip(kept, bodies, strict=True)):
        at = chance.randrange(len(body))
        path.write_bytes(
            {
                "cut": body[:at],
                "byte": body[:at] + bytes([body[at] ^ 1]) + body[at + 1 :],
                "empty": b"",
                "foreign": b"PK\x03\x04" + body,
                "swapped": bodies[number - 1],
            }[how]
        )
    assert [told(program, copy, own_rules, *words) for words in asked] == cold


def test_it_is_written_beside_the_package_else_into_the_garden(program, copy, own_rules):
    (copy / "benchmate" / "compiled").write_text("a file stands where the folder would be")
    cold = told(program, copy, own_rules, "say", SAID, "--dry", "--json")
    assert {path.name.split("-")[0] for path in (own_rules / ".benchmate").glob("*-*.json")} >= {"book", "lexicon"}
    assert told(program, copy, own_rules, "say", SAID, "--dry", "--json") == cold


def test_rules_edited_while_they_are_compiled_are_not_kept_under_the_old_name(tmp_path):
    rules, store = tmp_path / "rules", CompiledStore((tmp_path / "store",))
    rules.mkdir()
    (rules / "a.toml").write_text("x = 1\n")
    folders = RuleFolders(rules)

    def edited():
        (rules / "a.toml").write_text("x = 22\n")
        return {"x": 22}

    assert compiled("book", folders, store, edited) == {"x": 22}
    (rules / "a.toml").write_text("x = 1\n")
    assert compiled("book", folders, store, lambda: {"x": 1}) == {"x": 1}


def test_a_process_whose_code_was_replaced_compiles_under_names_of_its_own(tmp_path, monkeypatch):
    """An upgrade under an open talk: what the old code compiles must not pass for what the new code expects."""
    room, rules, store = tmp_path / "hearing", tmp_path / "rules", CompiledStore((tmp_path / "store",))
    for folder in (room, rules, tmp_path / "store"):
        folder.mkdir()
    (rules / "one.toml").write_text("a = 1\n", encoding="utf-8")
    (room / "compiling.py").write_text("FORM = 1\n", encoding="utf-8")
    monkeypatch.setattr(cache, "_COMPILERS", (room,))
    monkeypatch.setattr(cache, "_CODE_ROOMS", ((room, (".py",)),))
    monkeypatch.setattr(cache, "_CODE_AT_START", {})
    folders = RuleFolders(rules)
    before = fingerprint(folders, store)
    (room / "compiling.py").write_text("FORM = 2, 2\n", encoding="utf-8")
    old = fingerprint(folders, store)
    monkeypatch.setattr(cache, "_CODE_AT_START", {})  # a process that starts now
    new = fingerprint(folders, store)
    assert len({before, old, new}) == 3


def test_a_damaged_file_hides_no_good_one_behind_it(tmp_path):
    (tmp_path / "rules").mkdir()
    folders, first, second = RuleFolders(tmp_path / "rules"), tmp_path / "first", tmp_path / "second"
    mark = fingerprint(folders, CompiledStore((second,)))
    compiled("book", folders, CompiledStore((second,)), lambda: {"x": 1})
    first.mkdir()
    (first / f"book-{mark}.json").write_bytes(b"benchmate what")
    both = CompiledStore((first, second))
    assert both.read(f"book-{mark}.json", mark) == {"x": 1}


def test_large_tables_and_lists_come_back_as_they_went():
    value = {
        "rules": [{"id": f"rule-{n}", "says": "leaf\u2028\n\"' ü" * 3} for n in range(999)],
        "taxa": {f"Acer {n}": {"leaf": ["deciduous", n]} for n in range(999)},
        "words": ["a"] * APART,
        "few": {"a": {"b": None}},
        "none": {},
    }
    text = to_lines(value)
    back = from_lines(text)
    assert back == value
    assert isinstance(back["taxa"], Leaves) and isinstance(back["rules"], Sheets) and isinstance(back["words"], list)
    assert "Acer 7" in back["taxa"] and back["taxa"].get("Acer") is None and back["rules"][-1] == value["rules"][-1]
    with pytest.raises(KeyError):
        back["taxa"]["Acer"]
    for harmed in (text[:-30].rsplit("\n", 1)[0], text + "\n{}", "{}", "[]", "", "x"):
        assert from_lines(harmed) is None
