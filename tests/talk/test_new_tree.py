"""A tree's record begun in one statement."""

import datetime as dt

import pytest

from benchmate.garden import check_garden, open_garden
from benchmate.talk.deeds import origin_said
from benchmate.telling import lay, tell

ON = dt.date(2026, 6, 14)


def test_one_statement_makes_the_tree_with_its_kind_name_and_origin(empty_bench):
    answer = empty_bench.answer("new tree, field maple from a hedge, call it Gatepost")
    folder = empty_bench.house.folder
    (tree,) = open_garden(folder).trees()
    assert (tree.name, tree.species, tree.origin, tree.since) == ("Gatepost", "Acer campestre", "hedge", ON)
    (entry,) = open_garden(folder).entries(tree)
    assert (entry.kind, entry.said) == ("note", "new tree, field maple from a hedge, call it Gatepost")
    assert "The record of Gatepost is begun: Acer campestre, hedge" in lay(tell(answer))
    assert check_garden(folder) == []
    empty_bench.answer("wired the low branch on the left")
    assert [table["work"] for table in open_garden(folder).entries(tree)[-1].work] == ["wire"]


@pytest.mark.parametrize(
    "words, origin",
    [
        ("new tree, field maple from a hedge, call it Gatepost", "hedge"),
        ("new tree, beech out of the old nursery bed and call it Anvil", "old nursery bed"),
        ("new tree, hawthorn dug from a hedge, call it Thorn", "dug from a hedge"),
        ("new tree, larch, call it Slate, grown from seed", "grown from seed"),
        ("new tree, larch, call it Slate", None),
        ("new tree, larch from 2019, call it Slate", None),
    ],
)
def test_where_it_comes_from(words, origin):
    assert origin_said(words) == origin
