""" "And the hornbeam?", "and on the maple": what was said last, said of another tree."""

from __future__ import annotations

from benchmate.hearing.reading import Reading
from benchmate.hearing.vocabulary.lexicon import Lexicon
from benchmate.value import replace

_AGAIN = frozenset({"ask", "decide"})
_ASKING = frozenset({"?", "'s"})  # how words end that tell of nothing done


def of_another(last: Reading | None, now: Reading, lexicon: Lexicon, latest: Reading | None = None) -> Reading | None:
    """What was said last as a statement about the tree that is only named now, or None where more is said. latest: the
    very last statement, where nothing of what it asked could be told: the question goes on, and no work before it."""
    if latest is not None and latest is not last and "ask" in latest.acts:
        last = replace(latest, acts=("ask",))
    asked_only = last is not None and last.acts == ("ask",)
    if last is None or not _AGAIN & set(last.acts) or set(now.acts) - {"observe", "ask"} or now.work or now.measures:
        return None
    species = tuple(fact for fact in now.facts if fact.kind == "species" and not fact.denied)
    if len(species) != len(now.facts) or not (species or now.tree) or now.several or now.missed:
        return None
    if now.topic not in (None, "may"):
        return None
    words = lexicon.split(now.said)
    if not words or words[0] not in lexicon.sense["going_on"]:
        return None
    if not (last.work or asked_only or last.topic in ("advice", "due", "plan", "recall")):
        return None
    kept = tuple(fact for fact in last.facts if fact.kind != "species" and "ask" in last.acts)
    acts = tuple(act for act in last.acts if act in _AGAIN)
    asks = words[0] in lexicon.sense["asks_bare"]["behind"]  # "what about the elm"
    if "decide" in acts and (asks or words[-1] in _ASKING or words[-2:-1] == ["'s"]):  # "and the elm?", "and the elm's"
        asked = tuple(replace(work, done=None) for work in last.work)
        last, acts = replace(last, topic=last.topic or "may", work=asked), ("ask",)
    return replace(
        last,
        said=now.said,
        acts=acts,
        facts=(*species, *kept),
        tree=now.tree,
        several=None,
        guessed=now.guessed,
        missed=(),
    )
