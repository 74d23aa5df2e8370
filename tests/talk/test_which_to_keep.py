"""Which of two leaders stays: asked before anything is known of them, and after their sizes were told."""

from benchmate.telling.told import tell


def lines(answer):
    return [f"{line.lead}{line.words}" for line in tell(answer)]


def test_what_tells_the_two_apart_is_asked_for(bench):
    bench.answer("let's do Gatepost")
    bench.answer("first flush is firm, two leaders")
    answer = bench.answer("which one should I keep")
    assert any("What tells the two apart" in line for line in lines(answer))


def test_sizes_told_before_the_question_count_on_both_sides(bench):
    bench.answer("let's do Gatepost")
    bench.answer("first flush is firm, two leaders")
    bench.answer("the left is 9 mm, the right 6 mm")
    answer = bench.answer("which one should I keep")
    kept = [option for option in answer.advice.options if option.work == "select-leader"]
    assert {option.spot.side for option in kept} == {"left", "right"}
    assert any(option.against for option in kept)
    assert not any("What tells the two apart" in line for line in lines(answer))
