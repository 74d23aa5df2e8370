"""Figures asked in plain words: the right one, its value, its working and source, or what must be asked first."""

import pytest
from asked import amiss, answered, make_garden, read_cases

NAMES = (
    "questions.toml",
    "questions_aloud.toml",
    "questions_evening.toml",
    "questions_everyday.toml",
    "questions_growers.toml",
    "questions_three_moods.toml",
    "questions_more.toml",
    "questions_plain.toml",
    "questions_sentences.toml",
    "questions_spoken.toml",
    "questions_terse.toml",
    "questions_hasty.toml",
    "questions_reworded.toml",
    "questions_classes.toml",
    "questions_wordings.toml",
)
FILES = {name: read_cases(name) for name in NAMES}
KNOWN = read_cases("known.toml")["known"]
QUESTIONS = [question | {"file": name} for name, cases in FILES.items() for question in cases["question"]]
FLOOR = 0.95


def garden_file(name):
    """The file that describes the garden in which a file's questions are asked: itself, or the first."""
    return name if "place" in FILES[name] else NAMES[0]


@pytest.fixture(scope="module")
def gardens(tmp_path_factory):
    home = tmp_path_factory.mktemp("figures")
    own = {garden_file(name) for name in NAMES}
    return {
        (name, trees): make_garden(home / f"{name} {trees}", FILES[name], trees)
        for name in own
        for trees in (True, False)
    }


@pytest.mark.parametrize("question", QUESTIONS, ids=lambda question: question["id"])
def test_figure_asked(question, gardens):
    name = garden_file(question["file"])
    answer = answered(gardens[name, "tree" in question], question, FILES[name]["on"])
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
