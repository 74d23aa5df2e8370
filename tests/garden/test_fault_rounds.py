"""Some of the rounds of fault_rounds.py: each way of harm at some of the steps. BENCHMATE_ROUNDS=5 takes every step."""

from __future__ import annotations

import os
from itertools import islice

import pytest
from entries import ROUNDS
from fault_rounds import STARTS, any_step, every_step, play

pytestmark = pytest.mark.skipif(not hasattr(os, "fork"), reason="a round is a forked process")


@pytest.mark.parametrize("start", STARTS)
def test_harm_at_a_step_loses_no_acknowledged_entry(start: str) -> None:
    plans = [plan for plan in every_step(start)]
    assert len(plans) > 50
    for plan in islice(plans, 0, None, max(1, 6 - ROUNDS)):
        play(plan)


def test_harm_anywhere_loses_no_acknowledged_entry() -> None:
    for seed in range(40 * ROUNDS):
        play(any_step(seed))
