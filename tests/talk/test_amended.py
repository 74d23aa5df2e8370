"""Short words that only what was said last gives a meaning: put right, added to, taken back."""

import pytest


def done(bench, before, kind="done"):
    """The works of what was written on Gatepost since and still stands."""
    entries = bench.house.lately_standing(bench.here)
    return [dict(work) for entry in entries if entry.id not in before and entry.kind == kind for work in entry.work]


@pytest.fixture
def say(bench):
    before = {entry.id for entry in bench.house.lately_standing(bench.here)}

    def said(*statements, kind="done"):
        for words in statements:
            bench.answer(words)
        return done(bench, before, kind)

    return said


@pytest.mark.parametrize(
    "first, fix, key, value",
    [
        ("took a third off the roots", "a quarter, not a third", "share", 0.25),
        ("took a third off the roots", "it was a quarter not a third", "share", 0.25),
        ("took a third off the roots", "not a third, a quarter", "share", 0.25),
        ("took a third off the roots", "oops, by a quarter not a third", "share", 0.25),
        ("took a third off the roots", "actually a quarter", "share", 0.25),
        ("shortened the left branch to three leaves", "two leaves, not three", "leaves", 2),
        ("shortened the left branch to three leaves", "two, not three leaves", "leaves", 2),
        ("wired the left branch", "the right, not the left", "side", "right"),
        ("wired the left branch", "it was the right one, not the left", "side", "right"),
    ],
)
def test_what_is_denied_was_said_last_and_the_rest_is_meant(say, first, fix, key, value):
    (work,) = say(first, fix)
    assert work[key] == value


@pytest.mark.parametrize("fix", ["a quarter, not a half", "the front, not the back"])
def test_a_denial_of_what_was_not_said_corrects_nothing(say, fix):
    (work,) = say("wired the left branch", fix)
    assert work == {"work": "wire", "part": "branch", "side": "left"}


@pytest.mark.parametrize("more", ["oh and the right branch", "and the right one", "also the right branch"])
def test_a_further_place_is_worked_too(say, more):
    assert [work["side"] for work in say("wired the left branch", more)] == ["left", "right"]


def test_a_further_place_behind_a_question_is_asked_about(bench, say):
    assert say("can I wire the left branch", "and the right branch") == []
    (work,) = bench.context.reading.work
    assert bench.context.reading.topic == "may" and work.spot.side == "right"


@pytest.mark.parametrize(
    "words", ["forget the left one, I didn't do that", "strike the left branch", "undo the left one"]
)
@pytest.mark.parametrize(
    "first",
    [
        ("wired the left branch", "oh and the right branch"),
        ("wired the left branch and pinched the right branch",),
        ("wired the left branch", "wired the right branch"),
    ],
)
def test_what_was_done_at_a_place_is_taken_back_alone(say, first, words):
    assert [work["side"] for work in say(*first, words)] == ["right"]


def test_a_place_where_nothing_was_done_takes_nothing_back(say):
    (work,) = say("wired the left branch", "forget the back one")
    assert work["side"] == "left"


def test_dropping_a_branch_is_work(say):
    assert [work["work"] for work in say("wired the left branch", "remove the left branch")] == ["wire", "remove"]


@pytest.mark.parametrize("words", ["undo the last two", "scratch the last two entries", "take back the last two"])
def test_as_many_entries_as_are_said_are_taken_back(say, words):
    assert [work["work"] for work in say("fed it", "watered it", "wired the left branch", words)] == ["feed"]


# ---- plans


@pytest.mark.parametrize("words", ["maybe not", "maybe not, it looks strong", "on second thoughts, no"])
def test_a_doubt_takes_back_the_plan_just_made(say, words):
    assert say("I'll repot it next week", words, kind="plan") == []


@pytest.mark.parametrize("between", ["can I feed it", "fed it"])
def test_a_doubt_about_something_else_leaves_the_plan(say, between):
    assert [work["work"] for work in say("I'll repot it next week", between, "maybe not", kind="plan")] == ["repot"]


def test_a_doubt_takes_back_nothing_that_was_done(say):
    assert [work["work"] for work in say("wired the left branch", "maybe not")] == ["wire"]


def test_a_doubt_in_the_same_breath_is_asked_about(bench, say):
    assert say("wire the left branch, maybe not today") == [] and bench.context.pending
    assert [work["work"] for work in say("yes")] == ["wire"]


@pytest.mark.parametrize(
    "words", ["I might repot it next week", "it looks strong so I might feed it", "we might wire it"]
)
def test_what_might_be_done_is_no_plan(bench, say, words):
    assert say(words, kind="plan") == [] and say(kind="done") == []
    assert "taken as a thought: no plan is put down" in bench.answer(words).aside


@pytest.mark.parametrize("words", ["I might as well repot it next week", "I will repot it next week"])
def test_what_will_be_done_is_a_plan(say, words):
    assert [work["work"] for work in say(words, kind="plan")] == ["repot"]


@pytest.mark.parametrize("words", ["scratch the plan", "drop that plan", "call off the plan"])
def test_the_last_plan_is_taken_back_whatever_was_done_since(say, words):
    assert say("I'll repot it in March", "fed it", words, kind="plan") == []
    assert [work["work"] for work in say()] == ["feed"]


def test_an_old_plan_is_taken_back_only_after_a_yes(bench):
    bench.turn_to("Cellar")
    answer = bench.answer("scratch the plan")
    assert answer.confirm.startswith("On record for Cellar: plan:")
    assert [entry.kind for entry in bench.answer("yes").logged] == ["struck"]


# ---- done there


@pytest.mark.parametrize(
    "first, words, side",
    [
        ("wired the left branch", "remind me to do the right one in ten days", "right"),
        ("wired the left branch", "remind me in ten days to do the back one", "back"),
        ("wired the left branch", "don't let me forget to do the other one next week", "right"),
        ("wired the left branch", "remind me to do it again in two weeks", "left"),
        ("can I wire the left branch", "remind me to do it in October", "left"),
        ("wired the left branch", "I'll do the right one on Sunday", "right"),
    ],
)
def test_to_do_so_is_to_do_what_was_spoken_of(say, first, words, side):
    assert say(first, words, kind="plan") == [{"work": "wire", "part": "branch", "side": side}]


def test_a_reminder_of_the_rest_is_for_the_same_work(say):
    assert say("wired the left branch", "remind me to do the rest in ten days", kind="plan") == [
        {"work": "wire", "part": "branch"}
    ]


def test_a_reminder_that_names_its_work_is_for_that(say):
    (work,) = say("wired the left branch", "remind me to check the right one in a week", kind="plan")
    assert (work["work"], work["side"]) == ("check", "right")
