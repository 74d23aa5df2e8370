"""The line at the bottom: tree, day, stage and dose left at every width, and no word of it broken."""

import datetime as dt

import pytest
from conftest import DEMO

from benchmate.talk.bench import Bench
from benchmate.talk.house import House
from benchmate.talk.status import status_words
from benchmate.telling.lines import Line, lay

HOUSE = House(DEMO)
NAMES = [tree.name for tree in HOUSE.trees()]
DAYS = [dt.date(2026, 2, 10), dt.date(2026, 4, 20), dt.date(2026, 6, 14), dt.date(2026, 11, 28)]


def test_the_longest_form_that_has_room():
    bench = Bench(HOUSE, dt.date(2026, 6, 14), tree="Gatepost", dry=True)
    bench.answer("the second flush has hardened")
    left = status_words(bench).rpartition(" | ")[2].split(" %")[0]
    assert status_words(bench, 120) == (
        f"Gatepost | 14 June 2026 | dry: nothing is logged | hardened, flush 2 | {left} % leaf left"
    )
    assert status_words(bench, 60) == f"Gatepost | 14 Jun | dry | hardened, flush 2 | {left} % left"
    assert status_words(bench, 40) == f"Gatepost 14 Jun dry hardened 2 {left} %"


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("day", DAYS, ids=str)
def test_it_fits_forty_columns_with_all_that_it_tells(name, day):
    bench = Bench(HOUSE, day, tree=name)
    words = status_words(bench, 40)
    assert len(words) <= 40 and words.startswith(name) and f"{day.day} {day:%b}" in words
    whole = status_words(bench).split(" | ")
    if "%" in whole[-1]:
        assert words.removesuffix(" left").endswith(whole[-1].removesuffix(" leaf left"))
        stage = whole[-2].partition(",")[0].rstrip("?")
        assert stage in words


@pytest.mark.parametrize("name", NAMES)
def test_what_does_not_fit_is_folded_between_words(name):
    words = status_words(Bench(HOUSE, DAYS[2], tree=name, dry=True), 20)
    rows = lay([Line(words)], 20).split("\n")
    assert all(len(row) <= 20 for row in rows) and " ".join(map(str.strip, rows)) == words
