"""Figures asked in plain words: the right one, its value, its working and source, or what must be asked first."""

import pytest
from asked import amiss, answered, make_garden, read_cases

CASES = read_cases("questions.toml")
KNOWN = read_cases("known.toml")["known"]
QUESTIONS = [
    question
    for name in ("questions.toml", "questions_more.toml", "questions_plain.toml", "questions_sentences.toml")
    for question in read_cases(name)["question"]
]
FLOOR = 0.95


@pytest.fixture(scope="module")
def gardens(tmp_path_factory):
    home = tmp_path_factory.mktemp("figures")
    return {trees: make_garden(home / str(trees), CASES, trees) for trees in (True, False)}


@pytest.mark.parametrize("question", QUESTIONS, ids=lambda question: question["id"])
def test_figure_asked(question, gardens):
    answer = answered(gardens["tree" in question], question, CASES["on"])
    wrong = amiss(answer, question)
    if question["id"] in KNOWN:
        assert wrong, f"{question['id']} is listed in known.toml and passes: take it off the list"
        pytest.xfail(KNOWN[question["id"]])
    assert not wrong, f"{question['id']}: {question['said']!r}: {wrong}\n{answer['reading']}"


def test_list_of_questions():
    from benchmate.reckoning import FIGURES

    ids = [question["id"] for question in QUESTIONS]
    assert len(ids) == len(set(ids))
    assert {question["figure"] for question in QUESTIONS} == set(FIGURES), "each figure is asked for"
    assert set(KNOWN) <= set(ids), "known.toml names questions that are not there"
    assert len(KNOWN) <= (1 - FLOOR) * len(ids), "too many are given up"
