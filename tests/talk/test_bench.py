"""The talk over a garden: what is answered, what is logged, what is kept from one statement to the next."""

import pytest

from benchmate.fault import UserError


def works(entry):
    return [table["work"] for table in entry.work]


def new_entries(before, after):
    known = {entry.id for entry in before}
    return [entry for entry in after if entry.id not in known]


@pytest.fixture
def said(bench, journal):
    """Says statements and gives the last answer with the entries that they made on Gatepost."""
    before = journal("Gatepost")

    def say(*statements):
        for statement in statements:
            answer = bench.answer(statement)
        return answer, new_entries(before, journal("Gatepost"))

    return say


# ---- logging


def test_a_decision_is_on_the_disk_when_the_answer_comes(said):
    answer, (entry,) = said("shortened the left branch to three leaves")
    assert entry.kind == "done" and works(entry) == ["shorten"]
    assert entry.work[0]["side"] == "left" and entry.work[0]["leaves"] == 3
    assert [one.id for one in answer.logged] == [entry.id]


def test_a_question_alone_logs_nothing(said):
    _, entries = said("can I wire it?")
    assert entries == []


def test_what_is_seen_beside_a_question_is_logged(said):
    _, (entry,) = said("it's weak, can I wire it?")
    assert entry.kind == "seen" and entry.facts[0]["value"] == "weak"


def test_a_dry_talk_shows_what_it_would_log_and_writes_nothing(bench, journal):
    before = journal("Gatepost")
    bench.dry = True
    answer = bench.answer("wired the left branch")
    assert answer.dry and answer.logged[0].kind == "done"
    assert journal("Gatepost") == before


def test_the_follow_up_of_a_rule_is_kept_with_the_work(said):
    _, (entry,) = said("wired the left branch")
    assert "check" in [follow["work"] for follow in entry.follow]
    assert all(follow["rule"] for follow in entry.follow)


def test_what_was_offered_and_not_taken_is_kept_as_refused(said):
    _, entries = said("two competing leaders", "take the second")
    assert entries[-1].refused


# ---- the talk goes on


def test_a_number_takes_an_option(said, bench):
    bench.answer("can I shorten the shoots?")
    number = [option.work for option in bench.context.advice.options].index("shorten") + 1
    _, entries = said(str(number))
    assert works(entries[-1]) == ["shorten"] and entries[-1].reason


def test_a_number_with_nothing_on_offer_logs_nothing(said):
    answer, entries = said("take the second")
    assert entries == [] and "No options" in answer.says[0]


def test_an_option_that_is_not_there_is_told(said):
    answer, entries = said("can I shorten the shoots?", "take the ninth")
    assert entries == [] and "options; say a number" in answer.says[0]


def test_a_correction_strikes_and_logs_anew(said):
    _, entries = said("shortened the left branch to three leaves", "no, the right one")
    first, struck, second = entries
    assert struck.kind == "struck" and struck.strikes == first.id
    assert second.work[0]["side"] == "right" and second.work[0]["leaves"] == 3


def test_a_correction_of_a_question_asks_anew_and_logs_nothing(said):
    answer, entries = said("can I wire the left branch?", "no, the right one")
    assert entries == []
    assert any(option.work == "wire" and option.spot.side == "right" for option in answer.advice.options)


def test_an_option_taken_can_be_corrected(said, bench):
    bench.answer("can I shorten the left branch?")
    number = [option.work for option in bench.context.advice.options].index("shorten") + 1
    _, entries = said(str(number), "no, the right one")
    assert [entry.kind for entry in entries] == ["done", "struck", "done"]
    assert entries[-1].work[0]["side"] == "right"


def test_striking_takes_back_what_was_logged_last(said):
    answer, (entry, struck) = said("wired the left branch", "scratch that")
    assert struck.kind == "struck" and struck.strikes == entry.id
    assert "wired the left branch" in answer.says[0]


def test_striking_twice_takes_back_the_one_before(said):
    _, entries = said("wired the left branch", "fed it", "scratch that", "scratch that")
    done = [entry.id for entry in entries if entry.kind == "done"]
    assert [entry.strikes for entry in entries if entry.kind == "struck"] == done[::-1]


def test_the_tree_of_another_statement_can_be_meant(bench, journal):
    before = journal("Parchment")
    answer = bench.answer("the beech is weak")
    assert answer.tree == "Parchment" and "only Fagus" in answer.aside[0]
    assert [entry.kind for entry in new_entries(before, journal("Parchment"))] == ["seen"]
    assert bench.context.tree == "Parchment"


def test_a_correction_of_the_tree_moves_the_entry(bench, journal):
    maple, beech = journal("Gatepost"), journal("Parchment")
    bench.answer("fed it")
    bench.answer("I meant the beech")
    assert [entry.kind for entry in new_entries(maple, journal("Gatepost"))] == ["done", "struck"]
    assert [entry.kind for entry in new_entries(beech, journal("Parchment"))] == ["done"]


def test_what_was_said_before_counts_later(bench):
    bench.dry = True
    bench.answer("it's weak")
    answer = bench.answer("can I defoliate it?")
    assert {option.work: option.verdict for option in answer.advice.options}["defoliate"] in ("avoid", "hold")


def test_what_was_said_of_one_tree_does_not_count_for_the_next(bench):
    bench.answer("it's weak")
    bench.answer("let's do Ratchet")
    answer = bench.answer("can I halve the leaves?")
    assert "weak-tree" not in {caution.id for caution in answer.advice.cautions}


# ---- words that point back


@pytest.mark.parametrize(
    "first, then, work, side",
    [
        ("shortened the left branch to two leaves", "same again on the right", "shorten", "right"),
        ("shortened the left branch to two leaves", "wire the other", "wire", "right"),
        ("the low branch on the left is too long", "wired it", "wire", "left"),
    ],
)
def test_pointing_words_find_what_was_spoken_of(said, first, then, work, side):
    _, entries = said(first, then)
    assert works(entries[-1]) == [work] and entries[-1].work[0]["side"] == side


def test_a_reference_that_fits_two_things_is_asked_about(said):
    answer, entries = said("wired the left branch and shortened the back branch", "take that one off")
    assert answer.asks[0].fact == "part" and "left branch" in answer.asks[0].says
    assert not any("remove" in works(entry) for entry in entries)


def test_and_the_back_one_asks_the_same_of_another(bench):
    bench.answer("can I wire the left branch?")
    answer = bench.answer("and the back one?")
    assert any(option.work == "wire" and option.spot.side == "back" for option in answer.advice.options)


def test_do_that_takes_the_only_work_that_was_asked_about(said):
    _, entries = said("can I wire the left branch?", "do that")
    assert works(entries[-1]) == ["wire"] and entries[-1].work[0]["side"] == "left"


# ---- guesses


def test_a_guess_that_could_change_the_work_waits_for_a_yes(said):
    answer, entries = said("defoliateing it")
    assert entries == [] and answer.confirm
    _, entries = said("yes")
    assert works(entries[-1]) == ["defoliate"]


@pytest.mark.parametrize("word", ["no", "no."])
def test_a_no_drops_it(said, word):
    _, entries = said("defoliateing it", word)
    assert entries == []


def test_other_words_leave_it_waiting_and_say_so(said):
    answer, entries = said("defoliateing it", "fed it")
    assert [works(entry) for entry in entries] == [["feed"]]
    assert any('waited for: "defoliateing it"' in aside for aside in answer.aside)
    _, entries = said("yes")
    assert works(entries[-1]) == ["defoliate"]


# ---- which tree


def test_without_a_tree_the_question_names_them_and_the_name_answers_it(demo, journal):
    from benchmate.talk.bench import Bench
    from benchmate.talk.house import House

    bench = Bench(House(demo))
    before = journal("Ratchet")
    answer = bench.answer("fed it")
    assert answer.logged == () and answer.asks[0].fact == "tree" and "Ratchet" in answer.asks[0].says
    bench.answer("Ratchet")
    assert [works(entry) for entry in new_entries(before, journal("Ratchet"))] == [["feed"]]


def test_a_species_alone_is_advised_and_never_logged(bare_bench):
    answer = bare_bench.answer("hornbeam, second flush has hardened, wired the left branch")
    assert answer.advice.options and answer.logged == ()
    assert any("no garden is open" in aside for aside in answer.aside)


def test_the_species_is_kept_in_a_talk_without_a_garden(bare_bench):
    bare_bench.answer("hornbeam, strong, first flush has hardened")
    answer = bare_bench.answer("can I halve the leaves?")
    assert "leaf-cut" in {option.work for option in answer.advice.options}
    assert "species" not in {ask.fact for ask in answer.all_asks}


def test_a_species_that_is_not_here_is_not_logged_on_the_tree_at_hand(said):
    answer, entries = said("the yew is weak")
    assert entries == [] and answer.tree is None


# ---- new trees, turns, notes, reminders


def test_a_new_tree_is_made_with_what_was_said_of_it(empty_bench):
    answer = empty_bench.answer("new tree, trident maple, call it Kettledrum, it's weak")
    tree = empty_bench.house.garden.find("Kettledrum")
    assert tree.species == "Acer buergerianum" and answer.tree == "Kettledrum"
    assert empty_bench.context.tree == "Kettledrum"


def test_a_new_tree_without_a_name_is_asked_for_one(empty_bench):
    answer = empty_bench.answer("new tree, trident maple")
    assert answer.asks[0].fact == "tree" and not empty_bench.house.trees()


def test_turning_to_a_tree_and_to_the_next(bench):
    bench.answer("let's do Ratchet")
    assert bench.context.tree == "Ratchet"
    bench.answer("next tree")
    assert bench.context.tree == "Sprint"


def test_a_note_keeps_its_words(said):
    _, (entry,) = said("note: bark is starting to flake")
    assert (entry.kind, entry.said) == ("note", "bark is starting to flake")


def test_a_reminder_comes_back_on_its_day(said):
    _, (entry,) = said("remind me to check the wire in three weeks")
    assert entry.kind == "plan" and str(entry.follow[0]["on"]) == "2026-07-05"


def test_leaving_ends_the_talk(bench):
    assert bench.answer("goodbye").ends


# ---- questions


def test_why_names_rules_and_facts(bench):
    bench.answer("can I shorten the shoots?")
    answer = bench.answer("why?")
    told = " ".join(line.words for line in answer.lines)
    assert "Rule " in told and "from the record" in told


def test_what_if_tells_what_would_change_and_keeps_nothing(said):
    answer, entries = said("can I halve the leaves?", "what if it were weak?")
    assert any("instead of" in words for words in answer.says) and entries == []
    answer, _ = said("can I halve the leaves?")
    assert "weak-tree" not in {caution.id for caution in answer.advice.cautions}


@pytest.mark.parametrize(
    "question, words",
    [
        ("when did I last repot it?", "You repotted it on 16 March 2024"),
        ("what does petiole mean", "stalk"),
        ("which ones are weak?", "Sprint"),
        ("list the pines", "Old Salt"),
        ("which trees are wired?", "Old Salt"),
        ("what's due?", "due on"),
    ],
)
def test_questions_that_are_no_advice(bench, question, words):
    assert words in " ".join(bench.answer(question).says)


def test_a_figure_takes_what_it_lacks_from_the_place(bench):
    answer = bench.answer("how long is the day?")
    assert answer.advice.figures[0].figure == "day-length" and 16 < answer.advice.figures[0].value < 17


def test_a_figure_asks_for_what_nobody_knows(bench):
    answer = bench.answer("what wire for that branch")
    assert answer.advice.figures == () and answer.all_asks


def test_hazards_are_full_once_and_short_after(bench):
    bench.answer("let's do Bristle")
    first = bench.answer("can I shorten the left branch?")
    second = bench.answer("can I shorten the right branch?")
    hazards = {caution.id for caution in first.advice.cautions if caution.kind == "person"}
    assert hazards and not hazards & first.told_before and hazards <= second.told_before


# ---- words that cannot be


@pytest.mark.parametrize(
    "words",
    [
        "",
        "   ",
        "x" * 10_000,
        "wire\x1b[2J it",
        "what wire for a -8 mm branch?",
        "shorten it by 200 percent",
        "bend it 400 degrees",
    ],
)
def test_what_cannot_be_is_refused_and_nothing_is_logged(said, words):
    with pytest.raises(UserError) as refusal:
        said(words)
    assert "\n" not in str(refusal.value)


def test_an_unknown_tree_is_refused_with_those_there_are(demo):
    from benchmate.talk.bench import Bench
    from benchmate.talk.house import House

    with pytest.raises(UserError, match="Gatepost"):
        Bench(House(demo), tree="Gatepots")


def test_words_without_sense_are_told_and_can_be_kept(said):
    answer, entries = said("unicorn dust and moonlight")
    assert entries == [] and "not understood" in answer.says[0]


def test_a_garden_that_cannot_be_written_keeps_the_words(bench, demo, monkeypatch):
    from benchmate.garden import NotLogged

    def refuse(tree, entries):
        raise NotLogged(demo / "journal.toml", "the disk is full", "make room", entries)

    monkeypatch.setattr(bench.house.garden, "append_all", refuse)
    answer = bench.answer("wired the left branch")
    assert answer.logged == () and "the disk is full" in answer.unlogged
    monkeypatch.undo()
    again = bench.answer("log it again")
    assert [entry.kind for entry in again.logged] == ["done"]


# ---- why, after an option was taken


@pytest.mark.parametrize("why", ["why one", "why", "why not", "more"])
def test_the_advice_is_explained_after_an_option_of_it_was_taken(bench, why):
    from benchmate.telling import lay, tell

    bench.answer("can I shorten the shoots?")
    bench.answer("1")
    told = lay(tell(bench.answer(why)))
    assert "Shorten the shoots: go." in told and "Rule " in told


def test_a_number_after_an_option_was_taken_logs_no_second(said):
    _, before = said("can I shorten the shoots?", "1")
    answer, after = said("2")
    assert after == before and "No options" in answer.says[0]


def test_advice_on_another_tree_is_not_explained_for_this_one(bench):
    bench.answer("can I shorten the shoots?")
    bench.answer("let's do Crag")
    assert bench.answer("why").says[0].startswith("Nothing was advised")


# ---- corrections and questions that go on


def test_not_three_but_two_leaves(said):
    _, entries = said("shortened the left branch to three leaves", "not three, two leaves")
    assert [entry.kind for entry in entries] == ["done", "struck", "done"]
    assert entries[-1].work[0]["leaves"] == 2 and entries[-1].work[0]["side"] == "left"


def test_and_the_back_one(said):
    answer, entries = said("can I wire the left branch?", "and the back one?")
    assert entries == []
    assert any(option.work == "wire" and option.spot.side == "back" for option in answer.advice.options)
