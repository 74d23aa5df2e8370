"""Another name for a tree: "call the larch Copper from now on", "rename Copper to Ember". The new name is added to the
record, which keeps the old one; the tree is still found by that."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from functools import lru_cache
from typing import TYPE_CHECKING

from benchmate.garden.record import Entry, Tree
from benchmate.hearing.reading import Reading
from benchmate.practice.advice import Ask
from benchmate.talk.trees.tree_said import tree_said
from benchmate.talk.trees.which_tree import Meant, which
from benchmate.telling.lines import cut_short

if TYPE_CHECKING:
    from benchmate.hearing.vocabulary.words import Word
    from benchmate.talk.bench import Bench
    from benchmate.talk.turns import Turn

RENAME = "rename"
_MOST_WORDS = 16
_MOST_NAME = 5  # words of a name


def renamed(bench: Bench, words: str) -> Reading | None:
    """The reading of words that give a tree of the garden another name, or None."""
    house = bench.house
    sense = house.lexicon.sense["renaming"]
    split = house.ear.words(words)
    texts = [word.text for word in split]
    if len(texts) > _MOST_WORDS or "?" in texts or not set(sense["any"]) & set(texts):
        return None
    first = next((n for n, text in enumerate(texts) if text not in sense["leads"]), len(texts))
    last = len(texts)
    while last > first and texts[last - 1] in sense["ends"]:
        last -= 1
    said = " ".join(texts[first:last])
    for way in ("says", "named"):
        for template in sense[way]:
            for whose, name in _parts(template, said):
                parts = split[first + whose.start : first + whose.stop], split[first + name.start : first + name.stop]
                if found := _meant(bench, words, *parts, named=way == "named"):
                    return found
    return Reading(words, (RENAME,)) if first < last and texts[first] in sense["asks"] else None


def _meant(bench: Bench, words: str, whose: Sequence[Word], name: Sequence[Word], *, named: bool) -> Reading | None:
    """The reading, where the first words mean a tree that is here and the others may be a name."""
    sense = bench.house.lexicon.sense["renaming"]
    name = _without(sense["behind"], name)
    if not 0 < len(name) <= _MOST_NAME or name[0].text in sense["behind"]:
        return None
    called = words[name[0].start : name[-1].end]
    heard = tree_said(bench, words, whose)
    if heard is None or (named and not (heard.tree or heard.facts)):
        return None
    if named and not called[0].isupper() and _says_something(bench, called):
        return None  # "call the larch weak" tells of its health
    return Reading(words, (RENAME,), facts=heard.facts, tree=heard.tree, term=called)


def _without(behind: Sequence[str], name: Sequence[Word]) -> Sequence[Word]:
    """The words without those that may stand behind a name."""
    while name:
        texts = [word.text for word in name]
        ends = next((one.split() for one in behind if texts[-len(one.split()) :] == one.split()), None)
        if ends is None:
            return name
        name = name[: len(name) - len(ends)]
    return name


def _says_something(bench: Bench, called: str) -> bool:
    heard = bench.house.hear(called, bench.on)
    return bool(heard.acts or heard.facts or heard.work or heard.when or heard.measures)


def _parts(template: str, said: str) -> Iterator[tuple[range, range]]:
    """The places of the words for the tree and for the name, every way in which the template fits."""
    match = _pattern(template).fullmatch(said)
    if match is None:
        return
    groups = match.groupdict()
    if "both" in groups:
        first, count = said[: match.start("both")].count(" "), len(groups["both"].split())
        for cut in range(count - 1, 0, -1):
            yield range(first, first + cut), range(first + cut, first + count)
        return
    spans = []
    for group in ("tree", "name"):
        if group not in groups:
            spans.append(range(0))
            continue
        first = said[: match.start(group)].count(" ")
        spans.append(range(first, first + len(groups[group].split())))
    yield spans[0], spans[1]


@lru_cache(256)
def _pattern(template: str) -> re.Pattern[str]:
    one = re.escape(template).replace(r"\{tree\}\ \{name\}", r"(?P<both>.+)")
    return re.compile(one.replace(r"\{tree\}", r"(?P<tree>.+?)").replace(r"\{name\}", r"(?P<name>.+)"))


def meant_for_it(turn: Turn) -> bool:
    """Ask whether "call it Copper" means the tree at hand, where none without a record was spoken of; True where it is
    asked."""
    reading, here = turn.reading, turn.bench.here
    calls = [f"{verb} it " for verb in turn.house.lexicon.sense["calling"]["bare"]]
    bare = reading.said.casefold().startswith(tuple(calls)) and "new" in turn.acts and reading.tree
    if not bare or turn.before.unnamed or not turn.bench.talking or turn.house.garden is None:
        return False
    if reading.work or reading.facts or turn.confirmed or (here is None and not turn.before.those):
        return False
    if here is None:  # several trees were spoken of, and "it" may be any of them
        turn.reading = Reading(reading.said, (RENAME,), term=reading.tree)
        turn.meant = Meant(None, "", which([one for one in turn.house.trees() if one.name in turn.before.those]))
        return True
    turn.reading = Reading(reading.said, (RENAME,), tree=here.name, term=reading.tree)
    turn.tree = here
    turn.confirm = (
        f"Rename {here.name} to {reading.tree}? Say yes or no; for another tree say: new tree, call it {reading.tree}."
    )
    return True


def rename(turn: Turn) -> bool:
    """Give the tree its new name; True where the statement does that."""
    if RENAME not in turn.acts:
        return False
    if turn.confirm:
        return True
    if turn.tree is None:
        turn.asks.append(turn.meant.ask or Ask("tree", "Which tree is it?"))
    elif not turn.reading.term:
        turn.asks.append(Ask("tree", f"Which tree, and what name? Say it as in: rename {turn.tree.name} to Slate."))
    elif turn.bench.dry:
        turn.says.append(f"Would rename {turn.tree.name} to {turn.reading.term}")
    elif turn.house.garden is not None:
        from benchmate.garden import rename_tree

        old, name = turn.tree.name, str(turn.reading.term)
        tree = turn.tree = rename_tree(turn.house.garden, turn.tree, name, turn.on)
        entry = Entry("", turn.on, "note", cut_short(turn.reading.said, 400), named=tree.name)
        turn.to_log.append((tree, (entry,)))
        turn.says.append(f"{old} is called {tree.name} from now on; {old} still finds it")
    return True


def name_taken_back(turn: Turn, tree: Tree, entries: Sequence[Entry]) -> Tree:
    """The tree under its name before, where one of the entries that are taken back gave it the one it has."""
    if turn.bench.dry or turn.house.garden is None:
        return tree
    if not any(entry.named == tree.name for entry in entries):
        return tree
    from benchmate.garden import take_name_back

    before = take_name_back(turn.house.garden, tree, turn.on)
    turn.says.append(f"{tree.name} is called {before.name} again")
    return before
