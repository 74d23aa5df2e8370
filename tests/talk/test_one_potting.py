"""A potting told in several clauses, and what holds the tree in its pot."""

import pytest


@pytest.mark.parametrize(
    ("words", "works"),
    [
        ("repotted it, took a third off the roots, back into the same pot, wired it in", ["repot", "root-prune"]),
        ("slip potted it into a 24 cm pot and tied it in", ["slip-pot"]),
        ("repotted it, then wired it", ["repot", "wire"]),
    ],
)
def test_one_potting_is_one(bench, words, works):
    (entry,) = bench.answer(words).logged
    assert [work["work"] for work in entry.work] == works


@pytest.mark.parametrize(
    ("before", "words", "works"),
    [
        (["repotted it into a 30 cm pot"], "root pruned it too", ["repot", "root-prune"]),
        (["repotted the beech yesterday"], "cut the roots by a third as well", ["repot", "root-prune"]),
        (["slip potted it", "what's due this week"], "also root pruned it", ["slip-pot", "root-prune"]),
        (["repotted the elm"], "pruned the roots of the elm by a third", ["repot", "root-prune"]),
    ],
)
def test_roots_cut_a_line_later_join_the_potting(bench, before, words, works):
    first = bench.answer(before[0]).logged
    for line in before[1:]:
        assert not bench.answer(line).logged
    answer = bench.answer(words)
    struck, entry = answer.logged
    assert struck.strikes == first[0].id
    assert [work["work"] for work in entry.work] == works and entry.day == first[0].day
    assert entry.work[0] == first[0].work[0]


@pytest.mark.parametrize(
    ("before", "words"),
    [
        ("repotted it last week", "root pruned it"),
        ("repotted the beech", "root pruned the elm too"),
        ("repotted it", "check the roots too"),
        ("repotted it, took a third off the roots", "root pruned it too"),
        ("wired it", "root pruned it too"),
    ],
)
def test_what_is_no_part_of_the_potting_stands_alone(bench, before, words):
    bench.answer(before)
    assert [entry.kind for entry in bench.answer(words).logged] == ["done"]


def test_a_tree_wired_in_by_itself_is_kept_in_words(bench):
    bench.answer("repotted it")
    (entry,) = bench.answer("wired it in with two wires through the holes").logged
    assert entry.kind == "note" and not entry.follow


@pytest.mark.parametrize(
    "words",
    [
        "picked off the black leaves",
        "removed the frosted leaves",
        "picked off the mushy leaves",
        "picked off the worst, about a dozen leaves",
    ],
)
def test_spoilt_leaves_are_a_few(bench, words):
    (entry,) = bench.answer(words).logged
    assert entry.work[0]["work"] == "thin-leaves" and entry.work[0]["manner"] == ["bad-leaves"]


@pytest.mark.parametrize(("day", "best"), [("2026-08-15", False), ("2026-11-20", False), ("2027-03-25", True)])
def test_fat_buds_call_for_root_work_in_spring_alone(demo, day, best):
    import datetime as dt

    from benchmate.talk.bench import Bench
    from benchmate.talk.house import House

    advice = Bench(House(demo), dt.date.fromisoformat(day)).answer("the beech's buds are fat already").advice
    assert (advice.options[0].work == "repot") == best
