"""Clauses settled before they are joined: one step after the other, each for what it is named."""

from __future__ import annotations

from collections.abc import Sequence

from .asked.asked_after import asked_after
from .asked.asked_bare import asked_bare
from .asked.asked_state import asked_judgement, asked_states
from .asked.asked_tail import asked_by_more
from .asked.choosing import choices_of_work
from .asked.either_of import only_shaped_so, which_of_two
from .asked.suspected import suspected
from .clauses import Clause
from .done.cut_at import cut_at_branch
from .done.given import was_given
from .done.mishaps import broke_at_work
from .done.nobody import left_undone
from .done.potting import one_potting, only_looked_at
from .done.struck import named_deed, struck
from .done.thing_after import thing_after
from .lattice.search import Found
from .seen.loose_sizes import settle_loose_sizes
from .settled.amounts_first import amounts_first
from .settled.background import done_by_no_one, kept_from, loose_amounts, reasons_told, stays_out
from .settled.came_from import came_from
from .settled.counted_places import bare_gauges, counted_places
from .settled.habits import as_habits
from .settled.not_so import drop_what_is_not_so
from .settled.not_told import (
    drop_bare_corrections,
    drop_lost_days,
    drop_unknown_subjects,
    going_somewhere,
    held_back,
    not_up_to,
    take_questions,
)
from .settled.resolves import resolved
from .settled.second_places import second_places
from .settled.still_to_come import put_off
from .settled.supposing import supposed_events
from .settled.weather_past import weather_past
from .vocabulary.lexicon import Lexicon
from .vocabulary.words import Word


def settle(
    clauses: list[Clause], found: Found, words: Sequence[Word], lexicon: Lexicon, on: str
) -> tuple[Found, frozenset[int]]:
    """The steps in their order. on: today, ISO. Gives the way through the words as it stands then, and the words that
    only foretell."""
    drop_lost_days(clauses, found)
    counted_places(clauses)
    thing_after(clauses, found, words, lexicon)
    bare_gauges(clauses, found, lexicon)
    was_given(clauses, found, words, lexicon)
    came_from(clauses, lexicon, on)
    weather_past(clauses, found, words, lexicon)
    struck(clauses, words, lexicon)
    named_deed(clauses, found)
    only_shaped_so(clauses)
    which_of_two(clauses, found, words, lexicon)
    amounts_first(clauses, found, lexicon)
    second_places(clauses, found, words, lexicon)
    cut_at_branch(clauses, found, words, lexicon)
    left_undone(clauses, words, lexicon)
    found = resolved(clauses, found, words, lexicon)
    one_potting(clauses, found, words, lexicon)
    only_looked_at(clauses, words, lexicon)
    broke_at_work(clauses, words, lexicon)
    settle_loose_sizes(clauses, found, lexicon)
    found = asked_after(clauses, found, words, lexicon)
    drop_bare_corrections(clauses)
    held_back(clauses, found, words, lexicon)
    not_up_to(clauses, words, lexicon)
    drop_unknown_subjects(clauses, found, words, lexicon)
    foretold = drop_what_is_not_so(clauses, found, words, lexicon, on)
    asked_by_more(clauses, words, lexicon, on)
    supposed_events(clauses, words, lexicon)
    choices_of_work(clauses, found, words, lexicon, on)
    take_questions(clauses, found, words, lexicon)
    suspected(clauses, found, words, lexicon)
    reasons_told(clauses, found, words, lexicon)
    kept_from(clauses, words, lexicon)
    stays_out(clauses, found, lexicon)
    loose_amounts(clauses, found, words)
    done_by_no_one(clauses, found, words, lexicon)
    found = put_off(clauses, found, words, lexicon)
    asked_bare(clauses, found, words, lexicon)
    asked_states(clauses, found, words)
    asked_judgement(clauses, found, words, lexicon)
    going_somewhere(clauses, found, words, lexicon)
    as_habits(clauses, on)
    return found, foretold
