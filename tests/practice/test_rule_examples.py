"""Every example inside a rule holds: `pytest tests/practice/test_rule_examples.py -k leaf-cut-needs-strength`."""

from __future__ import annotations

import pytest
from example_runner import Case, answer, built, cases, wrong


def test_every_caution_is_told_by_some_example():
    _, _, book = built()
    told = {caution.id for case in cases() for caution in answer(case.claim).cautions}
    # told in the talk alone: tests/talk/test_first_aid.py
    spoken = {id for id, table in book.cautions.items() if table.get("told") or table.get("beside")}
    assert set(book.cautions) <= told | spoken, sorted(set(book.cautions) - told - spoken)


def test_every_condition_compiles():
    _, _, book = built()
    assert not book.faults, "\n".join(map(str, book.faults))


@pytest.mark.parametrize("case", cases(), ids=lambda case: case.id)
def test_example(case: Case):
    problem = wrong(case)
    assert problem is None, (
        f"\n{case.file}, rule {case.rule}, example {case.number}\n  said: {case.claim['say']}"
        f"\n  expected: { {key: value for key, value in case.claim.items() if key != 'say'} }\n  got: {problem}"
    )
