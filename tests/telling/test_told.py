"""Answers as the grower reads them: order, wording, widths."""

import dataclasses
import datetime as dt

import pytest

from benchmate.garden.record import Entry
from benchmate.hearing.reading import Fact, Guess, Missed, Reading, Spot, Work
from benchmate.practice.advice import Advice, Ask, Caution, FigureTold, Follow, Option, Reason
from benchmate.telling import Answer, as_json, lay, tell
from benchmate.telling.figures import figure_line

ON = dt.date(2026, 6, 14)
LEFT = Spot("leader", "left")
READING = Reading(
    "hornbean, second flush, two competing leaders, unicorn dust, what now",
    ("observe", "ask"),
    "advice",
    (Fact("species", "Carpinus"), Fact("flush", 2), Fact("finding", "competing-leaders", Spot(count=2))),
    missed=(Missed("unicorn dust", (48, 60)),),
    guessed=(Guess("hornbean", "hornbeam", 0.93, (0, 8)),),
)
WHY = Reason("thicker-leader-stays", "The thicker leader carries the line of the trunk.", "body-2001", "published", 2)
YOURS = Reason("my-own", "This tree looks to the left.", None, "practice", 1, yours=True)
AGAINST = Reason("late-cut", "A cut now heals slowly.", None, "memory", -1)
ADVICE = Advice(
    READING,
    "Gatepost",
    "2026-06-14",
    (
        Option(
            "select-leader",
            LEFT,
            "go",
            None,
            "2026-08-20",
            (WHY, YOURS),
            (AGAINST,),
            {"share": 0.25},
            (Follow("check", "2026-07-05", "Look whether the cut has dried.", "wound"),),
        ),
        Option("leave", Spot(), "go", because=(Reason("rest", "Rest costs nothing."),)),
        Option("repot", Spot(), "hold", "2027-02-20", "2027-04-10", against=(Reason("leafy", "It is in full leaf."),)),
        Option("defoliate", Spot(), "avoid", against=(Reason("single", "It has one flush a year."),)),
    ),
    (
        Caution("weak-tree", "tree", "A weak tree is fed and left alone."),
        Caution("skin-sap", "person", "Its sap can blister skin: wear gloves.", short="Gloves."),
    ),
    (Ask("health", "Is it growing strongly, or is it weak?"),),
    dose_left=0.15,
)
ANSWER = Answer(READING, ON, "Gatepost", ADVICE)


def rows(answer, width=None, **how):
    return lay(tell(answer, **how), width).split("\n")


def test_the_answer_stands_first_in_one_line():
    assert rows(ANSWER)[0] == "Best now: keep the left leader until 20 August."


def test_order_is_answer_cautions_options_heard_logged_questions():
    entry = Entry("2026-06-14-a", ON, "seen", READING.said, ({"kind": "flush", "value": 2},))
    told = lay(tell(dataclasses.replace(ANSWER, logged=(entry,))))
    places = [
        told.index(words)
        for words in (
            "Best now",
            "! Its sap",
            "! A weak tree",
            "1  Keep the left leader",
            "2  Leave it",
            "Heard: ",
            "Logged for",
            "? Is it",
        )
    ]
    assert places == sorted(places)


def test_hazards_to_people_come_before_those_of_the_tree_and_in_full_first():
    told = rows(ANSWER)
    person = told.index("! Its sap can blister skin: wear gloves.")
    assert person < told.index("! A weak tree is fed and left alone.")


def test_a_hazard_told_before_is_short_but_never_silent():
    told = rows(dataclasses.replace(ANSWER, told_before=frozenset({"skin-sap", "weak-tree"})))
    assert "! Gloves." in told
    assert "! A weak tree is fed and left alone." in told


def test_options_are_numbered_with_verdict_window_reasons_amount_and_follow_up():
    told = rows(ANSWER)
    at = told.index("1  Keep the left leader: go, until 20 August.")
    assert told[at + 1 : at + 6] == [
        "   + The thicker leader carries the line of the trunk.",
        "   + This tree looks to the left. (your rule)",
        "   - A cut now heals slowly.",
        "   At most 25 %.",
        "   Then: Look whether the cut has dried. (5 July)",
    ]
    assert "3  Repot it: wait, from 20 February 2027 to 10 April 2027." in told
    assert "4  Take all the leaves off: no." in told


def test_heard_guessed_and_missed_are_shown():
    told = rows(ANSWER)
    assert "Heard: Carpinus; second flush; 2 competing leaders; what now." in told
    assert 'Took "hornbean" as "hornbeam".' in told
    assert 'Not taken in: "unicorn dust".' in told


def test_questions_come_last():
    assert rows(ANSWER)[-1] == "? Is it growing strongly, or is it weak?"


@pytest.mark.parametrize("width", [40, 120])
@pytest.mark.parametrize("plain", [False, True])
def test_no_row_passes_the_width_and_no_word_is_lost(width, plain):
    laid = rows(ANSWER, width, plain=plain)
    assert all(len(row) <= width for row in laid)
    assert " ".join(laid).split() == " ".join(rows(ANSWER, None, plain=plain)).split()


def test_plain_lines_use_words_in_place_of_signs():
    told = rows(ANSWER, plain=True)
    assert "Option 1: Keep the left leader: go, until 20 August." in told
    assert "Caution: Its sap can blister skin: wear gloves." in told
    assert told[-1].startswith("Question: ")
    assert not any(row.lstrip().startswith(("!", "?", "+", "- ")) for row in told)


@pytest.mark.parametrize(
    "topic, work, first",
    [
        ("may", "select-leader", "Yes: keep the left leader until 20 August."),
        ("may", "defoliate", "No: It has one flush a year."),
        ("when", "repot", "Not now: repot it from 20 February 2027 to 10 April 2027."),
    ],
)
def test_a_question_about_one_work_is_answered_for_that_work(topic, work, first):
    reading = Reading("?", ("ask",), topic, work=(Work(work),))
    assert rows(dataclasses.replace(ANSWER, reading=reading))[0] == first


def test_a_decision_that_a_rule_stands_against_says_so_first():
    reading = Reading("took all the leaves off", ("decide",), work=(Work("defoliate", done="done"),))
    assert rows(dataclasses.replace(ANSWER, reading=reading))[0] == "Careful: It has one flush a year."


def test_what_was_not_logged_stands_first():
    assert rows(dataclasses.replace(ANSWER, unlogged="the folder may not be written to."))[0].startswith("Not logged: ")


def test_a_figure_tells_value_range_way_source_and_limits():
    figure = FigureTold(
        "wire-diameter", 2.7, "mm", 2.4, 3.0, "a third of the branch", "the trade", "practice", "branches of 2 to 20 mm"
    )
    reading = Reading(
        "what wire for an 8 mm branch", ("ask",), "figure", figure="wire-diameter", measures={"diameter_mm": 8.0}
    )
    told = rows(Answer(reading, ON, advice=Advice(reading, None, "2026-06-14", figures=(figure,))))
    assert told[:4] == [
        "Wire diameter: 2.7 mm (2.4 to 3 mm).",
        "   How: A third of the branch.",
        "   From: The trade (fact of the trade).",
        "   Limits: Branches of 2 to 20 mm.",
    ]
    assert "Heard: diameter 8 mm; wire diameter." in told


@pytest.mark.parametrize(
    "value, unit, low, high, words",
    [
        (2.6667, "mm", 2.4, 3.0, "2.7 mm (2.4 to 3 mm)"),
        (823.4, "mm", 137.2, 1418.0, "820 mm (140 to 1400 mm)"),
        (44.55, "L", 34.99, 44.55, "45 L (35 to 45 L)"),
        (16.153, "h", 16.0, 18.0, "16.2 h (16 to 18 h)"),
        (76.0, "days", 61.0, 195.0, "76 days (61 to 195 days)"),
        (370.4, "mm", 365.0, 375.0, "370 mm (365 to 375 mm)"),
        (1234.4, "mm", None, None, "1230 mm"),
        (0.0445, "L", 0.035, 0.0445, "0.044 L (0.035 to 0.044 L)"),
    ],
)
def test_a_figure_tells_no_more_digits_than_mean_something(value, unit, low, high, words):
    assert figure_line(FigureTold("pot-size", value, unit, low, high, "", "", "practice", "")) == f"pot size: {words}"


def test_json_has_the_keys_of_the_contract():
    told = lay(tell(ANSWER))
    out = as_json(ANSWER, told)
    assert {"reading", "tree", "on", "options", "cautions", "asks", "figures", "logged", "told"} <= set(out)
    assert out["options"][0]["verdict"] == "go" and out["options"][0]["until"] == "2026-08-20"
    assert out["told"] == told and out["logged"] == []


def test_a_dry_entry_is_shown_in_the_same_line_but_has_no_place_in_logged():
    entry = Entry("2026-06-14-a", ON, "done", "x", work=({"work": "shorten", "side": "left", "leaves": 2},))
    dry = dataclasses.replace(ANSWER, logged=(entry,), dry=True)
    wet = dataclasses.replace(ANSWER, logged=(entry,))
    assert "Would log for Gatepost: done: shortened the left one to 2 leaves." in rows(dry)
    assert "Logged for Gatepost: done: shortened the left one to 2 leaves." in rows(wet)
    assert as_json(dry, "")["logged"] == [] and as_json(wet, "")["logged"] == ["2026-06-14-a"]


def test_words_of_the_grower_cannot_move_the_cursor():
    reading = dataclasses.replace(READING, missed=(Missed("\x1b[2J\x1b]0;x\x07", (0, 9)),))
    assert "\x1b" not in lay(tell(dataclasses.replace(ANSWER, reading=reading)), 80)
