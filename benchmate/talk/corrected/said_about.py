"""What is taken back by what was said of it: "forget what I said about not wiring", "ignore the bit about aphids"."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from typing import TYPE_CHECKING

from benchmate.garden.record import Entry, Tree
from benchmate.hearing.reading import NOWHERE, Fact, Reading, Work
from benchmate.talk.context import Context
from benchmate.talk.corrected.amended import at_place
from benchmate.talk.decide import LEFT_WORKS
from benchmate.talk.deeds import of_now, strike_of, take_back
from benchmate.talk.trees.which_tree import meant_tree, species_said, which
from benchmate.telling.dates import day_words
from benchmate.telling.story import entry_words
from benchmate.value import replace

if TYPE_CHECKING:
    from benchmate.talk.corrected.amended import Short
    from benchmate.talk.turns import Turn

SAID = "said"  # what such a statement points back to
_NOT = "not"
_SHORT = 3  # words of so few letters tell nothing of what was said


def said_about(short: Short, talk: Context) -> Reading | None:
    """The statement as one that takes back what its words name: its works and facts are those named, its note the words
    themselves. None where it does not speak of what was said."""
    what = _what(short)
    if not what:
        return None
    heard = short.hear(what)
    works = tuple(_named(work) for work in heard.work if work.work)
    facts = tuple(fact for fact in heard.facts if fact.kind not in ("species", "event"))
    works += tuple(Work(str(one.value), one.spot) for one in heard.facts if one.kind == "event")
    kinds = tuple(fact for fact in heard.facts if fact.kind == "species")
    if not (works or facts) and not any(word in short.lexicon.sense["said"] for word in short.texts):
        return None  # "forget about Minnow, it died"
    return Reading(short.said, ("strike",), None, (*kinds, *facts), works, tree=heard.tree, note=what, refers=(SAID,))


def _named(work: Work) -> Work:
    """A work as it is named: only that it was not done tells it apart."""
    return Work(work.work, work.spot, {}, _NOT if work.done == _NOT else None)


def _what(short: Short) -> str:
    """The words for what was said: behind "forget what I said about", or before ", forget it"."""
    texts, sense = short.texts, short.lexicon.sense
    passed = {*sense["openers"], *sense["refusals"], *sense["sorry"], *sense["righting"], "i", "please"}
    start = next((at for at, word in enumerate(texts) if word not in passed), len(texts))
    end = len(texts)
    if (verb := _begins(texts, start, sense["unsays"])) and (head := _begins(texts, start + verb, sense["words_of"])):
        stop = texts.index(",") if "," in texts[start + verb + head :] else end
        return short.between(start + verb + head, stop).strip(" .!?")
    head = _begins(texts, start, sense["words_of"])
    if head and "," in texts:
        comma = len(texts) - 1 - texts[::-1].index(",")
        verb = _begins(texts, comma + 1, sense["unsays"])
        if verb and comma > start + head and end - comma - 1 - verb <= 2:
            return short.between(start + head, comma).strip(" .!?")
    return ""


def _begins(texts: Sequence[str], at: int, phrases: Collection[str]) -> int:
    """How many words the longest of the phrases that stands there has; 0 where none does."""
    found = (phrase.split() for phrase in phrases)
    return max((len(one) for one in found if list(texts[at : at + len(one)]) == one), default=0)


def strike_said_about(turn: Turn) -> None:
    """Take back the entry that tells of what is named. Of several, and of one that is neither of this talk nor of
    today, the newest is put to the grower; where none tells of it nothing is taken back."""
    reading = turn.reading
    tree = meant_tree(replace(reading, refers=()), turn.house.trees(), turn.bench.here).tree
    if tree is None and not (reading.tree or species_said(reading)):
        names = list(dict.fromkeys(name for name, _ in turn.before.logged))
        tree = meant_tree(Reading("", tree=names[0]), turn.house.trees(), None).tree if len(names) == 1 else None
    if tree is None:
        turn.asks.append(which(turn.house.trees()))
        return
    found = _telling(turn, tree)
    if not found:
        turn.reading = Reading(reading.said, reading.acts)
        turn.says.append(f'No entry of {tree.name} tells of "{reading.note}", so nothing is taken back')
        return
    entry = found[-1]
    if turn.confirmed or not turn.bench.talking or (len(found) == 1 and _is_named(reading) and of_now(turn, entry)):
        _strike(turn, tree, entry)
        return
    words = entry_words(entry, entry.day, turn.house.place.units)
    turn.confirm = (
        f"On record for {tree.name}: {words} ({day_words(entry.day, turn.on)}). Take that back? Say yes or no."
    )


def _strike(turn: Turn, tree: Tree, entry: Entry) -> None:
    works = [work for work in turn.reading.work if any(_same(table, work) for table in entry.work)]
    turn.reading = replace(turn.reading, work=(), facts=(), note=None, refers=())
    if len(works) == 1 and len(entry.work) > 1:
        strike_of(turn, tree, entry, works[0])
    else:
        take_back(turn, ((tree.name, entry),))


def _is_named(reading: Reading) -> bool:
    return bool(reading.work or any(fact.kind != "species" for fact in reading.facts))


def _telling(turn: Turn, tree: Tree) -> list[Entry]:
    """The entries that tell of what is named, oldest first: those of this talk or day where there are any."""
    reading = turn.reading
    standing = turn.house.lately_standing(tree)
    facts = [fact for fact in reading.facts if fact.kind != "species"]
    found = [one for one in standing if any(_tells(one, work) for work in reading.work)]
    found = found or [one for one in standing if any(_sees(one, fact) for fact in facts)]
    if not found and not reading.work:
        words = _words(turn, str(reading.note)) - _words(turn, tree.name)
        found = [one for one in standing if words and words <= _words(turn, one.said)]
        found = found or ([] if words else list(standing))
    return [one for one in found if of_now(turn, one)] or found


def _tells(entry: Entry, work: Work) -> bool:
    """Whether the entry tells of the work: as left undone where it is named so."""
    if work.done == _NOT and entry.kind != "left":
        return False
    left = work.work in LEFT_WORKS and entry.kind == "left"
    return left or any(_same(table, work) for table in entry.work)


def _same(table: object, work: Work) -> bool:
    return isinstance(table, dict) and table.get("work") == work.work and at_place(table, work)


def _sees(entry: Entry, fact: Fact) -> bool:
    return any(
        (table.get("kind"), table.get("value")) == (fact.kind, fact.value)
        and (fact.spot == NOWHERE or all(table.get(key) == value for key, value in fact.spot.as_json().items()))
        for table in entry.facts
    )


def _words(turn: Turn, said: str) -> set[str]:
    """The words that tell something, by their letters."""
    lexicon = turn.house.lexicon
    plain = {*lexicon.sense["pointers"], *lexicon.sense["owners"]}
    return {word for word in lexicon.split(said) if len(word) > _SHORT and word not in plain}
