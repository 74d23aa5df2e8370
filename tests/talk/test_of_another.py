"""Short words that go on with what was said last: of another tree, of another place, of the wire that was spoken of."""

import pytest


def log(answer):
    """(tree's works) that the answer logged, with their sides."""
    return [(work["work"], work.get("side")) for entry in answer.logged for work in entry.work]


@pytest.mark.parametrize(
    "talk, tree, logged",
    [
        (["Ratchet: wired the left branch", "the right one too"], "Ratchet", [("wire", "right")]),
        (["Ratchet: wired the left branch", "and on the maple"], "Gatepost", [("wire", "left")]),
        (["fed the elm", "and the beech"], "Parchment", [("feed", None)]),
        (["juniper: the wire on the right branch is biting", "took it off"], "Crag", [("unwire", "right")]),
    ],
    ids=lambda value: value[-1] if isinstance(value, list) and isinstance(value[0], str) else None,
)
def test_what_was_said_last_is_done_there_too(talk, tree, logged, bench):
    *_, answer = [bench.answer(statement) for statement in talk]
    assert (answer.tree, log(answer)) == (tree, logged)


@pytest.mark.parametrize("further", ["and the hornbeam?", "what about Ratchet?", "how about the hornbeam?"])
def test_a_question_is_asked_of_another_tree(further, bench):
    bench.answer("can I repot it")
    answer = bench.answer(further)
    assert answer.tree == "Ratchet"
    assert [work.work for work in answer.reading.work] == ["repot"]
    assert not answer.logged


def test_a_tree_named_with_something_of_its_own_is_no_repeat(bench):
    bench.answer("can I repot it")
    assert not bench.answer("and the hornbeam is weak").reading.work
