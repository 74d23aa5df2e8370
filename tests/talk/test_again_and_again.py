"""Work that comes again: each of its days is due, up to the time that was said."""

import datetime as dt

import pytest

from benchmate.garden import follow_ups
from benchmate.telling.told import tell

EVERY = [dt.date(2026, 6, 14) + dt.timedelta(days=14 * n) for n in range(4)]


def days(bench):
    (entry,) = [one for one in bench.house.entries(bench.here) if one.day == bench.on and one.kind == "plan"]
    return [item.on for item in follow_ups([entry])]


@pytest.mark.parametrize(
    "words",
    [
        "feed it every two weeks till august",
        "feed again every fortnight until august",
        "it's been in the sun since last week, feed it every two weeks until 31 July",
        "remind me to feed it every two weeks till august",
    ],
)
def test_each_time_is_due(bench, words):
    answer = bench.answer(words)
    assert days(bench) == EVERY
    assert not any(line.lead.startswith("Not kept") for line in tell(answer))


def test_done_once_it_is_due_the_next_time(bench):
    bench.answer("feed it every two weeks till august")
    bench.answer("fed it")
    entries = [one for one in bench.house.entries(bench.here) if one.day == bench.on]
    planned = [item.on for item in follow_ups(entries) if item.says == "Feed it."]
    assert planned == EVERY[1:]


@pytest.mark.parametrize("words", ["water it every day until september", "feed it every two weeks"])
def test_without_an_end_or_far_too_often_it_is_told_as_not_kept(bench, words):
    answer = bench.answer(words)
    assert any(line.lead.startswith("Not kept") for line in tell(answer))


def test_no_plan_lies_in_the_past(bench):
    (entry,) = bench.answer("it has been weak since last week, I'll feed it later").logged
    assert entry.kind == "plan" and entry.when is None
