"""Which trees should something be done to: "what should go into the shed tonight" is asked of every tree."""

from __future__ import annotations

from collections.abc import Callable

from benchmate.hearing.lexicon import Lexicon
from benchmate.hearing.reading import Reading
from benchmate.value import replace


def of_all(heard: Reading, hear: Callable[[str], Reading], lexicon: Lexicon) -> Reading | None:
    """The question asked of all trees, or None where it is none such."""
    if heard.several or heard.tree or any(fact.kind == "species" for fact in heard.facts):
        return None
    texts = lexicon.split(heard.said)
    first = texts.index(",") + 1 if "," in texts and texts[0][:2] != "wh" else 0
    texts, before = texts[first:], " ".join(texts[: first - 1]) if first else ""  # "minus 7 tonight, which need cover"
    for way, heads in lexicon.sense["of_all"].items():
        head = next((head for head in heads if texts[: len(head.split())] == head.split()), None)
        if head is None:
            continue
        rest = " ".join(texts[len(head.split()) :])
        said = f"{way} all trees {rest}" + (f", {before}" if before else "")
        asked = hear(said)
        every = asked.several is not None and asked.several.every
        if every and asked.topic == "may" and any(work.work for work in asked.work):
            works = tuple(replace(work, manner=(), span=(0, 0)) for work in asked.work)
            facts = tuple(replace(fact, span=(0, 0)) for fact in asked.facts)
            return replace(asked, said=heard.said, acts=("ask",), work=works, facts=facts, missed=())
    return None
