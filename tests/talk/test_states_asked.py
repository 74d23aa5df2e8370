"""Whether something is so, asked of the record: answered with what was seen last, and never logged."""

import pytest


@pytest.mark.parametrize(
    "question, starts, holds",
    [
        ("is Ratchet weak", "No, strong when last seen", "6 June"),
        ("is Ratchet strong", "Yes, last seen", "6 June"),
        ("are the leaves hardened on Minnow", "No, leaves full when last seen", "23 May"),
        ("has Crag got mites", "Yes, last seen", "mites"),
        ("any mites left on Crag?", "Yes, last seen", "mites"),
        ("any aphids on Minnow?", "Last seen on 26 July 2025", "aphids"),
        ("is the wire biting on Gatepost", "The record holds nothing seen of that", "wire biting"),
        ("is Sprint strong", "No, weak when last seen", "23 May"),
    ],
)
def test_the_record_answers_whether_something_is_so(question, starts, holds, bench):
    answer = bench.answer(question)
    assert answer.says[0].startswith(starts)
    assert holds in answer.says[0]
    assert not answer.logged


def test_what_was_done_since_is_told_beside_a_finding(bench):
    assert any("treated it" in line for line in bench.answer("has Crag got mites").says[1:])


# ---- how a tree is


@pytest.mark.parametrize("question", ["how is the hornbeam", "how is Ratchet", "how's the hornbeam"])
def test_how_it_is_tells_its_state_first_and_what_is_due(bench, question):
    answer = bench.answer(question)
    assert answer.says[0].startswith("Ratchet: ") and "strong" in answer.says[0] and "hardened" in answer.says[0]
    assert any(words.startswith("Due: feed it") for words in answer.says[1:]) and answer.advice.options


@pytest.mark.parametrize("question", ["how is the hornbeam best repotted", "what now", "how do I wire it"])
def test_other_questions_tell_no_state(bench, question):
    assert not any(words.startswith("Ratchet: ") for words in bench.answer(question).says)
