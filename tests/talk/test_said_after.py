"""What is said after something else bears on that: "took it off" behind the wire, "not the elm, the beech" behind work.
A question is never put down as work."""

import datetime as dt

import pytest

from benchmate.talk.bench import Bench
from benchmate.talk.house import House


def talk(demo, day, *statements, tree=None):
    """The answers to the statements, in a talk of that day."""
    bench = Bench(House(demo), dt.date.fromisoformat(day), tree=tree)
    return [bench.answer(statement) for statement in statements]


def done(answer):
    """(tree, works) of what was put down as done."""
    pairs = zip(answer.logged_for, answer.logged, strict=True)
    return [(name, [work["work"] for work in entry.work]) for name, entry in pairs if entry.kind == "done"]


def standing(demo, name, day):
    """The works that stand in the record as done on that day."""
    house = House(demo)
    entries = house.entries(house.garden.find(name))
    struck = {entry.strikes for entry in entries if entry.strikes}
    mine = [one for one in entries if one.id not in struck and one.kind == "done" and one.day.isoformat() == day]
    return [work["work"] for entry in mine for work in entry.work]


# ---- the thing that "it" is


@pytest.mark.parametrize(
    "before, said, work",
    [
        ("is the wire ready to come off", "took it off", "unwire"),
        ("is the wire ready to be removed", "took it off", "unwire"),
        ("checked the wire", "took it off", "unwire"),
        ("looked at the wire on the left branch", "cut it off", "unwire"),
        ("what wire is on it", "took it off", "unwire"),
        ("checked the guy", "took it off", "remove-guy"),
    ],
)
def test_it_is_the_thing_that_was_named(demo, before, said, work):
    *_, answer = talk(demo, "2026-07-18", before, said, tree="Old Salt")
    assert done(answer) == [("Old Salt", [work])]


@pytest.mark.parametrize("said", ["is the wire ready to come off", "is the wire ready to be removed"])
def test_the_thing_asked_about_tells_the_work(demo, said):
    (answer,) = talk(demo, "2026-07-18", said, tree="Old Salt")
    assert [work.work for work in answer.reading.work] == ["unwire"]
    assert not answer.reading.missed and not answer.logged


def test_the_thing_named_in_the_same_breath(demo):
    (answer,) = talk(demo, "2026-07-18", "checked the wire, took it off", tree="Old Salt")
    assert done(answer) == [("Old Salt", ["check", "unwire"])]


# ---- questions are no work


@pytest.mark.parametrize(
    "said, topic, work",
    [
        ("what about half bare rooting it", "may", "repot"),
        ("how about half defoliating it", "may", None),
        ("why did you say wait", "why", "wait"),
        ("why did it say wait", "why", "wait"),
        ("why did you say leave it alone", "why", "leave"),
    ],
)
def test_what_stands_behind_a_question_is_asked(demo, said, topic, work):
    first, answer = talk(demo, "2027-04-10", "can I repot it this year", said, tree="Crag")
    assert not first.logged and not answer.logged and answer.reading.topic == topic
    assert work is None or [one.work for one in answer.reading.work] == [work]


def test_the_share_asked_about_is_kept(demo):
    (answer,) = talk(demo, "2027-04-10", "what about half bare rooting it", tree="Crag")
    assert [dict(work.measures) for work in answer.reading.work] == [{"share": 0.5}]


@pytest.mark.parametrize("said", ["moss is covering the soil", "moss is covering the soil, take it off?"])
def test_what_a_thing_does_is_no_work_of_the_grower(demo, said):
    (answer,) = talk(demo, "2026-06-27", said, tree="Gatepost")
    assert not answer.logged and "shelter" not in [work.work for work in answer.reading.work]


@pytest.mark.parametrize("said", ["and the elm's", "and the elm", "and the elm?", "and Minnow's"])
@pytest.mark.parametrize("asked", ["what's the height to trunk ratio", "what's a good mix"])
def test_a_question_without_an_answer_is_what_goes_on(demo, asked, said):
    *_, answer = talk(demo, "2026-06-20", "removed a 12 mm branch on the beech", asked, said)
    assert not answer.logged and answer.reading.acts == ("ask",)


@pytest.mark.parametrize("said", ["and the elm?", "and the elm's", "and Minnow?", "and on the elm?"])
def test_the_work_told_last_is_asked_of_another_tree(demo, said):
    _, answer = talk(demo, "2026-06-20", "fed the beech", said)
    assert not answer.logged and answer.tree == "Minnow"
    assert [work.work for work in answer.reading.work] == ["feed"]


@pytest.mark.parametrize("said", ["and the elm", "and Minnow", "and the elm too"])
def test_the_work_told_last_was_done_on_another_tree(demo, said):
    _, answer = talk(demo, "2026-06-20", "fed the beech", said)
    assert done(answer) == [("Minnow", ["feed"])]


# ---- one tree in another's stead


@pytest.mark.parametrize(
    "said",
    [
        "wait, wasn't Ratchet, it was Gatepost",
        "no, it wasn't Ratchet, it was Gatepost",
        "sorry, not Ratchet, Gatepost",
        "it was Gatepost, not Ratchet",
        "hang on, that wasn't the hornbeam, it was the maple",
        "no, it was Gatepost",
    ],
)
def test_the_work_moves_to_the_tree_that_was_meant(demo, said):
    talk(demo, "2027-03-20", "repotted it today", said, tree="Ratchet")
    assert standing(demo, "Ratchet", "2027-03-20") == []
    assert standing(demo, "Gatepost", "2027-03-20") == ["repot"]


@pytest.mark.parametrize(
    "said",
    [
        "wait, not the elm, the beech",
        "the beech, not the elm",
        "no, not Minnow, Parchment",
        "it wasn't the elm, it was the beech",
    ],
)
def test_one_of_several_moves_and_the_others_stay(demo, said):
    talk(demo, "2026-06-20", "fed the elm and the hornbeam", said)
    names = ("Minnow", "Parchment", "Ratchet")
    assert [standing(demo, name, "2026-06-20") for name in names] == [[], ["feed"], ["feed"]]


def test_what_was_said_of_that_tree_alone_moves(demo):
    talk(demo, "2026-06-20", "fed the elm, watered the hornbeam", "not the elm, the beech")
    names = ("Minnow", "Parchment", "Ratchet")
    assert [standing(demo, name, "2026-06-20") for name in names] == [[], ["feed"], ["water"]]


def test_a_tree_that_nothing_was_put_down_for_is_asked_about(demo):
    _, answer = talk(demo, "2026-06-20", "fed the hornbeam", "not the elm, the beech")
    assert answer.asks and not answer.logged
    assert standing(demo, "Ratchet", "2026-06-20") == ["feed"] and standing(demo, "Parchment", "2026-06-20") == []


def test_a_tree_denied_alone_is_asked_about(demo):
    _, answer = talk(demo, "2027-03-20", "repotted it today", "wait, it wasn't Ratchet", tree="Ratchet")
    assert answer.asks and not answer.logged


# ---- told as done, and still to come


@pytest.mark.parametrize(
    "said",
    [
        "actually I haven't done it yet",
        "I haven't done it yet",
        "not done yet",
        "sorry, I didn't do it",
        "haven't done that yet",
        "haven't repotted it yet",
    ],
)
def test_what_was_not_done_is_taken_out(demo, said):
    _, answer = talk(demo, "2026-06-20", "repotted the ficus", said)
    assert standing(demo, "Harbour", "2026-06-20") == [] and not done(answer)


@pytest.mark.parametrize(
    "said",
    [
        "actually I haven't done it yet, it's for tomorrow",
        "I haven't done it yet, I'll do it tomorrow",
        "no, I'll do it tomorrow",
        "sorry, not done yet, that's planned for tomorrow",
    ],
)
def test_what_is_still_to_come_is_a_plan(demo, said):
    _, answer = talk(demo, "2026-06-20", "repotted the ficus", said)
    assert standing(demo, "Harbour", "2026-06-20") == []
    plans = [(entry.kind, entry.when, [work["work"] for work in entry.work]) for entry in answer.logged]
    assert ("plan", "2026-06-21", ["repot"]) in plans and not done(answer)


@pytest.mark.parametrize("said", ["I'll do it again tomorrow", "I'll feed it tomorrow", "tomorrow the elm"])
def test_what_is_done_stays_where_more_is_to_come(demo, said):
    talk(demo, "2026-06-20", "repotted the ficus", said)
    assert standing(demo, "Harbour", "2026-06-20") == ["repot"]


# ---- narrower and later words


@pytest.mark.parametrize("said", ["only on the right side", "sorry, only the right side", "just on the right"])
def test_the_work_was_at_one_place_alone(demo, said):
    _, answer = talk(demo, "2026-06-20", "shortened the shoots to two leaves", said, tree="Ratchet")
    (entry,) = [entry for entry in answer.logged if entry.kind == "done"]
    assert [(work["work"], work["side"], work["leaves"]) for work in entry.work] == [("shorten", "right", 2)]
    assert standing(demo, "Ratchet", "2026-06-20") == ["shorten"]


@pytest.mark.parametrize("said", ["and it was yesterday", "it was yesterday", "actually yesterday", "sorry, yesterday"])
def test_the_work_was_on_another_day(demo, said):
    talk(demo, "2026-06-20", "shortened the shoots to two leaves", said, tree="Ratchet")
    assert standing(demo, "Ratchet", "2026-06-20") == []
    assert standing(demo, "Ratchet", "2026-06-19") == ["shorten"]


@pytest.mark.parametrize("said", ["sorry 66", "no, 66", "no, 66 mm", "actually 66"])
def test_another_number_in_its_stead(demo, said):
    _, answer = talk(demo, "2026-06-20", "the trunk is 67 mm", said, tree="Ratchet")
    assert [dict(entry.measures) for entry in answer.logged if entry.kind == "seen"] == [{"diameter_mm": 66}]
    assert any("Taken back" in line for line in (*answer.aside, *answer.says))


@pytest.mark.parametrize("said", ["actually in february", "no, in february", "sorry, february"])
def test_another_time_for_what_is_planned(demo, said):
    _, answer = talk(demo, "2026-06-20", "I'll take the lower left branch off in autumn", said, tree="Gatepost")
    assert [entry.when for entry in answer.logged if entry.kind == "plan"] == ["2027-02"]


@pytest.mark.parametrize("said", ["no wait, left the top ones", "no, I left the top ones"])
def test_what_was_spared_leaves_the_work_standing(demo, said):
    talk(demo, "2026-05-30", "cut all the shoots back to two leaves", said, tree="Minnow")
    assert standing(demo, "Minnow", "2026-05-30") == ["shorten"]


# ---- after work on several trees


@pytest.mark.parametrize(
    "said, work",
    [
        ("took off a third of the roots on each", "root-prune"),
        ("took a third of the roots off both", "root-prune"),
        ("fed them both", "feed"),
        ("shaded both of them", "shade"),
    ],
)
def test_each_is_each_of_the_trees_before(demo, said, work):
    _, answer = talk(demo, "2027-03-28", "maple and hornbeam repotted today", said)
    assert done(answer) == [("Gatepost", [work]), ("Ratchet", [work])]


def test_each_of_them_is_asked_about(demo):
    _, answer = talk(demo, "2027-03-28", "maple and hornbeam repotted today", "can I feed both of them")
    assert not answer.logged and not answer.asks


@pytest.mark.parametrize(
    "said, work",
    [
        ("no sorry not the hornbeam, that one was just slip potted", "slip-pot"),
        ("no, not Ratchet, I slip potted that one", "slip-pot"),
        ("not the hornbeam, I only watered it", "water"),
    ],
)
def test_on_one_of_them_something_else_was_done(demo, said, work):
    talk(demo, "2027-03-28", "maple and hornbeam repotted today", said)
    assert standing(demo, "Gatepost", "2027-03-28") == ["repot"]
    assert standing(demo, "Ratchet", "2027-03-28") == [work]


# ---- a figure asked further


def test_a_dose_goes_on_with_its_strength_and_its_water(demo):
    asked = "how much fertiliser for 5 litres, the bottle says 3 ml per litre"
    answers = talk(demo, "2026-06-20", asked, "half strength", "and for 8 litres", tree="Ratchet")
    assert not any(answer.logged for answer in answers)
    assert [answer.reading.figure for answer in answers] == ["feed-dose"] * 3


def test_what_soil_is_bought_for_was_not_seen(demo):
    (answer,) = talk(demo, "2027-01-15", "ordering soil for three repots, the maple and the elm, how much do I need")
    assert not answer.logged
