"""How rules come to an option's verdict, on a rule base in small."""

from __future__ import annotations

import datetime as dt
import json

import pytest
from conftest import small_tables
from practice_ear import PLACE, SOUTH, TROPIC, ask, done, hear_by_hand, seen, tree

from benchmate.hearing.reading import Fact, Reading, Spot, Work
from benchmate.practice.advise import advise
from benchmate.practice.book import book_as_plain, book_from_plain
from benchmate.practice.gather import gather

JUNE = dt.date(2026, 6, 15)
LEFT = Spot("branch", "left", "low")


def advice(book, reading, tree_=None, entries=(), place=PLACE, on=JUNE):
    return advise(reading, gather(reading, tree_, entries, place, on, book), book, place, on)


def option(told, work, side=None):
    found = [o for o in told.options if o.work == work and (side is None or o.spot.side == side)]
    assert found, f"no {work} among {[(o.work, o.spot) for o in told.options]}"
    return found[0]


def ids(reasons):
    return [reason.rule for reason in reasons]


def test_a_block_beats_any_weight(book):
    told = advice(book, ask("leaf-cut", Fact("stage", "hardened"), Fact("health", "weak")), tree(health="strong"))
    assert option(told, "leaf-cut").verdict == "avoid"
    assert ids(option(told, "leaf-cut").against) == ["leaf-cut-needs-strength"]
    assert ids(option(told, "leaf-cut").because) == ["leaf-cut-after-hardening"]
    assert [c.id for c in told.cautions] == ["weak-tree"]


def test_leaving_it_is_always_weighed(book):
    assert option(advice(book, ask("feed"), tree()), "leave").verdict == "go"


def test_unknown_is_not_false_and_is_asked(book):
    told = advice(book, ask("leaf-cut", Fact("stage", "hardened")), tree())
    assert option(told, "leaf-cut").verdict == "ask"
    assert [(a.fact, a.rules) for a in told.asks] == [("health", ("leaf-cut-needs-strength",))]


def test_nothing_is_asked_once_the_verdict_cannot_change(book):
    told = advice(book, ask("defoliate"), tree("Fagus sylvatica"))
    assert option(told, "defoliate").verdict == "avoid"
    assert told.asks == ()


def test_what_the_grower_says_goes_before_the_record(book):
    reading = ask("leaf-cut", Fact("health", "weak", denied=True), Fact("health", "strong"))
    assert option(advice(book, reading, tree(health="weak")), "leaf-cut").verdict == "go"


def test_a_denial_leaves_the_rest_unknown(book):
    told = advice(book, ask("leaf-cut", Fact("health", "weak", denied=True)), tree())
    assert option(told, "leaf-cut").verdict == "ask"


def test_the_record_of_a_tree_is_closed_and_that_of_a_species_is_not(book):
    reading = ask("feed")
    assert option(advice(book, reading, tree()), "feed").verdict == "go"
    bare = advice(book, ask("feed", Fact("species", "Acer campestre")))
    assert option(bare, "feed").verdict == "ask"
    assert [a.fact for a in bare.asks] == ["event"]


def test_a_hold_tells_when_it_is_lifted(book):
    told = advice(book, ask("feed"), tree(), [done("2026-06-01", "repot")])
    fed = option(told, "feed")
    assert (fed.verdict, fed.opens) == ("hold", "2026-07-13")
    assert ids(fed.against) == ["feed-waits"]


def test_work_done_before_this_season_does_not_count(book):
    for day, verdict in (("2025-10-20", "go"), ("2025-12-05", "hold"), ("2026-03-20", "hold")):
        reading = ask("defoliate", Fact("health", "strong"))
        told = advice(book, reading, tree(), [done(day, "repot")])
        assert option(told, "defoliate").verdict == verdict, day


def test_a_general_rule_is_silenced_by_its_exception(book):
    hold = advice(book, ask("shorten", manner=("bare-wood",)), tree("Pinus", health="strong"))
    assert option(hold, "shorten").verdict == "avoid"
    free = advice(book, ask("shorten", manner=("bare-wood",)), tree("Taxus", health="strong"))
    assert option(free, "shorten").verdict == "go"
    assert [t.beaten for t in free.trace if t.rule == "no-bare-wood"] == ["yew-breaks"]


def test_a_weak_branch_is_spared_and_the_rest_may_go(book):
    reading = ask("leaf-cut", Fact("finding", "weak-branch", Spot(None, "left", "low")), Fact("health", "strong"))
    told = advice(book, reading, tree())
    assert [(o.verdict, o.spot, o.rest) for o in told.options if o.work == "leaf-cut"] == [
        ("go", Spot("crown"), True),
        ("hold", LEFT, False),
    ]


def test_work_asked_about_at_the_weak_branch_is_held_there(book):
    reading = ask(
        "leaf-cut", Fact("finding", "weak-branch", Spot(None, "left", "low")), Fact("health", "strong"), spot=LEFT
    )
    told = advice(book, reading, tree())
    assert [(o.verdict, o.spot) for o in told.options if o.work == "leaf-cut"] == [("hold", LEFT)]


def test_work_elsewhere_is_free_of_it(book):
    reading = ask(
        "leaf-cut",
        Fact("finding", "weak-branch", Spot(None, "left", "low")),
        Fact("health", "strong"),
        spot=Spot("branch", "right"),
    )
    assert [o.verdict for o in advice(book, reading, tree()).options if o.work == "leaf-cut"] == ["go"]


def test_dead_wood_goes_late_and_costs_nothing(book):
    dead = Fact("finding", "dead-branch", Spot(None, "right", "low"))
    late = dt.date(2026, 10, 1)
    told = advice(book, ask("remove", dead), tree(health="weak"), on=late)
    gone = option(told, "remove")
    assert (gone.verdict, gone.spot, gone.amount) == ("go", Spot("branch", "right", "low"), {})
    live = advice(book, ask("remove", spot=LEFT), tree(health="healthy"), on=late)
    assert option(live, "remove").verdict == "hold"


@pytest.mark.parametrize(
    ("place", "on", "verdict"),
    [
        (PLACE, "2026-09-20", "hold"),
        (PLACE, "2026-06-20", "go"),
        (SOUTH, "2026-03-22", "hold"),
        (SOUTH, "2026-12-22", "go"),
        (TROPIC, "2026-03-22", "go"),
    ],
)
def test_frost_is_counted_where_the_tree_stands(book, place, on, verdict):
    told = advice(book, ask("shorten"), tree(health="healthy"), place=place, on=dt.date.fromisoformat(on))
    assert option(told, "shorten").verdict == verdict


def test_months_are_turned_for_the_south(book):
    june = advice(book, ask("shorten"), tree(health="healthy"))
    assert ids(option(june, "shorten").against) == ["shorten-summer-weakens"]
    winter = advice(book, ask("shorten"), tree(health="healthy"), place=SOUTH)
    assert ids(option(winter, "shorten").against) == []


def test_both_sides_of_a_dispute_are_shown(book):
    told = option(advice(book, ask("shorten"), tree(health="healthy")), "shorten")
    assert told.against[0].disputes == ("shorten-summer-does-not",)
    assert told.because[0].disputes == ("shorten-summer-weakens",)


def test_the_tightest_amount_stands(book):
    told = option(advice(book, ask("shorten"), tree(health="strong")), "shorten")
    assert told.amount == {"leaves": 2, "share": 0.2}


def test_follow_ups_are_dated_and_the_earlier_of_two_stands(book):
    reading = ask("leaf-cut", Fact("stage", "hardened"), Fact("health", "strong"))
    told = option(advice(book, reading, tree()), "leaf-cut")
    assert [(f.work, f.on, f.rule) for f in told.follow] == [("check", "2026-06-29", "leaf-cut-after-hardening")]
    assert told.closes == "2026-08-11"


def test_findings_put_works_forward_at_their_place(book):
    reading = Reading("by hand", ("observe", "ask"), "advice", (Fact("finding", "crossing", Spot("branch", "left")),))
    told = advice(book, reading, tree(health="healthy"))
    assert [(o.work, o.spot.side, o.how) for o in told.options if o.work != "leave"] == [("remove", "left", "offered")]


def test_a_dry_tree_is_watered_first_and_warned_of(book):
    reading = Reading("by hand", ("observe", "ask"), "advice", (Fact("finding", "dry"), Fact("finding", "wilting")))
    told = advice(book, reading, tree(health="healthy"))
    assert told.options[0].work == "water"
    assert [c.id for c in told.cautions] == ["dry-roots"]


def test_care_for_what_stands_in_the_way_is_put_forward(book):
    told = advice(book, ask("feed", Fact("finding", "dry")), tree(health="healthy"))
    assert {o.work: o.verdict for o in told.options} == {"water": "go", "leave": "go", "feed": "hold"}


def test_care_is_not_put_forward_for_what_stands_in_no_ones_way(book):
    told = advice(book, ask("feed", Fact("finding", "wilting")), tree(health="healthy"))
    assert {o.work for o in told.options} == {"feed", "leave"}


def rivals(left=9.0, right=8.0, *more):
    facts = (Fact("finding", "competing-leaders", Spot(count=2)), *more)
    sides = (
        Fact("candidate", "leader", Spot("leader", "left"), {"diameter_mm": left}),
        Fact("candidate", "leader", Spot("leader", "right"), {"diameter_mm": right}),
    )
    return Reading("by hand", ("observe", "ask"), "compare", facts, candidates=sides)


def test_the_sound_leader_stays_and_the_damaged_one_goes(book):
    told = advice(book, rivals(9, 8, Fact("finding", "dieback", Spot("leader", "right"))), tree(health="healthy"))
    verdicts = {(o.work, o.spot.side): o.verdict for o in told.options}
    assert verdicts["select-leader", "left"] == "go"
    assert verdicts["select-leader", "right"] == "avoid"
    assert verdicts["remove", "right"] == "go"
    assert ("remove", "left") not in verdicts and ("remove", None) not in verdicts


def test_rivals_are_compared_by_thickness(book):
    told = advice(book, rivals(9, 7.2), tree(health="healthy"))
    assert ids(option(told, "select-leader", "left").because)[:2] == ["one-leader", "thicker-leader"]
    assert "thicker-leader" not in ids(option(told, "select-leader", "right").because)
    assert told.options[0].spot.side == "left"


def test_leaders_far_apart_are_no_rivals(book):
    told = advice(book, rivals(10, 4), tree(health="healthy"))
    assert "one-leader" not in ids(option(told, "select-leader", "left").because)


def test_people_are_warned_first_and_the_plants_own_hazard_is_told(book):
    told = advice(book, ask("shorten", Fact("health", "weak")), tree("Taxus"))
    assert [c.id for c in told.cautions] == ["toxic-plant", "weak-tree"]
    assert told.cautions[0].says == "Poisonous. All but the flesh of the berry is poisonous."


def test_a_measure_is_asked_only_where_it_decides(book):
    told = advice(book, ask("bend", Fact("health", "strong")), tree())
    assert [a.fact for a in told.asks] == ["diameter_mm"]
    assert option(advice(book, ask("bend", diameter_mm=30.0), tree()), "bend").verdict == "hold"
    assert option(advice(book, ask("bend", diameter_mm=10.0), tree()), "bend").verdict == "go"


def test_work_just_done_does_not_stand_against_itself(book):
    reading = Reading("by hand", ("decide", "ask"), "may", (), (Work("repot", done="done"), Work("feed")))
    told = advice(book, reading, tree(health="strong"))
    assert option(told, "feed").verdict == "hold"
    assert all(one.work != "repot" for one in told.options)  # told beside the question, it is not weighed again


def test_refused_work_is_not_weighed(book):
    told = advice(book, Reading("by hand", ("decide",), None, (), (Work("defoliate", done="not"),)), tree())
    assert [o.work for o in told.options] == ["leave"]


def test_no_tree_and_no_species_is_asked_first(book):
    told = advice(book, ask("defoliate"))
    assert told.asks[0].fact == "species"
    assert option(told, "defoliate").verdict == "ask"


def test_a_failing_rule_is_a_fault_about_itself(book):
    from dataclasses import replace

    from benchmate.practice.book import Limit

    number = book.by_id["bend-thick"]
    broken = replace(book.rules[number], limits=(Limit("moonlight", True, 1.0),))
    rules = (*book.rules[:number], broken, *book.rules[number + 1 :])
    told = advice(replace(book, rules=rules), ask("bend", Fact("health", "strong")), tree())
    assert [(f.id, f.path) for f in told.faults] == [("bend-thick", "practice/few.toml")]
    assert option(told, "bend").verdict == "go"


def test_what_was_seen_ages_and_is_ended_by_work(book):
    reading = Reading("by hand", ("ask",), "advice")
    entries = [seen("2026-06-01", "finding", "wire-biting", side="left")]
    assert option(advice(book, reading, tree(), entries), "unwire").spot.side == "left"
    for more in ([done("2026-06-05", "unwire")], [done("2026-06-05", "unwire", side="left")]):
        assert [o.work for o in advice(book, reading, tree(), entries + more).options] == ["leave"]
    assert [o.work for o in advice(book, reading, tree(), entries, on=dt.date(2027, 6, 1)).options] == ["leave"]


def test_health_seen_last_month_goes_before_the_trees_file_and_old_sight_does_not(book):
    for day, verdict in (("2026-05-20", "avoid"), ("2023-05-20", "go")):
        told = advice(book, ask("leaf-cut"), tree(health="strong"), [seen(day, "health", "weak")])
        assert option(told, "leaf-cut").verdict == verdict, day


def test_the_book_survives_json(book):
    again = book_from_plain(json.loads(json.dumps(book_as_plain(book))))
    assert again == book


def test_a_hold_is_over_once_its_days_have_passed(book):
    from dataclasses import replace

    number = book.by_id["feed-waits"]
    waits = replace(book.rules[number], within=(("repot", "season"),))
    rules = [*book.rules[:number], waits, *book.rules[number + 1 :]]
    for day, verdict in (("2026-05-20", "hold"), ("2026-04-01", "go")):
        told = advice(replace(book, rules=rules), ask("feed"), tree(), [done(day, "repot")])
        assert option(told, "feed").verdict == verdict, day


def test_what_was_just_seen_goes_before_what_weighs_more(book):
    facts = (Fact("finding", "crossing", Spot("branch", "left")),)
    entries = [seen("2026-06-10", "finding", "dry")]
    told = advice(book, Reading("by hand", ("observe", "ask"), "advice", facts), tree(health="healthy"), entries)
    assert [o.work for o in told.options][:2] == ["remove", "water"]
    assert told.options[0].weight < told.options[1].weight


@pytest.mark.parametrize(("on", "asked"), [("2026-03-05", ["stage"]), ("2026-02-01", [])])
def test_a_hold_by_the_date_alone_asks_for_a_look_when_the_stage_is_about_to_turn(book, on, asked):
    from dataclasses import replace

    from benchmate.practice.condition import Claim
    from benchmate.practice.gates import build_index

    number = book.by_id["feed-waits"]
    resting = replace(
        book.rules[number],
        within=(),
        opens={"stage": "buds-swelling"},
        condition=(((Claim("stage", "dormant"),),),),
    )
    rules = [*book.rules[:number], resting, *book.rules[number + 1 :]]
    changed = replace(book, rules=rules, index=build_index(rules))
    told = advice(changed, ask("feed"), tree("Acer campestre"), on=dt.date.fromisoformat(on))
    assert (option(told, "feed").verdict, option(told, "feed").opens) == ("hold", "2026-03-11")
    assert [a.fact for a in told.asks] == asked


def test_of_a_taxon_only_the_first_cautions_are_told_and_only_with_work_on_the_tree(book):
    assert [c.id for c in advice(book, ask("wire"), tree("Pinus")).cautions] == ["about-pinus"]
    assert advice(book, ask("feed"), tree("Pinus")).cautions == ()


def test_a_growers_own_rule_stands_in_for_the_built_in_one_and_is_marked(tmp_path):
    from benchmate.practice.compile import compile_book
    from benchmate.rulebase.overlay import lay_over
    from benchmate.rulebase.read import RuleFile

    own = {
        "rule": [
            {
                "id": "bend-thick",
                "work": "bend",
                "limits": {"diameter_mm_over": 40},
                "verdict": "hold",
                "says": "Mine bend further.",
                "mark": "practice",
            }
        ]
    }
    files = [RuleFile(name, name, 0, "", table) for name, table in small_tables().items()]
    tables = lay_over([*files, RuleFile("mine.toml", "mine.toml", 1, "", own)], [])
    mine = compile_book(tables.tables, None, hear=hear_by_hand)
    assert option(advice(mine, ask("bend", diameter_mm=30.0), tree()), "bend").verdict == "go"
    told = option(advice(mine, ask("bend", diameter_mm=50.0), tree()), "bend")
    assert [(r.rule, r.says, r.yours) for r in told.against] == [("bend-thick", "Mine bend further.", True)]
