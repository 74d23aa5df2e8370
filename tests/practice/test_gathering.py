"""Facts keep where they came from; the stronger origin goes before the weaker; unknown stays unknown."""

from __future__ import annotations

import datetime as dt

import pytest
from practice_ear import PLACE, SOUTH, TROPIC, ask, done, seen, tree

from benchmate.garden.record import Entry
from benchmate.hearing.reading import NOWHERE, Fact, Reading, Spot, Work
from benchmate.practice.almanac import almanac_for
from benchmate.practice.gather import gather
from benchmate.practice.quantity import quantity
from benchmate.practice.target import Target
from benchmate.practice.truth import Where, claim_truth, done_truth, stage_truth
from benchmate.practice.when import span_of

ON = dt.date(2026, 6, 15)
NOTHING = Reading("by hand")


def facts(book, reading=NOTHING, tree_=None, entries=(), place=PLACE, on=ON, talk=()):
    return gather(reading, tree_, entries, place, on, book, talk)


def test_each_fact_tells_where_it_comes_from(book):
    reading = Reading("by hand", facts=(Fact("health", "weak"),))
    known = facts(book, reading, tree(phase="structure"), [seen("2026-06-01", "finding", "dry")])
    assert known.first("health").told == "weak (said)"
    assert known.first("phase").told == "structure (from the record)"
    assert known.first("finding").told == "dry (from the record, 2026-06-01)"
    assert known.first("stage").told.endswith("(taken from the date)")


def test_the_talk_goes_before_the_record_and_after_the_statement(book):
    talk = [Fact("health", "recovering")]
    assert facts(book, NOTHING, tree(health="strong"), talk=talk).first("health").value == "recovering"
    said = Reading("by hand", facts=(Fact("health", "weak"),))
    assert facts(book, said, tree(health="strong"), talk=talk).first("health").value == "weak"


def test_what_was_struck_never_was(book):
    entries = [done("2026-06-01", "repot"), Entry("x", dt.date(2026, 6, 2), "struck", strikes="2026-06-01-repot")]
    assert facts(book, NOTHING, tree(), entries).done == ()


def test_what_lies_ahead_does_not_count(book):
    assert facts(book, NOTHING, tree(), [done("2026-07-01", "repot")]).done == ()


def test_a_collected_tree_was_collected_on_the_day_it_came(book):
    known = facts(book, NOTHING, tree(origin="hedge-collected", since=dt.date(2026, 3, 4)))
    assert [(d.work, d.first) for d in known.done] == [("collect", dt.date(2026, 3, 4))]


def test_a_tree_collected_on_no_known_day_may_have_been_so_of_late(book):
    known = facts(book, NOTHING, tree(origin="collected"))
    assert [(d.work, d.told) for d in known.done] == [("collect", "collect at some time")]
    assert done_truth(("collect",), ON - dt.timedelta(days=540), known) is None


def test_work_told_of_no_day_is_that_of_this_seasons_record(book):
    since = Reading("by hand", facts=(Fact("event", "repot"),))
    known = facts(book, since, tree(), [done("2026-03-08", "repot")])
    assert [d.first for d in known.done] == [dt.date(2026, 3, 8)]
    long_ago = facts(book, since, tree(), [done("2022-03-08", "repot")])
    assert done_truth(("repot",), dt.date(2026, 5, 1), long_ago) is None


def test_what_the_journal_tells_of_its_collecting_is_not_told_twice(book):
    dug = tree(origin="collected in the hills", since=dt.date(2026, 3, 4))
    known = facts(book, NOTHING, dug, [done("2026-02-20", "collect")])
    assert [(d.work, d.first) for d in known.done] == [("collect", dt.date(2026, 2, 20))]


BRANCH, LEFT = Spot("branch"), Spot("branch", "left")
TRUNK = Entry("t", dt.date(2026, 5, 1), "seen", measures={"diameter_mm": 66.0})
ONE = done("2026-05-02", "wire", part="branch", side="left", diameter_mm=9.0)
OTHER = seen("2026-05-03", "candidate", "branch", part="branch", side="right", diameter_mm=14.0)


@pytest.mark.parametrize(
    ("entries", "spot", "said", "given"),
    [
        ([TRUNK], BRANCH, {}, None),
        ([TRUNK], LEFT, {}, None),
        ([TRUNK], NOWHERE, {}, None),
        ([TRUNK], Spot("trunk"), {}, 66.0),
        ([TRUNK], NOWHERE, {"diameter_mm": 12.0}, 12.0),
        ([], BRANCH, {"diameter_mm": 40.0}, None),
        ([TRUNK, ONE], BRANCH, {}, 9.0),
        ([TRUNK, ONE, OTHER], BRANCH, {}, None),
        ([TRUNK, ONE, OTHER], LEFT, {}, 9.0),
        ([TRUNK, ONE], Spot("branch", "right"), {}, None),
    ],
)
def test_a_branch_has_its_own_diameter_or_none(book, entries, spot, said, given):
    reading = Reading("by hand", measures=said)
    known = facts(book, reading, tree(), entries)
    found, _ = quantity("diameter_mm", Target("bend", spot), known, almanac_for(ON, PLACE, {}, book.seasons), book)
    assert found == given


def test_wire_is_on_until_it_comes_off(book):
    on = [done("2026-03-28", "wire", part="branch", side="left")]
    assert [(k.value, k.spot.side) for k in facts(book, NOTHING, tree(), on).of("finding")] == [("wire-on", "left")]
    off = [*on, done("2026-06-01", "unwire", side="left")]
    assert facts(book, NOTHING, tree(), off).of("finding") == ()
    elsewhere = [*on, done("2026-06-01", "unwire", side="right")]
    assert [k.value for k in facts(book, NOTHING, tree(), elsewhere).of("finding")] == ["wire-on"]


@pytest.mark.parametrize(
    ("when", "first", "last"),
    [
        (None, "0001-01-01", "2026-06-15"),
        ("2026", "2026-01-01", "2026-06-15"),
        ("2026-03", "2026-03-01", "2026-03-31"),
        ("2026-04-02", "2026-04-02", "2026-04-02"),
        ("2026-spring", "2026-03-01", "2026-05-31"),
        ("2025-autumn", "2025-09-01", "2025-11-30"),
        ("2025-winter", "2025-12-01", "2026-02-28"),
    ],
)
def test_a_spoken_time_spans_days(when, first, last):
    assert [day.isoformat() for day in span_of(when, ON)] == [first, last]


def test_seasons_of_the_south_are_turned():
    assert span_of("2025-spring", ON, southern=True) == (dt.date(2025, 9, 1), dt.date(2025, 11, 30))


@pytest.mark.parametrize(
    ("when", "days", "truth"),
    [("2026-06", 42, True), ("2026-05", 42, None), ("2026-03", 42, False), ("2026", 42, None)],
)
def test_a_month_may_be_too_coarse_to_tell(book, when, days, truth):
    reading = Reading("by hand", facts=(Fact("event", "repot", when=when),))
    start = ON - dt.timedelta(days=days - 1)
    assert done_truth(("repot",), start, facts(book, reading, tree())) is truth


def test_not_repotted_this_year_is_known_of_a_bare_species(book):
    reading = Reading("by hand", facts=(Fact("species", "Acer"), Fact("event", "repot", when="2026", denied=True)))
    known = facts(book, reading)
    assert done_truth(("repot",), known.season_start, known) is False
    assert done_truth(("repot",), dt.date(2020, 1, 1), known) is None


def test_a_stage_that_was_said_settles_what_goes_with_it(book):
    known = facts(book, Reading("by hand", facts=(Fact("stage", "hardened"),)), tree())
    assert stage_truth("leaves-full", known) is True
    assert stage_truth("leafing-out", known) is False
    assert known.stage_assumed is None


def test_the_date_suggests_and_says_so(book):
    known = facts(book, NOTHING, tree(), on=dt.date(2026, 12, 5), place=PLACE)
    assert stage_truth("leafless", known) is True
    assert "taken from the date" in known.stage_assumed
    south = facts(book, NOTHING, tree(), on=dt.date(2026, 12, 5), place=SOUTH)
    assert stage_truth("leafless", south) is False


def test_a_word_against_the_date_takes_the_stage_before(book):
    reading = Reading("by hand", facts=(Fact("stage", "leafless", denied=True),))
    known = facts(book, reading, tree(), on=dt.date(2026, 12, 5))
    assert stage_truth("leafless", known) is False
    assert stage_truth("leaf-fall", known) is True
    assert known.stage_assumed.startswith("leaf fall is taken from the date")


def test_a_word_far_from_the_date_leaves_the_date_out(book):
    reading = Reading("by hand", facts=(Fact("stage", "leafless", denied=True),))
    known = facts(book, reading, tree(), on=dt.date(2027, 2, 5))
    assert stage_truth("leafless", known) is False
    assert known.stage_assumed is None


def test_where_nothing_tells_the_stage_it_is_unknown(book):
    assert stage_truth("hardened", facts(book, NOTHING, tree(), place=TROPIC)) is None
    assert stage_truth("hardened", facts(book)) is None


def test_findings_are_not_there_unless_someone_saw_them(book):
    from benchmate.practice.condition import Claim

    known = facts(book, Reading("by hand", facts=(Fact("finding", "dieback", Spot("branch", "left")),)), tree())
    for spot, truth in ((Spot("branch", "left"), True), (Spot("branch", "right"), False), (Spot(), False)):
        assert claim_truth(Claim("finding", "dieback"), known, Where(spot, spot), book.places) is truth
        assert claim_truth(Claim("finding", "crossing"), known, Where(spot, spot), book.places) is False


def test_measures_are_said_or_of_the_record(book):
    entry = Entry("m", dt.date(2026, 5, 1), "seen", measures={"base_mm": 64.0})
    cold = Reading("by hand", measures={"temperature_c": -9.0})
    known = facts(book, cold, tree(size={"base_mm": 60, "height_mm": 410}), [entry])
    assert known.measures == {"base_mm": 64.0, "height_mm": 410, "temperature_c": -9.0}


def test_only_a_genus_known_leaves_its_species_open(book):
    known = facts(book, ask("wire", Fact("species", "Acer")))
    from benchmate.practice.condition import Claim

    where = Where(Spot(), Spot())
    assert claim_truth(Claim("species", "Acer campestre"), known, where, book.places) is None
    assert claim_truth(Claim("species", "Fagus"), known, where, book.places) is False
    assert claim_truth(Claim("trait", "thorns:yes"), known, where, book.places) is None


def test_work_done_in_the_statement_is_marked_so(book):
    known = facts(book, Reading("by hand", ("decide",), work=(Work("repot", done="done"),)), tree())
    assert [(d.work, d.first, d.now) for d in known.done] == [("repot", ON, True)]


def test_work_of_the_record_that_is_told_again_is_that_work(book):
    reading = Reading("by hand", work=(Work("repot", done="done"),), when="2026-06-01")
    known = facts(book, reading, tree(), [done("2026-06-04", "repot")])
    assert [(one.first, one.now) for one in known.done if one.work == "repot"] == [(dt.date(2026, 6, 4), True)]


def test_work_of_today_is_told_beside_that_of_the_record(book):
    reading = Reading("by hand", work=(Work("repot", done="done"),))
    known = facts(book, reading, tree(), [done("2026-06-04", "repot")])
    assert len([one for one in known.done if one.work == "repot"]) == 2
