"""A length that is said of no tree is no height of it."""

import pytest


@pytest.mark.parametrize(
    ("work", "size", "name", "mm"),
    [
        ("shortened the low left branch", "to about 5 cm", "length_mm", 50),
        ("shortened the low left branch", "it's 5 cm now", "length_mm", 50),
        ("removed the low left branch", "12 mm", "diameter_mm", 12),
        ("wired the low left branch", "it's 9 mm", "diameter_mm", 9),
    ],
)
def test_a_bare_length_behind_work_is_a_size_of_the_work(bench, work, size, name, mm):
    bench.answer(f"Old Salt: {work}")
    entry = bench.answer(size).logged[-1]
    assert not entry.measures and entry.work[0][name] == mm


@pytest.mark.parametrize(
    "words",
    ["a stoat scratched the bark, 3 cm patch", "something nibbled it, about 4 cm", "fed it, 5 cm"],
)
def test_a_length_beside_lost_words_tells_nothing_of_the_tree(bench, words):
    bench.answer("Old Salt")
    answer = bench.answer(words)
    assert "height_mm" not in answer.reading.measures
    assert any("cm" in missed.words for missed in answer.reading.missed)


def test_a_height_far_below_the_known_one_is_asked_about(bench):
    bench.answer("Old Salt is 50 cm tall")
    answer = bench.answer("it is 5 cm tall")
    assert answer.confirm and not answer.logged
    assert not bench.answer("no").logged
    assert bench.answer("it is 45 cm tall").logged
    bench.answer("it is 4 cm tall")
    assert bench.answer("yes").logged
