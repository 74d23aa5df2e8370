"""What the talk keeps of a statement for the next one."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchmate.talk.context import Context, Pending
from benchmate.talk.statement import yes_or_no
from benchmate.talk.told.picked import PICKED
from benchmate.talk.trees.which_tree import species_said

if TYPE_CHECKING:
    from benchmate.hearing.reading import Reading
    from benchmate.talk.turns import Turn

_TELLING = frozenset({"observe", "decide", "note", "new"})

_SUPPOSED = ("what-if", "list", "recall", "due")  # questions whose facts are not told as so


def moved_words(turn: Turn) -> list[str]:
    """That another tree is at hand now than the one before, where nobody asked to turn to it."""
    before = turn.before.tree
    if not turn.bench.talking or not before or {"turn", "new", "rename"} & set(turn.acts):
        return []
    if turn.tree and turn.tree.name != before:
        return [f"{turn.tree.name} is at hand now, not {before}"]
    if (turn.meant.species_alone and not turn.tree) or left_for(turn):
        return [f"{before} is not at hand any more"]
    return []


def thought_words(turn: Turn) -> list[str]:
    """That nothing was planned, where the words only play with it."""
    return ["taken as a thought: no plan is put down"] if turn.thought else []


def kept(turn: Turn) -> Context:
    """What the talk knows now."""
    before, reading = turn.before, turn.reading
    new = tuple(pair for pair in turn.logged if pair[1].kind != "struck")
    told = {caution.id for caution in turn.advice.cautions if caution.kind != "tree"} if turn.advice else set()
    waits = None
    if turn.offer and not turn.unlogged:
        waits = turn.offer
    elif turn.confirm:
        name = turn.tree.name if turn.tree else None
        waits = Pending(reading, takes_back=turn.gone, tree=name, lapses=turn.lapses)
    elif any(ask.fact == "tree" for ask in turn.asks) and not turn.new_name:
        waits = Pending(reading, "tree")
    moved = bool(turn.tree) or turn.meant.species_alone
    those = _those(turn)
    tree = turn.tree.name if turn.tree else None if turn.meant.species_alone or left_for(turn) else before.tree
    place = bool(reading.candidates) and reading.acts == ("ask",) and reading.topic == "advice"  # "low right branch"
    has_content = bool(reading.work or reading.facts or place or _names_a_thing(turn)) and "pick" not in turn.acts
    meaning = turn.meaning or (reading if has_content else before.reading)
    facts = (*reading.facts, *reading.candidates, *turn.facts)
    offers = turn.advice and turn.advice.options
    if reading.topic in _SUPPOSED:
        facts = turn.facts or before.facts
    if reading.several:
        # what was said of other trees too is no word of the one at hand alone
        facts = before.facts if tree == before.tree else ()
    same = tree == before.tree
    spoke = _speaks_anew(turn)
    return Context(
        tree=tree,
        reading=meaning,
        advice=turn.advice if offers else before.advice if same and not new else None,
        facts=facts if moved or has_content else before.facts,
        logged=new or (() if turn.struck else before.logged),
        told=before.told | told,
        pending=waits,
        weighed=turn.advice if offers else before.weighed if same else None,
        amends=(turn.meaning or reading) if spoke else before.amends,
        made=turn.gone if turn.confirm else new if spoke else () if turn.struck else before.made,
        taken_from=((before.taken_from or before.advice) if PICKED in reading.refers else turn.taken_from)
        if spoke
        else before.taken_from,
        figure=reading if reading.topic == "figure" else None,
        figure_asks=bool(turn.asks),
        unnamed=_unnamed(turn),
        those=those,
        earlier=before.amends if spoke else before.earlier,
        due=turn.due if spoke else before.due,
        earlier_made=before.made if spoke else before.earlier_made,
    )


def left_for(turn: Turn) -> bool:
    """Whether several trees are spoken of now, and none is at hand: what is said next may be of any of these."""
    several = turn.reading.several
    told = bool({"decide", "observe"} & set(turn.acts))  # a question of others leaves the one at hand where it is
    return told and several is not None and not several.every and len(turn.among) > 1


def _those(turn: Turn) -> tuple[str, ...]:
    """The names of the trees that are spoken of, where they are several."""
    if turn.reading.several and len(turn.among) > 1:
        return tuple(tree.name for tree in turn.among)
    return () if turn.tree or turn.meant.species_alone else turn.before.those


def _names_a_thing(turn: Turn) -> bool:
    """ "What wire is on it": what the record was asked for may be "it" in the next statement."""
    from benchmate.hearing.lending import named_in

    lexicon = turn.house.lexicon
    return turn.reading.topic == "recorded" and bool(named_in(lexicon.split(turn.reading.said), lexicon))


def _unnamed(turn: Turn) -> tuple[Reading, ...]:
    """What was told of a tree without a record: this statement with those before it, unless another kind is meant."""
    before, reading = turn.before.unnamed, turn.reading
    if turn.tree or turn.house.garden is None or ("new" in turn.acts and turn.new_name and not turn.confirm):
        return ()
    if turn.confirm or reading.several or not _TELLING & set(turn.acts):
        return before
    said = species_said(reading)
    other = said and any(species_said(one) not in (None, said) for one in before)
    return (reading,) if other else (*before, reading)


def _speaks_anew(turn: Turn) -> bool:
    """Whether the next correction bears on this statement, and not on the one before: "why" and a correction that was
    not clear leave that as it was; words that were not understood do not."""
    acts, reading = set(turn.acts), turn.reading
    if {"correct", "strike"} & acts or (not acts and yes_or_no(reading.said) is not None):
        return False
    if reading.topic == "why" and not reading.work and not reading.facts:
        return False
    return bool(acts or reading.missed)
