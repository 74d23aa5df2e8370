"""Which tree is meant."""

import pytest

from benchmate.garden.record import Tree
from benchmate.hearing.reading import Fact, Reading
from benchmate.talk.trees.which_tree import meant_tree

GATEPOST = Tree("Gatepost", "field-maple-gate", "Acer campestre")
EMBER = Tree("Ember", "ember", "Acer palmatum")
SLATE = Tree("Slate", "slate", "Fagus sylvatica")
TREES = (GATEPOST, EMBER, SLATE)


def said(species=None, tree=None):
    return Reading("x", ("observe",), facts=(Fact("species", species),) if species else (), tree=tree)


@pytest.mark.parametrize(
    "reading, here, tree, asks",
    [
        (said(tree="gatepost"), SLATE, GATEPOST, False),
        (said(tree="Nobody"), SLATE, None, True),
        (said("Fagus"), GATEPOST, SLATE, False),
        (said("Acer"), GATEPOST, GATEPOST, False),
        (said("Acer"), SLATE, None, True),
        (said("Acer palmatum"), GATEPOST, EMBER, False),
        (said("Larix"), GATEPOST, None, False),
        (said(), SLATE, SLATE, False),
        (said(), None, None, True),
    ],
)
def test_the_tree_meant(reading, here, tree, asks):
    meant = meant_tree(reading, TREES, here)
    assert meant.tree == tree and (meant.ask is not None) == asks


def test_a_tree_taken_for_granted_is_told():
    assert meant_tree(said("Fagus"), TREES, GATEPOST).aside == "taken as Slate, the only Fagus here"


def test_the_question_names_only_the_trees_that_fit():
    assert meant_tree(said("Acer"), TREES, None).ask.says == "Which tree: Gatepost or Ember?"


def test_the_only_tree_of_a_garden_is_meant_and_told():
    meant = meant_tree(said(), (SLATE,), None)
    assert meant.tree == SLATE and "only tree" in meant.aside
