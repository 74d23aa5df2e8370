"""What is taken back by its name: "forget the last feed", "not the maple" behind work on several trees."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from benchmate.hearing.reading import Fact, Reading, Several, Work
from benchmate.talk.asked.asked_how import phrase_places
from benchmate.talk.deeds import take_back
from benchmate.talk.trees.which_tree import meant_tree
from benchmate.value import replace

if TYPE_CHECKING:
    from benchmate.talk.context import Context
    from benchmate.talk.corrected.amended import Short
    from benchmate.talk.turns import Turn

_LONGEST = 4  # words of "take back", "no, forget"


def work_back(short: Short, talk: Context) -> Reading | None:
    """ "Forget the last feed, I did not do it": what takes "that" back takes back the work that is named as a thing.
    None where the words do work on a thing ("scrap the old wire")."""
    texts, sense = short.texts, short.lexicon.sense
    if {"remind", "note", "new"} & set(short.heard.acts):
        return None
    start = _begins(texts, short)
    stop = texts.index(",", start) if "," in texts[start:] else len(texts)
    for end in range(start + 1, min(start + _LONGEST + 1, stop)):
        head = texts[start:end]
        strikes = phrase_places([*head, "that"], "STRIKE", short.lexicon)
        outright = " ".join(head) in sense["undoes"]
        if not (outright or any(stops == len(head) + 1 for _, stops, _ in strikes)):
            continue
        if texts[end] not in (*sense["pointers"], "my"):
            continue
        latest = texts[end + 1 : end + 2] and texts[end + 1] in sense["latest"]
        named = short.hear(f"the {short.between(end + (2 if latest else 1), stop)}".rstrip(" ."))
        events = [fact for fact in named.facts if fact.kind == "event" and not fact.when]
        others = tuple(fact for fact in named.facts if fact.kind == "species")
        lost = {word for one in named.missed for word in one.words.casefold().split()} - set(sense["entries"])
        if len(events) != 1 or len(events) + len(others) != len(named.facts) or named.work or lost:
            continue
        if not (latest or outright) and not _done_just_now(str(events[0].value), talk):
            continue
        work = Work(str(events[0].value), events[0].spot)
        return Reading(short.said, ("strike",), work=(work,), facts=others, tree=named.tree)
    return None


def _begins(texts: Sequence[str], short: Short) -> int:
    """Where the words begin behind "no, sorry"."""
    passed = {*short.lexicon.sense["openers"], *short.lexicon.sense["refusals"], *short.lexicon.sense["sorry"]}
    return next((n for n, word in enumerate(texts) if word not in passed), len(texts))


def _done_just_now(work: str, talk: Context) -> bool:
    """Whether the last statement that logged anything told of that work."""
    return any(table.get("work") == work for _, entry in talk.logged for table in entry.work)


def tree_back(short: Short, talk: Context) -> Reading | None:
    """ "Not the maple", "all but the elm", behind what was put down: that tree is not meant. Said as a correction; the
    tree stands among those left out."""
    if not talk.made or {"ask", "remind", "note", "new"} & set(short.heard.acts):
        return None
    texts, sense = short.texts, short.lexicon.sense
    at = _begins(texts, short)
    head = next((words for words in sense["spared"] if texts[at : at + len(words.split())] == words.split()), None)
    if head is None or at + len(head.split()) >= len(texts):
        return None
    named = short.hear(short.between(at + len(head.split()), len(texts)))
    kinds = [fact for fact in named.facts if fact.kind == "species" and not fact.denied]
    if named.work or named.missed or named.when or len(kinds) != len(named.facts) or not (kinds or named.tree):
        return None
    if set(named.acts) - {"observe", "turn"}:
        return None
    said = (named.tree,) if named.tree else tuple(str(fact.value) for fact in kinds)
    facts = tuple(Fact("species", fact.value, denied=True) for fact in kinds)
    return Reading(short.said, ("correct",), facts=facts, several=Several((), but=said))


def spared(turn: Turn) -> bool:
    """Take back what the statement before put down for the trees that this one leaves out, where others stay; False
    where it does not."""
    reading, made = turn.reading, turn.before.made
    if reading.acts != ("correct",) or reading.several is None or reading.several.named or not reading.several.but:
        return False
    turn.reading = replace(reading, several=None)
    trees, gone = turn.house.trees(), []
    for one in reading.several.but:
        by_name = meant_tree(Reading("", tree=one), trees, None).tree
        by_kind = meant_tree(Reading("", facts=(Fact("species", one),)), trees, None).tree
        gone += [tree.name for tree in (by_name, by_kind) if tree is not None]
    pairs = tuple(pair for pair in made if pair[0] in gone)
    if not pairs or len(pairs) == len(made):
        return False
    turn.reading = Reading(reading.said)
    take_back(turn, pairs)
    return True
