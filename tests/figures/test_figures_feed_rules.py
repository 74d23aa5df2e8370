"""Figures that feed advice and record: the fork's ratio, the frost's margin, the leaf's share, the bite date."""

import datetime as dt

import pytest
from asked import make_garden, read_cases

from benchmate.fault import UserError
from benchmate.talk.bench import Bench
from benchmate.talk.house import House

CASES = read_cases("questions.toml")


@pytest.fixture
def garden(tmp_path):
    return make_garden(tmp_path / "garden", CASES, trees=True)


def say(folder, words, on=dt.date(2026, 6, 14), tree="Lychgate"):
    return Bench(House(folder), on, tree=tree).answer(words)


def option(answer, work):
    return next(option for option in answer.advice.options if option.work == work)


def reasons(answer, work):
    one = option(answer, work)
    return {reason.rule for reason in (*one.because, *one.against)}


def test_fork_ratio_decides_rival_leaders(garden):
    words = (
        "healthy, first flush has hardened, two competing leaders, the left one is {} mm, the right one is {} mm, "
        "which one should I keep"
    )
    equals = reasons(say(garden, words.format(9, 8)), "select-leader")
    lesser = reasons(say(garden, words.format(10, 4)), "select-leader")
    assert "rival-leaders-act-as-equals" in equals - lesser
    assert "lesser-rival-is-no-rival-yet" in lesser - equals


def test_frost_margin_bounds_leaf_cutting(garden):
    words = "healthy, the leaves have hardened, can I defoliate it"
    days = dt.date(2026, 6, 14), dt.date(2026, 9, 20)
    early, late = (option(say(garden, words, day, "Quoin"), "defoliate") for day in days)
    assert late.verdict in ("hold", "avoid")
    assert {reason.rule for reason in late.against} - {reason.rule for reason in early.against}


def test_counted_leaves_count_against_the_dose(garden):
    answer = say(garden, "took 12 of 48 leaves off", tree="Quoin")
    (entry,) = answer.logged
    assert entry.work[0]["work"] == "thin-leaves" and entry.work[0]["share"] == 0.25
    (figure,) = say(garden, "how much leaf have I taken this season", tree="Quoin").advice.figures
    assert figure.value == pytest.approx(0.25)


def test_all_leaves_counted_are_a_stripping(garden):
    (entry,) = say(garden, "took 47 of 48 leaves off", tree="Quoin").logged
    assert entry.work[0]["work"] == "defoliate" and entry.work[0]["share"] == pytest.approx(0.9792)


def check_of(answer):
    follows = [one for entry in answer.logged for one in entry.follow]
    (follow,) = [one for one in follows if one["part"] == "wire" and one["work"] == "check"]
    return follow["on"], follow["says"]


def test_wire_without_gap_or_growth_keeps_the_days_of_the_rules(garden):
    day, says = check_of(say(garden, "wired the right branch"))
    assert (day - dt.date(2026, 6, 14)).days in range(7, 19) and "growth it may" not in says


def test_gap_under_wire_gives_its_first_check(garden):
    """No growth in the dark of the year: the first look is the season's first day, 28 April."""
    day, says = check_of(say(garden, "wired the right branch with 1 mm of gap", dt.date(2026, 12, 5)))
    assert day == dt.date(2027, 4, 28)
    assert "may from 2027-" in says


def test_growth_on_record_gives_the_first_check(garden):
    """12 mm a year: 0.6 mm is 5 % of a year, gone within a week of mid June, so half of it is gone in days."""
    say(garden, "the right branch is 6 mm thick", dt.date(2025, 6, 14))
    say(garden, "the right branch is 18 mm thick", dt.date(2026, 6, 13))
    day, says = check_of(say(garden, "wired the right branch"))
    assert dt.date(2026, 6, 14) <= day <= dt.date(2026, 6, 18)
    assert "may from 2026-06-" in says


def test_warmth_counts_from_the_day_that_is_said(garden):
    (figure,) = say(garden, "how many degree days since 3 june").advice.figures
    assert figure.value == pytest.approx(10.3526, abs=0.001), figure.how


def test_a_line_of_temperatures_that_cannot_be_read_is_told(garden):
    (garden / "temperatures.csv").write_text("date;min;max\n2026-06-01;8;20\n2026-06-02;warm;21\n", encoding="utf-8")
    with pytest.raises(UserError, match=r"temperatures\.csv: line 3"):
        say(garden, "how many degree days so far")


def test_columns_of_temperatures_may_stand_in_any_order(garden):
    (garden / "temperatures.csv").write_text("max,min,date\n20,8,2026-06-01\n", encoding="utf-8")
    (figure,) = say(garden, "how many degree days so far").advice.figures
    assert figure.value == pytest.approx(9.0)


def test_bend_is_answered_with_its_limit_beside_the_advice(garden):
    answer = say(garden, "can I bend a 9 mm branch forty degrees over 10 cm")
    assert [figure.figure for figure in answer.advice.figures] == ["bend-limit"]
    assert option(answer, "bend")
