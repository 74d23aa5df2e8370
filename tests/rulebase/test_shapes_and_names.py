"""For each fault message of the rule files one bad file, with the line it is on; the rules that ship have none."""

from __future__ import annotations

from pathlib import Path

import pytest

from benchmate.rulebase import RuleFolders, find_rules, read_tables
from benchmate.rulebase.cross import CHECKS, check_names, idle_sources
from benchmate.rulebase.lines import line_of
from benchmate.rulebase.validate import check_shapes

GOOD = """[[rule]]
id = "leaf-cut-needs-strength"
work = "leaf-cut"
when = "weak tree"
verdict = "avoid"
says = "It spends what is not there."
mark = "practice"
[[rule.example]]
say = "weak beech, can I halve the leaves"
gives = "avoid"
[[rule.example]]
say = "strong beech, can I halve the leaves"
fires = false
"""

# what is changed in the good rule -> what is told, and the line
BAD_RULES = {
    "unknown key": (('verdict = "avoid"', 'verdit = "avoid"'), "unknown key 'verdit'; did you mean 'verdict'?", 5),
    "unknown value": (('"avoid"\nsays', '"avoyd"\nsays'), "'verdict' cannot be 'avoyd'; did you mean 'avoid'?", 5),
    "no provenance": (('mark = "practice"\n', ""), "no provenance", 2),
    "published by nobody": (('mark = "practice"', 'mark = "published"'), "published, but by no `source`", 2),
    "source and mark": (('mark = "practice"', 'mark = "memory"\nsource = "x"'), "leave one out", 2),
    "missing key": (('says = "It spends what is not there."\n', ""), "'says' is missing", 2),
    "not a sentence": (("there.", "there"), "whole sentence", 6),
    "id with a number": (("needs-strength", "needs-2-strengths"), "without numbers", 2),
    "neither verdict nor weight": (('verdict = "avoid"\n', ""), "give `verdict` or `weight`", 2),
    "a block with a weight": (('"avoid"\nsays', '"avoid"\nweight = 2\nsays'), "has no `weight`", 2),
    "weight out of range": (('verdict = "avoid"', "weight = 9"), "'weight' is '9'", 5),
    "opens on no hold": (('"avoid"\nsays', '"avoid"\nopens = {date = "06-01"}\nsays'), "belongs to a hold", 2),
    "opens two ways": (
        ('"avoid"\nsays', '"hold"\nopens = {date = "06-01", stage = "hardened"}\nsays'),
        "exactly one of stage",
        6,
    ),
    "no month-day": (('"avoid"\nsays', '"hold"\nopens = {date = "13-01"}\nsays'), "must be a month and a day", 6),
    "between one": (('when = "weak tree"', 'between = ["04-15"]'), "'between'", 4),
    "limit without end": (('when = "weak tree"', "limits = {share = 0.3}"), "must end in _over or _under", 2),
    "limit is text": (('when = "weak tree"', 'limits = {share_over = "much"}'), "it must be a number", 4),
    "offers what it blocks": (('"avoid"\nsays', '"avoid"\noffers = true\nsays'), "cannot put its work forward", 2),
    "unknown manner": (('when = "weak tree"', 'manner = "harsh"'), "'manner' cannot be 'harsh'", 4),
    "follow without a day": (
        ('mark = "practice"', 'mark = "practice"\nfollow = [{work = "check", says = "Look."}]'),
        "give `days`, `stage` or `date`",
        8,
    ),
    "unknown key in a follow-up": (
        ('mark = "practice"', 'mark = "practice"\nfollow = [{work = "check", days = 3, say = "Look.", says = "L."}]'),
        "unknown key 'say'; did you mean 'says'?",
        8,
    ),
    "example with two claims": (('gives = "avoid"', 'gives = "avoid"\nasks = "health"'), "exactly one of gives", 0),
}


def laid(tmp_path: Path, text: str, name: str = "practice/rules.toml"):
    path = tmp_path / name
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8")
    return read_tables(RuleFolders(tmp_path))


def test_a_good_rule_has_no_fault(tmp_path):
    assert check_shapes(laid(tmp_path, GOOD)) == []


@pytest.mark.parametrize("name", BAD_RULES)
def test_a_bad_rule_is_told_with_its_line(tmp_path, name):
    (old, new), problem, line = BAD_RULES[name]
    assert old in GOOD
    faults = check_shapes(laid(tmp_path, GOOD.replace(old, new, 1)))
    assert faults, "no fault was found"
    told = [fault for fault in faults if problem in f"{fault.problem}; {fault.remedy}"]
    assert told, [str(fault) for fault in faults]
    assert not line or told[0].line == line, str(told[0])
    assert all(word not in str(told[0]) for word in ("pydantic", "Shape", "Traceback", "Input should"))


BAD_FILES = {
    "species/acer.toml": ('taxon = "acer"\nnames = []\n', "'taxon'"),
    "species/fagus.toml": ('taxon = "Fagus"\nnames = []\n[traits]\nleef = {is = "scale", mark = "memory"}\n', "leef"),
    "species/pinus.toml": ('taxon = "Pinus"\nnames = []\n[traits]\nleaf = {is = "blue", mark = "memory"}\n', "'blue'"),
    "species/larix.toml": ('taxon = "Larix"\nnames = []\n[traits]\nleaf = {is = "needle"}\n', "no provenance"),
    "species/groups.toml": ('[group.conifer]\nsays = "conifer"\nmark = "practice"\n', "a list"),
    "cautions/tree.toml": ('[caution.heat]\nkind = "dog"\nsays = "Hot."\nshort = "Hot."\nmark = "practice"\n', "'dog'"),
    "works/cutting.toml": ('[work.snip]\ngroup = "cuting"\ntakes = "none"\nsays = []\n', "did you mean 'cutting'"),
    "sources.toml": ('[source.a-2001]\nby = "A"\ntitle = "T"\nkind = "papper"\n', "did you mean 'paper'"),
    "words/glossary.toml": ("[term.petiole]\nnames = []\n", "'says' is missing"),
    "words/kind_questions.toml": ('[zone]\ncoldest_c = -51.1\nstep_c = 5.6\nsays = "So cold."\n', "no provenance"),
}


@pytest.mark.parametrize("name", BAD_FILES)
def test_every_kind_of_file_has_a_shape(tmp_path, name):
    text, problem = BAD_FILES[name]
    faults = check_shapes(laid(tmp_path, text, name))
    assert any(problem in str(fault) for fault in faults), [str(fault) for fault in faults]


def base(tmp_path: Path) -> None:
    """Files around the rule, so that only what a test breaks is broken."""
    for name, text in {
        "works/cutting.toml": '[work.leaf-cut]\ngroup = "cutting"\n[work.check]\ngroup = "none"\n',
        "words/states.toml": '[state.hardened]\nsays = []\nalone = "stage:hardened"\n',
        "words/places.toml": '[PART]\nleaf = ["leaf"]\n',
        "cautions/tree.toml": '[caution.weak-tree]\nkind = "tree"\n',
        "sources.toml": '[source.klein-2016]\nby = "K"\n',
        "species/fagus.toml": 'taxon = "Fagus"\nnames = []\ngroups = ["broadleaf"]\n',
        "species/groups.toml": '[group.broadleaf]\nmark = "practice"\n',
    }.items():
        path = tmp_path / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text)


BAD_NAMES = {
    "work": ('work = "leaf-cut"', 'work = "leafcut"', "'leafcut' is no work; did you mean 'leaf-cut'?"),
    "within": ('when = "weak tree"', "within = {repott = 3}", "'repott' is no work"),
    "part": ('when = "weak tree"', 'part = "leef"', "'leef' is no part"),
    "stage": ('verdict = "avoid"', 'verdict = "hold"\nopens = {stage = "hard"}', "'hard' is no stage"),
    "caution": ('mark = "practice"', 'mark = "practice"\ncautions = ["weak"]', "'weak' is no caution"),
    "source": ('mark = "practice"', 'source = "klein-2015"', "did you mean 'klein-2016'?"),
    "beats": ('mark = "practice"', 'mark = "practice"\nbeats = ["other"]', "'other' is no rule"),
    "no example that fires": ('gives = "avoid"', 'asks = "health"', "no example that it speaks on"),
    "no example that is silent": ("fires = false", 'asks = "health"', "no example that it keeps silent on"),
}


@pytest.mark.parametrize("name", BAD_NAMES)
def test_a_name_that_nothing_bears_is_told_with_the_nearest(tmp_path, name):
    old, new, problem = BAD_NAMES[name]
    assert old in GOOD
    base(tmp_path)
    assert check_names(laid(tmp_path, GOOD)) == []
    faults = check_names(laid(tmp_path, GOOD.replace(old, new, 1)))
    assert any(problem in fault.problem for fault in faults), [str(fault) for fault in faults]
    assert all(fault.line for fault in faults)


@pytest.mark.parametrize(
    "line, problem",
    [
        ('rules = ["leaf-cut-needs-strenght"]', "'leaf-cut-needs-strenght' is no rule; did you mean"),
        ('cautions = ["weak"]', "'weak' is no caution"),
        ('of_works = ["leafcut"]', "'leafcut' is no work"),
    ],
)
def test_what_a_question_about_a_kind_is_answered_from_must_be_there(tmp_path, line, problem):
    base(tmp_path)
    laid(tmp_path, GOOD)
    tables = laid(tmp_path, f"[asked.cold]\n{line}\n", "words/kind_questions.toml")
    assert any(problem in fault.problem for fault in check_names(tables))


def test_one_side_of_a_dispute_is_not_enough(tmp_path):
    base(tmp_path)
    other = GOOD.replace("leaf-cut-needs-strength", "leaf-cut-helps")
    text = GOOD.replace('mark = "practice"', 'mark = "practice"\ndisputes = ["leaf-cut-helps"]', 1) + other
    [fault] = check_names(laid(tmp_path, text))
    assert "does not name it in turn" in fault.problem


def test_two_classes_of_one_name_would_hold_for_each_other(tmp_path):
    base(tmp_path)
    assert check_names(laid(tmp_path, '[class]\npours = ["water"]\n', "answers/leaves.toml")) == []
    [fault] = check_names(laid(tmp_path, '[class]\npours = ["soak"]\n', "answers/water.toml"))
    assert "answers/leaves.toml has a class of this name" in fault.problem and fault.line


def test_a_species_without_its_genus_and_a_group_without_a_tree(tmp_path):
    base(tmp_path)
    laid(tmp_path, 'taxon = "Acer campestre"\nnames = []\ngroups = []\n', "species/acer-campestre.toml")
    tables = laid(tmp_path, "[group.broadleaf]\n[group.palm]\n", "species/groups.toml")
    problems = {fault.problem for fault in check_names(tables)}
    assert problems == {"there is no file for the genus Acer", "no taxon is in this group"}


def test_idle_sources_are_known_and_no_fault(tmp_path):
    base(tmp_path)
    assert idle_sources(laid(tmp_path, GOOD)) == ["klein-2016"]


def test_a_check_has_its_place_by_being_written():
    assert len(CHECKS) == len({check.__name__ for check in CHECKS}) >= 8


def test_lines_are_found_for_ids_keys_and_named_tables():
    text = '[caution.a]\nsays = "x"\n[[rule]]\nid = "r"\nfollow = [{days = 3}]\n'
    text += '[[rule.example]]\nsay = "s"\n[[rule]]\nid = "q"\n'
    assert line_of(text, "r") == 4
    assert line_of(text, "r", "days") == 5
    assert line_of(text, "r", "say") == 7
    assert line_of(text, "caution.a", "says") == 2
    assert line_of(text, "q", "say") == 9
    assert line_of(text, "nothing") == 0


def test_the_rules_that_ship_have_no_fault_of_shape_or_name():
    tables = read_tables(find_rules())
    faults = [*tables.faults, *check_shapes(tables), *check_names(tables)]
    assert not faults, "\n".join(map(str, faults))
