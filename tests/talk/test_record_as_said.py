"""What goes into the record as it was said: new trees, reminders of other things, stuff with its ratio."""

import pytest

from benchmate.garden import follow_ups
from benchmate.telling.told import tell


def test_a_tree_that_was_collected_is_new(bench):
    answer = bench.answer("collected a hawthorn from a hedge yesterday, put it in a box of pumice")
    assert answer.logged == () and any("new tree" in words for words in answer.aside)
    (entry,) = bench.answer("call it Ditch").logged
    assert [work["work"] for work in entry.work] == ["collect", "repot"]
    assert bench.here.name == "Ditch" and bench.here.species == "Crataegus"


@pytest.mark.parametrize("words", ["collected it from a hedge", "collected the maple last week"])
def test_the_tree_here_that_was_collected_is_not(bench, words):
    assert bench.answer(words).logged and bench.context.tree == "Gatepost"


@pytest.mark.parametrize(
    "words, day, says",
    [
        ("repot it in march, remind me to order akadama", "2027-02-15", "Order akadama."),
        ("repot it in march, remind me on 1 february to order pots", "2027-02-01", "Order pots."),
        ("repot it in march and remind me to check it", "2027-03-01", "Check it."),
    ],
)
def test_a_plan_keeps_its_month_and_a_reminder_its_words(bench, words, day, says):
    (entry,) = bench.answer(words).logged
    assert entry.kind == "plan" and entry.when == "2027-03"
    assert {(item.work, item.on.isoformat(), item.says) for item in follow_ups([entry])} >= {("check", day, says)}


@pytest.mark.parametrize(
    "words, kept",
    [
        ("repotted it, akadama and lava 2:1", ['"akadama", "lava 2:1".']),
        ("wired it, 3 mm copper", ['"copper".']),
    ],
)
def test_stuff_is_kept_as_said_and_not_told_as_missed(bench, words, kept):
    lines = tell(bench.answer(words))
    assert [line.words for line in lines if line.lead == "Kept as said: "] == kept
    assert not any(line.lead == "Not taken in: " for line in lines)


def test_wire_that_bites_comes_off_now(bench):
    answer = bench.answer("wire on the juniper right branch is biting in")
    best = answer.advice.options[0]
    assert (best.work, best.spot.side, answer.tree) == ("unwire", "right", "Crag")


def test_some_of_them_are_told_so(bench):
    assert "Logged for Gatepost: done: shortened 3 of them." in [
        f"{line.lead}{line.words}" for line in tell(bench.answer("shortened three"))
    ]


def test_candles_are_what_the_ones_are_of_which_some_are_spared(bench):
    bench.answer("Old Salt: candles are 4 cm long, no needles yet. pinch them?")
    done, left = bench.answer("pinched the strong ones by half, left the weak ones alone").logged
    assert [work["work"] for work in done.work] == ["candle-shorten"] and not done.facts
    assert left.kind == "left"
