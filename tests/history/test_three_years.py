"""A bench over three years, typed in statement by statement: nothing said is missing from journal, due list or plan."""

import datetime as dt
import tomllib
from collections import Counter
from pathlib import Path

import pytest
from history_rows import faults

from benchmate.garden import check_garden, due, follow_ups, new_garden, standing
from benchmate.garden.record import Place
from benchmate.talk.asked.meant import meant_by_grower, meant_lines
from benchmate.talk.asked.plans import plan_for
from benchmate.talk.bench import Bench
from benchmate.talk.house import House
from benchmate.telling import lay, tell
from benchmate.telling.story import entry_words, story_lines

ROWS = tomllib.loads((Path(__file__).parent / "three_years.toml").read_text(encoding="utf-8"))["said"]
END = dt.date(2026, 12, 6)


class Bench3:
    """The whole history, played once: what came of each row, and the garden after it."""

    def __init__(self, home):
        new_garden(home, Place("Test garden", 51.5, -0.5, (4, 25), (10, 20)))
        self.house = House(home)
        self.bench = Bench(self.house, ROWS[0]["on"])
        self.answers, self.faults = [], []
        for row in ROWS:
            self.bench._on = row["on"]
            answer = self.bench.answer(row["say"])
            self.answers.append(answer)
            self.faults.append(faults(row, answer, self.bench))

    def entries(self):
        return {tree.name: self.house.entries(tree) for tree in self.house.trees()}


@pytest.fixture(scope="module")
def played(tmp_path_factory):
    return Bench3(tmp_path_factory.mktemp("history") / "garden")


@pytest.mark.parametrize("number", range(len(ROWS)), ids=[f"{row['on']} {row['say']}" for row in ROWS])
def test_what_was_said_is_in_the_record(played, number):
    assert played.faults[number] == []


def test_it_is_three_years_and_three_trees_in_a_hundred_and_fifty_statements(played):
    assert len(ROWS) >= 150 and ROWS[-1]["on"] - ROWS[0]["on"] > dt.timedelta(days=3 * 365)
    assert [row["on"] for row in ROWS] == sorted(row["on"] for row in ROWS)
    assert len(played.house.trees()) == 3
    assert check_garden(played.house.folder) == []


def test_the_journal_holds_every_statement_that_logged_and_no_other(played):
    logged = Counter(entry.id for answer in played.answers for entry in answer.logged)
    kept = Counter(entry.id for entries in played.entries().values() for entry in entries)
    assert kept == logged and set(logged.values()) == {1}
    words = " | ".join(entry.said for entries in played.entries().values() for entry in entries)
    for row, answer in zip(ROWS, played.answers, strict=True):
        note = (answer.reading.note or row["say"]).lstrip(": ")
        assert row.get("nothing") or row["say"] in words or note in words, row["say"]


def test_what_was_not_taken_in_is_told_and_kept_as_said(played):
    for row, answer in zip(ROWS, played.answers, strict=True):
        for missed in row.get("missed", ()):
            assert missed in lay(tell(answer))
            assert row.get("nothing") or any(missed in entry.said for entry in answer.logged), row["say"]


def test_the_story_tells_every_entry(played):
    for tree in played.house.trees():
        entries = played.house.entries(tree)
        told = lay(story_lines(tree, entries, END))
        for entry in entries:
            if entry.kind != "struck":
                words = entry_words(entry, entry.day).rstrip(".")
                assert words[1:] in told, entry.said


def test_what_was_asked_to_come_back_for_is_due_on_its_day(played):
    """Each reminder, in the record as it stood when it was made."""
    for row, answer in zip(ROWS, played.answers, strict=True):
        if "due" not in row:
            continue
        work, day = row["due"]
        tree = played.house.garden.find(answer.tree)
        before = [entry for entry in played.house.entries(tree) if entry.day <= row["on"]]
        found = [one for one in follow_ups(before) if one.work == work and one.on == day and not one.rule]
        assert len(found) == 1, (row["say"], found)
        (asked,) = found
        assert asked.entry in {entry.id for entry in answer.logged}


def test_the_due_list_holds_all_that_is_still_open(played):
    groups = due(played.house.garden, END, 400)
    listed = {(group.tree.name, item.follow.uid) for group in groups for item in group.items}
    for tree in played.house.trees():
        for one in follow_ups(played.house.entries(tree)):
            if one.on is not None and one.on <= END + dt.timedelta(days=400):
                assert (tree.name, one.uid) in listed, one
    asked = {one.entry for tree in played.house.trees() for one in follow_ups(played.house.entries(tree))}
    struck = {entry.strikes for entries in played.entries().values() for entry in entries}
    assert not asked & struck


def test_what_was_done_closes_what_asked_for_it(played):
    """The last look at the wire was made and the wire is off: neither is asked for any more."""
    harrow = played.house.garden.find("Harrow")
    before = [entry for entry in played.house.entries(harrow) if entry.day <= dt.date(2026, 3, 28)]
    assert "unwire" in {follow["work"] for entry in before for follow in entry.follow}
    assert "unwire" not in {one.work for one in follow_ups(before)}


@pytest.mark.parametrize("name", ["Gatepost", "Harrow", "Thimble"])
def test_the_plan_holds_all_that_was_said_to_be_done(played, name):
    tree = played.house.garden.find(name)
    plan = plan_for(played.house, tree, END, 3).plan
    told = lay(meant_lines(meant_by_grower(played.house, tree, END), END, {item.work for item in plan.items}))
    planned = [entry for entry in standing(played.house.entries(tree)) if entry.kind == "plan"]
    waiting = {one.entry: one for one in follow_ups(played.house.entries(tree))}
    own = [entry for entry in planned if entry.id in waiting and not waiting[entry.id].rule]
    assert own
    for entry in own:
        assert waiting[entry.id].says.rstrip(".").casefold() in told.casefold(), entry.said


def test_the_plan_in_the_talk_names_them_too(played):
    bench = Bench(played.house, END, tree="Thimble", dry=True)
    told = lay(tell(bench.answer("plan the next three years")))
    assert "What you said you would do:" in told and "repot Thimble next spring because" in told
