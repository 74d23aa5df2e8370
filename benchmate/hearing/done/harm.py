"""What harm a verb tells of: a branch that broke, or that the weather took, is nobody's work."""

from __future__ import annotations

from collections.abc import Sequence

from ..clauses import Clause, Setting
from ..seen.phrases import CREATURE, Phrase
from .deeds import ACCIDENT, Deed
from .doing import work_of
from .mishaps import said_of


def harm_of(setting: Setting, clause: Clause, deed: Deed) -> str | None:
    """The finding that a verb of harm leaves behind ("snapped" -> broken), or None for any other verb."""
    if deed.verb.kind != "VED":
        return None
    if (own := _weather_before(setting, clause, deed)) and (told := _harmed_by(setting, own)):
        name = work_of(setting.lexicon, deed.verb.value, deed.particles, deed.parts, bool(deed.shares))
        cut = setting.lexicon.works.get(name or "", {}).get("group") == "cutting"
        deed.by_weather = cut or deed.verb.value in setting.lexicon.harm
        return told if deed.by_weather else None
    finding = setting.lexicon.harm.get(deed.verb.value)
    beside = _harmed_by(setting, [str(token.value) for _, phrase in deed.phrases for token in phrase.weather])
    if finding and beside and (deed.thing is None or deed.thing.part not in setting.lexicon.harmless.get(beside, ())):
        deed.by_weather, finding = True, beside  # "lost a branch in the storm"
    return finding


def _weather_before(setting: Setting, clause: Clause, deed: Deed) -> list[str]:
    """The weather, or the creature, that is the subject of a verb: "the storm took the branch off" is nobody's work."""
    if deed.subject is not None and (deed.subject is not deed.thing or CREATURE in deed.subject.doers):
        return deed.subject.doers
    before = setting.before[-1] if setting.before else None
    if before is not None and before.phrase is not None and CREATURE in before.phrase.doers and not before.acts:
        before.taken = deed.bare and not set(clause.joined) - {"pause"}
        return [CREATURE] if before.taken else []
    alone = before is not None and before.facts and all(fact.kind == "weather" for fact in before.facts)
    ill = before is not None and len(before.facts) == 1 and before.facts[0].value in setting.lexicon.harmed
    alone = alone or (ill and not {"off", "out"} & set(deed.particles))  # "fire blight took a branch"
    if before is None or not alone or before.work or before.when or not deed.bare or set(clause.joined) - {"pause"}:
        return []
    return [str(fact.value) for fact in before.facts]


def by_creature(setting: Setting, clause: Clause, deed: Deed) -> bool:
    """ "Birds have pulled the moss off": what an animal does is no work of the grower."""
    return CREATURE in _weather_before(setting, clause, deed)


def blown_off(setting: Setting, doer: Phrase, thing: Phrase) -> str | None:
    """What is left behind on a thing that the weather or a creature is told to have taken off: "the gale blew the top
    off"."""
    if not (thing.parts or thing.level) or set(doer.parts) - {CREATURE}:
        return None
    finding = _harmed_by(setting, doer.doers)
    return finding if finding and thing.part not in setting.lexicon.harmless.get(finding, ()) else None


def _harmed_by(setting: Setting, weather: Sequence[str]) -> str | None:
    """What such weather, or a creature, leaves behind on a part, or None."""
    return next((setting.lexicon.harmed[value] for value in weather if value in setting.lexicon.harmed), None)


def broke_it(setting: Setting, deed: Deed, finding: str, name: str | None) -> bool:
    """Whether the harm was done to a thing that it counts for, and is no work that is told with the same words."""
    if any(t.kind == "MANNER" and t.value == ACCIDENT for t in deed.posts):
        return deed.thing is not None  # "broke a branch off by accident"
    if deed.thing is not None and (deed.thing.parts or deed.thing.level) and deed.by_weather:
        return deed.thing.part not in setting.lexicon.harmless.get(finding, ())  # "the gale took the top off"
    if deed.thing is None or deed.thing.part in setting.lexicon.harmless.get(finding, ()):
        return False
    return name is None or not said_of(setting, deed.verb, deed.particles, deed.parts)


def nobodys(deed: Deed, aux: Sequence[str]) -> bool:
    """ "Moss is covering the soil": what a thing does to another is no work of the grower."""
    going = deed.verb.kind == "VING" and "be" in aux and not {"i", "ask", "being", "done"} & set(aux)
    apart = deed.subject is not None and deed.thing is not None and deed.thing is not deed.subject
    if not (going and apart) or deed.subject is None or deed.thing is None:
        return False
    return bool(deed.thing.parts and (deed.subject.parts or deed.subject.says_place_only))
