"""Statements about several trees at once: logged on each, answered for each, and asked about where it is all."""

import pytest

from benchmate.garden import new_tree
from benchmate.hearing.reading import Fact, Reading, Several, Work
from benchmate.telling.told import tell


def done(work, *named, said="x", **more):
    several = Several(named, **more)
    return Reading(said, ("decide",), work=(Work(work, done="done"),), several=several)


def asked(work, *named, topic="may", **more):
    return Reading("x", ("ask",), topic, work=(Work(work),) if work else (), several=Several(named, **more))


@pytest.fixture
def carried(bench):
    """Carries a reading out, or answers words, and gives the answer with what was written by tree."""

    def carry(reading):
        before = {tree.name: len(bench.house.entries(tree)) for tree in bench.house.trees()}
        answer = bench.answer(reading) if isinstance(reading, str) else bench.carry(reading)
        new = {tree.name: bench.house.entries(tree)[before[tree.name] :] for tree in bench.house.trees()}
        return answer, {name: [entry.kind for entry in entries] for name, entries in new.items() if entries}

    return carry


def told(answer):
    return [f"{line.lead}{line.words}" for line in tell(answer)]


# ---- logging


def test_it_is_logged_on_each_with_a_line_for_each(carried, bench):
    answer, new = carried(done("feed", "Fagus", "Ratchet", "Ulmus"))
    assert new == {"Parchment": ["done"], "Ratchet": ["done"], "Minnow": ["done"]}
    logged = [line for line in told(answer) if line.startswith("Logged for ")]
    assert logged == [f"Logged for {name}: done: fed it." for name in ("Parchment", "Ratchet", "Minnow")]
    assert answer.tree is None and bench.context.tree is None
    assert bench.context.those == ("Parchment", "Ratchet", "Minnow")


def test_a_tree_named_twice_is_logged_once(carried):
    assert carried(done("feed", "Fagus", "Parchment"))[1] == {"Parchment": ["done"]}


def test_one_line_tells_where_something_stands_against_it(carried):
    answer, _ = carried(done("wire", "Fagus", "Larix"))
    assert answer.says == ("Careful on Sprint; nothing known stands against it on the other",)
    (line,) = [line for line in told(answer) if line.startswith("- ")]
    assert line.startswith("- Sprint: ")


def test_what_protects_people_is_told_whatever_is_left_out(carried):
    answer, _ = carried(done("shorten", "Fagus", "Crataegus"))
    assert {caution.kind for caution in answer.advice.cautions} == {"person"}


def test_what_is_seen_is_logged_on_each_and_kept_for_none_at_hand(carried, bench):
    weak = Reading("x", ("observe",), facts=(Fact("health", "weak"),), several=Several(("Fagus", "Ulmus")))
    assert carried(weak)[1] == {"Parchment": ["seen"], "Minnow": ["seen"]}
    assert "weak-tree" not in {caution.id for caution in bench.answer("can I halve the leaves?").advice.cautions}


def test_a_reminder_is_kept_on_each(carried, bench):
    remind = Reading(
        "x", ("remind",), work=(Work("check"),), when="2026-07-01", several=Several(("Pinus", "Juniperus"))
    )
    answer, new = carried(remind)
    assert new == {"Old Salt": ["plan"], "Crag": ["plan"]}
    assert all(entry.follow for entry in answer.logged)


def test_a_species_that_does_not_stand_here_is_told(carried):
    answer, new = carried(done("feed", "Fagus", "Taxus"))
    assert new == {"Parchment": ["done"]}
    assert any("no Taxus stands in this garden" in aside for aside in answer.aside)


def test_scratch_that_takes_back_all_of_it(carried):
    carried(done("feed", "Fagus", "Ulmus"))
    assert carried("scratch that")[1] == {"Parchment": ["struck"], "Minnow": ["struck"]}


def test_a_correction_of_one_tree_into_two_and_back(carried):
    carried("fed it")
    fix = Reading("no, both", ("correct",), several=Several(("Fagus", "Ulmus")))
    _, new = carried(fix)
    assert new == {"Gatepost": ["struck"], "Parchment": ["done"], "Minnow": ["done"]}
    _, new = carried("no, the hornbeam")
    assert new == {"Parchment": ["struck"], "Minnow": ["struck"], "Ratchet": ["done"]}


def test_a_dry_talk_shows_what_it_would_log(carried, bench):
    bench.dry = True
    answer, new = carried(done("feed", "Fagus", "Ulmus"))
    assert new == {} and "Would log for Minnow: done: fed it." in told(answer)


# ---- a name that fits two


def test_a_name_that_fits_two_trees_asks_and_the_name_answers_it(carried, bench):
    new_tree(bench.house.garden, "Lantern", "Carpinus betulus")
    bench.answer("let's do the beech")
    answer, new = carried(done("feed", "Ulmus", "Carpinus"))
    assert answer.asks[0].says == "Which Carpinus is meant: Lantern or Ratchet?" and new == {}
    assert carried("Parchment")[1] == {}
    carried(done("feed", "Ulmus", "Carpinus"))
    assert carried("Lantern")[1] == {"Minnow": ["done"], "Lantern": ["done"]}


def test_a_name_that_fits_two_trees_asks_among_those_left_out(carried, bench):
    new_tree(bench.house.garden, "Lantern", "Carpinus betulus")
    assert carried(done("feed", every=True, but=("Carpinus",)))[1] == {}
    answer, new = carried("Lantern")
    assert "(except Lantern)" in answer.confirm and new == {}


# ---- all of them


def test_all_trees_are_asked_about_once(carried, bench):
    answer, new = carried(done("feed", every=True))
    assert answer.confirm == "Log it for all 10 trees? Say yes or no." and new == {}
    assert set(carried("yes")[1]) == {tree.name for tree in bench.house.trees()}


def test_all_but_some(carried, bench):
    answer, _ = carried(done("feed", every=True, but=("Juniperus", "Minnow")))
    assert answer.confirm == "Log it for all 8 trees (except Crag and Minnow)? Say yes or no."
    names = {tree.name for tree in bench.house.trees()} - {"Crag", "Minnow"}
    assert set(carried("yes")[1]) == names


@pytest.mark.parametrize("words", ["no", "can I wire it"])
def test_without_a_yes_nothing_is_logged_on_all(carried, words):
    carried(done("feed", every=True))
    assert carried(words)[1] == {} and carried("yes")[1] == {}


def test_a_question_over_all_needs_no_yes(carried):
    answer, new = carried(asked("feed", every=True))
    assert answer.confirm is None and len(answer.says) == 10 and new == {}


def test_many_trees_are_asked_about_before_they_are_weighed(carried, bench, monkeypatch):
    from benchmate.talk.trees import many

    monkeypatch.setattr(many, "_WEIGHED", 3)
    answer, new = carried(done("feed", every=True))
    assert answer.confirm == "Log it for all 10 trees? Say yes or no." and answer.says == () and new == {}
    assert len(carried("yes")[1]) == 10


# ---- not the same of each


def test_what_is_not_shared_is_not_logged(carried, bench):
    reading = done("wire", "Gatepost", "Parchment", shared=False)
    answer, new = carried(reading)
    assert new == {} and answer.says == (
        "Gatepost and Parchment were named, with something of its own for each: say it one tree at a time; "
        "nothing is logged",
    )
    assert bench.context.tree == "Gatepost" and bench.context.made == ()


def test_two_kinds_with_nothing_to_part_them_ask_before_anything_is_logged(carried):
    facts = (Fact("species", "Fagus"), Fact("species", "Ulmus"))
    answer, new = carried(Reading("x", ("decide",), work=(Work("feed", done="done"),), facts=facts))
    assert new == {} and answer.asks[0].says == "Which tree: Minnow or Parchment?"
    answer, new = carried("Minnow")
    assert new == {"Minnow": ["done"]}
    assert [fact.value for fact in answer.reading.facts if fact.kind == "species"] == ["Ulmus"]


# ---- questions


def test_the_record_is_asked_for_each(carried):
    answer, new = carried(asked("feed", "Fagus", "Larix", topic="recall"))
    assert new == {} and [words.partition(":")[0] for words in answer.says] == ["Parchment", "Sprint"]
    assert "20 May 2023" in answer.says[0] and "3 August 2024" in answer.says[1]


def test_a_question_of_work_is_answered_for_each(carried):
    answer, _ = carried(asked("wire", "Fagus", "Larix"))
    assert answer.says[0].startswith("Parchment: Yes") and answer.says[1].startswith("Sprint: ")
    assert "Not now: " in answer.says[1]
    assert [row["tree"] for row in answer.found] == ["Parchment", "Sprint"]


def test_a_species_that_does_not_stand_here_is_answered_in_general(carried):
    answer, _ = carried(asked("wire", "Fagus", "Taxus"))
    assert answer.says[1].startswith("Taxus: ")


def test_what_is_due_is_told_of_those_alone(carried):
    answer, _ = carried(asked(None, "Juniperus", "Ulmus", topic="due"))
    assert {words.partition(":")[0] for words in answer.says[1:] if ":" in words} == {"Crag", "Minnow"}


@pytest.mark.parametrize("shared", [True, False])
def test_which_of_two_is_so_is_one_list(carried, shared):
    weak = Reading(
        "x", ("ask",), "list", facts=(Fact("health", "weak"),), several=Several(("Fagus", "Larix"), shared=shared)
    )
    answer, _ = carried(weak)
    assert [row["tree"] for row in answer.found] == ["Sprint"]


def test_what_was_done_on_all_is_one_list(carried):
    reading = Reading("x", ("ask",), "recall", when="2026-06-06", several=Several(every=True))
    answer, _ = carried(reading)
    assert "entries" in answer.says[0] and len({line.split(",")[1] for line in answer.says[1:]}) > 3


def test_a_turn_to_two_asks_which_is_first(carried, bench):
    answer, _ = carried(Reading("x", ("turn",), several=Several(("Fagus", "Ulmus"))))
    assert answer.asks[0].says == "Which first: Parchment or Minnow?"
    bench.answer("Minnow")
    assert bench.context.tree == "Minnow"


def test_without_a_garden_nothing_is_logged_and_questions_are_answered(bare_bench):
    answer = bare_bench.carry(done("feed", "Fagus", "Ulmus"))
    assert answer.logged == ()
    answer = bare_bench.carry(asked("wire", "Fagus", "Ulmus"))
    assert [words.partition(":")[0] for words in answer.says] == ["Fagus", "Ulmus"]


# ---- as it is said


@pytest.mark.parametrize(
    "words, trees",
    [
        ("fed the beech and the hornbeam", {"Parchment", "Ratchet"}),
        ("fed Ratchet, Gatepost and Minnow", {"Ratchet", "Gatepost", "Minnow"}),
        ("the larch and the pine were watered", {"Sprint", "Old Salt"}),
        ("remind me to check the pine and the juniper on 1 July", {"Old Salt", "Crag"}),
        ("moved the olive and the ficus inside", {"Cellar", "Harbour"}),
        ("put Minnow, the maple and the olive in the shed", {"Minnow", "Gatepost", "Cellar"}),
        ("took the elm and Cellar out of the shed", {"Minnow", "Cellar"}),
        ("gave the pine, the juniper and the beech a feed", {"Old Salt", "Crag", "Parchment"}),
    ],
)
def test_what_is_said_of_several(carried, words, trees):
    assert set(carried(words)[1]) == trees


OWN = [
    ("wired the pine; unwired the juniper", {"Old Salt": ["wire"], "Crag": ["unwire"]}),
    ("repotted the elm. put the larch in the shade", {"Minnow": ["repot"], "Sprint": ["shade"]}),
    (
        "tonight I wired Gatepost's two lower branches, fed the elm and turned the beech",
        {"Gatepost": ["wire"], "Minnow": ["feed"], "Parchment": ["turn-tree"]},
    ),
    (
        "fed the elm and the beech and put the olive and the ficus under cover",
        {"Minnow": ["feed"], "Parchment": ["feed"], "Cellar": ["shelter"], "Harbour": ["shelter"]},
    ),
    ("wired the pine, unwired it again and fed the elm", {"Old Salt": ["wire", "unwire"], "Minnow": ["feed"]}),
]


@pytest.mark.parametrize("words, works", OWN, ids=[words for words, _ in OWN])
def test_each_tree_gets_what_was_done_to_it(bench, words, works):
    answer = bench.answer(words)
    got = {}
    for name, entry in zip(answer.logged_for, answer.logged, strict=True):
        assert entry.kind == "done" and entry.said == words
        got.setdefault(name, []).extend(work["work"] for work in entry.work)
    assert got == works


def test_a_place_on_one_of_them_is_kept(bench):
    answer = bench.answer("wired Gatepost's two lower branches, fed the elm")
    assert answer.logged[0].work == ({"work": "wire", "part": "branch", "level": "low", "count": 2},)


@pytest.mark.parametrize(
    "words, days",
    [
        ("yesterday I wired the pine, fed the elm and turned the beech", {13}),
        ("wired the pine, fed the elm and the beech on Saturday", {13}),
        ("wired the pine, fed the elm on Saturday and turned the beech", {13, 14}),
    ],
)
def test_a_day_at_the_head_or_the_end_is_that_of_all(bench, words, days):
    assert {entry.day.day for entry in bench.answer(words).logged} == days


@pytest.mark.parametrize(
    "words, kinds",
    [
        ("going to wire the pine and feed the elm on Saturday", {"Old Salt": ["plan"], "Minnow": ["plan"]}),
        ("can I wire the pine and feed the elm?", {}),
        ("fed the elm, can I wire the pine?", {"Minnow": ["done"]}),
        (
            "fed the elm, the beech and the pine are weak",
            {"Minnow": ["done"], "Parchment": ["seen"], "Old Salt": ["seen"]},
        ),
        ("move the olive and ficus inside when nights drop below 8", {"Cellar": ["plan"], "Harbour": ["plan"]}),
        ("put the olive and the elm in the shed once nights are below 5", {"Cellar": ["plan"], "Minnow": ["plan"]}),
    ],
)
def test_what_is_planned_asked_or_seen_of_each(carried, words, kinds):
    answer, new = carried(words)
    assert new == kinds
    if not kinds:
        assert [words.partition(":")[0] for words in answer.says] == ["Old Salt", "Minnow"]


def test_scratch_that_takes_back_what_was_done_to_each(carried):
    carried("fed the elm and turned the beech")
    assert carried("scratch that")[1] == {"Minnow": ["struck"], "Parchment": ["struck"]}


def test_a_name_that_fits_two_is_asked_for_before_anything_is_logged(carried, bench):
    new_tree(bench.house.garden, "Lantern", "Carpinus betulus")
    answer, new = carried("fed the elm and turned the hornbeam")
    assert answer.asks[0].says == "Which Carpinus is meant: Lantern or Ratchet?" and new == {}
    assert carried("Lantern")[1] == {"Minnow": ["done"], "Lantern": ["done"]}


def test_some_fed_and_all_watered(bench):
    answer = bench.answer("fed the beech, the hornbeam and the maple tonight, and watered everything")
    assert answer.confirm == "Log it as said, and for all 10 trees watered it? Say yes or no."
    logged = bench.answer("yes")
    done = [(name, entry.work[0]["work"]) for name, entry in zip(logged.logged_for, logged.logged, strict=True)]
    assert [name for name, work in done if work == "feed"] == ["Parchment", "Ratchet", "Gatepost"]
    assert len([name for name, work in done if work == "water"]) == 10 and len(done) == 13


@pytest.mark.parametrize(
    "words, count",
    [("fed everything except the juniper", 9), ("fed all the trees", 10), ("watered the lot", 10)],
)
def test_what_is_said_of_all_waits_for_a_yes(carried, words, count):
    answer, new = carried(words)
    assert f"all {count} trees" in answer.confirm and new == {}
    assert len(carried("yes")[1]) == count


def test_all_the_trees_are_not_all_of_each(carried):
    carried("fed all the trees")
    answer, _ = carried("yes")
    assert all("manner" not in work for entry in answer.logged for work in entry.work)


def test_what_was_heard_names_the_trees(carried):
    assert "Heard: Fagus and Carpinus; fed it." in told(carried("fed the beech and the hornbeam")[0])
    assert "Heard: all trees but Juniperus; fed it." in told(carried("fed all the trees except the juniper")[0])


@pytest.mark.parametrize(
    "words, tree",
    [
        ("finished with the elm, on to the beech", "Parchment"),
        ("on to the beech, I've finished with the elm", "Parchment"),
        ("that's the elm done, now the larch", "Sprint"),
    ],
)
def test_a_turn_leads_to_the_tree_behind_its_word(bench, words, tree):
    bench.answer(words)
    assert bench.context.tree == tree
