"""Words that only what was said before gives a meaning: what "done" says was done, which option is taken and for when,
what "that" is too soon after, where "the one above it" is, which work a place puts right, and what was just logged."""

import datetime as dt

import pytest

from benchmate.talk.bench import Bench
from benchmate.talk.house import House
from benchmate.talk.plain_loop import tell_answer
from benchmate.talk.screen import Screen


@pytest.fixture
def talk(demo):
    """The answers to statements, in a talk of 14 June with that tree at hand."""

    def answers(tree, *statements):
        bench = Bench(House(demo), dt.date(2026, 6, 14), tree=tree)
        return [bench.answer(words) for words in statements]

    return answers


def entered(answer):
    """(kind, works, day) of what was put down."""
    return [(entry.kind, [work["work"] for work in entry.work], entry.day.isoformat()) for entry in answer.logged]


TODAY, YESTERDAY = "2026-06-14", "2026-06-13"


@pytest.mark.parametrize(
    "tree, said, works, day",
    [
        ("Gatepost", ["can I wire it", "can I feed it", "did both"], ["wire", "feed"], TODAY),
        ("Gatepost", ["can I wire it", "may I feed it", "done both yesterday"], ["wire", "feed"], YESTERDAY),
        ("Gatepost", ["can I shorten the shoots and feed it", "did both yesterday"], ["shorten", "feed"], YESTERDAY),
        (
            "Ratchet",
            ["can I wire the low right branch", "when does it come off", "did it yesterday"],
            ["wire"],
            YESTERDAY,
        ),
        ("Ratchet", ["how about wiring the left branch", "how long does it stay on", "done"], ["wire"], TODAY),
        ("Ratchet", ["can I wire the left branch", "when do I look again", "did it today"], ["wire"], TODAY),
        ("Gatepost", ["what now", "ok take the first, did it just now"], ["wire"], TODAY),
        ("Ratchet", ["what now", "done the first yesterday"], ["shorten"], YESTERDAY),
        ("Ratchet", ["what now", "did the second one"], ["feed"], TODAY),
        ("Gatepost", ["what's due on Gatepost", "done the first"], ["feed"], TODAY),
    ],
)
def test_what_was_done_is_the_work_that_was_asked_about(talk, tree, said, works, day):
    assert entered(talk(tree, *said)[-1]) == [("done", works, day)]


@pytest.mark.parametrize(
    "tree, said",
    [
        ("Minnow", ["could it be the repotting", "so what do I do first", "done"]),
        ("Parchment", ["when did I last repot it", "can I do the same to the palm", "done"]),
        ("Ratchet", ["wired the low left branch", "same with that one"]),
        ("Ratchet", ["wired the low left branch", "same with that branch"]),
        ("Ratchet", ["can I wire it", "what about the one above it"]),
        ("Ratchet", ["wired the low right branch", "same again on the other side"]),
        ("Gatepost", ["what now", "what's due", "take the first"]),
    ],
)
def test_where_nothing_is_clear_nothing_is_logged(talk, tree, said):
    answer = talk(tree, *said)[-1]
    assert not answer.logged and (answer.asks or answer.says or "ask" in answer.reading.acts)


@pytest.mark.parametrize(
    "said, kind, work, when",
    [
        ("the first one in autumn", "plan", "shorten", "2026-autumn"),
        ("ok the second then, but next spring", "plan", "feed", "2027-spring"),
        ("take the first next week", "plan", "shorten", "2026-06-21"),
        ("number two, but not today", "plan", "feed", None),
        ("the second", "done", "feed", None),
        ("the third then, until autumn", "left", "leave", "2026-autumn"),
    ],
)
def test_an_option_is_taken_for_the_time_that_is_named(talk, said, kind, work, when):
    (entry,) = talk("Ratchet", "what now", said)[-1].logged
    assert (entry.kind, entry.work[0]["work"], entry.when) == (kind, work, when)


def test_the_time_of_an_option_is_put_right(talk):
    *_, last = talk("Ratchet", "what now", "the second then, but next spring", "no, I meant autumn")
    assert [(entry.kind, entry.when) for entry in last.logged if entry.kind == "plan"] == [("plan", "2026-autumn")]


@pytest.mark.parametrize("words", ["the second but I won't get to it today", "take the first, though not by me"])
def test_words_that_may_put_an_option_off_are_asked_about(talk, words):
    answer = talk("Ratchet", "what now", f"let's go with {words}" if words.startswith("the") else words)[-1]
    assert answer.confirm and not answer.logged


def test_the_first_one_may_be_a_branch(talk):
    *_, answer = talk("Ratchet", "can I wire the second branch", "did the first one")
    assert answer.logged[0].work[0]["ordinal"] == 1


@pytest.mark.parametrize(
    "words, work",
    [
        ("could it be the repotting", "repot"),
        ("is it because I repotted it", "repot"),
        ("might it be the feed", "feed"),
        ("could the yellow leaves come from the repot", "repot"),
        ("are the leaves dropping because I moved it into the shade", "shade"),
        ("was the wilting caused by root pruning", "root-prune"),
        ("is that down to the wiring?", "wire"),
        ("might the feed have burnt it", "feed"),
        ("did the wiring do that", "wire"),
        ("is that from the repot", "repot"),
    ],
)
def test_a_work_named_as_a_cause_is_looked_up(talk, words, work):
    (answer,) = talk("Minnow", words)
    assert answer.reading.topic == "recall" and [one.work for one in answer.reading.work] == [work]
    assert not answer.logged


@pytest.mark.parametrize(
    "words",
    [
        "could the tree have a feed",
        "could it be repotted",
        "could I wire it because it is soft now",
        "can I feed it because it is strong",
    ],
)
def test_work_that_may_be_done_is_no_cause(talk, words):
    assert talk("Minnow", words)[0].reading.topic == "may"


def test_what_is_seen_beside_a_question_to_the_record_is_kept(talk):
    (answer,) = talk("Minnow", "leaves are yellow, could it be the repotting")
    assert [(entry.kind, entry.facts[0]["value"]) for entry in answer.logged] == [("seen", "yellow-leaves")]


@pytest.mark.parametrize(
    "said, work, tree, place",
    [
        (["can I repot it", "is that too soon"], "repot", None, {}),
        (["can I repot it", "hmm, is that too soon after the defoliation"], "repot", None, {}),
        (["can I repot it", "isn't that too late"], "repot", None, {}),
        (["can I wire the lowest branch", "what about the one above it"], "wire", None, {"ordinal": 2}),
        (["can I wire the second branch", "and the next one down?"], "wire", None, {"ordinal": 1}),
        (["can I pinch it", "can I do the same to Ratchet"], "pinch", "Ratchet", {}),
        (["can I wire it", "does that go for Crag too"], "wire", "Crag", {}),
        (["can I shorten the shoots to two leaves", "what if I leave four"], "shorten", None, {"leaves": 4}),
    ],
)
def test_the_question_goes_on_with_the_same_work(talk, said, work, tree, place):
    answer = talk("Gatepost", *said)[-1]
    (asked,) = answer.reading.work
    assert (answer.reading.acts, asked.work, asked.done) == (("ask",), work, None) and not answer.logged
    assert place.items() <= {**asked.spot.as_json(), **asked.measures}.items()
    assert answer.tree == (tree or "Gatepost")


def test_the_same_work_is_asked_of_a_kind(talk):
    answer = talk("Gatepost", "can I repot it", "can I do the same to the hornbeam")[-1]
    assert answer.tree == "Ratchet" and answer.reading.work[0].work == "repot"


@pytest.mark.parametrize(
    "words", ["and the one above it too", "wired the one above it", "wired the next one up as well"]
)
def test_work_at_the_next_place_up(talk, words):
    answer = talk("Gatepost", "wired the lowest branch", words)[-1]
    assert answer.logged[0].work[0]["ordinal"] == 2


def test_the_one_above_what_is_not_counted_is_asked_for(talk):
    answer = talk("Gatepost", "wired the left branch", "wired the one above it")[-1]
    assert answer.asks and not answer.logged


@pytest.mark.parametrize("words", ["what about the hornbeam", "how about Crag"])
def test_what_about_another_tree_is_a_question(talk, words):
    assert not talk("Ratchet", "watered it", words)[-1].logged


@pytest.mark.parametrize(
    "said",
    [["can I wire the low left branch", "when does it come off"], ["can I shorten the shoots", "when do I look again"]],
)
def test_what_follows_on_work_that_is_not_done_is_counted_from_today(talk, said):
    answer = talk("Ratchet", *said)[-1]
    assert answer.says[0].startswith("Once you have ") and not answer.logged


@pytest.mark.parametrize(
    "said, work",
    [
        (["thinned the shoots", "and fed it", "no, only the left"], "remove"),
        (["pinched the shoots on the right", "watered it", "no, the left ones"], "pinch"),
        (["wired the right branch", "watered it", "no, the left one"], "wire"),
    ],
)
def test_a_place_puts_right_the_work_that_has_one(talk, said, work):
    *_, answer = talk("Ratchet", *said)
    assert [one.work[0]["side"] for one in answer.logged if one.kind == "done"] == ["left"]
    assert [entry for entry in entered(answer) if entry[0] == "done"] == [("done", [work], TODAY)]


@pytest.mark.parametrize("words", ["what did I just log", "what's on record for today", "today's entries"])
def test_what_was_just_logged(talk, words):
    answer = talk("Gatepost", "wired the low left branch", words)[-1]
    assert "wired the low left branch" in tell_answer(answer, Screen()) and not answer.logged


def test_nothing_was_logged(talk):
    assert "Nothing of today" in tell_answer(talk("Gatepost", "what did I just log")[0], Screen())


@pytest.mark.parametrize(
    "seen, words, place",
    [
        ("dead twigs", "removed them", {"part": "twig"}),
        ("three crossing branches", "cut them off", {"part": "branch", "count": 3}),
        ("suckers from the base", "removed them", {"part": "shoot"}),
    ],
)
def test_them_is_what_was_seen(talk, seen, words, place):
    (entry,) = talk("Ratchet", seen, words)[-1].logged
    assert place.items() <= dict(entry.work[0]).items()


@pytest.mark.parametrize(
    "words", ["want to collect a beech from my brother's hedge", "thinking of digging up a beech next spring"]
)
def test_a_tree_that_is_to_be_dug_is_none_of_the_garden(talk, words):
    assert not talk("Parchment", words)[0].logged


@pytest.mark.parametrize(
    "words", ["hello", "thanks", "cheers", "let me work on Gatepost", "show me everything about Crag"]
)
def test_words_that_tell_nothing_of_a_tree(talk, words):
    answer = talk("Ratchet", words)[0]
    assert not answer.logged and "not understood" not in tell_answer(answer, Screen())


def test_an_order_lapses_where_something_else_is_said(talk):
    *_, other, late = talk("Ratchet", "repot it", "what now", "yes")
    assert not late.logged and not other.logged


def test_what_is_due_on_another_tree_is_done_there(talk):
    *_, answer = talk("Gatepost", "what's due", "done the first")
    assert answer.logged_for == ("Ratchet",) and [entry.work[0]["work"] for entry in answer.logged] == ["feed"]


def test_an_option_that_was_not_asked_about_is_put_to_the_grower(talk):
    *_, answer = talk("Gatepost", "may I take the leaves off or halve them", "take the third")
    assert answer.confirm and not answer.logged


@pytest.mark.parametrize(
    "told, asked, value",
    [
        ("the cut was 12 mm", "how long till that closes", 0.686),
        ("the low right branch is 7 mm thick", "what wire does it need", 2.33),
        ("the trunk is 60 mm", "how much wire do I need", None),
    ],
)
def test_a_figure_of_what_was_just_measured(talk, told, asked, value):
    *_, answer = talk("Gatepost", told, asked)
    figures = answer.advice.figures if answer.advice else ()
    assert [round(one.value, len(str(value).partition(".")[2])) for one in figures] == ([value] if value else [])
    assert value or answer.all_asks


@pytest.mark.parametrize(
    "said, kind, work, when",
    [
        (["can I repot it", "not yet, next march"], "plan", "repot", "2027-03"),
        (["is it time to take the wire off", "no, not this week, on Sunday"], "plan", "unwire", "2026-06-21"),
    ],
)
def test_not_yet_but_then_is_a_plan(talk, said, kind, work, when):
    (entry,) = talk("Gatepost", *said)[-1].logged
    assert (entry.kind, entry.work[0]["work"], entry.when) == (kind, work, when)


@pytest.mark.parametrize(
    "said, told",
    [
        (["can I wire the left branch", "and then"], "Once you have wired the left branch"),
        (["wired the left branch", "then what"], "Next check"),
        (["two leaders, the left is 14 mm, the right 9, which one", "why not the other"], "Keep the right leader"),
        (["two competing leaders, what now", "why not the other"], "Which other is meant"),
    ],
)
def test_what_comes_next_and_what_the_other_is(talk, said, told):
    answer = talk("Gatepost", *said)[-1]
    assert told in tell_answer(answer, Screen()) and not answer.logged


@pytest.mark.parametrize("words", ["the first of July then", "the second week in July", "first thing tomorrow"])
def test_a_day_is_no_number_of_an_option(talk, words):
    assert not talk("Ratchet", "what now", words)[-1].logged


@pytest.mark.parametrize(
    "told, words, work, side",
    [
        ("two tops, left 14 mm, right 9 mm, which goes", "keep the thinner one", "select-leader", "right"),
        ("two tops, left 14 mm, right 9 mm, which goes", "keep the thicker", "select-leader", "left"),
        ("two branches cross, left one is 6 mm, right one 9 mm", "cut the thicker off", "remove", "right"),
        (
            "two branches cross, left one is 6 mm, right one 9 mm",
            "removed the thicker branch on the left",
            "remove",
            "left",
        ),
    ],
)
def test_the_one_of_that_size(talk, told, words, work, side):
    (entry,) = talk("Gatepost", told, words)[-1].logged
    assert (entry.kind, entry.work[0]["work"], entry.work[0]["side"]) == ("done", work, side)


def test_which_is_thinner_is_asked_where_none_was_measured(talk):
    answer = talk("Gatepost", "two leaders", "keep the thinner one")[-1]
    assert answer.asks and not answer.logged


def test_its_size_is_that_of_the_branch(talk):
    *_, answer = talk("Gatepost", "can I wire the low right branch", "it's about 7 mm thick")
    ((entry,), fact) = answer.logged, answer.logged[0].facts[0]
    assert not entry.measures and (fact["side"], fact["diameter_mm"]) == ("right", 7)
    *_, answer = talk("Gatepost", "can I wire the low right branch", "it is 430 mm high")
    assert answer.logged[0].measures == {"height_mm": 430}


@pytest.mark.parametrize(
    "said, kind, work, when",
    [
        (["the second then, but next spring", "no, the first"], "plan", "shorten", "2027-spring"),
        (["the second then, but next spring", "no, the first", "no, the third"], "left", "leave", "2027-spring"),
        (["take the second", "no, the first"], "done", "shorten", None),
    ],
)
def test_another_option_is_taken_for_the_same_time(talk, said, kind, work, when):
    answer = talk("Ratchet", "what now", *said)[-1]
    (entry,) = [one for one in answer.logged if one.kind != "struck"]
    assert (entry.kind, entry.work[0]["work"], entry.when) == (kind, work, when)


@pytest.mark.parametrize("words", ["a third then", "half strength"])
def test_a_share_of_nothing_was_not_seen(talk, words):
    assert not talk("Ratchet", words)[0].logged


@pytest.mark.parametrize(
    "words, seen",
    [
        ("is it because of the frost", []),
        ("leaves are yellow, is it because of the frost", ["yellow-leaves"]),
        ("is that down to aphids", []),
        ("it is weak because of the frost", ["weak", "frost"]),
    ],
)
def test_what_is_suspected_was_not_seen(talk, words, seen):
    (answer,) = talk("Gatepost", words)
    assert [fact["value"] for entry in answer.logged for fact in entry.facts] == seen
    assert seen or answer.reading.missed


@pytest.mark.parametrize(
    "said, words, value",
    [
        ("leaves are yellow", "no not yellow, brown", "scorch"),
        ("leaves are yellow", "sorry, brown, not yellow", "scorch"),
        ("left branch is weak", "dead, not weak", "dead-branch"),
    ],
)
def test_one_word_of_what_was_seen_is_put_right(talk, said, words, value):
    before, answer = talk("Ratchet", said, words)
    kinds = [(entry.kind, [fact["value"] for fact in entry.facts]) for entry in answer.logged]
    assert ("seen", [value]) in kinds and [one.strikes for one in answer.logged if one.strikes] == [before.logged[0].id]


def test_a_place_alone_is_what_is_spoken_of_next(talk):
    *_, answer = talk("Ratchet", "low right branch", "it's about 7 mm thick and 200 mm long")
    assert (answer.logged[0].facts[0]["side"], answer.logged[0].facts[0]["length_mm"]) == ("right", 200)
    first, answer = talk("Ratchet", "the second branch on the left", "wire it")
    assert not first.logged and (answer.logged[0].work[0]["side"], answer.logged[0].work[0]["ordinal"]) == ("left", 2)
