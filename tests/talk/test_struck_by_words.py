"""An entry taken back by what was said of it, and one moved from the wrong tree to the right one."""

import datetime as dt

import pytest

from benchmate.talk.bench import Bench
from benchmate.talk.house import House

DAY = dt.date(2026, 11, 18)


@pytest.fixture
def talk(demo):
    return Bench(House(demo), DAY, tree="Sprint")


def stands(bench, name):
    """(kind, works, findings) of each entry of this talk that still stands on a tree."""
    house = bench.house
    return [
        (one.kind, tuple(table["work"] for table in one.work), tuple(table["value"] for table in one.facts))
        for one in house.lately_standing(house.garden.find(name))
        if one.id in bench.written
    ]


LEFT, WIRED, SEEN = ("left", ("wire",), ()), ("done", ("wire",), ()), ("seen", (), ("aphids",))
FED = ("done", ("feed",), ())


@pytest.mark.parametrize(
    "words, gone",
    [
        ("forget what I said about not wiring", LEFT),
        ("scratch what I told you about not wiring it", LEFT),
        ("what I said about not wiring, forget it", LEFT),
        ("forget I said I won't wire it", LEFT),
        ("disregard the note about not wiring", LEFT),
        ("I take back what I said about not wiring Sprint", LEFT),
        ("sorry, ignore the bit about not wiring", LEFT),
        ("ignore the bit about the aphids", SEEN),
        ("never mind what I said about the aphids", SEEN),
        ("strike my remark about the aphids", SEEN),
        ("forget what I said about feeding it", FED),
        ("delete the entry about the feed", FED),
        ("cancel what I said about the feeding", FED),
    ],
)
def test_the_entry_that_tells_of_it_is_taken_back(talk, words, gone):
    for said in ("won't wire it this winter", "it has aphids", "fed it", "rewired the left branch"):
        talk.answer(said)
    talk.answer(words)
    assert stands(talk, "Sprint") == [one for one in (LEFT, SEEN, FED, WIRED) if one != gone]


@pytest.mark.parametrize("words", ["forget what I said about the moss", "ignore the bit about grafting"])
def test_where_none_tells_of_it_nothing_is_taken_back(talk, words):
    talk.answer("fed it")
    answer = talk.answer(words)
    assert stands(talk, "Sprint") == [FED] and "nothing is taken back" in answer.says[0]


@pytest.mark.parametrize("word, left", [("yes", [LEFT]), ("no", [LEFT, WIRED])])
def test_where_two_tell_of_it_the_newest_is_put_to_the_grower(talk, word, left):
    talk.answer("won't wire it this winter")
    talk.answer("rewired the left branch")
    answer = talk.answer("forget what I said about wiring")
    assert answer.confirm and not answer.logged
    talk.answer(word)
    assert stands(talk, "Sprint") == left


def test_an_entry_of_another_day_is_put_to_the_grower(demo, talk):
    talk.answer("won't wire it this winter")
    later = Bench(House(demo), DAY + dt.timedelta(days=9), tree="Sprint")
    assert later.answer("forget what I said about not wiring").confirm
    assert [one.kind for one in later.answer("yes").logged] == ["struck"]


def test_what_the_entry_tells_beside_it_stays(talk):
    talk.answer("fed it and watered it")
    talk.answer("forget what I said about feeding it")
    assert stands(talk, "Sprint") == [("done", ("water",), ())]


@pytest.mark.parametrize(
    "words",
    [
        "oops, wrong tree, that was Gatepost",
        "wrong tree, I meant Gatepost",
        "wrong one, it was Gatepost",
        "got the wrong tree, it was the field maple",
        "no wait, that was Gatepost I fed",
        "put that on Gatepost instead",
        "move that to the maple",
        "that belongs to Gatepost",
        "sorry, that goes under Gatepost",
        "oh sorry I was looking at Gatepost",
        "mixed up the trees, that was Gatepost",
        "that was Gatepost, wrong tree, sorry",
    ],
)
def test_work_on_the_wrong_tree_is_moved_to_the_right_one(talk, words):
    talk.answer("fed it")
    talk.answer(words)
    assert (stands(talk, "Sprint"), stands(talk, "Gatepost")) == ([], [FED])


@pytest.mark.parametrize("words", ["wrong tree", "oops, the wrong tree"])
def test_the_wrong_tree_alone_is_asked_about(talk, words):
    talk.answer("fed it")
    answer = talk.answer(words)
    assert answer.asks and not answer.logged and stands(talk, "Sprint") == [FED]
    talk.answer("that was Gatepost")
    assert (stands(talk, "Sprint"), stands(talk, "Gatepost")) == ([], [FED])


@pytest.mark.parametrize("words", ["put wire on Gatepost", "I had Gatepost inside last night"])
def test_other_work_on_another_tree_moves_nothing(talk, words):
    talk.answer("fed it")
    talk.answer(words)
    assert stands(talk, "Sprint") == [FED]


@pytest.mark.parametrize(
    "words",
    [
        "new bud under the wound, rub it off?",
        "bud facing down, rub it off or keep it",
        "a shoot on the trunk, rub it off?",
        "take the bud off, rub it off?",
        "scrap that branch?",
        "strike it off the list?",
        "strike that branch from the plan",
        "there is a weak shoot at the back, scrap it?",
        "third branch is useless, bin it?",
    ],
)
@pytest.mark.parametrize("talking", [True, False])
def test_what_does_away_with_a_thing_takes_no_entry_back(demo, words, talking):
    Bench(House(demo), DAY, tree="Sprint").answer("fed it")
    bench = Bench(House(demo), DAY, tree="Sprint", talking=talking)
    answer = bench.answer(words)
    assert not any(entry.kind == "struck" for entry in answer.logged)
    assert stands(Bench(House(demo), DAY), "Sprint") == [] and not any("ake" in says for says in answer.says)


@pytest.mark.parametrize("words", ["undo that?", "scratch that?", "delete the last entry?"])
def test_what_takes_back_and_asks_is_put_to_the_grower(talk, words):
    talk.answer("fed it")
    answer = talk.answer(words)
    assert answer.confirm and stands(talk, "Sprint") == [FED]
    talk.answer("yes")
    assert stands(talk, "Sprint") == []


@pytest.mark.parametrize("words", ["scratch that", "scratch that, silly me", "could you undo that?", "no, scrap that"])
def test_a_whole_statement_takes_back_at_once(talk, words):
    talk.answer("fed it")
    assert not talk.answer(words).confirm and stands(talk, "Sprint") == []


def test_a_dry_talk_tells_what_it_would_take_back(demo):
    Bench(House(demo), DAY, tree="Sprint").answer("fed it")
    answer = Bench(House(demo), DAY, tree="Sprint", dry=True, talking=False).answer("scratch that")
    assert answer.says[0].startswith("Would take back for Sprint: done: fed it")
