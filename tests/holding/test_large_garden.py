"""A question over many trees is answered from the garden's index, word for word as from all its journals."""

import datetime as dt
import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent.parent / "garden"))

from orchard import plant

from benchmate.garden import Entry, open_garden
from benchmate.hearing.reading import Reading, Work
from benchmate.talk.recorded.recall import recall
from benchmate.talk.recorded.recall_many import newest_of

ON = dt.date(2018, 6, 14)
QUESTIONS = [
    ("repot",), ("water",), ("shorten", "feed"), ("defoliate",), ("leave",), ("graft",), (),
]  # fmt: skip
WHEN = [None, "2018", "2018-05", "2018-06-14", "2017-spring", "2031", "1999"]


@pytest.fixture(scope="module")
def garden(tmp_path_factory):
    home = tmp_path_factory.mktemp("large") / "orchard"
    plant(home, 30, 60)
    garden = open_garden(home)
    tree = garden.trees()[2]
    slip = garden.append(tree, Entry("", ON, "done", "repotted it", work=({"work": "repot"},)))
    garden.append(tree, Entry("", ON, "struck", strikes=slip.id))
    garden.append(tree, Entry("", ON, "left", "left it alone", work=({"work": "leave"},)))
    garden.append(tree, Entry("", ON, "done", "grafted it", work=({"work": "graft"},)))
    return garden


@pytest.mark.parametrize("when", WHEN)
@pytest.mark.parametrize("works", QUESTIONS, ids=" ".join)
def test_it_is_told_as_from_all_the_journals(garden, works, when):
    reading = Reading("", ("ask",), "recall", work=tuple(Work(work) for work in works), when=when)
    trees = garden.trees()
    whole = recall(reading, {tree.name: garden.entries(tree) for tree in trees}, ON)
    journals, counts = newest_of(reading, garden, trees, ON, False)
    assert recall(reading, journals, ON, counts=counts, several=True) == whole
