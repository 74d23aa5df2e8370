"""Which trees need cover, asked of the whole garden, with the frost of the night before or behind the question."""

import datetime as dt

import pytest

from benchmate.talk.bench import Bench
from benchmate.talk.house import House


@pytest.mark.parametrize(
    "words",
    [
        "minus 7 tonight, which ones need cover",
        "which trees need cover tonight, minus 7",
        "minus 7 tonight, what should I bring in",
        "which ones need covering",
    ],
)
def test_every_tree_is_answered_for_by_name(demo, words):
    answer = Bench(House(demo), dt.date(2026, 12, 20), talking=True).answer(words)
    told = " ".join(answer.says)
    assert all(name in told for name in ("Bristle", "Harbour", "Ratchet", "Cellar")) and "No tree" not in told
