"""Questions that go on from the work that was just asked about without naming it: "is that too soon", "can I do the
same to the hornbeam", "what about the one above it", "what if I leave four"."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from benchmate.hearing.reading import Fact, Reading, Spot, Work
from benchmate.talk.corrected.other_tree import tree_alone
from benchmate.value import replace

if TYPE_CHECKING:
    from benchmate.talk.context import Context
    from benchmate.talk.corrected.amended import Short

NO_PLACE = "no-place"  # a place beside the one spoken of that is not known
_COUNTED = ("leaves", "pairs", "buds")
_LEFT, _SUPPOSED, _LOOK = "leave", "what-if", "check"


def same_asked(short: Short, talk: Context) -> Reading | None:
    """The question that is meant, or None where the words say anything else."""
    last = talk.amends or talk.reading
    works = [work for work in last.work if work.work] if last else []
    if last is None or not works or last.several or "strike" in last.acts:
        return None
    works = [replace(work, done=None, span=(0, 0)) for work in works]
    texts = [text for text in short.texts if text not in ("?", ".", "!")]
    passed = {*short.lexicon.sense["openers"], *short.lexicon.sense["same_asked"]["musing"]}
    start = next((n for n, text in enumerate(texts) if text not in passed), len(texts))
    if "ask" in last.acts and (put_off := _not_now(short, last, works)) is not None:
        return put_off
    for way in (_and_then, _too_soon, _on_tree, _next_to_it, _work_next_to_it, _other_count):
        if (meant := way(short, last, works, texts[start:])) is not None:
            return meant
    return None


def _asked(short: Short, last: Reading, works: Sequence[Work]) -> Reading:
    """The question whether these works may be done, on the same tree and for the same time."""
    species = tuple(fact for fact in last.facts if fact.kind == "species")
    when = last.when if "ask" in last.acts else None
    return Reading(short.said, ("ask",), "may", species, tuple(works), tree=last.tree, when=when)


def _and_then(short: Short, last: Reading, works: Sequence[Work], texts: Sequence[str]) -> Reading | None:
    """ "And then": what is to be looked at after the work."""
    if " ".join(word for word in texts if word != ",") not in short.lexicon.sense["same_asked"]["and_then"]:
        return None
    open_yet = (last.supposes or tuple(works)) if "ask" in last.acts else ()
    return replace(_asked(short, last, [Work(_LOOK)]), topic="when", when=None, supposes=open_yet)


def _not_now(short: Short, last: Reading, works: Sequence[Work]) -> Reading | None:
    """ "Not yet, next March", behind a question whether to: it is planned for then."""
    sense = short.lexicon.sense
    passed = {*sense["openers"], *sense["refusals"], *sense["same_asked"]["musing"]}
    texts = short.texts
    at = next((n for n, text in enumerate(texts) if text not in passed), len(texts))
    said = next((one for one in sense["put_off"]["not_now"] if texts[at : at + len(one.split())] == one.split()), None)
    if said is None or "?" in texts:
        return None
    at += len(said.split())
    while at < len(texts) and texts[at] in sense["picked"]["then"]:
        at += 1
    tail = short.between(at, len(texts)).strip(" .!")
    heard = short.hear(f"I will repot it {tail}") if tail else None
    if heard is None or heard.missed or heard.facts or heard.measures or not heard.when or len(heard.work) != 1:
        return None
    meant = tuple(replace(work, done="later") for work in works)
    species = tuple(fact for fact in last.facts if fact.kind == "species")
    return Reading(short.said, ("decide",), None, species, meant, tree=last.tree, when=heard.when, day=heard.day)


def _too_soon(short: Short, last: Reading, works: Sequence[Work], texts: Sequence[str]) -> Reading | None:
    """ "Is that too soon", "isn't that too soon after the defoliation": the question again. What the record holds
    of the work that is named behind it bears on the answer anyhow."""
    sense = short.lexicon.sense["same_asked"]
    if "ask" not in last.acts:
        return None
    for head in sense["is_that"]:
        rest = _behind(texts, head)
        if rest is None or rest[:1] != ["too"] or rest[1:2] == [] or rest[1] not in sense["too"]:
            continue
        rest = [word for word in rest[2:] if word not in sense["beside"]]
        if not rest:
            return _asked(short, last, works)
        if rest[0] not in sense["after"]:
            return None
        named = short.hear(" ".join(rest[1:]))
        told = {fact.kind for fact in named.facts}
        plain = not (named.missed or named.measures or named.tree or named.several)
        if plain and (named.work or "event" in told) and told <= {"event", "species"}:
            return _asked(short, last, works)
    return None


def _on_tree(short: Short, last: Reading, works: Sequence[Work], texts: Sequence[str]) -> Reading | None:
    """ "Can I do the same to the hornbeam": the work, asked of that tree."""
    sense = short.lexicon.sense
    for head in (*sense["once_more"]["may"], *sense["same_asked"]["do_that"]):
        rest = _behind(texts, head)
        if not rest or rest[0] not in sense["same_asked"]["to"]:
            continue
        rest = [word for word in rest[1:] if word not in sense["same_asked"]["beside"]]
        tree = tree_alone(short, " ".join(rest))
        if tree is not None:
            name, is_name = tree
            facts = () if is_name else (Fact("species", name),)
            return replace(_asked(short, last, works), tree=name if is_name else None, facts=facts)
    return None


def _next_to_it(short: Short, last: Reading, works: Sequence[Work], texts: Sequence[str]) -> Reading | None:
    """ "What about the one above it": the work at the next place up or down the trunk."""
    sense = short.lexicon.sense["same_asked"]
    for head in (*sense["what_about"], ""):
        rest = _behind(texts, head)
        words = " ".join(word for word in rest or () if word not in sense["beside"])
        step = 1 if words in sense["above"] else -1 if words in sense["below"] else 0
        if not step or len({work.spot for work in works}) != 1:
            continue
        spot = _moved(works[0].spot, step)
        told = not head and "?" not in short.texts and "ask" not in last.acts
        again = [replace(work, spot=spot or work.spot, done="now" if told else None) for work in works]
        asked = replace(_asked(short, last, again), refers=() if spot else (NO_PLACE,))
        return replace(asked, acts=("decide",), topic=None) if told else asked
    return None


def _work_next_to_it(short: Short, last: Reading, works: Sequence[Work], texts: Sequence[str]) -> Reading | None:
    """ "Wired the one above it": work of its own, at the next place up or down."""
    sense, heard = short.lexicon.sense["same_asked"], short.heard
    if len(heard.work) != 1 or not heard.work[0].work or len({work.spot for work in works}) != 1:
        return None
    said = f" {' '.join(texts)} "
    step = next((1 for one in sense["above"] if f" {one} " in said), 0)
    step = step or next((-1 for one in sense["below"] if f" {one} " in said), 0)
    if not step or heard.facts:
        return None
    spot = _moved(works[0].spot, step)
    if spot is None:
        return replace(heard, refers=(NO_PLACE,))
    return replace(heard, work=(replace(heard.work[0], spot=spot),), refers=())


def _moved(spot: Spot, step: int) -> Spot | None:
    """The next one up or down, where the branches are counted or the lowest is meant; else None. Which side it is on is
    not said."""
    number = spot.ordinal or (1 if spot.level == "low" else None)
    if number is None or number + step < 1 or (spot.count or 1) > 1:
        return None
    return Spot(spot.part or "branch", None, None, number + step)


def _other_count(short: Short, last: Reading, works: Sequence[Work], texts: Sequence[str]) -> Reading | None:
    """ "What if I leave four", behind shoots that are cut to two leaves: the same, cut to four."""
    heard = short.heard
    if heard.topic != _SUPPOSED or heard.facts or heard.missed or len(heard.work) != 1 or len(works) != 1:
        return None
    (left,), (work,) = heard.work, works
    name = next((name for name in _COUNTED if name in work.measures), None)
    number = left.spot.count or next((left.measures[one] for one in _COUNTED if one in left.measures), None)
    bare = left.spot == Spot(count=left.spot.count)
    if left.work != _LEFT or name is None or not number or not bare:
        return None
    measures = {**{key: one for key, one in work.measures.items() if key not in _COUNTED}, name: float(number)}
    return _asked(short, last, [replace(work, measures=measures)])


def _behind(texts: Sequence[str], head: str) -> list[str] | None:
    """The words behind the head, or None where they do not open with it."""
    words = head.split()
    return list(texts[len(words) :]) if list(texts[: len(words)]) == words else None
