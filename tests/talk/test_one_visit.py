"""What is done together is judged together, what it takes is gone at once, and what it wants later is written down."""

import pytest

from benchmate.telling.told import tell


def told(answer):
    return [line.words for line in tell(answer)]


def left(answer):
    return answer.advice.dose_left


# ---- works on the roots are one visit


@pytest.mark.parametrize(
    "words",
    [
        "repotted it and took off a third of the roots",
        "root-pruned it by a third and repotted it",
        "repotted it, a third of the roots off",
        "took it out of its pot, cut a third of the roots off and repotted it",
    ],
)
def test_roots_cut_at_the_repot_are_not_held_against_it(demo, words):
    import datetime as dt

    from benchmate.talk.bench import Bench
    from benchmate.talk.house import House

    bench = Bench(House(demo), dt.date(2026, 3, 25), tree="Parchment")
    answer = bench.answer(words)
    assert {option.work: option.verdict for option in answer.advice.options}["repot"] == "go"
    assert told(answer)[0].startswith("Sound: ")


@pytest.mark.parametrize(
    "words, work",
    [
        ("repotted it and removed the left branch", "remove"),
        ("repotted it and took all the leaves off", "defoliate"),
        ("repotted it and took off three quarters of the roots", "root-prune"),
    ],
)
def test_what_is_too_much_for_one_visit_is_still_told(demo, words, work):
    import datetime as dt

    from benchmate.talk.bench import Bench
    from benchmate.talk.house import House

    bench = Bench(House(demo), dt.date(2026, 3, 25), tree="Gatepost")
    answer = bench.answer(words)
    assert {option.work: option.verdict for option in answer.advice.options}[work] in ("hold", "avoid")
    assert told(answer)[0].startswith("Careful: ")


def test_the_repot_of_the_visit_before_still_counts(demo):
    import datetime as dt

    from benchmate.talk.bench import Bench
    from benchmate.talk.house import House

    bench = Bench(House(demo), dt.date(2026, 3, 25), tree="Parchment")
    bench.answer("repotted it")
    assert told(bench.answer("root-pruned it and repotted it again"))[0].startswith("Careful: ")


# ---- what is left of the leaf


@pytest.mark.parametrize("words", ["took a tenth of the leaf off", "take a tenth of the leaf off"])
def test_what_is_taken_now_is_not_left_to_spend(bench, words):
    before = left(bench.answer("can I shorten it"))
    answer = bench.answer(words)
    assert left(answer) == pytest.approx(before - 0.1)
    assert f"About {left(answer) * 100:.0f} % of the foliage is still to spend this season." in told(answer)
    assert left(bench.answer("can I shorten it")) == pytest.approx(left(answer))


@pytest.mark.parametrize("words", ["halved the leaves", "halve the leaves"])
def test_what_takes_it_all_leaves_none(bench, words):
    assert "No foliage is left to spend this season." in told(bench.answer(words))


@pytest.mark.parametrize(
    "words", ["can I halve the leaves", "I'll halve the leaves next week", "won't halve the leaves"]
)
def test_what_is_asked_meant_or_refused_takes_nothing(bench, words):
    before = left(bench.answer("can I shorten it"))
    assert left(bench.answer(words)) in (None, before)


# ---- what a work wants later


@pytest.mark.parametrize("words", ["wired the left branch", "wire the left branch", "I'm wiring the left branch"])
def test_wire_on_a_weak_tree_is_looked_at_too(bench, words):
    bench.answer("let's do the larch")
    answer = bench.answer(words)
    if answer.confirm:  # an order that something stands against is no report yet
        answer = bench.answer("yes")
    (entry,) = answer.logged
    assert told(answer)[0].startswith("Careful: ")
    assert {"check", "unwire"} & {follow["work"] for follow in entry.follow}


def test_an_option_taken_against_advice_is_followed_up(bench):
    bench.answer("let's do the larch")
    options = bench.answer("can I wire the left branch").advice.options
    answer = bench.answer(f"take number {[option.work for option in options].index('wire') + 1}")
    if answer.confirm:
        answer = bench.answer("yes")
    assert answer.logged[0].kind == "plan" or answer.logged[0].follow


def test_a_plan_writes_nothing_down_to_come_back_for(bench):
    bench.answer("let's do the larch")
    assert bench.answer("I'll wire the left branch next week").logged[0].follow == ()


# ---- reminders without a day


@pytest.mark.parametrize("words", ["remind me then", "set a reminder for it", "remind me to feed it after the flush"])
def test_a_reminder_without_a_day_asks_for_one(bench, words):
    answer = bench.answer(words)
    assert answer.logged == () and answer.asks[0].fact == "when"
    assert answer.asks[0].says.startswith("No reminder is kept yet")
