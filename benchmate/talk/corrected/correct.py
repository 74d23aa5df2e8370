"""A correction laid over what was said before: "no, the right one", "not three leaves, two", "I meant the beech"."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from typing import TYPE_CHECKING

from benchmate.hearing.reading import NOWHERE, Fact, Reading, Spot, Work
from benchmate.talk.context import Logged
from benchmate.talk.corrected.amended import OTHER, opposite
from benchmate.value import replace

if TYPE_CHECKING:
    from benchmate.talk.bench import Bench

_LENGTHS = {"leaves", "pairs", "buds", "length_mm", "share"}
_BARE = "leaves"  # what hearing takes a number for where nothing tells what it counts
_LEFT = "leave"
# the work after which nothing is left to do another to, and the choice of one among several: the rest is worked on
_PARTED = frozenset({"remove", "select-leader"})


def corrected(last: Reading, fix: Reading) -> Reading | None:
    """The statement as it was meant, or None where it is not clear what the correction bears on.

    What the correction names goes over the same thing of the statement: a side over the side, leaves over leaves, a
    species or a tree over the tree. Everything else stays. A place or measure that could bear on two works is not laid
    on either.
    """
    said = [fact for fact in fix.facts if not (fact.kind == "species" and fact.denied)]  # "the elm, not the beech"
    trees = bool(fix.tree or fix.several or any(fact.kind == "species" for fact in said))
    works = list(last.work)
    named = {name for name, _ in fix.series}
    for change in fix.work:
        change = counted(change, works, named)
        at = _bears_on(works, change)
        if at is None:
            return None
        if _spares(works[at], change):
            works.append(change)
            continue
        works[at] = _over(works[at], change)
        works = _kept_apart(last.work, works, at)
    if OTHER in fix.refers and not any(work.work or work.spot != NOWHERE for work in fix.work):
        works = [replace(work, spot=opposite(work.spot)) for work in last.work]
    works = _each_once(works)
    if works == list(last.work) and not (fix.work or said or fix.measures or trees or fix.when):
        return None
    facts = [fact for fact in last.facts if not (trees and fact.kind == "species")]
    for fact in said:
        facts = _fact_over(facts, fact)
    note = None if last.note is None or last.missed else last.note  # else what was said itself is kept, as it was
    return replace(
        last,
        said=f"{last.said}; {fix.said}",
        work=tuple(works),
        facts=tuple(facts),
        measures=_measures_over(last.measures, fix.measures),
        tree=fix.tree or (None if trees else last.tree),
        several=fix.several or (None if trees else last.several),
        when=fix.when or last.when,
        missed=(*last.missed, *fix.missed),
        guessed=(*last.guessed, *fix.guessed),
        note=note or (last.said if "note" in last.acts else None),
    )


def put_right_before(bench: Bench, words: str) -> tuple[Reading, Logged] | None:
    """ "Thinned the shoots", "fed it", "no, only the left ones": work on the whole tree has no left, so the place is
    that of the work told before it. The statement as meant, with what it had put down; None for any other words."""
    talk, lexicon = bench.context, bench.house.lexicon
    last, earlier = talk.amends, talk.earlier
    if last is None or earlier is None or lexicon.split(words)[:1] not in [[one] for one in lexicon.sense["refusals"]]:
        return None
    whole = bench.house.book.places.get("whole_tree_works", ())
    named, before = ([work for work in one.work if work.work] for one in (last, earlier))
    if not named or any(work.work not in whole for work in named) or len(before) != 1 or before[0].work in whole:
        return None
    fix = bench.house.hear(words, bench.on)
    place = fix.work[0].spot if len(fix.work) == 1 and fix.work[0].work is None else NOWHERE
    more = fix.facts or fix.missed or fix.tree or fix.several or fix.when or any(one.measures for one in fix.work)
    if fix.acts != ("correct",) or more or not (place.side or place.level or place.ordinal):
        return None
    meant = corrected(earlier, fix)
    return (replace(meant, said=words), talk.earlier_made) if meant else None


def word_put_right(bench: Bench, words: str) -> tuple[Reading, Logged] | None:
    """ "No, not yellow, brown", "brown, not yellow", behind "leaves are yellow": what was seen, with one word in the
    other's stead, and what it had put down; None for any other words, or where they make nothing that was seen."""
    talk, house = bench.context, bench.house
    last = talk.amends
    if last is None or last.acts != ("observe",) or not talk.made or last.several:
        return None
    sense = house.lexicon.sense
    passed = {*sense["refusals"], *sense["openers"], *sense["sorry"], *sense["righting"]}
    texts = [word for word in house.lexicon.split(words) if word not in (".", "!")]
    start = next((n for n, word in enumerate(texts) if word not in passed), len(texts))
    said = " ".join(texts[start:])
    denied, _, meant = said.removeprefix("not ").partition(" , ")
    if not said.startswith("not "):
        meant, _, denied = said.replace(" , not ", " not ").partition(" not ")
    before = f" {' '.join(house.lexicon.split(last.said))} "
    if not denied or not meant or f" {denied} " not in before:
        return None
    anew = house.hear(before.replace(f" {denied} ", f" {meant} ", 1).strip(), bench.on)
    if anew.acts != ("observe",) or anew.missed or not anew.facts or anew.facts == last.facts:
        return None
    facts = tuple(replace(fact, span=(0, 0)) for fact in anew.facts)
    return replace(anew, said=words, facts=facts, tree=anew.tree or last.tree), talk.made


def counted(change: Work, works: Sequence[Work], named: Collection[str] = ()) -> Work:
    """The change with its bare number as what the work counted: "no, it was three branches" is how many there were,
    "no, one" behind two litres is one litre. named: the measures that its words name."""
    bare = change.work is None and set(change.measures) == {_BARE} and _BARE not in named
    if not bare or len(works) != 1:
        return change
    (work,), number = works, change.measures[_BARE]
    if change.spot.part is not None or (work.spot.count and not _LENGTHS & set(work.measures)):
        same = change.spot.part in (None, work.spot.part) or work.spot.part is None
        whole = int(number) == number and number > 0
        return replace(change, measures={}, spot=replace(change.spot, count=int(number))) if same and whole else change
    if len(work.measures) == 1 and not work.spot.count:
        (name,) = work.measures
        return replace(change, measures={name: number}) if name not in ("share", *_LENGTHS) else change
    return change


def _spares(work: Work, change: Work) -> bool:
    """ "Cut all the shoots back; no, left the top ones": what was left is spared of the work, which stands."""
    wide = not (work.spot.side or work.spot.level or work.spot.ordinal)
    return change.work == _LEFT and work.work not in (None, _LEFT) and change.spot != NOWHERE and wide


def _each_once(works: Sequence[Work]) -> list[Work]:
    """ "Wired the first and the second; actually only the first": what is the same work at one place now is one."""
    out: list[Work] = []
    for work in works:
        same = next(
            (n for n, one in enumerate(out) if (one.work, one.spot, one.done) == (work.work, work.spot, work.done)),
            None,
        )
        if same is None:
            out.append(work)
        else:
            out[same] = replace(out[same], measures={**out[same].measures, **work.measures})
    return out


def _kept_apart(before: Sequence[Work], works: list[Work], changed: int) -> list[Work]:
    """ "Kept the left one and cut the right one off; no, kept the right one": what comes off cannot be what was meant
    to stay, so two works that would meet now change places."""
    now, was = works[changed].spot, before[changed].spot
    for number, work in enumerate(works):
        if number == changed or not _same_place(work.spot, now) or _same_place(work.spot, was):
            continue
        if _PARTED & {work.work, works[changed].work} and work.work != works[changed].work:
            moved = replace(work.spot, side=was.side, level=was.level, ordinal=was.ordinal)
            works = [*works[:number], replace(work, spot=moved), *works[number + 1 :]]
    return works


def _same_place(one: Spot, other: Spot) -> bool:
    place = (one.side, one.level, one.ordinal)
    return any(place) and place == (other.side, other.level, other.ordinal)


def _bears_on(works: list[Work], change: Work) -> int | None:
    """Which of the works is corrected: the only one, the one of that name, or the one that says such a thing
    and would be changed by it; of several the one whose place is most alike."""
    if len(works) == 1:
        return 0
    if change.work:
        same = [number for number, work in enumerate(works) if work.work == change.work]
        return same[0] if len(same) == 1 else None
    such = [number for number, work in enumerate(works) if _says_such(work, change)]
    fits = [number for number in such if _over(works[number], change) != works[number]]
    if len(fits) > 1:
        alike = {number: _alike(works[number], change) for number in fits}
        fits = [number for number in fits if alike[number] == max(alike.values())]
    return fits[0] if len(fits) == 1 else None


def _alike(work: Work, change: Work) -> int:
    """How much of the place is the same: "the third one on the right" bears on what was on the right."""
    return len(work.spot.as_json().items() & change.spot.as_json().items())


def _says_such(work: Work, change: Work) -> bool:
    old, new = work.spot.as_json(), change.spot.as_json()
    lengths = _LENGTHS & set(change.measures) and _LENGTHS & set(work.measures)
    return bool(set(old) & set(new) or set(work.measures) & set(change.measures) or lengths)


def _over(work: Work, change: Work) -> Work:
    spot, new = work.spot, change.spot
    return replace(
        work,
        work=change.work or work.work,
        spot=Spot(
            new.part or spot.part,
            new.side or spot.side,
            new.level or spot.level,
            new.ordinal or spot.ordinal,
            new.count or spot.count,
        ),
        measures=_measures_over(work.measures, change.measures),
        done=change.done or work.done,
        manner=change.manner or work.manner,
    )


def _measures_over(old: Mapping[str, float], new: Mapping[str, float]) -> Mapping[str, float]:
    if not new:
        return old
    gone = _LENGTHS if _LENGTHS & set(new) else set()
    return {**{key: value for key, value in old.items() if key not in gone}, **new}


def _fact_over(facts: list[Fact], fact: Fact) -> list[Fact]:
    """One fact of a kind goes over the other of that kind; findings are added, or denied where they were said."""
    if fact.kind == "finding":
        kept = [old for old in facts if not (old.kind == "finding" and old.value == fact.value)]
    else:
        kept = [old for old in facts if old.kind != fact.kind]
    return [*kept, fact]
