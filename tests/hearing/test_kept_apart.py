"""What is chosen between is not done, what grows from somewhere was not taken off, what is held off is left, trees that
are counted count nothing on them, and what each of several trees has of its own is not said of the others."""

from __future__ import annotations

import datetime as dt

import pytest

from benchmate.hearing import Ear

ON = dt.date(2026, 6, 14)
NAMES = ("Ratchet", "Crag", "Parchment")


@pytest.mark.parametrize(
    "said, work",
    [
        ("bud facing down, rub it off or keep it", "rub-buds"),
        ("rub it off or leave it on", "rub-buds"),
        ("remove the branch or keep it", "remove"),
        ("long shoot at the top, cut it or leave it", "remove"),
        ("keep it or cut it off", "remove"),
    ],
)
def test_work_or_leaving_it_is_a_choice(ear: Ear, said: str, work: str) -> None:
    heard = ear.hear(said, ON)
    assert heard.topic == "compare" and not {"decide", "strike"} & set(heard.acts)
    assert heard.work[0].work == work and all(one.done is None for one in heard.work)


@pytest.mark.parametrize(
    "said", ["shoots growing straight up off the branches", "a strong shoot that grew well up off the trunk"]
)
def test_what_grows_from_somewhere_was_not_taken_off(ear: Ear, said: str) -> None:
    assert "decide" not in ear.hear(said, ON).acts


def test_what_popped_out_was_not_pinched(ear: Ear) -> None:
    heard = ear.hear("a shoot's popped out of the trunk below the first branch, rub it off?", ON)
    assert "decide" not in heard.acts and [fact.value for fact in heard.facts] == ["back-buds"]


@pytest.mark.parametrize("said", ["wrapped the trunk in damp moss", "wrapped the trunk in sphagnum"])
def test_moss_round_the_trunk_makes_no_layer(ear: Ear, said: str) -> None:
    assert [work.work for work in ear.hear(said, ON).work] == ["shelter"]


@pytest.mark.parametrize("said", ["took the shoots off the trunk", "going to cut it off the trunk"])
def test_what_is_taken_off_is_work(ear: Ear, said: str) -> None:
    assert [work.work for work in ear.hear(said, ON).work] == ["remove"]


@pytest.mark.parametrize(
    "said, work",
    [
        ("held off the wiring", "wire"),
        ("I put off the repot", "repot"),
        ("decided against the wiring", "wire"),
        ("hold off on leaf cutting", "leaf-cut"),
    ],
)
def test_work_held_off_is_a_decision(ear: Ear, said: str, work: str) -> None:
    heard = ear.hear(said, ON)
    assert heard.acts == ("decide",) and [(one.work, one.done) for one in heard.work] == [(work, "not")]
    assert not heard.facts


@pytest.mark.parametrize(
    "said, count",
    [
        ("all three maples have aphids", None),
        ("my two junipers have mites", None),
        ("the three maples have two dead branches", 2),
        ("the larch's two branches are weak", 2),
    ],
)
def test_trees_that_are_counted_count_nothing_on_them(ear: Ear, said: str, count: int | None) -> None:
    assert [fact.spot.count for fact in ear.hear(said, ON).facts if fact.kind == "finding"] == [count]


@pytest.mark.parametrize("said", ["the deadwood's going soft", "the bark is going green"])
def test_what_is_going_so_is_not_foretold(ear: Ear, said: str) -> None:
    assert not ear.hear(said, ON).foretold


# ---- several trees


@pytest.mark.parametrize(
    "said, own",
    [
        ("Crag: wired the left branch. Parchment: fed it", [["wire"], ["feed"]]),
        ("Crag, needles yellow; Parchment, fine", [["yellow-leaves"], []]),
        ("Crag yellow needles, Parchment healthy", [["yellow-leaves"], ["healthy"]]),
        ("the juniper: weak. the beech: strong", [["weak"], ["strong"]]),
    ],
)
def test_each_of_several_trees_has_its_own(ear: Ear, said: str, own: list[list[str]]) -> None:
    several = ear.hear(said, ON, names=NAMES).several
    assert several is not None and not several.shared
    told = [
        [*(work.work for work in one.work), *(fact.value for fact in one.facts if fact.kind != "species")]
        for one in several.each
    ]
    assert told == own


@pytest.mark.parametrize("said", ["Crag and Parchment, needles yellow", "yellow needles on Crag; Parchment too"])
def test_what_is_said_of_both_is_shared(ear: Ear, said: str) -> None:
    several = ear.hear(said, ON, names=NAMES).several
    assert several is not None and several.shared


@pytest.mark.parametrize(
    "said, places",
    [
        ("this morning I wired the top of Ratchet and the lowest branch of Parchment", [("top", None), ("low", None)]),
        ("wired the top of Ratchet and the lowest branch of Parchment yesterday", [("top", None), ("low", None)]),
        ("yesterday pruned the left side of Crag and the right side of Ratchet", [(None, "left"), (None, "right")]),
    ],
)
def test_a_day_of_all_leaves_each_its_place(ear: Ear, said: str, places: list[tuple[str | None, str | None]]) -> None:
    several = ear.hear(said, ON, names=NAMES).several
    assert several is not None
    assert [(work.spot.level, work.spot.side) for one in several.each for work in one.work] == places


@pytest.mark.parametrize(
    "said, every",
    [
        ("moved the trees under glass", True),
        ("watered the trees this morning", True),
        ("fed the trees except Crag", True),
        ("moved it under the trees", False),
        ("put Ratchet with the trees in the shade", False),
        ("wired the trees", False),
    ],
)
def test_the_trees_are_all_of_them_where_they_are_worked_on(ear: Ear, said: str, every: bool) -> None:
    several = ear.hear(said, ON, names=NAMES).several
    assert (several is not None and several.every) == every
