"""What a correction and a "scratch that" take back: what the statement before put into the record, and nothing else."""

import pytest

from benchmate.hearing.reading import Fact, Reading, Spot, Work

FED = Reading("fed it", ("decide",), work=(Work("feed", done="done"),))


def records(bench):
    return {tree.name: [entry.id for entry in bench.house.entries(tree)] for tree in bench.house.trees()}


def new(bench, before):
    """(tree, kind, works) of what was written since, by tree."""
    return [
        (tree.name, entry.kind, [work["work"] for work in entry.work])
        for tree in bench.house.trees()
        for entry in bench.house.entries(tree)
        if entry.id not in before[tree.name]
    ]


def species(*taxa, denied=()):
    facts = [Fact("species", taxon) for taxon in taxa] + [Fact("species", taxon, denied=True) for taxon in denied]
    return Reading("no, another", ("correct",), facts=tuple(facts))


# ---- a correction of a question


@pytest.mark.parametrize(
    "question, fix",
    [
        ("when did I last feed the beech", "no, the larch"),
        ("can I wire the beech", "no, the hornbeam"),
        ("can I wire the beech", "I meant the elm"),
        ("can I repot it", "no, next year"),
        ("what did I do last month", "no, this year"),
        ("what's due", "no, the beech"),
        ("what is planned for the olive", "no, the fig"),
        ("let's do the beech", "no, the elm"),
        ("blah the beech blah", "no, the elm"),
    ],
)
def test_a_correction_of_a_question_strikes_nothing(bench, question, fix):
    bench.answer("fed the elm")
    bench.answer("wired the left branch of the hornbeam")
    before = records(bench)
    bench.answer(question)
    bench.answer(fix)
    assert new(bench, before) == []


def test_a_correction_of_a_question_asks_it_of_the_other_tree(bench):
    bench.answer("when did I last feed the beech")
    assert bench.answer("no, the larch").tree == "Sprint"


def test_a_why_between_leaves_the_statement_to_be_corrected(bench):
    before = records(bench)
    for words in ("wired the left branch", "why", "no, the right one"):
        bench.answer(words)
    assert [kind for _, kind, _ in new(bench, before)] == ["done", "struck", "done"]


def test_a_correction_that_is_not_clear_strikes_nothing(bench):
    bench.answer("removed the left branch and left the back one alone")
    before = records(bench)
    answer = bench.answer("no, the high one")
    assert answer.asks and new(bench, before) == []


# ---- the wrong tree


@pytest.mark.parametrize(
    "fix",
    [
        species("Ulmus"),
        species("Ulmus", denied=["Carpinus"]),
        Reading("not the elm but", ("correct",), facts=(Fact("species", "Carpinus", denied=True),), tree="Minnow"),
        Reading("wrong tree, it was Minnow", ("correct",), tree="Minnow", refers=("it",)),
        Reading("that should have gone on the elm", ("correct",), facts=(Fact("species", "Ulmus"),)),
    ],
)
@pytest.mark.parametrize("first", ["fed the hornbeam", "let's do Ratchet; fed it", "note: the bark flakes"])
def test_an_entry_on_the_wrong_tree_goes_to_the_right_one(bench, fix, first):
    bench.answer("let's do Ratchet")
    before = records(bench)
    for words in first.split("; "):
        answer = bench.answer(words)
    (kind,) = [entry.kind for entry in answer.logged]
    bench.carry(fix)
    ratchet = [told[1] for told in new(bench, before) if told[0] == "Ratchet"]
    assert ratchet == [kind, "struck"]
    assert [told[1] for told in new(bench, before) if told[0] == "Minnow"] == [kind]
    assert bench.context.tree == "Minnow"


def test_a_note_on_the_wrong_tree_keeps_its_words(bench):
    bench.answer("note: the bark flakes")
    answer = bench.carry(Reading("wrong tree, it was Minnow", ("correct",), tree="Minnow"))
    assert [entry.said for entry in answer.logged if entry.kind == "note"] == ["the bark flakes"]


def test_only_what_it_is_not_leaves_it_open(bench):
    bench.answer("fed the hornbeam")
    before = records(bench)
    assert bench.carry(species(denied=["Carpinus"])).asks and new(bench, before) == []


# ---- what stays and what comes off


@pytest.mark.parametrize(
    "first, fix, kept, gone",
    [
        ("two leaders, kept the left one and cut the right one off", "no, kept the right one", "right", "left"),
        ("two leaders, kept the left one and took the other off", "no, kept the right one", "right", "left"),
        ("two leaders, kept the left one and cut the right one off", "no, the right one", "right", "left"),
        ("two leaders, kept the left one and cut the right one off", "no, cut the left one off", "right", "left"),
        ("two leaders, kept the front one and cut the back one off", "sorry, other way round", "back", "front"),
    ],
)
def test_a_corrected_leader_flips_what_comes_off_beside_it(bench, first, fix, kept, gone):
    bench.answer(first)
    (entry,) = [entry for entry in bench.answer(fix).logged if entry.kind == "done"]
    assert {work["work"]: work["side"] for work in entry.work} == {"select-leader": kept, "remove": gone}


def test_works_that_may_share_a_branch_are_left_where_they_are(bench):
    bench.answer("wired the left branch and pinched the right branch")
    fix = Reading("no", ("correct",), work=(Work("wire", Spot(side="right"), done="done"),))
    (entry,) = [entry for entry in bench.carry(fix).logged if entry.kind == "done"]
    assert {work["work"]: work["side"] for work in entry.work} == {"wire": "right", "pinch": "right"}


@pytest.mark.parametrize("fix", ["no, the other one", "sorry, other way round"])
def test_the_other_one_is_across_from_it(bench, fix):
    bench.answer("wired the left branch")
    (entry,) = [entry for entry in bench.answer(fix).logged if entry.kind == "done"]
    assert entry.work[0]["side"] == "right"


# ---- another option


@pytest.mark.parametrize("fix", ["no the third", "no, option three"])
def test_another_option_is_taken_instead(bench, fix):
    advice = bench.answer("two competing leaders").advice
    before = records(bench)
    number = next(n for n, option in enumerate(advice.options, 1) if option.work == "leave")
    bench.answer(f"take number {number}")
    bench.answer(fix)
    assert [kind for _, kind, _ in new(bench, before)][:2] == ["left", "struck"]
    assert new(bench, before)[-1][2] == [advice.options[2].work]


# ---- scratch that


def test_an_old_entry_is_taken_back_only_after_a_yes(bench):
    bench.answer("let's do the olive")
    before = records(bench)
    answer = bench.answer("scratch that")
    assert answer.confirm.startswith("The last entry for Cellar is of 6 June 2026: plan: shelter it")
    assert new(bench, before) == []
    bench.answer("yes")
    assert [(tree, kind) for tree, kind, _ in new(bench, before)] == [("Cellar", "struck")]


@pytest.mark.parametrize("words", ["no", "fed it", "can I wire it"])
def test_other_words_than_yes_leave_it(bench, words):
    bench.answer("let's do the olive")
    before = records(bench)
    bench.answer("scratch that")
    bench.answer(words)
    bench.answer("yes")
    assert "struck" not in [kind for _, kind, _ in new(bench, before)]


def test_scratched_again_and_again_it_stops_at_what_this_talk_wrote(bench):
    before = records(bench)
    for words in ("wired the left branch", "repotted it in March", "scratch that", "scratch that", "scratch that"):
        answer = bench.answer(words)
    assert answer.confirm and [kind for _, kind, _ in new(bench, before)].count("struck") == 2


def test_a_tree_that_is_named_is_the_one_whose_entry_goes(bench):
    bench.answer("fed the elm")
    before = records(bench)
    answer = bench.answer("take back the last entry for the olive")
    assert "Cellar" in answer.confirm and new(bench, before) == []


def test_a_single_statement_takes_back_the_last_entry_without_a_talk(demo):
    from benchmate.talk.bench import Bench
    from benchmate.talk.house import House

    bench = Bench(House(demo), tree="Cellar", talking=False)
    before = records(bench)
    bench.answer("scratch that")
    assert [(tree, kind) for tree, kind, _ in new(bench, before)] == [("Cellar", "struck")]


# ---- turning


@pytest.mark.parametrize("words", ["Ratchet", "ratchet."])
def test_a_name_alone_turns_to_the_tree(bench, words):
    answer = bench.answer(words)
    assert bench.context.tree == "Ratchet" and answer.says[0].startswith("Ratchet: Carpinus betulus")


def test_a_name_that_no_tree_has_is_told(bench):
    answer = bench.answer("turn to Toadstool")
    assert answer.says == ("no tree here is called Toadstool",) and answer.asks[0].fact == "tree"
    assert bench.context.tree == "Gatepost"
    bench.answer("Ratchet")
    assert bench.context.tree == "Ratchet"


# ---- what was not done after all


def stands(bench, name):
    """(kind, works with their sides) of what was written today and still stands."""
    tree = bench.house.garden.find(name)
    return [
        (entry.kind, [(work["work"], work.get("side")) for work in entry.work])
        for entry in bench.house.lately_standing(tree)
        if entry.id in bench.written
    ]


def test_the_one_that_was_kept_and_the_one_that_was_cut_change_places(bench):
    for words in ("two competing leaders", "ok I'll keep the right one, took the left down to a stub"):
        bench.answer(words)
    bench.answer("actually I kept the left one not the right")
    told = [("plan", [("select-leader", "left")]), ("done", [("shorten", "right")])]
    assert stands(bench, "Gatepost")[1:] == told
    bench.answer("sorry I meant I've not cut anything yet")
    assert stands(bench, "Gatepost")[1:] == told[:1]


@pytest.mark.parametrize(
    "told, denied",
    [
        ("shortened the left branch", "I've not cut anything yet"),
        ("cut the left branch off", "no, I've not cut it"),
        ("cut the left branch off", "sorry, I haven't cut it yet"),
        ("wired it", "I have not wired it yet"),
    ],
)
def test_what_was_not_done_after_all_is_taken_back(bench, told, denied):
    bench.answer(told)
    answer = bench.answer(denied)
    assert answer.says[0].startswith("Taken back for Gatepost") and stands(bench, "Gatepost") == []


@pytest.mark.parametrize(
    "told, denied",
    [("cut the left branch off", "I've not cut the right branch"), ("fed it", "I've not wired it")],
)
def test_other_work_that_was_not_done_takes_nothing_back(bench, told, denied):
    bench.answer(told)
    bench.answer(denied)
    assert stands(bench, "Gatepost")[0][0] == "done"


# ---- reminders


def open_plans(bench):
    return sorted(
        one.work for one in bench.house.garden.follow_ups(bench.here) if one.kind == "follow" and not one.rule
    )


@pytest.mark.parametrize(
    "words", ["forget the reminder", "drop that reminder", "cancel the reminder", "ignore the reminder"]
)
def test_the_last_reminder_is_dropped(bench, words):
    bench.answer("remind me to feed it on 1 July")
    bench.answer("remind me in three weeks to wire it")
    bench.answer(words)
    assert open_plans(bench) == ["feed"]


@pytest.mark.parametrize("words", ["forget the reminder about feeding", "cancel the reminder to feed it"])
def test_a_reminder_is_dropped_by_its_work_and_nothing_is_done(bench, words):
    bench.answer("remind me to feed it on 1 July")
    bench.answer("remind me in three weeks to wire it")
    answer = bench.answer(words)
    assert open_plans(bench) == ["wire"] and [entry.kind for entry in answer.logged] == ["struck"]


def test_a_reminder_that_was_never_kept_is_not_dropped(bench):
    bench.answer("remind me in three weeks to wire it")
    says = bench.answer("forget the reminder about feeding").says
    assert says == ("There is no such plan to take back in the record of Gatepost",) and open_plans(bench) == ["wire"]
