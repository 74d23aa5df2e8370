"""Questions back on the last work, a new question behind a figure's form, and a line that narrows or moves the last."""

import datetime as dt

import pytest

from benchmate.talk.bench import Bench
from benchmate.talk.house import House


def talk(demo, day, *statements, tree="Gatepost"):
    bench = Bench(House(demo), dt.date.fromisoformat(day), tree=tree)
    return [bench.answer(statement) for statement in statements]


def standing(demo, name, day):
    """(work, share) that stand in the record as done on that day."""
    house = House(demo)
    entries = house.entries(house.garden.find(name))
    struck = {entry.strikes for entry in entries if entry.strikes}
    mine = [one for one in entries if one.id not in struck and one.kind == "done" and one.day.isoformat() == day]
    return [(work["work"], work.get("share")) for entry in mine for work in entry.work]


# ---- was it right, may it be


@pytest.mark.parametrize("said", ["was that ok", "was that right?", "did I do that right"])
def test_what_nothing_stood_against_was_right(demo, said):
    _, answer = talk(demo, "2026-06-20", "fed it", said)
    assert answer.says[0] == "Yes: nothing known stood against it on 20 June" and not answer.logged


def test_the_weather_that_is_named_counts(demo):
    _, answer = talk(demo, "2026-06-20", "sprayed it with oil this morning", "was that ok in this heat", tree="Crag")
    assert answer.says[0].startswith("No: in a hot spell")


@pytest.mark.parametrize("said", ["fed it, was that right?", "fed it, was that ok"])
def test_asked_in_the_same_breath_the_work_is_weighed(demo, said):
    (answer,) = talk(demo, "2026-06-20", said)
    assert [entry.kind for entry in answer.logged] == ["done"] and not answer.says and answer.advice.options


def test_without_work_before_it_is_no_look_back(demo):
    (answer,) = talk(demo, "2026-06-20", "was that ok")
    assert not answer.logged and not answer.says[0].startswith(("Yes", "No"))


@pytest.mark.parametrize(
    "said, work",
    [
        ("is it too cold to prune it today", "shorten"),
        ("is it too cold to wire it, frost all day", "wire"),
        ("is it too hot to repot it", "repot"),
        ("is it still too wet to repot it", "repot"),
    ],
)
def test_too_cold_for_work_is_weighed(demo, said, work):
    (answer,) = talk(demo, "2026-12-05", said)
    assert answer.reading.topic == "may" and [one.work for one in answer.reading.work] == [work]


def test_what_was_done_before_is_told_to_ask_by(demo):
    (answer,) = talk(demo, "2026-06-20", "can I feed a tree I repotted in march", tree="Minnow")
    assert answer.reading.topic == "may" and not answer.logged
    assert [(fact.value, fact.when) for fact in answer.reading.facts] == [("repot", "2026-03")]


@pytest.mark.parametrize("said", ["did I feed it", "when did I repot it"])
def test_the_record_is_still_asked(demo, said):
    (answer,) = talk(demo, "2026-06-20", said, tree="Minnow")
    assert answer.reading.topic == "recall"


# ---- a figure's form


@pytest.mark.parametrize("said", ["will it bleed", "too early?", "is it too early to prune it", "can I feed it"])
def test_a_new_question_ends_the_form(demo, said):
    _, answer = talk(demo, "2026-06-20", "how much feed for 5 litres", said)
    assert answer.reading.topic != "figure"


@pytest.mark.parametrize("said", ["20-20-20", "what about 8 litres", "is it less at half strength"])
def test_what_it_asked_for_goes_on_with_it(demo, said):
    _, answer = talk(demo, "2026-06-20", "how much feed for 5 litres", said)
    assert answer.reading.figure == "feed-dose"


# ---- the same tree, the same work


@pytest.mark.parametrize("said", ["how long before the next", "how long until the next one", "when is the next one"])
def test_the_next_is_the_next_time(demo, said):
    _, answer = talk(demo, "2026-06-27", "cut the shoots to two", said)
    assert answer.tree == "Gatepost" and answer.reading.topic == "when"
    assert [work.work for work in answer.reading.work] == ["shorten"]


@pytest.mark.parametrize("said", ["next", "ok next", "next tree"])
def test_next_alone_turns_to_the_next_tree(demo, said):
    _, answer = talk(demo, "2026-06-27", "cut the shoots to two", said)
    assert answer.tree == "Harbour"


def test_the_same_is_asked_for_another_time(demo):
    _, answer = talk(demo, "2026-06-27", "cut the shoots to two", "can I do the same in august")
    assert (answer.tree, answer.reading.topic, answer.reading.when) == ("Gatepost", "may", "2026-08")
    assert not answer.logged


@pytest.mark.parametrize(
    "said", ["moved it out of the box into a training pot", "leave it in the box till spring", "it's in the big box"]
)
def test_a_box_that_holds_a_tree_is_no_buxus(demo, said):
    (answer,) = talk(demo, "2027-02-20", said, tree="Bristle")
    assert not any(fact.kind == "species" for fact in answer.reading.facts)


@pytest.mark.parametrize("said", ["fed the box", "scale in the box", "the box is weak"])
def test_a_box_that_is_a_tree_stays_one(demo, said):
    (answer,) = talk(demo, "2027-02-20", said, tree="Bristle")
    assert [fact.value for fact in answer.reading.facts if fact.kind == "species"] == ["Buxus"]


# ---- moved, narrowed


@pytest.mark.parametrize(
    "said",
    [
        "it was the hornbeam I fed, not this one",
        "it was the hornbeam I fed",
        "that was the hornbeam, not this one",
        "not this one, the hornbeam",
    ],
)
def test_the_work_moves_to_the_tree_that_is_named(demo, said):
    talk(demo, "2026-06-20", "fed it", said)
    assert standing(demo, "Gatepost", "2026-06-20") == []
    assert standing(demo, "Ratchet", "2026-06-20") == [("feed", None)]


@pytest.mark.parametrize("said", ["fed the hornbeam", "watered the hornbeam, not this one", "it was dry"])
def test_other_work_moves_nothing(demo, said):
    talk(demo, "2026-06-20", "fed it", said)
    assert standing(demo, "Gatepost", "2026-06-20") == [("feed", None)]


def test_what_is_left_out_a_line_later_is_left(demo):
    said = "shortened everything to two leaves"
    _, answer = talk(demo, "2026-06-20", said, "except the bottom two branches", tree="Ratchet")
    assert [entry.kind for entry in answer.logged] == ["struck", "done", "left"]


@pytest.mark.parametrize("said, share", [("by half", 0.5), ("a third", 0.3333)])
def test_a_share_alone_is_of_the_cut_before(demo, said, share):
    talk(demo, "2026-06-20", "cut back the top only", said, tree="Ratchet")
    assert standing(demo, "Ratchet", "2026-06-20") == [("shorten", share)]


@pytest.mark.parametrize("said", ["by half", "except the elm"])
def test_what_does_not_bear_on_it_leaves_it(demo, said):
    talk(demo, "2026-06-20", "fed it", said, tree="Ratchet")
    assert standing(demo, "Ratchet", "2026-06-20") == [("feed", None)]


# ---- behind work


@pytest.mark.parametrize(
    "said, topic",
    [
        ("how soon after repotting can I wire it", "when"),
        ("how long after repotting can I feed it", "when"),
        ("after repotting can I wire it", "may"),
    ],
)
def test_work_to_ask_by_is_not_seen(demo, said, topic):
    (answer,) = talk(demo, "2026-03-20", said)
    assert not answer.logged and answer.reading.topic == topic and not answer.reading.missed


def test_weak_since_work_is_seen(demo):
    (answer,) = talk(demo, "2026-06-20", "it's weak after repotting")
    assert [entry.kind for entry in answer.logged] == ["seen"]


def test_how_much_of_the_tree_is_no_feed(demo):
    _, answer = talk(demo, "2026-06-20", "sawed off the back branch, 18 mm", "how much of the tree is that")
    assert answer.reading.figure == "leaf-share"
