"""A part of the year for each kind of tree, in some states each day: no careless yes, and none that only ever says no.

Days and states shift from kind to kind, so that all of them together cover the year. All of it for every kind:
`python tests/practice/sweeping.py`.
"""

from __future__ import annotations

import pytest
from example_runner import built
from sweeping import PLACES, STATES, TABLES, broken, fits, kinds, matcher_of, shut, year

# days between two on which a kind is looked at; those of the next kind lie a little later
STEP = 120
SHIFT = 11
# of the states, one in so many is tried on a day
STATE_STEP = 7
# days on which something must be open, of how many kinds
OPEN_STEP = 10
OPEN_KINDS = 10
KINDS = kinds()


@pytest.mark.parametrize("part", range(6))
def test_no_careless_yes(part: int) -> None:
    asked = []
    for number, taxon in list(enumerate(KINDS))[part::6]:
        place = tuple(PLACES)[number % len(PLACES)]
        for later, on in enumerate(year(1)[(number * SHIFT) % STEP :: STEP]):
            asked += [
                (taxon, place, on, state) for state in list(STATES)[(number + 2 * later) % STATE_STEP :: STATE_STEP]
            ]
    assert not [f"{id}: {one.words}" for id, one in broken(asked)]


def test_what_should_be_open_is_open_some_day() -> None:
    taxa = KINDS[5 :: len(KINDS) // OPEN_KINDS]
    told = [f"{id}: {work} is never go on {taxon}" for id, taxon, work in shut(taxa, year(OPEN_STEP))]
    assert not told


def test_each_invariant_speaks_of_some_tree_on_some_day_and_names_works_that_are() -> None:
    _, _, book = built()
    rows = [*TABLES["never"], *TABLES["sometimes"]]
    ids = [row["id"] for row in rows]
    assert len(set(ids)) == len(ids)
    for row in rows:
        assert {work.partition(":")[0] for work in row["work"]} <= set(book.works), row["id"]
        told = row.get("state", [])
        assert {told} if isinstance(told, str) else set(told) <= set(STATES), row["id"]
    silent = {row["id"]: row for row in rows}
    for taxon in KINDS:
        for on in year(45):
            almanac = matcher_of(taxon, "north", on, "healthy").almanac
            silent = {id: row for id, row in silent.items() if not fits(row, taxon, almanac)}
        if not silent:
            break
    assert not silent


def test_the_sweep_finds_what_is_let_go() -> None:
    rows = [
        {"id": "no-water-ever", "work": ["water"]},
        {"id": "no-water-on-pines", "work": ["water"], "group": ["pine"]},
    ]
    found = list(broken([("Acer campestre", "north", year(1)[160], "healthy")], rows))
    assert [(id, one.work) for id, one in found] == [("no-water-ever", "water")]
    assert list(shut(["Fagus sylvatica"], year(365))) != []
