"""What waits for a yes: what is said against one's own decision, and what is told where the yes does not come."""

import pytest

from benchmate.fault import UserError


def kinds(answer):
    return [entry.kind for entry in answer.logged]


# ---- against one's own decision


@pytest.mark.parametrize(
    "decided, said",
    [
        ("don't let me cut the low left branch before spring", "cut the low left branch"),
        ("don't let me cut the left branch before spring", "cut the low left branch"),
        ("leave the left branch alone until spring", "cut the left branch"),
        ("I won't repot it before September", "repot it"),
    ],
)
def test_the_decision_is_recalled_and_asked_about_first(bench, decided, said):
    bench.answer(decided)
    answer = bench.answer(said)
    assert answer.confirm.startswith("You decided") and decided in answer.confirm and not answer.logged
    assert "done" in kinds(bench.answer("yes"))


@pytest.mark.parametrize(
    "decided, said",
    [
        ("don't let me cut the low left branch before spring", "cut the right branch"),
        ("don't let me cut the low left branch before spring", "wire the low left branch"),
        ("I won't feed it in July", "fed it"),
        ("leave it alone", "fed it"),
    ],
)
def test_what_was_not_decided_against_is_logged(bench, decided, said):
    bench.answer(decided)
    answer = bench.answer(said)
    assert answer.confirm is None and "done" in kinds(answer)


def test_what_is_done_already_is_logged_with_a_reminder(bench):
    bench.answer("don't let me cut the low left branch before spring")
    answer = bench.answer("I have removed the low left branch")
    assert "done" in kinds(answer) and answer.aside[0].startswith("You decided not to remove the low left branch")


def test_a_plan_behind_the_time_that_was_named_is_no_breach(bench):
    bench.answer("I won't repot it before spring")
    assert bench.answer("repot it in April").aside == ()


# ---- whose work it was


@pytest.mark.parametrize(
    "words",
    [
        "the manual insists remove the lowest branch",
        "my mate's video: remove the lowest branch",
        "on the telly they defoliated everything",
        "the calendar shouts wire the lower branch, I'm not convinced",
    ],
)
def test_words_not_taken_in_before_the_verb_are_asked_about_first(bench, words):
    answer = bench.answer(words)
    assert "was not taken in" in answer.confirm and not answer.logged
    assert kinds(bench.answer("yes")) == ["done"]


def test_the_question_names_the_words_and_the_work_and_a_no_logs_nothing(bench):
    answer = bench.answer("the manual insists remove the lowest branch")
    assert answer.confirm.startswith('"manual insists" was not taken in') and "removed the low branch" in answer.confirm
    assert not bench.answer("no").logged and not bench.answer("fed it").aside


@pytest.mark.parametrize(
    "words",
    [
        "the video says remove the lowest branch",
        "my teacher said to wire the lower branch, I'm not convinced",
        "a friend repotted his maple in June and it died",
        "in the old days they defoliated everything",
        "wanted to cut the top, chickened out",
    ],
)
def test_what_others_say_or_do_and_what_was_only_wished_is_no_deed(bench, words):
    answer = bench.answer(words)
    assert answer.confirm is None and "done" not in kinds(answer) and "plan" not in kinds(answer)


@pytest.mark.parametrize(
    "words",
    [
        "wired it by the trampoline",
        "wired it by the trampoline and fed it",
        "no label, fed it",
        "no idea what I'm doing but I wired the trunk",
        "it was bone dry when I came home, so I watered it",
    ],
)
def test_words_behind_the_verb_or_in_another_clause_hold_nothing(bench, words):
    answer = bench.answer(words)
    assert answer.confirm is None and "done" in kinds(answer)


# ---- the yes that does not come


@pytest.mark.parametrize("words", ["fed it", "can I wire it", "buds are swelling"])
def test_what_waits_goes_on_waiting_and_says_so(bench, words):
    assert bench.answer("repoted it today").confirm
    aside = bench.answer(words).aside
    assert 'not logged yet, a yes or no is waited for: "repoted it today"' in aside
    assert [table["work"] for entry in bench.answer("yes").logged for table in entry.work] == ["repot"]
    assert not any("waited for" in aside for aside in bench.answer("fed it").aside)


def test_what_waits_is_logged_on_the_tree_it_was_said_of(bench, journal):
    bench.answer("repoted it today")
    bench.answer("let's do Crag")
    bench.answer("yes")
    assert journal("Gatepost")[-1].work[0]["work"] == "repot" and journal("Crag")[-1].day < bench.on


def test_two_that_wait_are_settled_one_after_the_other(bench):
    bench.answer("repoted it today")
    answer = bench.answer("the manual insists remove the lowest branch")
    assert answer.confirm and any("repoted" in aside for aside in answer.aside)
    first, second = bench.answer("no"), bench.answer("yes")
    assert not first.logged and any("repoted" in aside for aside in first.aside)
    assert [table["work"] for entry in second.logged for table in entry.work] == ["repot"]


@pytest.mark.parametrize("words", ["repotted it today", "scratch that", "no"])
def test_what_is_told_anew_or_taken_back_waits_no_more(bench, words):
    bench.answer("repoted it today")
    assert not any("waited for" in aside for aside in bench.answer(words).aside)
    assert not any("waited for" in aside for aside in bench.answer("watered it").aside)


def test_what_would_be_taken_back_is_asked_about_again(bench):
    bench.turn_to("Cellar")
    bench.answer("undo that")
    answer = bench.answer("scratch that")
    assert answer.confirm and not any("not answered" in aside for aside in answer.aside)


@pytest.mark.parametrize("words", ["yes", "no"])
def test_what_is_answered_is_not_dropped(bench, words):
    bench.answer("repoted it today")
    assert not any("not answered" in aside for aside in bench.answer(words).aside)
    assert not any("not answered" in aside for aside in bench.answer("fed it").aside)


def test_words_for_the_talk_itself_drop_nothing(bench):
    bench.answer("repoted it today")
    assert not any("not answered" in aside for aside in bench.answer("what can I say").aside)
    assert kinds(bench.answer("yes")) == ["done"]


def test_an_entry_that_is_not_taken_back_after_all_is_said_to_stand(bench):
    bench.turn_to("Cellar")
    bench.answer("scratch that")
    assert 'not taken back, since it was not answered: "scratch that"' in bench.answer("fed it").aside


# ---- which tree it was


MAY_BE_ANOTHER = ["repotted Bob", "Bob has scale", "the wibble has scale", "fed the wibble"]


@pytest.mark.parametrize("words", MAY_BE_ANOTHER)
def test_an_unknown_name_is_asked_about_and_logged_for_the_tree_at_hand_after_a_yes_alone(bench, words):
    answer = bench.answer(words)
    assert not answer.logged and "may be another tree" in answer.confirm and "Gatepost" in answer.confirm
    assert bench.answer("no").says == ("Nothing was logged",)
    bench.answer(words)
    assert bench.answer("yes").logged


@pytest.mark.parametrize("words", ["fed it biogold", "fed biogold", "yikes, it has scale", "trimmed it with panache"])
def test_what_stands_where_no_tree_would_is_no_name(bench, words):
    assert bench.answer(words).confirm is None


@pytest.mark.parametrize("words", ["fed Rachet", "Ratchte has scale", "scale on Ratchte", "repotted Rathcet"])
def test_a_slip_in_a_name_is_put_to_the_grower_and_goes_to_that_tree(bench, words):
    answer = bench.answer(words)
    assert not answer.logged and 'as "Ratchet"' in answer.confirm
    answer = bench.answer("yes")
    assert answer.logged and answer.tree == "Ratchet"


NO_DAYS = ["on 30 February", "on 31/2/2026", "on 2026-02-30", "on the 35th", "on april 31st", "in 1820"]


@pytest.mark.parametrize("day", NO_DAYS)
def test_a_day_that_no_calendar_has_is_not_taken_for_today(bench, day):
    with pytest.raises(UserError, match=r"no day of the calendar|too far back"):
        bench.answer(f"repotted it {day}")


@pytest.mark.parametrize("words", ["fed it 20/20/20", "repotted it on 31 May", "40 may be dead", "fed it on 29 feb"])
def test_other_numbers_are_no_days(bench, words):
    bench.answer(words)


MOVED = ["no, Minnow", "I meant Minnow", "it was Minnow", "no, it was Minnow"]


@pytest.mark.parametrize("words", MOVED)
def test_what_waits_goes_to_the_tree_that_is_named_in_its_stead(bench, words):
    assert bench.answer("Bob has scale").confirm
    answer = bench.answer(words)
    assert answer.tree == "Minnow" and answer.logged and bench.context.pending is None


# ---- a yes and a no


@pytest.mark.parametrize("words", ["yes", "no", "ok", "nope"])
def test_a_yes_or_a_no_for_which_nothing_waits_says_so(bench, words):
    assert bench.answer(words).says == ("Nothing waits for a yes or a no",)


def test_a_bare_no_leaves_the_correction_to_come(bench):
    bench.answer("fed the elm")
    assert "correct" in bench.answer("no").says[0]
    answer = bench.answer("no, the beech")
    assert answer.tree == "Parchment" and "done" in kinds(answer)


def test_nothing_is_told_as_taken_back_while_a_yes_is_waited_for(bench):
    bench.answer("watered the elm")
    answer = bench.answer("I watered everything today")
    assert answer.confirm and not any("aken back" in words for words in answer.aside)
