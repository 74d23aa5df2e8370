"""When a pine shoots again after its candles were cut: some kinds do, and the answer agrees with what falls due."""

import pytest


@pytest.mark.parametrize(
    "kind, again", [("black pine", True), ("red pine", True), ("Scots pine", False), ("white pine", False)]
)
def test_a_kind_with_second_candles_is_told_so(empty_bench, kind, again):
    bench = empty_bench
    bench.answer(f"new tree, {kind}, call it Kelp")
    bench.answer("it's strong")
    bench.answer("decandled Kelp today")
    (figure,) = bench.answer("when will it shoot again").advice.figures
    assert any("flushes again" in one for one in figure.notes) == again
    assert any("seldom flushes twice" in one for one in figure.notes) != again
