"""The grower's own plans and decisions: told when that work is asked about, and before the verdict."""

import datetime as dt

import pytest

from benchmate.hearing.reading import Reading, Spot, Work
from benchmate.talk.bench import Bench
from benchmate.talk.house import House
from benchmate.telling.told import tell

PLANNED = "You planned to repot it in spring 2027 (said on 6 June)"


def asked(work, topic, spot=None, **more):
    return Reading("x", ("ask",), topic, work=(Work(work, spot or Spot()),), **more)


def first(answer):
    return tell(answer)[0].words


# ---- plans


@pytest.mark.parametrize(
    "question", ["can I repot the olive", "when can I repot the olive", "should I repot the olive now"]
)
def test_an_own_plan_stands_before_the_verdict(bench, question):
    answer = bench.answer(question)
    assert first(answer).startswith(f"{PLANNED}. ") and any(word in first(answer) for word in ("Yes", "Not now"))
    assert answer.own == (PLANNED,)


def test_what_was_said_on_a_later_day_is_not_known_yet(demo):
    late, early = Bench(House(demo), dt.date(2026, 6, 14)), Bench(House(demo), dt.date(2026, 6, 1), dry=True)
    assert late.answer("can I repot the olive").own and not early.answer("can I repot the olive").own


def test_a_plan_for_another_work_is_not_told(bench):
    assert bench.answer("can I feed the olive").own == ()


def test_a_plan_with_its_reason_and_a_day(bench):
    bench.answer("I'll repot it next spring because the roots circle")
    assert first(bench.answer("can I repot it")).startswith(
        "You planned to repot it in spring 2027, because the roots circle (said on 14 June). "
    )
    bench.answer("remind me to feed it on 1 July")
    assert "You planned to feed it on 1 July (said on 14 June)" in first(bench.answer("when can I feed it"))


def test_a_plan_that_was_done_is_told_no_more(bench):
    bench.answer("let's do the olive")
    bench.answer("repotted it")
    assert bench.answer("can I repot it").own == ()


def test_what_was_decided_is_the_answer_and_what_was_done_stands_beside(bench):
    says = bench.answer("what did I decide about repotting the olive").says
    assert says[0] == PLANNED and says[1].startswith("You repotted it on 13 May 2023")


def test_when_it_was_last_done_is_the_answer_and_the_plan_stands_beside(bench):
    says = bench.answer("when did I last repot the olive").says
    assert says[0].startswith("You repotted it on 13 May 2023") and says[-1] == PLANNED


def test_a_plan_laid_out_begins_with_what_the_grower_planned(bench):
    says = bench.answer("what's the plan for the olive").says
    assert says[0].startswith("You planned to shelter it on 1 October") and "works for Cellar" in says[1]


def test_without_a_tree_all_own_plans_are_told(demo):
    from benchmate.talk.bench import Bench
    from benchmate.talk.house import House

    answer = Bench(House(demo), dt.date(2026, 6, 14)).carry(Reading("what have I got planned", ("ask",), "plan"))
    assert answer.says[0] == "You planned 3 things"
    assert [words.partition(" planned")[0] for words in answer.says[1:]] == ["Cellar: you", "Cellar: you", "Crag: you"]
    assert answer.asks[0].fact == "tree"


# ---- decisions


def test_a_decision_against_a_work_is_told_with_its_reason(bench):
    answer = bench.answer("can I wire the hawthorn")
    assert first(answer).startswith("You decided not to wire it, because it is recovering (said on 6 June). Not now: ")


def test_leaving_the_tree_alone_bears_on_all_that_touches_it(bench):
    told = "You decided to leave it alone, because it is weak (said on 23 May)"
    for work in ("wire", "shorten", "repot"):
        assert bench.carry(asked(work, "may", tree="Sprint")).own == (told,)
    assert bench.carry(asked("feed", "may", tree="Sprint")).own == ()


def test_cutting_nothing_bears_on_every_cut(bench):
    bench.carry(
        Reading("don't cut anything till August", ("decide",), work=(Work("remove", done="not"),), when="2026-08")
    )
    told = ('You decided not to remove it (said on 14 June: "don\'t cut anything till August")',)
    assert bench.answer("can I shorten the left branch").own == told
    assert bench.answer("can I wire the left branch").own == ()


def test_a_decision_about_one_branch_does_not_bear_on_other_cuts(bench):
    bench.answer("won't remove the left branch")
    assert bench.answer("can I shorten the shoots").own == ()


def test_a_decision_ends_with_its_time_or_its_season(demo):
    from benchmate.talk.bench import Bench
    from benchmate.talk.house import House

    later = Bench(House(demo), dt.date(2027, 6, 14), tree="Bristle")
    assert later.answer("can I wire it").own == ()
    says = later.answer("what did I decide about wiring it").says
    assert says[0].startswith("You decided not to wire it, because it is recovering (said on 6 June 2026)")


def test_a_decision_that_was_gone_back_on_is_told_no_more(bench):
    bench.answer("let's do the hawthorn")
    bench.answer("wired the left branch")
    assert bench.answer("can I wire it").own == ()


# ---- the next check


def test_the_next_check_is_on_record(bench):
    answer = bench.answer("when's the next check on the elm")
    assert answer.says == ("Next check: 18 June, see whether the tree stands firm in its pot",)
    assert answer.advice is None


@pytest.mark.parametrize("question", ["when do I check it next", "when should I check it again"])
def test_a_reminder_counts_and_the_soonest_is_first(bench, question):
    bench.answer("wired the left branch")
    bench.answer("remind me to check the soil on 20 June")
    says = bench.answer(question).says
    assert says[0] == "Next check: 20 June, check the soil"
    assert says[1] == "Then: 2 July, look whether the wire bites."


def test_a_check_of_one_part(bench):
    bench.answer("wired the left branch")
    assert bench.answer("when do I check the wire next").says[0] == "Next check: 2 July, look whether the wire bites"
    assert bench.answer("when do I check the soil next").says[0] == "No check of the soil is on record for Gatepost"


def test_without_a_check_on_record_that_is_said_with_what_is_due(bench):
    says = bench.answer("when do I check the pine next").says
    assert says[0] == "No check is on record for Old Salt" and says[1].startswith("Due: take the wire off")


def test_an_overdue_check_says_so(bench):
    assert (
        bench.answer("when's the next check on the juniper").says[0].startswith("Next check: overdue since 11 June, ")
    )


def test_when_to_do_it_next_tells_what_the_record_asks(bench):
    answer = bench.answer("when do I feed the elm next")
    assert any(aside.startswith("On record: feed it (overdue since 1 May)") for aside in answer.aside)
