"""Why and why not, what if, and from when on: read from the advice, told with rules and facts."""

from __future__ import annotations

import datetime as dt

from practice_ear import PLACE, SOUTH, ask, done, tree

from benchmate.hearing.reading import Fact, Reading, Spot, Work
from benchmate.practice.advise import advise
from benchmate.practice.explain import AGAINST, FOR, OPEN, SHUT, SILENCED, explain
from benchmate.practice.gather import gather
from benchmate.practice.what_if import supposed, what_if

JUNE = dt.date(2026, 6, 15)


def advice(book, reading, tree_=None, entries=(), place=PLACE, on=JUNE):
    return advise(reading, gather(reading, tree_, entries, place, on, book), book, place, on)


def sides(told) -> dict[str, list[str]]:
    out: dict[str, list[str]] = {}
    for link in told.links:
        out.setdefault(link.side, []).append(link.rule)
    return out


def test_why_not_names_the_block_and_the_fact_behind_it(book):
    told = explain(advice(book, ask("leaf-cut", Fact("stage", "hardened")), tree(health="weak")), "leaf-cut", deny=True)
    assert told.links[0].rule == "leaf-cut-needs-strength"
    assert told.links[0].by == "weak (from the record)"
    assert told.links[0].reason.says == "It spends what is not there."
    assert sides(told)[FOR] == ["leaf-cut-after-hardening"]
    assert told.lifts == ("leaf-cut-needs-strength: while weak (from the record)",)


def test_why_tells_also_what_could_have_stood_against_it(book):
    told = explain(advice(book, ask("leaf-cut", Fact("stage", "hardened")), tree(health="strong")), "leaf-cut")
    assert sides(told)[FOR][0] == "leaf-cut-after-hardening"
    shut = {link.rule: link.by for link in told.links if link.side == SHUT}
    assert shut["no-cut-late"].startswith("frost days under 42: no, 127")
    # a rule behind a shut gate was never looked at, and is not told
    assert "leaf-cut-needs-strength" not in shut


def test_an_exception_is_told_with_what_it_silences(book):
    told = explain(advice(book, ask("shorten", manner=("bare-wood",)), tree("Taxus", health="strong")), "shorten")
    [link] = [link for link in told.links if link.side == SILENCED]
    assert (link.rule, link.silenced_by) == ("no-bare-wood", "yew-breaks")


def test_what_is_lacking_is_told(book):
    told = explain(advice(book, ask("leaf-cut", Fact("stage", "hardened")), tree()), "leaf-cut", deny=True)
    assert sides(told)[OPEN] == ["leaf-cut-needs-strength"]
    assert told.lifts == ("leaf-cut-needs-strength: once health is known",)


def test_a_hold_tells_from_when_it_is_free(book):
    told = explain(advice(book, ask("feed"), tree(), [done("2026-06-01", "repot")]), "feed", deny=True)
    assert told.lifts[0] == "from 2026-07-13 on"


def test_without_a_work_the_best_option_is_explained(book):
    reading = Reading("by hand", ("observe", "ask"), "advice", (Fact("finding", "dry"),))
    assert explain(advice(book, reading, tree())).option.work == "water"
    assert explain(advice(book, reading, tree()), "graft").option is None


def test_one_of_two_places_is_explained_by_its_spot(book):
    reading = ask("leaf-cut", Fact("finding", "weak-branch", Spot(None, "left")), Fact("health", "strong"))
    told = advice(book, reading, tree())
    assert explain(told, "leaf-cut").option.rest
    assert sides(explain(told, "leaf-cut", spot=Spot("branch", "left")))[AGAINST] == ["leaf-cut-spares-weak-branches"]


def test_what_if_keeps_the_question_and_changes_the_fact(book):
    was = ask("leaf-cut", Fact("stage", "hardened"), Fact("health", "strong"))
    question = Reading("what if it were weak", ("ask",), "what-if", (Fact("health", "weak"),))
    now = supposed(was, question)
    assert [work.work for work in now.work] == ["leaf-cut"]
    assert {(fact.kind, fact.value) for fact in now.facts} == {("health", "weak"), ("stage", "hardened")}
    told = what_if(advice(book, was, tree()), advice(book, now, tree()))
    [change] = [change for change in told.changes if change.work == "leaf-cut"]
    assert change.verdicts == ("go", "avoid")
    assert [reason.rule for reason in change.gained] == ["leaf-cut-needs-strength"]
    assert told.cautions_gained == ("weak-tree",)


def test_what_if_can_suppose_other_work(book):
    question = Reading("what if I fed it", ("ask",), "what-if", (), (Work("feed"),))
    assert [work.work for work in supposed(ask("wire"), question).work] == ["feed"]


def test_what_changes_nothing_is_no_change(book):
    was = advice(book, ask("feed"), tree())
    assert what_if(was, advice(book, ask("feed", Fact("phase", "show")), tree())).changes == ()


def test_a_window_that_another_rule_shuts_moves_on(book):
    # the day told is one on which the same question is answered by no wait, and a week before it still was
    reading, works = ask("defoliate", Fact("health", "strong")), [done("2026-03-20", "repot")]
    held = next(o for o in advice(book, reading, tree(), works).options if o.work == "defoliate")
    assert held.verdict == "hold"
    day = dt.date.fromisoformat(held.opens)
    then, before = (advice(book, reading, tree(), works, on=on) for on in (day, day - dt.timedelta(days=7)))
    assert next(o for o in then.options if o.work == "defoliate").verdict == "go"
    assert next(o for o in before.options if o.work == "defoliate").verdict == "hold"


def test_when_finds_the_first_and_the_last_free_day(book):
    late = dt.date(2026, 9, 20)
    told = advice(book, ask("shorten", topic="when"), tree(health="healthy"), on=late)
    option = next(o for o in told.options if o.work == "shorten")
    assert option.verdict == "hold"
    # held from six weeks before the mean first frost (20 October) until some weeks after it
    assert "2026-11-01" < option.opens < "2026-12-20"
    assert option.closes == "2027-09-08"


def test_when_is_turned_for_the_south(book):
    told = advice(book, ask("shorten", topic="when"), tree(health="healthy"), place=SOUTH, on=dt.date(2026, 3, 20))
    option = next(o for o in told.options if o.work == "shorten")
    assert "2026-05-01" < option.opens < "2026-07-01"


def test_a_later_day_that_is_spoken_of_is_the_day_weighed(book):
    reading = Reading("by hand", ("ask",), "may", (), (Work("shorten"),), when="2026-09-20")
    told = advice(book, reading, tree(health="healthy"))
    assert next(o for o in told.options if o.work == "shorten").verdict == "hold"
    assert told.assumed[0] == "weighed for 2026-09-20, with all else as it is now"
    reminder = Reading("by hand", ("remind",), None, (), (Work("shorten", done="later"),), when="2026-09-20")
    today = advice(book, reminder, tree(health="healthy"))
    assert next(o for o in today.options if o.work == "shorten").verdict == "go"
