"""The tree put right with the one not meant: "not the elm, the beech", "it was not Ratchet, it was Gatepost"."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from benchmate.garden.record import Tree
from benchmate.hearing.reading import Fact, Missed, Reading, Several
from benchmate.practice.advice import Ask
from benchmate.talk.trees.which_tree import is_of, named
from benchmate.telling.wording import list_words
from benchmate.value import replace

if TYPE_CHECKING:
    from benchmate.talk.context import Context
    from benchmate.talk.corrected.amended import Short
    from benchmate.talk.turns import Turn

_NOT = "not"
_OF_TREES = frozenset({"observe", "decide", "ask"})


def tree_for_tree(short: Short, talk: Context) -> Reading | None:
    """One tree denied and another meant in its stead, with nothing beside; None where the words say more or less. Said
    as a correction: the tree that is meant stands in it, the one that is not among those left out."""
    if talk.amends is None or {"ask", "remind", "note", "new"} & set(short.heard.acts) or _NOT not in short.texts:
        return None
    for denied_words, meant_words in _parted(short):
        denied, meant = tree_alone(short, denied_words), tree_alone(short, meant_words)
        if denied and not meant and talk.made and (other := _other_work(short, denied, meant_words)):
            return other
        if not denied or not meant:
            continue
        (out, _), (name, is_name) = denied, meant
        facts = () if is_name else (Fact("species", name),)
        several = Several((name,), but=(out,), shared=False) if talk.made else None
        return Reading(short.said, ("correct",), facts=facts, tree=name if is_name else None, several=several)
    return None


def _parted(short: Short) -> Iterator[tuple[str, str]]:
    """What is denied and what is meant, as said: "not ..., ...", "..., not ..."."""
    texts = short.texts
    for at, word in enumerate(texts):
        if word != _NOT:
            continue
        if "," in texts[at:]:
            comma = texts.index(",", at)
            yield short.between(at + 1, comma), short.between(comma + 1, len(texts))
        else:
            yield short.between(at + 1, len(texts)), short.between(0, at)


def tree_alone(short: Short, words: str) -> tuple[str, bool] | None:
    """The one tree that the words name and nothing beside, and whether by its name."""
    heard = short.hear(words.strip(" ,.!")) if words else None
    if heard is None or heard.work or heard.missed or heard.measures or heard.when:
        return None
    kinds = [str(fact.value) for fact in heard.facts if fact.kind == "species"]
    if len(kinds) != len(heard.facts) or len(kinds) + bool(heard.tree) != 1:
        return None
    return (heard.tree, True) if heard.tree else (kinds[0], False)


def _other_work(short: Short, denied: tuple[str, bool], words: str) -> Reading | None:
    """ "Not the beech, that one was just slip-potted": on that tree another work was done, and none beside."""
    heard = short.hear(words.strip(" ,.!")) if words else None
    if heard is None or heard.acts not in (("decide",), ("correct",)) or heard.facts or heard.missed or heard.tree:
        return None
    works = tuple(replace(work, span=(0, 0)) for work in heard.work if work.work and work.done in ("now", "done"))
    if not works or len(works) != len(heard.work):
        return None
    name, is_name = denied
    facts = () if is_name else (Fact("species", name),)
    several = Several((name,), but=(name,), shared=False)
    tree = name if is_name else None
    return Reading(short.said, ("correct",), work=works, facts=facts, tree=tree, several=several)


def meant_another(short: Short, talk: Context) -> Reading | None:
    """ "It was the hornbeam I fed, not this one": the work just put down for one tree, moved to the tree that is named.
    None where the words tell of other work, or name no other tree."""
    last, sense = talk.amends, short.lexicon.sense["narrowing"]
    names = {name for name, _ in talk.made}
    told = {work.work for work in last.work if work.work} if last else set()
    if last is None or len(names) != 1 or not told or {"ask", "remind", "note", "new"} & set(short.heard.acts):
        return None
    said = f" {' '.join(short.texts)} "
    denial = next((words for words in sense["not_this"] if f" {words} " in said), None)
    leads = next((words for words in sense["it_was"] if said.startswith(f" {words} ")), None)
    if denial is None and leads is None:
        return None
    parts = said.partition(f" {denial} ") if denial else (said, "", "")
    rest = " ".join(" ".join((parts[0], parts[2])).split()).strip(" ,.!-")
    heard = short.hear(rest)
    same = {work.work for work in heard.work} == told and not heard.missed and not heard.measures
    kinds = [str(fact.value) for fact in heard.facts if fact.kind == "species" and not fact.denied]
    meant = (heard.tree, True) if heard.tree else (kinds[0], False) if len(kinds) == 1 else None
    if not (same and meant and len(kinds) == len(heard.facts)):
        bare = rest.removeprefix(leads or "").strip(" ,")
        meant = tree_alone(short, bare) if not heard.work or heard.acts == ("correct",) else None
    if meant is None:
        return None
    name, is_name = meant
    facts = () if is_name else (Fact("species", name),)
    several = Several((name,), but=(next(iter(names)),), shared=False)
    return Reading(short.said, ("correct",), facts=facts, tree=name if is_name else None, several=several)


def on_each(short: Short, talk: Context) -> Reading | None:
    """ "Took off a third of the roots on each", behind work on several trees: on these trees."""
    last, heard = talk.amends, short.heard
    trees = last.several if last is not None else None
    if trees is None or not (trees.named or trees.every) or not heard.acts or set(heard.acts) - _OF_TREES:
        return None
    if heard.tree or heard.several or any(fact.kind == "species" for fact in heard.facts):
        return None
    said = " ".join(short.texts).strip(" .!?,")
    if not any(said.endswith(f" {words}") or f" {words} , " in said for words in short.lexicon.sense["on_each"]):
        return None
    return replace(heard, several=replace(trees, shared=True, pieces=(), each=()), missed=_without(heard, short))


def _without(heard: Reading, short: Short) -> tuple[Missed, ...]:
    """What was missed but for the words that say on which trees."""
    each = short.lexicon.sense["on_each"]
    return tuple(one for one in heard.missed if " ".join(short.lexicon.split(one.words)) not in each)


def swapped(turn: Turn) -> bool:
    """Take back what the statement before put down for the tree that is not meant, and leave in the turn what it said
    of that tree, now of the one that is; False where the words put no tree in another's stead."""
    fix, last = turn.reading, turn.before.amends
    several = fix.several
    if fix.acts != ("correct",) or last is None or several is None or not (several.named and several.but):
        return False
    out, made = several.but[0], turn.before.made
    gone = {tree.name for tree in turn.house.trees() if _is(tree, out)}
    pairs = tuple(pair for pair in made if pair[0] in gone)
    piece = _piece(last, out, turn.house.trees())
    if not pairs or piece is None:
        turn.reading = Reading(fix.said)
        trees = list_words(list(dict.fromkeys(name for name, _ in made)), "and")
        turn.asks.append(Ask("tree", f"That was put down for {trees}. Which of these was it not?"))
        return True
    turn.in_its_stead(pairs)
    facts = (*(fact for fact in piece.facts if fact.kind != "species"), *fix.facts)
    said = f"{last.said}; {fix.said}"
    work = fix.work or piece.work
    turn.reading = replace(piece, said=said, facts=facts, work=work, tree=fix.tree, several=None)
    return True


def _is(tree: Tree, name: str) -> bool:
    return named([tree], name) is not None or is_of(tree, name)


def _piece(last: Reading, out: str, trees: Sequence[Tree]) -> Reading | None:
    """What the statement said of the tree that is not meant: all of it, unless each tree had something of its own."""
    if last.several is None or last.several.shared:
        return last
    for piece in last.several.each:
        names = piece.several.named if piece.several else (piece.tree, *_taxa(piece))
        if any(_is(tree, name) for name in names if name for tree in trees if _is(tree, out)):
            return piece
    return None


def _taxa(reading: Reading) -> list[str]:
    return [str(fact.value) for fact in reading.facts if fact.kind == "species" and not fact.denied]
