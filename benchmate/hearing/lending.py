"""What the last statement lends to the pronouns of the next: "the wire is biting", then "took it off"."""

from __future__ import annotations

from collections.abc import Sequence

from benchmate.value import dataclass

from .reading import Missed, Reading, Work
from .vocabulary.lexicon import END, Lexicon

_BARE = 3  # words of "is the wire"


@dataclass(frozen=True, slots=True)
class Lent:
    """The parts that "it" and "them" may mean, the likelier first. it: what is one thing on the tree beside the tree
    itself (its wire, a wound); them: of what there are many (leaves, candles)."""

    it: tuple[str, ...] = ()
    them: tuple[str, ...] = ()


NOTHING_LENT = Lent()


def lent_by(last: Reading | None, lexicon: Lexicon) -> Lent:
    """What a statement lends to the one after it."""
    if last is None:
        return NOTHING_LENT
    it: list[str] = []
    them: list[str] = []
    for fact in last.facts:
        value = str(fact.value)
        if value in lexicon.pronoun:  # "the guy is loose" is of the guy, though the finding is the wire's too
            own = fact.spot.part in lexicon.pronoun.values()
            it.append(fact.spot.part if own and fact.spot.part else lexicon.pronoun[value])
        them += [part for part in (lexicon.spoken_many.get(value), fact.spot.part) if part]
        them += list(lexicon.names.get(value, ()))[:1]
    for work in last.work:
        ways = {cell["manner"]: part for part, cell in lexicon.kind_of.items() if "seen" in cell}
        them += [ways[manner] for manner in work.manner if manner in ways]  # last year's leaves, and no others
        named = list(lexicon.works.get(work.work or "", {}).get("part_named", ()))[:1]
        it += [part for part in named if part in lexicon.pronoun.values()]  # the wire, but not the leaves
        them += named + ([work.spot.part] if work.spot.part else [])
    # "checked the wire", "what wire is on it": a thing that is named, whatever was said of it
    it += [part for part in named_in(lexicon.split(last.said), lexicon) if part not in it]
    return Lent(tuple(dict.fromkeys(it)), tuple(dict.fromkeys(it + them)))


def named_in(texts: Sequence[str], lexicon: Lexicon) -> list[str]:
    """The parts named in words that may be "it" beside the tree itself ("the wire"), in their order."""
    found = []
    for start in range(len(texts)):
        node = lexicon.trie
        for word in texts[start:]:
            if word not in node:
                break
            node = node[word]
            found += [str(value) for kind, value in node.get(END, ()) if kind == "PART"]
    return [part for part in dict.fromkeys(found) if part in lexicon.pronoun.values()]


def not_lent(missed: Sequence[Missed], works: Sequence[Work], lexicon: Lexicon) -> tuple[Missed, ...]:
    """What was missed, without the bare thing ("is the wire") that told which work is meant."""
    told = {part for work in works for part in lexicon.works.get(work.work or "", {}).get("part_named", ())}
    short = [one for one in missed if len(one.words.split()) <= _BARE]
    lent = [one for one in short if told & set(named_in(lexicon.split(one.words), lexicon))]
    return tuple(one for one in missed if one not in lent)
