"""How tall, thick and old a tree is, its pot and the wire on it, asked in plain words: what the record holds last, else
what its sheet says."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

from benchmate.garden.record import Entry, Tree
from benchmate.hearing.reading import NOWHERE, Reading
from benchmate.hearing.vocabulary.lexicon import Lexicon
from benchmate.telling.dates import day_words
from benchmate.telling.measures import millimetres
from benchmate.telling.story import matching, spot_of
from benchmate.telling.wording import list_words, sentence, spot_words
from benchmate.value import replace

if TYPE_CHECKING:
    from benchmate.talk.turns import Turn

RECORDED = "recorded"
_POT, _WIRE, _UNWIRE = "pot", "wire", "unwire"
_PLACES = ("part", "side", "level", "ordinal")
_DAYS_A_YEAR = 365.25
_SIZES = {"tall": "height_mm", "thick": "base_mm"}
_NAMES = {"height_mm": "height", "base_mm": "trunk"}


def as_recorded(reading: Reading, lexicon: Lexicon) -> Reading | None:
    """The question as one about the record ("how tall is the beech"), or None where more is asked or told."""
    if _asked(reading, lexicon) is None:
        return None
    return replace(reading, acts=("ask",), topic=RECORDED, figure=None, missed=(), measures={}, series=(), work=())


def _asked(reading: Reading, lexicon: Lexicon) -> str | None:
    """ "tall", "thick", "old", "had", "pot" or "wire", where nothing but that, the tree and a place of it is said."""
    if reading.when or reading.several or (reading.work and reading.topic != "recall"):
        return None
    kind = {fact.kind for fact in reading.facts}
    words = [word for word in lexicon.split(reading.said) if word[:1].isalnum() or word == "'s"]
    if not words or words[0] not in ("how", "what", "which") or kind - {"species"}:
        return None
    named = {"'s", *lexicon.split(reading.tree or "")}
    for fact in reading.facts:
        named |= set(lexicon.split(reading.said[slice(*fact.span)])) if fact.span else set()
    for of, phrases in lexicon.sense["recorded"].items():
        for phrase in phrases:
            opening = phrase.split()
            rest = words[len(opening) :]
            if words[: len(opening)] != opening:
                continue
            if set(rest) <= named | set(lexicon.sense["recorded_of"]):
                return str(of)
            pots = set(lexicon.sense["recorded_pots"])
            if of == "tall" and pots & set(rest) and set(rest) <= named | pots | set(lexicon.sense["recorded_of"]):
                return _POT  # "how big is the maple's pot"
            if of == _WIRE and set(rest) <= named | set(lexicon.sense["recorded_at"]):
                return _WIRE
    return None


def tell(turn: Turn, trees: list[Tree]) -> None:
    """Answer for each of the trees that are meant."""
    asked = _asked(turn.reading, turn.house.lexicon)
    for tree in trees:
        entries = turn.house.entries(tree)
        if asked == _POT:
            turn.says.append(_pot(tree, entries, turn))
        elif asked == _WIRE:
            turn.says += _wire(tree, entries, turn)
        elif asked in _SIZES:
            turn.says.append(_size(tree, entries, _SIZES[asked], turn))
        else:
            turn.says.append(_age(tree, entries, turn.on) if asked == "old" else _since(tree, turn.on))
    turn.asks.clear()


def _size(tree: Tree, entries: Sequence[Entry], name: str, turn: Turn) -> str:
    from benchmate.talk.sums.record import measured

    what, units = _NAMES[name], turn.house.place.units
    if readings := measured(entries, turn.on, least=1).get(name):
        day, size = readings[-1]
        told = f"{millimetres(size, units)}, measured on {day_words(day, turn.on)}"
    elif name in tree.size:
        told = f"{millimetres(tree.size[name], units)}, as its sheet says"
    else:
        told = f"not measured yet; say it, as in: the {what} is 60 mm"
    return f"{tree.name}, {what}: {told}"


def _pot(tree: Tree, entries: Sequence[Entry], turn: Turn) -> str:
    from benchmate.garden.potted import as_potted

    pot = as_potted(tree, entries, turn.on).pot
    units = turn.house.place.units
    sizes = [f"{name.removesuffix('_mm')} {millimetres(size, units)}" for name, size in pot.items()]
    told = list_words(sizes, "and") if sizes else "no size is on record; say it, as in: the pot is 36 by 26 by 9 cm"
    return f"{tree.name}, pot: {told}"


def _wire(tree: Tree, entries: Sequence[Entry], turn: Turn) -> list[str]:
    """The wire that was put on and not taken off since, at the place that is asked about, newest first."""
    places = {str(value) for kind in ("SIDE", "LEVEL") for value in _values(kind, turn)}
    on: list[tuple[Entry, Mapping[str, Any]]] = []
    for entry in sorted(matching(entries, kinds=("done",), end=turn.on), key=lambda one: one.day):
        for work in entry.work:
            if work.get("work") == _UNWIRE:
                on = [one for one in on if any(work.get(key) not in (None, one[1].get(key)) for key in _PLACES)]
            elif work.get("work") == _WIRE:
                on.append((entry, work))
    on = [one for one in on if all(place in {str(one[1].get(key)) for key in _PLACES} for place in places)]
    told = []
    for entry, work in reversed(on):
        size = work.get("diameter_mm")
        thick = millimetres(float(size), turn.house.place.units) if size else "how thick was not told"
        where = spot_words(spot_of(work)) if spot_of(work) != NOWHERE else "the tree"
        told.append(f"{tree.name}, wire on {where}: {thick}, since {day_words(entry.day, turn.on)}")
    return told or [f"{tree.name}: no wire is on record as being on it{' there' if places else ''}"]


def _values(kind: str, turn: Turn) -> list[object]:
    from benchmate.talk.asked.asked_how import phrase_places

    texts = turn.house.lexicon.split(turn.reading.said)
    return [value for _, _, value in phrase_places(texts, kind, turn.house.lexicon)]


def _age(tree: Tree, entries: Sequence[Entry], on: dt.date) -> str:
    struck = {entry.strikes for entry in entries if entry.strikes}
    told = [one for one in entries if "age_years" in one.measures and one.day <= on and one.id not in struck]
    if told:
        last = max(told, key=lambda one: one.day)
        years = float(last.measures["age_years"]) + (on - last.day).days / _DAYS_A_YEAR
        return f"{tree.name}: {years:.0f} years old, by what was told on {day_words(last.day, on)}"
    return f"{tree.name}: no age is on record; say it, as in: it is 25 years old. {_since(tree, on)}"


def _since(tree: Tree, on: dt.date) -> str:
    if tree.since is None:
        return sentence(f"since when it is yours, its sheet does not say ({tree.name})")
    years = int((on - tree.since).days / _DAYS_A_YEAR)
    length = f"{years} year{'s' * (years != 1)}" if years else "less than a year"
    from_there = f"; origin: {tree.origin}" if tree.origin else ""
    return f"{tree.name} is on its sheet since {day_words(tree.since, on)}, {length}{from_there}"
