"""Plans and lessons told: at any width, as JSON, in the talk; from a garden on disk by the command."""

from __future__ import annotations

import datetime as dt
import json
from argparse import Namespace
from pathlib import Path
from typing import Any

import pytest
from gardens import Garden, gardens
from hypothesis import given, settings
from hypothesis import strategies as st
from plan_files import NORTH, book, entries_of, house, planning, tree_of

from benchmate.fault import UserError
from benchmate.planning import Plan, lay_plan, taught
from benchmate.talk.asked.plans import plan_book, plan_for, years_asked, years_said
from benchmate.talk.house import House
from benchmate.telling.lines import lay
from benchmate.telling.plan import lesson_lines, plan_lines, plan_words

DAY = dt.date(2026, 6, 14)
GARDEN = """
[place]
name = "Test"
latitude = 51.5
last_frost = "04-25"
first_frost = "10-20"
"""
TREE = """
name = "Anvil"
species = "Acer palmatum"
phase = "structure"
health = "healthy"
"""
JOURNAL = """
[[entry]]
id = "2026-03-20-a"
at = 2026-03-20
kind = "done"
said = "repotted it"
work = [{ work = "repot", share = 0.3 }]
end = true
"""


def plan_of(**tree: Any) -> Plan:
    made = tree_of({"species": "Acer palmatum", "phase": "structure", "health": "healthy", **tree})
    return lay_plan(made, [], NORTH, DAY, 3, book(), planning())


def test_a_plan_tells_what_when_and_why() -> None:
    told = lay(plan_lines(plan_of(), sources=book().sources))
    assert "works for Test tree from 14 June 2026 to 13 June 2029" in told
    for words in ("Spring 2027", "repot it, for room and air for roots", "A serious work.", "Why: ", "If skipped: "):
        assert words.lower() in told.lower(), words
    assert "Taken as known: " in told and "What to expect:" in told


@pytest.mark.parametrize("width", (40, 80, 120))
def test_it_fits_any_width(width: int) -> None:
    plan = plan_of()
    rows = lay(plan_lines(plan), width).split("\n")
    assert max(map(len, rows)) <= width
    # nothing is lost by narrowness
    narrow, wide = " ".join(" ".join(rows).split()), " ".join(lay(plan_lines(plan)).split())
    assert narrow == wide


@given(gardens(most_years=2), st.sampled_from((40, 120)))
@settings(max_examples=25, deadline=None)
def test_every_plan_can_be_told(garden: Garden, width: int) -> None:
    plan = lay_plan(garden.tree, garden.entries, garden.place, garden.on, garden.years, book(), planning())
    told = lay(plan_lines(plan, southern=garden.place.southern), width)
    assert max(map(len, told.split("\n"))) <= width
    assert len(plan_words(plan)) >= 1 and all(words[-1] in ".!?:" for words in plan_words(plan))
    assert json.loads(json.dumps(plan.as_json()))["tree"] == "Drawn"


def test_json_carries_all_of_a_plan() -> None:
    plan = plan_of()
    found = plan.as_json()
    assert [item["id"] for item in found["items"]] == [item.id for item in plan.items]
    first = found["items"][0]
    assert {"work", "from", "until", "why", "needs", "moves", "heavy", "weight"} <= set(first)
    assert {"rule", "says", "mark", "source"} <= set(first["why"][0])
    assert found["exact"] is True


def test_a_plan_without_works_says_why() -> None:
    assert "what it is being grown for is not known" in plan_words(plan_of(phase=None, species=None))[0]


def test_lessons_are_told_with_their_count() -> None:
    tree = tree_of({"species": "Acer palmatum"})
    rows = entries_of(
        [
            {"at": dt.date(2024, 12, 1), "work": [{"work": "wire"}]},
            {"at": dt.date(2025, 6, 1), "work": [{"work": "unwire"}]},
        ]
    )
    lessons = taught(tree, [(tree, rows)], DAY, NORTH, book(), planning().lesson)
    told = lay(lesson_lines(lessons), 40)
    assert max(map(len, told.split("\n"))) <= 40
    assert "seen once here (182)" in " ".join(told.split())
    assert lesson_lines(()) == []


@pytest.fixture
def garden(tmp_path: Path) -> Path:
    (tmp_path / "garden.toml").write_text(GARDEN)
    (tmp_path / "anvil").mkdir()
    (tmp_path / "anvil" / "tree.toml").write_text(TREE)
    (tmp_path / "anvil" / "journal.toml").write_text(JOURNAL)
    return tmp_path


def arguments(garden: Path, **more: Any) -> Namespace:
    values = {"garden": str(garden), "tree": "anvil", "years": 3, "on": "2026-06-14", "json": False, "plain": False}
    return Namespace(**{**values, **more})


def test_the_command_prints_a_plan(garden: Path, capsys: pytest.CaptureFixture[str]) -> None:
    from benchmate.talk.commands.planning import plan_command

    assert plan_command(arguments(garden)) == 0
    assert "works for Anvil" in capsys.readouterr().out
    assert plan_command(arguments(garden, json=True)) == 0
    found = json.loads(capsys.readouterr().out)
    assert found["tree"] == "Anvil" and found["told"].startswith(str(len(found["items"])))
    assert {row["what"] for row in found["lessons"]} == set(planning().lesson)
    # repotted this spring: not again before 690 days have passed
    assert all(item["from"] >= "2028-02-08" for item in found["items"] if item["work"] == "repot")


def test_a_span_that_cannot_be_planned_is_the_users_fault(garden: Path) -> None:
    from benchmate.talk.commands.planning import plan_command

    with pytest.raises(UserError, match="--years 0"):
        plan_command(arguments(garden, years=0))
    with pytest.raises(UserError):
        plan_command(arguments(garden, tree="nobody"))


def test_the_compiled_book_is_the_one_from_the_files(garden: Path) -> None:
    home = House(garden)
    assert plan_book(home) == planning() == plan_book(House(garden))
    assert plan_for(home, home.trees()[0], DAY, 1).plan.years == 1


@pytest.mark.parametrize(
    "series, years",
    [((), 3), ((("days", 1095.0),), 3), ((("days", 365.0),), 1), ((("days", 14.0),), 1), ((("days", 99999.0),), 10)],
)
def test_years_that_were_said(series: tuple[tuple[str, float], ...], years: int) -> None:
    assert years_said(series) == years


@pytest.mark.parametrize(
    "said, years",
    [
        ("plan the beech for two seasons", 2),
        ("what would you do over the next two years to get backbudding", 2),
        ("plan for the next four years", 4),
        ("plan it, it was repotted two years ago", 3),
        ("plan", 3),
    ],
)
def test_years_that_the_question_names(garden: Path, said: str, years: int) -> None:
    home = House(garden)
    assert years_asked(home.hear(said, DAY), home, DAY) == years


def test_the_house_of_these_tests_has_no_garden() -> None:
    assert house().garden is None
