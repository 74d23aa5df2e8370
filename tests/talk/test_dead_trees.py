"""A tree that died closes its record after a yes; what died of it, or of its cuttings, does not. Work done to a tree
that "had its roots cut"."""

import pytest


@pytest.mark.parametrize(
    "words",
    [
        "lost the juniper, it's dead",
        "I've lost Crag",
        "lost Crag to the frost",
        "lost Crag to root rot",
        "Crag died over winter",
        "Crag didn't make it",
        "Crag is dead, I think",
        "Crag has died, binned it",
        "sad news, Crag's dead",
        "the juniper has given up the ghost",
        "Crag snuffed it",
        "Crag is a goner",
    ],
)
def test_a_dead_tree_closes_its_record_after_a_yes(bench, words):
    answer = bench.answer(words)
    assert answer.confirm.startswith("Close the record of Crag (died)") and not answer.logged
    (entry,) = bench.answer("yes").logged
    assert entry.ends == "died"


@pytest.mark.parametrize(
    "words",
    [
        "Crag lost a branch",
        "Crag has a dead branch",
        "the top of Crag is dead",
        "half of Crag is dead",
        "Crag died back",
        "Crag lost its leaves",
        "is Crag dead",
        "two of Crag's cuttings died",
    ],
)
def test_what_is_dead_of_a_tree_closes_nothing(bench, words):
    assert "Close the record" not in (bench.answer(words).confirm or "")


@pytest.mark.parametrize(
    "words",
    [
        "two of the cuttings died",
        "one of my cuttings has died",
        "the cuttings all died",
        "lost three of the cuttings",
        "half the cuttings rotted",
        "a cutting failed",
        "the seedlings have died",
        "the cuttings did not root",
        "both scions withered",
        "two slips dried up",
    ],
)
def test_young_plants_that_died_are_kept_as_a_note(bench, words):
    (entry,) = bench.answer(words).logged
    assert (entry.kind, entry.said, entry.facts) == ("note", words, ())


@pytest.mark.parametrize(
    "words, works",
    [
        ("Gatepost's had its roots cut, watered it in, and put it in the shade", ["root-prune", "water", "shade"]),
        ("Gatepost had its roots cut", ["root-prune"]),
        ("Gatepost has had its roots pruned", ["root-prune"]),
        ("Gatepost got its roots cut", ["root-prune"]),
        ("Gatepost had half its roots cut", ["root-prune"]),
        ("the maple has just had its leaves cut", ["leaf-cut"]),
        ("Gatepost had its shoots pinched", ["pinch"]),
        ("Gatepost's had its wire taken off", ["unwire"]),
        ("the maple had its soil changed yesterday", ["repot"]),
        ("Gatepost has had its roots cut by a third", ["root-prune"]),
    ],
)
def test_work_that_a_tree_had_done_to_it(bench, words, works):
    (entry,) = [one for one in bench.answer(words).logged if one.kind == "done"]
    assert [table["work"] for table in entry.work] == works


def test_what_a_tree_had_done_to_it_by_others_is_no_work(bench):
    assert not any(one.kind == "done" for one in bench.answer("Gatepost had its leaves eaten by caterpillars").logged)
