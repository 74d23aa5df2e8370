"""A plan that is dropped or moved is taken back and stands at its new time; nothing is done by it. Work that is put off
is a plan."""

import datetime as dt

import pytest

from benchmate.talk.bench import Bench
from benchmate.talk.house import House
from benchmate.telling.story import matching


def talk(demo, day, *statements, tree="Ratchet"):
    bench = Bench(House(demo), dt.date.fromisoformat(day), tree=tree)
    return [bench.answer(statement) for statement in statements]


def plans(demo, work, name="Ratchet"):
    house = House(demo)
    entries = house.entries(house.garden.find(name))
    return [entry.when for entry in matching(entries, work=work, kinds=("plan",)) if entry.day.year >= 2026]


def kinds(answer):
    return [entry.kind for entry in answer.logged]


@pytest.mark.parametrize(
    "said, when",
    [
        ("swap the repot to the year after", "2028-spring"),
        ("move the repot to 2028", "2028"),
        ("postpone it to 2028", "2028"),
        ("push it back a year", "2028-spring"),
        ("put off the repot a year", "2028-spring"),
        ("put the hornbeam off two years", "2029-spring"),
        ("leave it till autumn 2027", "2027-autumn"),
        ("I'll bring the repot forward to february", "2027-02"),
        ("repot it in march instead", "2027-03"),
    ],
)
def test_a_plan_is_moved(demo, said, when):
    *_, answer = talk(demo, "2026-09-12", "I'll repot it next spring", said)
    assert kinds(answer) == ["struck", "plan"] and plans(demo, "repot") == [when]


@pytest.mark.parametrize(
    "said",
    ["drop the wiring", "cancel the wiring", "call off the wiring", "call the wiring off", "skip the wiring this year",
     "no wiring after all", "I won't wire it after all", "put off the wiring"],
)  # fmt: skip
def test_a_plan_is_dropped(demo, said):
    *_, answer = talk(demo, "2026-09-12", "I'll wire it in november", said)
    assert kinds(answer) == ["struck", "left"] and plans(demo, "wire") == []


def test_a_plan_of_an_earlier_day_is_dropped(demo):
    talk(demo, "2026-09-12", "I'll wire it in november")
    (answer,) = talk(demo, "2026-10-12", "cancel the wiring")
    assert kinds(answer) == ["struck", "left"] and plans(demo, "wire") == []


@pytest.mark.parametrize(
    "said, logged",
    [
        ("drop the repot", ["left"]),
        ("move the repot to spring", ["plan"]),
        ("put the repot off a year", ["plan"]),
        ("cancel the repot", []),
    ],
)
def test_where_nothing_was_planned_nothing_is_done(demo, said, logged):
    (answer,) = talk(demo, "2026-11-14", said)
    assert kinds(answer) == logged


@pytest.mark.parametrize(
    "said, work, kind",
    [
        ("move it into the shade", "shade", "done"),
        ("move it to the shed", "shelter", "done"),
        ("leave it alone", "leave", "left"),
        ("wired it", "wire", "done"),
        ("it's strong after all", None, "seen"),
    ],
)
def test_other_words_leave_the_plan_alone(demo, said, work, kind):
    *_, answer = talk(demo, "2026-09-12", "I'll repot it next spring", said)
    (entry,) = answer.logged
    assert entry.kind == kind and [one["work"] for one in entry.work] == ([work] if work else [])
    assert plans(demo, "repot") == ["2027-spring"]


@pytest.mark.parametrize(
    "said, works",
    [
        ("tilt the trunk at the next repot", ["bend"]),
        ("turn it a bit to the left at the next repot", ["turn-tree"]),
        ("wiring it next", ["wire"]),
        ("repot it next", ["repot"]),
        ("next job: wire the left branch", ["wire"]),
        ("cut the big root back when I repot it", ["root-prune", "repot"]),
        ("wire it after leaf fall", ["wire"]),
        ("cut it back hard, not today though", ["shorten"]),
        ("take the left branch off next time", ["remove"]),
    ],
)
def test_what_is_put_off_is_planned(demo, said, works):
    (answer,) = talk(demo, "2026-06-14", said)
    (entry,) = answer.logged
    assert entry.kind == "plan" and [work["work"] for work in entry.work] == works and not entry.facts


@pytest.mark.parametrize(
    "said, works",
    [
        ("turned it to the left at the last repot", ["turn-tree"]),
        ("fed it after flowering", ["feed"]),
        ("cut it back hard", ["shorten"]),
        ("checked it, not today's job", ["check"]),
    ],
)
def test_what_was_done_stays_done(demo, said, works):
    (answer,) = talk(demo, "2026-06-14", said)
    assert [work["work"] for entry in answer.logged if entry.kind == "done" for work in entry.work] == works


@pytest.mark.parametrize("said", ["not today though", "not now", "but not today"])
def test_put_off_a_line_later_it_is_planned(demo, said):
    *_, answer = talk(demo, "2026-06-20", "cut it back hard", said)
    assert kinds(answer) == ["struck", "plan"]
    assert answer.logged[1].work[0]["work"] == "shorten"


def test_what_was_done_is_not_put_off(demo):
    *_, answer = talk(demo, "2026-06-20", "fed it", "not today though")
    assert not answer.logged
