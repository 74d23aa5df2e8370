"""How work is done, where that decides advice: "hard", "in a warm room", "in stages"."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from ..clauses import Setting
from ..seen.phrases import HIDDEN
from ..seen.saying import phrase_facts
from .deeds import Deed, spoilt

_A_YEAR = 300  # days from which work that is spread over them is done in stages
_STAGED = "staged"


def manners_of(setting: Setting, deed: Deed, name: str) -> list[str]:
    """Every such way that a verb phrase tells, each once."""
    cell = setting.lexicon.works.get(name, {})
    out = [cell["manners"][deed.verb.value]] if deed.verb.value in cell.get("manners", {}) else []
    out += [t.value for t in deed.posts if t.kind == "MANNER"]
    out += ["all"] if deed.thing is not None and deed.thing.every else []
    out += [
        setting.lexicon.way[way]
        for way in deed.particles
        if way in setting.lexicon.way and not _told(deed, way, setting)
    ]
    out += [kind["manner"] for kind in deed.wider]  # "into the kitchen"
    into = any(part.startswith(HIDDEN) for part in deed.parts)  # "inside the greenhouse"
    ways = {} if into else cell.get("ways", {})
    out += [ways[way] for way in deed.particles if way in ways]  # "brought it inside"
    at = [part for link, phrase in deed.phrases if link is not None and link.kind == "AT" for part in phrase.parts]
    out += [cell["where"][part] for part in at if part in cell.get("where", {})]  # "sprayed it in full sun"
    sick = cell.get("sick")
    if sick and deed.thing is not None and deed.thing.share is None and sick["manner"] not in out:
        seen = {fact.value for fact in phrase_facts(deed.thing, setting.lexicon)[0] if fact.kind == "finding"}
        out += [sick["manner"]] * (bool(seen & set(sick["findings"])) or spoilt(setting, deed.thing))
    return list(dict.fromkeys(out))  # "picked the yellow leaves off"


def _told(deed: Deed, way: str, setting: Setting) -> bool:
    """Whether a particle makes the work what it is ("brought it indoors"), rather than telling where it is done."""
    keys = (f"{deed.verb.value}|{way}|{part}|" for part in [*deed.parts, ""])
    return any(key in setting.lexicon.patterns for key in keys)


def spread_over(
    deed: Deed, cell: Mapping[str, Any], manner: tuple[str, ...], measures: dict[str, float]
) -> tuple[tuple[str, ...], dict[str, float]]:
    """Manner and measures of work that may be done in stages, where it goes on over years ("over two years")."""
    over = any(token.kind == "OVER" for token in deed.posts)
    if not (cell.get("stages") and over and measures.get("days", 0) >= _A_YEAR):
        return manner, measures
    kept = {name: value for name, value in measures.items() if name != "days"}
    return (*(way for way in manner if way != _STAGED), _STAGED), kept
