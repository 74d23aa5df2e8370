"""The senses of each word that its neighbours leave it: "my hose is dry" waters nothing, "won't wire that one" names no
wire."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from ..vocabulary.lexicon import Lexicon
from ..vocabulary.words import Word
from . import beside_senses, boxes, clause_senses, left_senses, link_senses, talk_senses, verb_senses, wetness
from .sense import Sense

if TYPE_CHECKING:
    from .spotting import Token


def drop_false_senses(lexicon: Lexicon, lattice: list[list[Token]], words: Sequence[Word]) -> None:
    """Take away what a word cannot be beside its neighbours."""
    texts = [word.text for word in words]
    for at, tokens in enumerate(lattice):
        asks = any(t.kind == "QCOMPARE" and t.end > at + 1 and not t.guesses for t in tokens)
        if asks:  # "which one goes" asks: then "which" alone does not join
            tokens = [t for t in tokens if t.kind != "SEP"]
        senses = [Sense(lexicon, lattice, texts, at, token) for token in tokens]
        lattice[at] = [sense.token for sense in senses if not any(false(sense) for false in _FALSE)]


_FALSE: tuple[Callable[[Sense], bool], ...] = (
    verb_senses.owned_verb,
    verb_senses.base_form,
    verb_senses.doing,
    verb_senses.named_by_article,
    verb_senses.wants_done,
    verb_senses.carried_out,
    verb_senses.was_done,
    verb_senses.thing_cut,
    verb_senses.no_denial,
    link_senses.on_a_day,
    verb_senses.begins,
    verb_senses.around,
    verb_senses.to_be_done,
    verb_senses.will_be,
    verb_senses.gets_done,
    verb_senses.had_done,
    link_senses.denied_thing,
    link_senses.one_thing,
    link_senses.adverb,
    link_senses.remaining,
    left_senses.left_standing,
    left_senses.left_it,
    verb_senses.open_end,
    verb_senses.habitual,
    verb_senses.somebody_did,
    verb_senses.put_there,
    verb_senses.looked_at,
    link_senses.side_names,
    link_senses.owns,
    link_senses.owns_nothing,
    link_senses.leads_nowhere,
    link_senses.farewell,
    link_senses.of_others,
    link_senses.seems,
    link_senses.compared,
    link_senses.as_reason,
    link_senses.earlier,
    link_senses.as_reason_for,
    link_senses.came_out,
    link_senses.spares,
    talk_senses.clipped,
    talk_senses.exclaimed,
    talk_senses.rues,
    talk_senses.as_wished,
    link_senses.comes_off,
    talk_senses.no_question,
    talk_senses.asks_back,
    talk_senses.tags,
    talk_senses.no_tail,
    talk_senses.either_verb,
    talk_senses.tells_about,
    verb_senses.taken_out,
    verb_senses.named_next,
    boxes.boxed,
    wetness.drips,
    clause_senses.bloomers,
    clause_senses.ripens,
    clause_senses.worked_next,
    clause_senses.of_people,
    clause_senses.gets_passive,
    clause_senses.worked_out,
    clause_senses.next_to,
    clause_senses.ordered_on_a_day,
    clause_senses.named_by_owner,
    clause_senses.mind_changed,
    clause_senses.left_side,
    clause_senses.half_dose,
    clause_senses.half_off,
    clause_senses.opens_as_work,
    clause_senses.before_the_rest,
    clause_senses.may_to,
    clause_senses.taken_back,
    clause_senses.no_denial_of_order,
    clause_senses.had_contracted,
    clause_senses.let_grow_on,
    clause_senses.tree_or_stuff,
    clause_senses.only_thought,
    clause_senses.asks_denied,
    clause_senses.asks_of_doing,
    clause_senses.own_body,
    clause_senses.needs_what,
    clause_senses.no_inches,
    clause_senses.gets_done_when,
    verb_senses.brought_in,
    verb_senses.lies_frozen,
    verb_senses.does_a_part,
    verb_senses.tilted,
    left_senses.grows_off,
    beside_senses.otherwise,
    beside_senses.people_go,
    beside_senses.by_its_article,
    beside_senses.leaves_turn,
    beside_senses.of_the_clock,
    beside_senses.of_a_bend,
    beside_senses.up_to_size,
    beside_senses.questioned_warmth,
    beside_senses.holds_off,
    beside_senses.places_left,
)
