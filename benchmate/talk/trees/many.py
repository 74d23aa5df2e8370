"""A statement about several trees: done, asked and told for each of them, with what is logged on each."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from benchmate.garden.record import Tree
from benchmate.hearing.reading import Fact, Reading, Several
from benchmate.practice.advice import Advice, Ask
from benchmate.talk.decide import entries_of
from benchmate.talk.recorded.recall_many import MANY
from benchmate.talk.trees.plurals import said_in_plural
from benchmate.talk.trees.sheltering import is_shelter_question, shelter_words
from benchmate.talk.trees.told_of_each import answer_words, decided_words, names_words, of_people
from benchmate.talk.trees.which_tree import fits, is_of
from benchmate.telling.heard import said_work_words
from benchmate.telling.wording import list_words
from benchmate.value import dataclass, replace

if TYPE_CHECKING:
    from benchmate.talk.turns import Turn

_WEIGHED = 60  # trees that are weighed before it is asked whether it is logged on all; of more only after the yes
_OPENING = 4  # words of a statement among which its verb is looked for
_TOGETHER = ("due", "list", "meaning")  # questions that are answered over all of the trees at once


@dataclass(frozen=True, slots=True)
class Among:
    """trees: those that are meant. but: those of all that are left out. without: taxa and names that no tree here has.
    ask: which is meant by a name that fits several."""

    trees: tuple[Tree, ...] = ()
    but: tuple[Tree, ...] = ()
    without: tuple[str, ...] = ()
    ask: Ask | None = None


def among(
    several: Several, trees: Sequence[Tree], here: Tree | None, plural_of: Callable[[str], bool] = lambda name: False
) -> Among:
    """The trees that are meant, each once, in the order said. here: the tree at hand, which a taxon means first.
    plural_of: whether a taxon was said in the plural: then all of that kind are meant."""
    meant: dict[str, Tree] = {tree.folder: tree for tree in trees} if several.every else {}
    left_out: dict[str, Tree] = {}
    without: list[str] = []
    spoken = [(name, left_out) for name in several.but]
    if not several.every:
        spoken = [(name, meant) for name in several.named] + [(name, out) for name, out in spoken if fits(name, trees)]
    for name, group in spoken:
        found = fits(name, trees, None if plural_of(name) else here)
        if len(found) > 1 and not plural_of(name):
            names = list_words([tree.name for tree in found], "or")
            return Among(ask=Ask("tree", f"Which {name} is meant: {names}?"))
        without += [] if found else [name]
        for tree in found:
            group[tree.folder] = tree
    trees = [tree for folder, tree in meant.items() if folder not in left_out]
    return Among(tuple(trees), tuple(left_out.values()), tuple(without))


def _among(turn: Turn, several: Several) -> Among:
    """The trees that are meant in the words of a turn."""
    said, lexicon = turn.reading.said, turn.house.lexicon
    return among(several, turn.house.trees(), turn.bench.here, lambda name: said_in_plural(said, name, lexicon))


def settled_with(reading: Reading, tree: Tree, trees: Sequence[Tree], here: Tree | None) -> Reading | None:
    """The reading with the tree that was asked for: as its tree, or in the place of a name that fitted several. None
    where that name does not fit it."""
    several = reading.several
    if several and several.each:
        return _settled_piece(reading, tree, trees, here)
    names = (*several.named, *several.but) if several else ()
    open_name = next((name for name in names if len(fits(name, trees, here)) > 1), None)
    if several is None or open_name is None:
        facts = tuple(one for one in reading.facts if one.kind != "species" or is_of(tree, str(one.value)))
        return replace(reading, tree=tree.name, several=None, facts=facts)
    if tree not in fits(open_name, trees, here):
        return None
    told = [tuple(tree.name if name == open_name else name for name in group) for group in (several.named, several.but)]
    return replace(reading, several=replace(several, named=told[0], but=told[1]))


def _settled_piece(reading: Reading, tree: Tree, trees: Sequence[Tree], here: Tree | None) -> Reading | None:
    """The same, where each tree has a piece of its own: in the first piece whose name fits several."""
    assert reading.several is not None
    each = list(reading.several.each)
    for at, piece in enumerate(each):
        names = piece.several.named if piece.several else _names_of(piece)
        if all(len(fits(name, trees, here)) < 2 for name in names):
            continue
        settled = settled_with(piece, tree, trees, here) if any(tree in fits(n, trees, here) for n in names) else None
        if settled is None:
            return None
        each[at] = settled
        return replace(reading, several=replace(reading.several, each=tuple(each)))
    return None


def for_each(turn: Turn) -> None:
    """Carry the statement out on each tree that it is about; what comes of it stands in `turn`."""
    several = turn.reading.several
    assert several is not None
    if several.every:  # "all the trees": all of them, not all of each
        works = [replace(work, manner=tuple(way for way in work.manner if way != "all")) for work in turn.reading.work]
        turn.reading = replace(turn.reading, work=tuple(works))
    reading = turn.reading
    if several.each:
        _each_its_own(turn, several.each)
        return
    meant = _among(turn, several)
    if not several.shared and reading.topic not in _TOGETHER:
        trees = turn.house.trees()
        found = [fits(name, trees, turn.bench.here) for name in several.named]
        names = list_words(
            [one[0].name if len(one) == 1 else name for name, one in zip(several.named, found, strict=True)]
        )
        own = f"{names} were named, with something of its own for each"
        turn.says.append(f"{own}: say it one tree at a time; nothing is logged")
        return
    if meant.ask or "turn" in turn.acts or not turn.acts:
        turn.asks.append(meant.ask or Ask("tree", f"Which first: {names_words(meant.trees, 'or')}?"))
        return
    turn.among = meant.trees
    if several.named and meant.but:
        turn.aside.append(f"left out: {names_words(meant.but)}")
    if reading.topic in _TOGETHER or (reading.topic == "recall" and (not reading.work or len(meant.trees) > MANY)):
        turn.decide()
        return
    if several.every and not turn.confirmed and len(meant.trees) > _WEIGHED and entries_of(reading, None, turn.on):
        turn.confirm = _for_all(len(meant.trees), meant)
        return
    parts = [_part(turn, tree.name, None) for tree in meant.trees]
    decides = bool(any(part.to_log for part in parts))
    if several.every and meant.without:
        turn.aside.append(f"no tree here is {list_words(list(meant.without), 'or')}")
    elif meant.without and not decides and "ask" in turn.acts:
        parts += [_part(turn, name, name) for name in meant.without]
    elif meant.without:
        turn.aside.append(_not_here(meant))
    if not parts:
        turn.says.append("No tree of this garden is meant")
        return
    _merge(turn, parts, decides)
    if several.every and decides and not turn.confirmed:
        turn.confirm = f"{turn.confirm or ''} {_for_all(len(parts), meant)}".strip()


def _each_its_own(turn: Turn, pieces: Sequence[Reading]) -> None:
    """Carry out what is told of each tree on that tree. Nothing is logged while one of them is not clear."""
    parts: list[Turn] = []
    asked = ""
    pieces = _with_verbs(turn, pieces)
    assert turn.reading.several is not None
    turn.reading = replace(turn.reading, several=replace(turn.reading.several, each=tuple(pieces)))
    if idle := next((piece for piece in pieces if _says_nothing(piece)), None):
        turn.says.append(f'"{idle.said}": what was done there was not taken in. Say it one tree at a time')
        turn.aside.append("nothing is logged")
        return
    for piece in pieces:
        own = type(turn)(turn.bench, piece, turn.confirmed)
        several = own.reading.several or Several(_names_of(piece))
        meant = _among(turn, several)
        if meant.ask:
            turn.asks.append(meant.ask)
            return
        if meant.without and not several.every:
            turn.aside.append(_not_here(meant))
        done = [_part(own, tree.name, None) for tree in meant.trees]
        if several.every and any(part.to_log for part in done) and not turn.confirmed:
            works = list_words([said_work_words(work, done=work.done == "done") for work in piece.work if work.work])
            asked = f"Log it as said, and for all {len(done)} trees {works}? Say yes or no."
        parts += done
    if not parts:
        turn.says.append("No tree of this garden is meant")
        return
    turn.among = tuple({part.tree.folder: part.tree for part in parts if part.tree}.values())
    _merge(turn, parts, bool(any(part.to_log for part in parts)))
    turn.to_log = [(tree, tuple(replace(one, said=turn.reading.said) for one in new)) for tree, new in turn.to_log]
    turn.confirm = " ".join(filter(None, [turn.confirm, asked])) or None


def _says_nothing(piece: Reading) -> bool:
    """Whether a piece says that something was done to its tree, and not what."""
    return "decide" in piece.acts and not (piece.work or piece.facts or piece.measures or piece.note)


def _with_verbs(turn: Turn, pieces: Sequence[Reading]) -> list[Reading]:
    """The pieces, each without a verb under that of the one before: "wired the left branch of Elmo and the right one of
    Elma"."""
    out: list[Reading] = []
    for piece in pieces:
        if out and _says_nothing(piece) and out[-1].work:
            works, opening = {work.work for work in out[-1].work}, out[-1].said.split()[:_OPENING]
            for count in range(1, len(opening) + 1):
                again = turn.house.hear(" ".join([*opening[:count], piece.said]), turn.on)
                if {work.work for work in again.work} == works and again.tree == piece.tree and not again.missed:
                    piece = replace(again, said=piece.said)
                    break
        out.append(piece)
    return out


def _names_of(piece: Reading) -> tuple[str, ...]:
    """The tree that a piece names, or its taxon."""
    taxa = [str(fact.value) for fact in piece.facts if fact.kind == "species" and not fact.denied]
    return (piece.tree,) if piece.tree else tuple(taxa[:1])


def _not_here(meant: Among) -> str:
    begin = f"to begin a record, say: new tree, {meant.without[0]}, call it Slate, or any other name"
    return f"no {list_words(list(meant.without), 'or')} stands in this garden: nothing is logged for it; {begin}"


def _for_all(count: int, meant: Among) -> str:
    but = f" (except {names_words(meant.but)})" if meant.but else ""
    return f"Log it for all {count} trees{but}? Say yes or no."


def _part(turn: Turn, name: str, taxon: str | None) -> Turn:
    """The statement as it is for one tree, or for a species that does not stand here. Nothing is written yet."""
    facts = tuple(fact for fact in turn.reading.facts if fact.kind != "species")
    if taxon:
        facts = (Fact("species", taxon), *facts)
    reading = replace(turn.reading, several=None, tree=None if taxon else name, facts=facts)
    part = type(turn)(turn.bench, reading, turn.confirmed)
    part.to_log += [(tree, entries) for tree, entries in turn.to_log if tree.name == name]  # what this strikes
    struck = len(part.to_log)
    part.find_tree()
    part.decide()
    del part.to_log[:struck]
    part.label = name
    return part


def _merge(turn: Turn, parts: list[Turn], decides: bool) -> None:
    turn.confirm = next((part.confirm for part in parts if part.confirm), None)
    for part in parts:
        turn.to_log += part.to_log
        turn.aside += [words for words in part.aside if words not in turn.aside]
        turn.lines += part.lines
        options = [option.as_json() for option in part.advice.options] if part.advice else []
        turn.found.append({"tree": part.tree.name if part.tree else None, "options": options, "says": list(part.says)})
    if is_shelter_question(turn.reading):
        turn.says += shelter_words(turn, parts)
        turn.advice = Advice(turn.reading, None, turn.on.isoformat(), cautions=of_people(one.advice for one in parts))
        return
    told = [part for part in parts if "ask" in part.acts or not (decides and "decide" in part.acts)]
    decided = [part for part in parts if part not in told]
    once = turn.confirmed and turn.reading.several is not None and turn.reading.several.every
    if decided and not (once and len(parts) <= _WEIGHED):  # what was told before the yes is not told again
        turn.says += decided_words(turn, decided)
    turn.says += [words for part in told for words in answer_words(part)]
    cautions = of_people(part.advice for part in parts)
    turn.advice = Advice(turn.reading, None, turn.on.isoformat(), cautions=cautions)
