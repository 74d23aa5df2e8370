"""The words that works are told by are the rules': all are there, and what lacks them is a fault."""

import tomllib
from pathlib import Path
from types import SimpleNamespace

import pytest

from benchmate.practice.check import works_that_cannot_be_told
from benchmate.talk.house import House
from benchmate.telling import works
from benchmate.telling.wording import work_words

RULES = Path(__file__).resolve().parents[2] / "rules" / "works"
WORKS = {
    work: table
    for path in sorted(RULES.glob("*.toml"))
    for work, table in tomllib.loads(path.read_text(encoding="utf-8"))["work"].items()
}


@pytest.fixture
def kept():
    """The words that stood before the test, put back after it."""
    before = list(works._source)
    yield
    works.tell_works_by(before[0])


@pytest.mark.parametrize("work", WORKS)
def test_every_work_is_told_as_the_rules_have_it(work):
    told = WORKS[work]["told"]
    lessens = {"lessens": WORKS[work]["lessens"]} if "lessens" in WORKS[work] else {}
    assert House(None).told_works[work] == told | lessens
    bare = told["do"].replace("{it|", "").replace("{at}", "").replace("{from}", "").replace("}", "")
    assert work_words(work) == bare


def test_words_of_another_house_take_their_place(kept):
    works.tell_works_by(lambda: {"mist": {"do": "mist {it|it}", "done": "misted {it|it}"}})
    assert work_words("mist", done=True) == "misted it"
    assert work_words("wire") == "wire"


def test_the_words_are_asked_for_once_and_only_when_a_work_is_told(kept):
    asked = []
    works.tell_works_by(lambda: asked.append(1) or {})
    assert asked == []
    work_words("wire")
    work_words("bend")
    assert asked == [1]


def test_a_work_without_words_is_a_fault():
    tables = {"wire": WORKS["wire"], "mist": {"group": "care", "takes": "none"}}
    (fault,) = works_that_cannot_be_told(SimpleNamespace(works=tables), None, lambda *where: ("works/care.toml", 7))
    assert (fault.path, fault.line, fault.id) == ("works/care.toml", 7, "work.mist")
    assert fault.problem == "no words tell this work" and "told = {do =" in fault.remedy
