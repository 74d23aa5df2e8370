"""Phrases with choices: "how [long/soon] till [the /]frost" stands for four."""

from __future__ import annotations

import re


def count_spellings(phrase: str) -> int:
    """How many phrases one with choices stands for."""
    number = 1
    for choices in re.findall(r"\[([^\]]*)\]", phrase):
        number *= choices.count("/") + 1
    return number


def spellings(phrase: str) -> list[str]:
    """Every phrase that one with choices stands for.

    >>> spellings("how [long/soon] till [the /]frost")
    ['how long till the frost', 'how long till frost', 'how soon till the frost', 'how soon till frost']
    """
    before, bracket, rest = phrase.partition("[")
    if not bracket:
        return [" ".join(phrase.split())]
    choices, _, after = rest.partition("]")
    return [" ".join(s.split()) for choice in choices.split("/") for s in spellings(f"{before}{choice}{after}")]
