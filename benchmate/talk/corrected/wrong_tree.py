"""What was put down for the wrong tree: "oops, wrong tree, that was Scotty", "move that to the pine"."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from typing import TYPE_CHECKING

from benchmate.hearing.reading import Fact, Reading, Several
from benchmate.talk.corrected.other_tree import tree_alone

if TYPE_CHECKING:
    from benchmate.talk.context import Context
    from benchmate.talk.corrected.amended import Short


def wrong_tree(short: Short, talk: Context) -> Reading | None:
    """What was just put down for one tree, moved to the one that is named; a correction that names nothing, which is
    asked about, where none is. None where the words do not say that it was the wrong tree, or say more."""
    last, sense = talk.amends, short.lexicon.sense["wrong_tree"]
    names = {name for name, _ in talk.made}
    if last is None or {"remind", "note", "new"} & set(short.heard.acts):
        return None
    small = {*short.lexicon.sense["openers"], *short.lexicon.sense["sorry"], *short.lexicon.sense["refusals"]}
    texts = _without_ends(short.texts, {*small, *sense["beside"]})
    says = next(((at, end) for at in range(len(texts)) if (end := _stands(texts, at, sense["says"]))), None)
    of_tree = says is not None and bool(set(sense["of_tree"]) & set(texts[says[0] : says[1]]))
    if len(names) != 1:  # there is none to move; but what was done to the wrong tree goes down for no other
        return Reading(short.said, ("correct",)) if of_tree and _works_alone(short.heard) else None
    if says is not None:
        rest = _without_ends([*texts[: says[0]], ",", *texts[says[1] :]], {*small, *sense["beside"]})
    elif end := _stands(opened := _without_ends(short.texts, small), 0, sense["moves"]):
        rest = _without_ends(opened[end:], {*small, *sense["beside"]})
    else:
        return None
    if end := _stands(rest, 0, [*sense["leads"], *sense["moves"]]):
        rest = _without_ends(rest[end:], {*small, *sense["beside"]})
    if not rest:
        return Reading(short.said, ("correct",)) if says else None
    named = tree_alone(short, " ".join(rest)) or _with_its_work(short, " ".join(rest), last)
    if named is None:
        return Reading(short.said, ("correct",)) if of_tree and _works_alone(short.heard) else None
    name, is_name = named
    facts = () if is_name else (Fact("species", name),)
    several = Several((name,), but=(next(iter(names)),), shared=False)
    return Reading(short.said, ("correct",), facts=facts, tree=name if is_name else None, several=several)


def _works_alone(heard: Reading) -> bool:
    """Whether the words tell of work and name no tree that it was done to: "I pruned the wrong tree"."""
    kinds = any(fact.kind == "species" for fact in heard.facts)
    return heard.acts == ("decide",) and not (heard.tree or heard.several or kinds or heard.measures)


def _with_its_work(short: Short, words: str, last: Reading) -> tuple[str, bool] | None:
    """The one tree that is named with the work that was just told: "Scotty I repotted"."""
    heard = short.hear(words)
    told = {work.work for work in last.work if work.work}
    kinds = [str(fact.value) for fact in heard.facts if fact.kind == "species" and not fact.denied]
    if {work.work for work in heard.work} != told or heard.missed or heard.measures or len(kinds) != len(heard.facts):
        return None
    if heard.tree:
        return heard.tree, True
    return (kinds[0], False) if len(kinds) == 1 else None


def _stands(texts: Sequence[str], at: int, phrases: Collection[str]) -> int:
    """Where the longest of the phrases that begins at a place ends; 0 where none begins there."""
    found = (at + len(parts) for phrase in phrases if list(texts[at : at + len(parts := phrase.split())]) == parts)
    return max(found, default=0)


def _without_ends(texts: Sequence[str], small: Collection[str]) -> list[str]:
    """The words without small ones at both ends."""
    told = [at for at, word in enumerate(texts) if word not in small and (word.isalnum() or len(word) > 1)]
    return list(texts[told[0] : told[-1] + 1]) if told else []
