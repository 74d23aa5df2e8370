"""Phrases with choices: "how [long/soon] till [the /]frost" stands for four."""

from __future__ import annotations

import re
from itertools import product

_CHOICES = re.compile(r"\[([^\]]*)\]")


def count_spellings(phrase: str) -> int:
    """How many phrases one with choices stands for."""
    number = 1
    for choices in _CHOICES.findall(phrase):
        number *= choices.count("/") + 1
    return number


def spellings(phrase: str) -> list[str]:
    """Every phrase that one with choices stands for.

    >>> spellings("how [long/soon] till [the /]frost")
    ['how long till the frost', 'how long till frost', 'how soon till the frost', 'how soon till frost']
    """
    pieces = _CHOICES.split(phrase)  # text and choices by turns
    choices = [piece.split("/") if n % 2 else [piece] for n, piece in enumerate(pieces)]
    return [" ".join("".join(chosen).split()) for chosen in product(*choices)]
