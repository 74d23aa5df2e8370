"""Why, what if, and the options of a decision, as they are told."""

import re

import pytest

from benchmate.telling.told import tell


def told(answer):
    return [f"{line.lead}{line.words}" for line in tell(answer)]


@pytest.mark.parametrize("question", ["can I wire it", "can I repot it", "can I shorten the shoots"])
@pytest.mark.parametrize("tree", ["Gatepost", "Ratchet", "Sprint"])
def test_what_is_not_known_is_told_once_and_in_plain_words(bench, tree, question):
    bench.answer(f"let's do {tree}")
    bench.answer(question)
    lines = told(bench.answer("why"))
    unknown = [line for line in lines if "not known" in line.casefold()]
    assert len(unknown) <= 1 and not any("temperature c" in line for line in lines)
    assert all(re.fullmatch(r"Not known: [a-z ,]+; what is so may change the answer\.", line) for line in unknown)


def test_where_the_answer_is_no_nothing_unknown_could_change_it(bench):
    bench.answer("it's weak, can I take half the leaves off")
    assert bench.context.weighed.options[-1].verdict == "avoid"
    assert not any(line.startswith("Not known: ") for line in told(bench.answer("why not")))


def test_what_is_known_is_told_once(bench):
    bench.answer("let's do Sprint")
    bench.answer("can I wire it")
    (known,) = [line for line in told(bench.answer("why")) if line.startswith("Known: ")]
    facts = [fact.partition(" (")[0] for fact in known.removeprefix("Known: ").split("; ")]
    assert "weak" in facts and len(facts) == len(set(facts))


def test_while_what_the_answer_stands(bench):
    bench.answer("let's do Sprint")
    bench.answer("can I wire it")
    lines = told(bench.answer("why"))
    assert "It stands while weak (from the record, 2026-05-23)." in lines
    assert not any(" over 0" in line or "is known" in line for line in lines)


def test_what_if_names_no_caution_by_its_id(bench):
    bench.answer("let's do the beech")
    bench.answer("can I halve the leaves")
    says = bench.answer("what if it were a pine").says
    assert any(words.startswith("No longer minded: ") for words in says)
    assert not any(re.search(r"about[ -]|\d\.$", words) for words in says if "minded" in words)


def test_what_comes_and_goes_with_the_same_words_is_not_told(bench):
    bench.answer("can I halve the leaves")
    says = bench.answer("what if it were a field maple").says
    gained = {words.partition(": ")[2] for words in says if words.startswith("Then minded")}
    lost = {words.partition(": ")[2] for words in says if words.startswith("No longer")}
    assert not gained & lost


@pytest.mark.parametrize("words", ["fed it", "wired the left branch", "checked the roots"])
def test_a_decision_that_nothing_stands_against_has_no_numbers(bench, words):
    lines = told(bench.answer(words))
    assert not any(re.match(r"\d  ", line) for line in lines) and not any('say "why' in line for line in lines)


def test_a_decision_with_something_against_it_offers_numbers_from_one(bench):
    bench.answer("let's do Sprint")
    assert any(line.startswith("1  ") for line in told(bench.answer("I'm going to wire the left branch")))
