"""`rules check` names what is wrong with the words of figure questions: a bad line for each fault."""

from __future__ import annotations

import pytest

from benchmate.hearing.figures.small import SmallWords
from benchmate.hearing.vocabulary.check import check_words
from benchmate.rulebase import read_tables
from benchmate.rulebase.model_figures import SmallShape
from benchmate.rulebase.validate import check_shapes
from benchmate.rulebase.where import RuleFolders, find_rules

FILES = {name: (find_rules().all[0] / name).read_text("utf-8") for name in (
    "words/figures.toml", "words/figure_questions.toml", "words/numbers.toml")}  # fmt: skip
QUESTIONS = "words/figure_questions.toml"

# what is changed in the files that ship -> what is told
BAD_SHAPES = {
    "small list": (QUESTIONS, "nought = [", "nougt = [", "unknown key 'nougt'; did you mean 'nought'?"),
    "role key": (QUESTIONS, "bare_most = 12", "bare_moist = 12", "unknown key 'bare_moist'; did you mean 'bare_most'?"),
    "role kind": (QUESTIONS, 'is = "count:branch"', 'is = "branches"', "'branches' is no kind of number"),
    "tag": (QUESTIONS, 'tags = ["yearly"]', 'tags = ["annual"]', "'annual' is no tag"),
    "weight": (QUESTIONS, '\n"2.5" = [', "\nheavy = [", "'heavy' must be a weight"),
    "cue group": (QUESTIONS, "cues.against]", "cues.agianst]", "unknown key 'agianst'; did you mean 'against'?"),
    "unit": (QUESTIONS, 'kind = "force"', 'kind = "forces"', "'kind' cannot be 'forces'"),
    "rate": (QUESTIONS, "\ndaily = [", "\nnightly = [", "'nightly' is no tag"),
    "day": (QUESTIONS, '"06-21"', '"21 June"', "must be a month and a day"),
    "asking": ("words/figures.toml", "inverted = [", "inverse = [", "unknown key 'inverse'"),
    "opening": ("words/figures.toml", "alone = true", 'alone = "yes"', "it must be true or false"),
}


def laid(tmp_path, changed):
    for name, text in {**FILES, **changed}.items():
        path = tmp_path / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    return read_tables(RuleFolders(tmp_path))


@pytest.mark.parametrize("name", BAD_SHAPES)
def test_a_bad_shape_is_named_with_its_line(tmp_path, name):
    file, old, new, problem = BAD_SHAPES[name]
    assert old in FILES[file]
    faults = check_shapes(laid(tmp_path, {file: FILES[file].replace(old, new, 1)}))
    told = [fault for fault in faults if problem in f"{fault.problem}; {fault.remedy}"]
    assert told and told[0].line, [str(fault) for fault in faults]


DOUBLES = {
    "pause and stop": ("stops = [", 'stops = ["and", ', "'and' of pauses already means stops"),
    "unit of two sizes": ('says = ["quart"', 'says = ["litre", "quart"', "'litre' of quart already means litre"),
    "counted twice": ('\nleaf = ["leaves"', '\nleaf = ["shoot", "leaves"', "'shoot' of branch already means leaf"),
    "rate twice": ('\ndaily = ["a day"', '\ndaily = ["a year", "a day"', "'a year' of daily already means yearly"),
    "asks already": ("\nsays = [", '\nsays = ["how so", ', "'how so' already asks by 'how'"),
    "two weights": ("cues.with]\n1 = [", 'cues.with]\n9 = ["branch"]\n1 = [', "already means weight 9"),
    "two values": ('\naluminium = ["', '\naluminium = ["copper", "', "'copper' of aluminium already means copper"),
    "two roles": (
        'near = ["long", "length"], before',
        'near = ["thick", "length"], before',
        "already means diameter_mm",
    ),
}


@pytest.mark.parametrize("name", DOUBLES)
def test_a_word_for_two_things_is_named(tmp_path, name):
    old, new, problem = DOUBLES[name]
    text = FILES[QUESTIONS]
    assert old in text
    faults = check_words(laid(tmp_path, {QUESTIONS: text.replace(old, new, 1)}))
    assert [fault.problem for fault in faults if problem in fault.problem and fault.line], [str(f) for f in faults]


def test_every_small_list_is_checked_and_read(tmp_path):
    read = {*SmallWords.__annotations__, "taken_back", "meaning", "rates_only", "also", "times", "parts_of", "same_as"}
    assert read == set(SmallShape.model_fields)
    small = laid(tmp_path, {}).tables[QUESTIONS]["small"]
    assert set(small) == read, "no list is left empty"


def test_files_that_ship_have_no_fault(tmp_path):
    tables = laid(tmp_path, {})
    assert [fault for fault in (*check_words(tables), *check_shapes(tables)) if "figure" in fault.path] == []
