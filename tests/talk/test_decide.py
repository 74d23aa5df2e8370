"""Readings into entries: the kind, the day, the reason, what to come back for."""

import datetime as dt

import pytest

from benchmate.hearing.reading import Fact, Reading, Spot, Work
from benchmate.practice.advice import Advice, Follow, Option, Reason
from benchmate.talk.decide import entries_of, picked_entry

ON = dt.date(2026, 6, 22)
CHECK = Follow("check", "2026-07-06", "Look whether the wire bites.", "wire", "wire-checked")


def decide(*works, **more):
    return Reading("said", ("decide",), work=works, **more)


def made(reading, options=()):
    return entries_of(reading, Advice(reading, "Slate", ON.isoformat(), options), ON)


@pytest.mark.parametrize("done, kind", [("done", "done"), ("now", "done"), ("later", "plan"), ("not", "left")])
def test_tense_decides_the_kind(done, kind):
    (entry,) = made(decide(Work("shorten", Spot("shoot", "left"), {"leaves": 2}, done)))
    assert entry.kind == kind
    assert entry.work == ({"work": "shorten", "part": "shoot", "side": "left", "leaves": 2},)


@pytest.mark.parametrize("work", ["leave", "wait"])
def test_leaving_and_waiting_are_left(work):
    (entry,) = made(decide(Work(work, done="now")))
    assert entry.kind == "left"


def test_a_question_alone_makes_no_entry():
    assert made(Reading("can I repot it", ("ask",), "may", work=(Work("repot"),))) == ()


def test_facts_beside_a_question_are_seen():
    reading = Reading(
        "it is weak, can I repot it", ("observe", "ask"), "may", (Fact("health", "weak"),), (Work("repot"),)
    )
    (entry,) = made(reading)
    assert entry.kind == "seen" and entry.facts == ({"kind": "health", "value": "weak"},) and entry.work == ()


@pytest.mark.parametrize("topic", ["what-if", "list", "recall", "due"])
def test_facts_inside_a_question_are_not_seen(topic):
    assert made(Reading("what if it were weak", ("ask",), topic, (Fact("health", "weak"),))) == ()


def test_species_alone_is_no_sighting():
    assert made(Reading("hornbeam", ("observe",), facts=(Fact("species", "Carpinus"),))) == ()


def test_facts_stand_with_the_decision_they_came_with():
    reading = Reading(
        "weak, leave it",
        ("observe", "decide"),
        facts=(Fact("health", "weak", denied=False),),
        work=(Work("leave", done="now"),),
        reason="it is weak",
    )
    (entry,) = made(reading)
    assert (entry.kind, entry.facts, entry.reason) == ("left", ({"kind": "health", "value": "weak"},), "it is weak")


def test_two_kinds_in_one_statement_are_two_entries():
    entries = made(decide(Work("remove", Spot(side="left"), done="now"), Work("leave", Spot(side="right"), done="now")))
    assert [entry.kind for entry in entries] == ["done", "left"]


@pytest.mark.parametrize(
    "when, at",
    [
        ("2026-06-01", dt.date(2026, 6, 1)),
        ("2026-03", dt.date(2026, 3, 31)),
        ("2026-spring", dt.date(2026, 5, 31)),
        ("2026", ON),
    ],
)
def test_work_of_the_past_lies_on_its_day_or_on_the_last_that_it_can_be(when, at):
    (entry,) = made(decide(Work("repot", done="done"), when=when))
    assert entry.at == at and entry.when == when


def test_work_for_later_keeps_the_time_that_was_meant():
    (entry,) = made(decide(Work("repot", done="later"), when="2027-spring"))
    assert entry.kind == "plan"
    assert entry.when == "2027-spring"


def test_what_the_rules_want_looked_at_follows_the_work_done():
    option = Option("wire", Spot("branch", "left"), follow=(CHECK,))
    other = Option("wire", Spot("branch", "right"), follow=(Follow("unwire", "2026-12-01", "Off."),))
    (entry,) = made(decide(Work("wire", Spot("branch", "left"), done="done")), (option, other))
    assert entry.follow == (
        {
            "work": "check",
            "part": "wire",
            "on": "2026-07-06",
            "says": CHECK.says,
            "rule": "wire-checked",
            "side": "left",
        },
    )


def test_what_wire_asks_for_is_closed_by_taking_it_off():
    option = Option("wire", follow=(CHECK, Follow("unwire", "2026-12-01", "It may hold.", "wire")))
    reading = decide(Work("wire", Spot("branch", "right", "low"), done="done"))
    (entry,) = entries_of(reading, Advice(reading, "Slate", "", (option,)), ON, endings={"wire": ("unwire",)})
    check, unwire = entry.follow
    assert (check["part"], check["side"], check["closed_by"]) == ("wire", "right", ["unwire"])
    assert (unwire["part"], unwire["side"], unwire["level"]) == ("branch", "right", "low")


def test_a_follow_up_moves_back_with_work_of_the_past():
    (entry,) = made(decide(Work("wire", done="done"), when="2026-06-15"), (Option("wire", follow=(CHECK,)),))
    assert entry.at == dt.date(2026, 6, 15) and entry.follow[0]["on"] == "2026-06-29"


def test_a_reminder_alone_is_a_plan():
    reading = Reading(
        "check the wire in two weeks", ("remind",), work=(Work("check", Spot("wire")),), when="2026-07-06"
    )
    (entry,) = made(reading)
    assert entry.kind == "plan"
    assert entry.follow == ({"work": "check", "part": "wire", "on": "2026-07-06", "says": "Check the wire."},)


def test_a_reminder_beside_work_done_keeps_today_for_the_work():
    reading = Reading(
        "unwired the apex, check again in four weeks",
        ("decide", "remind"),
        work=(Work("unwire", Spot("apex"), done="done"), Work("check")),
        when="2026-07-20",
    )
    (entry,) = made(reading)
    assert entry.at == ON and [table["work"] for table in entry.work] == ["unwire"]
    assert entry.follow[-1]["work"] == "check" and entry.follow[-1]["on"] == "2026-07-20"


def test_a_measure_told_is_seen():
    (entry,) = made(Reading("trunk is 63 mm", ("observe",), measures={"diameter_mm": 63.0}))
    assert entry.kind == "seen" and entry.measures == {"diameter_mm": 63.0}


def test_a_note_keeps_the_words():
    (entry,) = made(Reading("note: moss is spreading", ("note",), note="moss is spreading"))
    assert (entry.kind, entry.said) == ("note", "moss is spreading")


def test_an_option_taken_keeps_its_reason_what_was_refused_and_its_follow_up():
    option = Option("wire", Spot("branch"), because=(Reason("r", "Bare wood shows the line."),), follow=(CHECK,))
    entry = picked_entry(option, "take the first", ON, refused=("guy",))
    assert (entry.kind, entry.reason, entry.refused) == ("done", "Bare wood shows the line.", ("guy",))
    assert entry.follow[0]["on"] == "2026-07-06"


def test_an_option_that_must_wait_becomes_a_plan_for_its_day():
    option = Option("repot", verdict="hold", opens="2027-02-20", against=(Reason("r", "It is in leaf."),))
    entry = picked_entry(option, "take the first", ON)
    assert entry.kind == "plan" and entry.when == "2027-02-20" and entry.follow == ()


def test_a_reminder_falls_on_the_day_that_is_meant_in_its_month():
    reading = Reading("said", ("remind",), work=(Work("repot"),), when="2027-04", day="2027-04-25")
    (entry,) = made(reading)
    assert [one["on"] for one in entry.follow] == ["2027-04-25"]
