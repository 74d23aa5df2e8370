"""The pot that a tree stands in, from its sheet and its journal."""

import datetime as dt

import pytest

from benchmate.garden.potted import as_potted
from benchmate.garden.record import Entry, Tree

TREE = Tree("Gatepost", "gatepost", pot={"length_mm": 320.0, "width_mm": 240.0, "depth_mm": 90.0})
NEW = {"length_mm": 400.0, "width_mm": 300.0, "depth_mm": 80.0}


def entry(day, kind="done", *, work="repot", measures=None, **sizes):
    works = ({"work": work, **sizes},) if kind != "seen" else ()
    return Entry(f"e{day}", dt.date(2027, 3, day), kind, "x", work=works, measures=measures or {})


def pot(*entries, on=dt.date(2027, 6, 1)):
    return dict(as_potted(TREE, entries, on).pot)


@pytest.mark.parametrize("work", ["repot", "slip-pot", "collect"])
def test_the_pot_that_it_was_put_into_is_its_pot(work):
    assert pot(entry(2, work=work, **NEW)) == NEW


def test_the_newest_counts_and_keeps_nothing_of_the_old():
    assert pot(entry(9, diameter_mm=300), entry(2, **NEW)) == {"diameter_mm": 300.0}


@pytest.mark.parametrize(
    "later",
    [
        entry(5),  # repotted, and nothing said of the pot
        entry(5, kind="plan", length_mm=500),
        entry(5, work="root-prune", length_mm=50),
        entry(5, part="root", length_mm=50),
        entry(5, kind="seen", measures={"height_mm": 600.0, "diameter_mm": 70.0}),
    ],
    ids=["no-size", "plan", "other-work", "of-the-roots", "size-of-the-tree"],
)
def test_what_tells_of_no_other_pot_changes_nothing(later):
    assert pot(entry(2, **NEW), later) == NEW


def test_a_pot_that_was_measured_is_its_pot():
    assert pot(entry(5, kind="seen", measures=NEW)) == NEW


def test_what_was_taken_back_or_is_still_to_come_does_not_count():
    struck = Entry("s", dt.date(2027, 3, 3), "struck", "x", strikes="e2")
    assert pot(entry(2, **NEW), struck) == dict(TREE.pot)
    assert pot(entry(9, **NEW), on=dt.date(2027, 3, 5)) == dict(TREE.pot)
