"""The spoken tests skip, and say why, where the recogniser or the speaker is not installed."""

from __future__ import annotations

import pytest
from spoken import can_test, rule_tables

from benchmate.hearing import Ear, build_lexicon, grammar_data


@pytest.fixture(scope="session")
def tables():
    return rule_tables()


@pytest.fixture(scope="session")
def ear(tables):
    return Ear(build_lexicon(tables), grammar_data())


@pytest.fixture(scope="session")
def voices_here():
    if reason := can_test():
        pytest.skip(reason)
