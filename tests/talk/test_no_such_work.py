"""What only sounds like a cut, a repotting or a watering is logged as what it is, or not at all."""

import datetime as dt

import pytest

from benchmate.talk.bench import Bench
from benchmate.talk.house import House


def works_logged(demo, day, tree, words):
    bench = Bench(House(demo), dt.date.fromisoformat(day), tree=tree)
    answer = bench.answer(words)
    return [work["work"] for entry in answer.logged if entry.kind == "done" for work in entry.work]


@pytest.mark.parametrize(
    "day, tree, words, works",
    [
        # on and under the soil
        ("2026-08-29", "Parchment", "tipped the pot on its side to drain", ["drain"]),
        ("2026-08-29", "Parchment", "tilted the pot so it drains", ["drain"]),
        ("2026-06-20", "Gatepost", "took the moss off the nebari", ["tidy"]),
        ("2026-06-20", "Gatepost", "weeded the pot", ["tidy"]),
        ("2026-06-13", "Gatepost", "topped up the soil", ["top-soil"]),
        ("2026-06-13", "Gatepost", "covered the roots with moss", ["top-soil"]),
        ("2026-12-12", "Old Salt", "water in the pot frozen solid", []),
        ("2026-12-12", "Old Salt", "water on the pot's surface has frozen", []),
        ("2026-06-13", "Gatepost", "roots are lifting off the rock", []),
        ("2027-04-17", "Gatepost", "a blackbird threw all the moss out of the pot", []),
        ("2026-06-13", "Harbour", "roots growing in the air from the branch", []),
        # looked at, and put back
        ("2026-03-14", "Gatepost", "lifted it out of the pot to look at the roots, put it back", ["check"]),
        ("2026-08-29", "Parchment", "lifted it out, roots black", ["check"]),
        # near ones
        ("2026-08-29", "Parchment", "tipped the shoots", ["shorten"]),
        ("2026-06-20", "Gatepost", "took the suckers off the base", ["remove"]),
        ("2026-06-13", "Gatepost", "topped the leader", ["shorten"]),
        ("2026-06-13", "Gatepost", "topped up the tray with water", ["water"]),
        ("2026-12-12", "Old Salt", "watered it in the frozen pot", ["water"]),
        ("2026-06-13", "Gatepost", "packed damp moss round the cut", ["air-layer"]),
        ("2026-03-14", "Gatepost", "lifted it out of the pot and into fresh soil", ["repot"]),
        ("2026-03-14", "Gatepost", "lifted it out of the pot, cut the roots, put it back", ["repot", "root-prune"]),
        ("2026-03-14", "Bristle", "lifted it out of the ground", ["collect"]),
        # what happened to the tree, and what was done against it
        ("2026-06-20", "Minnow", "spilled neat fertiliser in the pot", []),
        ("2026-06-20", "Minnow", "overfed it, double dose", []),
        ("2026-06-20", "Minnow", "poured the feed over it", ["feed"]),
        ("2028-01-08", "Bristle", "mice have eaten the bark off it", []),
        ("2028-01-08", "Bristle", "wrapped the trunk with foil against the mice", ["shelter"]),
        ("2026-06-20", "Gatepost", "wrapped the left branch with copper wire", ["wire"]),
        ("2026-07-10", "Gatepost", "drenched it with nematodes", ["treat"]),
        ("2026-07-10", "Gatepost", "drenched it with water", ["water"]),
        ("2026-06-13", "Old Salt", "bent the left branch down and it cracked but didn't come off", ["bend"]),
        ("2026-06-20", "Gatepost", "stripped the bark off the left branch for a jin", ["deadwood"]),
        # the last leaves of autumn
        ("2026-11-21", "Ratchet", "pulled the last leaves off", ["thin-leaves"]),
        ("2026-07-04", "Gatepost", "took every last leaf off", ["defoliate"]),
    ],
)
def test_what_was_done_is_what_is_logged(demo, day, tree, words, works):
    assert works_logged(demo, day, tree, words) == works
