"""Which of two places is meant: both are weighed, and neither is lost."""

from benchmate.telling.told import tell


def lines(answer):
    return [f"{line.lead}{line.words}" for line in tell(answer)]


def test_both_places_that_are_asked_about_are_weighed(bench):
    answer = bench.answer("should I cut the left or the right branch")
    weighed = [(one.work, one.spot.side) for one in answer.advice.options if one.work == "remove"]
    assert weighed == [("remove", "left"), ("remove", "right")]
    assert not answer.logged and any("What tells the two apart" in line for line in lines(answer))


def test_how_many_leaves_a_cut_left_stands_with_the_cut(bench):
    answer = bench.answer("shortened the shoots, left two leaves on each")
    assert [entry.kind for entry in answer.logged] == ["done"]
    (work,) = answer.logged[0].work
    assert (work["work"], work["leaves"], work.get("side")) == ("shorten", 2, None)


def test_each_of_several_branches_is_logged_with_its_own_size(bench):
    answer = bench.answer("took three crossing branches off, and one heavy one on the back about 14 mm")
    told = [(w["work"], w.get("side"), w.get("count"), w.get("diameter_mm")) for w in answer.logged[0].work]
    assert told == [("remove", None, 3, None), ("remove", "back", 1, 14.0)]


def test_the_size_of_a_branch_is_no_size_of_the_trunk(bench):
    before = lines(bench.answer("how thick is the trunk"))
    answer = bench.answer("the sacrifice branch is 25 mm now")
    assert any("the branch (diameter 25 mm)" in line for line in lines(answer))
    assert lines(bench.answer("how thick is the trunk")) == before


def test_each_tree_gets_its_own_work_behind_a_semicolon(bench):
    answer = bench.answer("turned the beech; the larch got a handful of rapeseed cake")
    told = [line for line in lines(answer) if line.startswith("Logged for ")]
    assert told == ["Logged for Parchment: done: turned it round.", "Logged for Sprint: done: fed it."]


def logged(bench, words):
    return [line for line in lines(bench.answer(words)) if line.startswith("Logged for ")]


def test_a_day_ahead_of_one_tree_is_no_day_of_what_was_done_to_the_others(bench):
    told = logged(bench, "repotted maple and beech, hornbeam left till next year")
    assert told[:2] == [f"Logged for {name}: done: repotted it." for name in ("Gatepost", "Parchment")]
    assert told[2].startswith("Logged for Ratchet: plan: repot it, ")


def test_the_same_work_on_another_day_is_planned_for_the_second_tree(bench):
    told = logged(bench, "repotted the maple today, the beech next week")
    assert told[0] == "Logged for Gatepost: done: repotted it."
    assert told[1].startswith("Logged for Parchment: plan: repot it, ")


def test_a_day_that_was_is_shared(bench):
    told = logged(bench, "fed the beech, watered the elm yesterday")
    assert len(told) == 2 and not any("plan" in line for line in told)


def test_what_is_not_understood_of_one_tree_is_logged_for_none(bench):
    answer = bench.answer("repotted the maple, elm just topdressed")
    assert [line for line in lines(answer) if line.startswith("Logged for ")] == [
        "Logged for Gatepost: done: repotted it."
    ]
    assert any("topdressed" in line for line in lines(answer) if "Not taken in" in line)
