"""What journals teach, and how the usual values give way to it."""

from __future__ import annotations

import datetime as dt
import tomllib
from pathlib import Path
from typing import Any

import pytest
from gardens import Garden, gardens
from hypothesis import given, settings
from hypothesis import strategies as st
from plan_files import NORTH, book, entries_of, place_of, planning, tree_of

from benchmate.planning import Lesson, lay_plan, taught, taught_by_taxon
from benchmate.planning.mixing import Usual, mix, mix_words

CASES = tomllib.loads((Path(__file__).parent / "cases" / "lessons.toml").read_text(encoding="utf-8"))["case"]
DAY = dt.date(2026, 6, 14)
VALUES = st.lists(st.floats(1, 400), max_size=8)


def lessons_of(case: dict[str, Any]) -> dict[str, Lesson]:
    tree = tree_of(case["tree"])
    journals = [(tree, entries_of(case.get("journal", [])))]
    journals += [(tree_of(row["tree"]), entries_of(row["journal"])) for row in case.get("others", [])]
    place = place_of(case.get("place", "north"))
    return {one.what: one for one in taught(tree, journals, DAY, place, book(), planning().lesson)}


@pytest.mark.parametrize("case", CASES, ids=[case["id"] for case in CASES])
def test_what_a_journal_teaches(case: dict[str, Any]) -> None:
    found = lessons_of(case)
    for what, wanted in case["taught"].items():
        lesson = found[what]
        told = f"{lesson.mix}; seen {[one.value for one in lesson.seen]}"
        assert lesson.count == wanted.get("count", lesson.count), told
        assert lesson.others == wanted.get("others", lesson.others), told
        if "seen" in wanted:
            assert [one.value for one in lesson.seen] == pytest.approx(wanted["seen"], rel=0.01), told
        if "value" in wanted:
            assert lesson.value == pytest.approx(wanted["value"], abs=0.01), told
        assert lesson.low <= lesson.value <= lesson.high


def test_every_lesson_is_taught_by_some_case() -> None:
    seen = {what for case in CASES for what, wanted in case["taught"].items() if wanted.get("count")}
    assert set(planning().lesson) == seen


def test_all_trees_of_a_taxon_teach_together() -> None:
    case = next(case for case in CASES if case["id"] == "others-of-its-kind-count-by-half")
    journals = [(tree_of(row["tree"]), entries_of(row["journal"])) for row in case["others"]]
    found = taught_by_taxon(journals, DAY, NORTH, book(), planning().lesson)
    assert set(found) == {"Acer campestre", "Fagus sylvatica"}
    (lesson,) = found["Acer campestre"]
    assert (lesson.what, lesson.scope, lesson.count) == ("wire-set", "Acer campestre", 1)


@given(VALUES, VALUES, st.floats(0.1, 20), st.floats(0, 1))
@settings(deadline=None)
def test_a_mix_lies_between_what_went_into_it(
    own: list[float], others: list[float], weight: float, worth: float
) -> None:
    usual = Usual(100, 60, 160)
    found = mix(usual, own, others, weight, worth)
    assert found is not None
    every = [100.0, *own, *(others if worth > 0 else [])]
    assert min(every) - 1e-6 <= found.value <= max(every) + 1e-6
    assert found.low <= found.value <= found.high


@given(st.floats(10, 300), st.integers(1, 60))
@settings(deadline=None)
def test_the_usual_value_gives_way_as_observations_gather(value: float, count: int) -> None:
    usual = Usual(100, 60, 160)
    fewer, more = (mix(usual, [value] * n, [], 4, 0.5) for n in (count, count + 1))
    assert fewer is not None and more is not None
    assert abs(more.value - value) <= abs(fewer.value - value) + 1e-9
    assert fewer.value == pytest.approx((400 + count * value) / (4 + count))


def test_with_nothing_at_all_there_is_no_value() -> None:
    assert mix(None, [], [], 4, 0.5) is None
    found = mix(None, [12.0], [], 4, 0.5)
    assert found is not None and found.value == found.low == found.high == 12.0


def test_the_words_tell_how_many_were_seen_and_how_wide() -> None:
    usual = Usual(140, 110, 190)
    found = mix(usual, [120.0, 160.0], [150.0], 4, 0.5)
    assert found is not None
    words = mix_words("days under wire", "days", found, [120.0, 160.0], [150.0], usual, 4, 0.5)
    assert "seen twice here (120 to 160)" in words
    assert "once on others of its kind (150, each counted as 0.5)" in words
    assert "the usual 140 counts as 4 more" in words and "four times in five" in words
    assert "nothing in the record bears on it yet" in mix_words("x", "days", found, [], [], usual, 4, 0.5)


@given(gardens())
@settings(max_examples=60, deadline=None)
def test_no_journal_breaks_the_lessons(garden: Garden) -> None:
    journals = [(garden.tree, garden.entries)]
    for lesson in taught(garden.tree, journals, garden.on, garden.place, book(), planning().lesson):
        assert lesson.low <= lesson.value <= lesson.high and lesson.mix and lesson.as_json()["what"] == lesson.what


WIRED = [{"at": dt.date(2022 + year, 12, 1), "work": [{"work": "wire"}]} for year in range(3)] + [
    {"at": dt.date(2024 + year, 2, 9) - dt.timedelta(days=366), "work": [{"work": "unwire"}]} for year in range(3)
]


def test_a_plan_keeps_to_what_the_wire_taught() -> None:
    """On a tree whose branches set in 70 days the wire comes off earlier than on one of which nothing is known."""
    tree = tree_of({"species": "Acer palmatum", "phase": "structure", "health": "healthy"})
    entries = entries_of(sorted(WIRED, key=lambda row: row["at"]))
    lessons = taught(tree, [(tree, entries)], DAY, NORTH, book(), planning().lesson)
    learned = next(one for one in lessons if one.what == "wire-set")
    assert learned.count == 3 and learned.value < 115

    def off_after(lessons: tuple[Lesson, ...]) -> int:
        plan = lay_plan(tree, entries, NORTH, DAY, 2, book(), planning(), lessons)
        off = next(item for item in plan.items if item.work == "unwire" and item.needs)
        on = next(item for item in plan.items if item.id == off.needs[0])
        return (dt.date.fromisoformat(off.opens) - dt.date.fromisoformat(on.opens)).days

    assert off_after(lessons) < off_after(())
    plan = lay_plan(tree, entries, NORTH, DAY, 2, book(), planning(), lessons)
    assert learned.mix in plan.assumed


def test_a_plan_spends_no_flush_that_the_tree_was_not_seen_to_make() -> None:
    tree = tree_of({"species": "Ulmus parvifolia", "phase": "ramification", "health": "strong"})
    rows = [
        {"at": dt.date(year, 7, 1), "kind": "seen", "facts": [{"kind": "flush", "value": 1}]}
        for year in range(2016, 2026)
    ]
    lessons = taught(tree, [(tree, entries_of(rows))], DAY, NORTH, book(), planning().lesson)
    assert next(one for one in lessons if one.what == "flushes-a-year").value < 2
    plan = lay_plan(tree, entries_of(rows), NORTH, DAY, 2, book(), planning(), lessons)
    cuts = [item.opens[:4] for item in plan.items if item.work in ("shorten", "defoliate")]
    assert len(cuts) == len(set(cuts))
