"""Which trees should something be done to: "what should go into the shed tonight" is asked of every tree."""

from __future__ import annotations

from collections.abc import Callable

from benchmate.hearing.reading import Reading
from benchmate.hearing.vocabulary.lexicon import Lexicon
from benchmate.value import replace


def of_all(heard: Reading, hear: Callable[[str], Reading], lexicon: Lexicon) -> Reading | None:
    """The question asked of all trees, or None where it is none such."""
    if (turn_of_kind := _turn_of_kind(heard, lexicon)) is not None:
        return turn_of_kind
    if heard.several or heard.tree or any(fact.kind == "species" for fact in heard.facts):
        return None
    texts = lexicon.split(heard.said)
    opened = any(heard.said.casefold().startswith(opens) for opens in lexicon.sense["asks_all"])
    first = texts.index(",") + 1 if "," in texts and not opened else 0
    texts, before = texts[first:], " ".join(texts[: first - 1]) if first else ""  # "minus 7 tonight, which need cover"
    for way, heads in lexicon.sense["of_all"].items():
        head = max((head for head in heads if texts[: len(head.split())] == head.split()), key=len, default=None)
        if head is None:
            continue
        rest = " ".join(texts[len(head.split()) :])
        if way.startswith("which"):  # whose turn it is, where a time is that of the work's own kind
            last = next((word for word in lexicon.sense["in_turn"] if rest.endswith(f" {word}")), "")
            listed = hear(f"{way} {rest.removesuffix(last).rstrip(' ,')}")  # the list is in that order anyway
            if listed.topic in ("list", "compare") and _by_turn(listed, lexicon):
                return replace(listed, said=heard.said, topic="list", missed=())
            continue
        said = f"{way} all trees {rest}" + (f", {before}" if before else "")
        asked = hear(said)
        every = asked.several is not None and asked.several.every
        if every and asked.topic == "may" and any(work.work for work in asked.work):
            works = tuple(replace(work, manner=(), span=(0, 0)) for work in asked.work)
            facts = tuple(replace(fact, span=(0, 0)) for fact in asked.facts)
            return replace(asked, said=heard.said, acts=("ask",), work=works, facts=facts, missed=())
    return None


def _by_turn(reading: Reading, lexicon: Lexicon) -> bool:
    """Whether its works, and there are some, come round by the year."""
    return bool(reading.work) and all(work.work in lexicon.sense["by_turn"] for work in reading.work)


def _turn_of_kind(heard: Reading, lexicon: Lexicon) -> Reading | None:
    """ "Which maples need repotting": whose turn it is among the trees of a kind, which nothing is compared of."""
    kinds = {fact.kind for fact in heard.facts}
    if heard.topic != "compare" or kinds != {"species"} or not _by_turn(heard, lexicon) or heard.tree or heard.several:
        return None
    texts = lexicon.split(heard.said)
    needs = set(lexicon.sense["needing"]) & set(texts)
    return replace(heard, topic="list") if texts[0] == "which" and needs else None
