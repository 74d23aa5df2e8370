"""What a word of the trade means: from the glossary, with near misses named."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from benchmate.telling.wording import list_words

if TYPE_CHECKING:
    from benchmate.talk.house import House

_BEFORE = ("a ", "an ", "the ", "what does ", "what is ", "explain ")
_AFTER = (" mean", "?")


def meaning_of(term: str, house: House) -> list[str]:
    """The meaning of a term in plain lines, the answer first."""
    wanted = bare(term)
    terms = forms(house.glossary)
    row = terms.get(wanted) or terms.get(wanted.removesuffix("s"))
    if row:
        name, table = row
        return [f"{name}: {table['says']}"]
    near = _near(wanted, list(terms))
    more = f"; did you mean {list_words(near, 'or')}?" if near else ""
    return [f"The glossary does not hold '{term.strip()}'{more}"]


def bare(term: str) -> str:
    """The term alone, in small letters, hyphens as spaces."""
    words = term.strip().casefold()
    for ending in _AFTER:
        words = words.removesuffix(ending).strip()
    for start in _BEFORE:
        words = words.removeprefix(start)
    return words.replace("-", " ").strip(" .'\"")


def forms(glossary: Mapping[str, Any]) -> dict[str, tuple[str, Mapping[str, Any]]]:
    """Every form of every term: form -> its plain name and its table."""
    out: dict[str, tuple[str, Mapping[str, Any]]] = {}
    for key, table in glossary.items():
        name = key.replace("-", " ")
        for form in (name, *table.get("names", ())):
            out.setdefault(form.casefold().replace("-", " "), (name, table))
    return out


def _near(wanted: str, known: list[str]) -> list[str]:
    from rapidfuzz.distance import OSA

    limit = 1 if len(wanted) < 7 else 2
    return [form for form in known if OSA.distance(wanted, form, score_cutoff=limit) <= limit][:3]
