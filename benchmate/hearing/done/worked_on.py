"""What a work is done to: the part that tells the work, its place, its sizes, and what "it" and "ones" stand for."""

from __future__ import annotations

from collections.abc import Sequence

from benchmate.value import replace

from ..clauses import Clause, Setting
from ..lattice.spotting import Token
from ..reading import Fact, Spot, Work
from ..seen.phrases import HIDDEN, Phrase, settle_bare
from ..seen.saying import state_meaning
from ..seen.sizes import amount
from ..vocabulary.lexicon import Lexicon
from .doing import BENT, LATER

Linked = tuple[Token | None, Phrase]
SUBJECT = Token("OF", "of", 0, 0, 0.0)  # the link of what a verb is said of
# Links whose noun does not say where the work is done.
_NO_PLACE = frozenset({"TO", "BACKTO", "BY", "WITH", "SINCE", "DATE", "FOR"})


def meant_by_one(setting: Setting) -> list[str]:
    """The part that "ones" means after a clause about it ("candles are extending, shorten the top ones"), or after the
    statement before."""
    if not setting.before:  # candles and shoots, not the tree's own wire
        return [part for part in setting.lent.them if part not in setting.lexicon.pronoun.values()][:1]
    before = [clause for clause in setting.before if clause.facts or not clause.denied]  # "no needles yet" names none
    phrase = before[-1].phrase if before else None
    if phrase is not None and phrase.part:
        return [phrase.part]
    works = before[-1].work[-1:] if before else []  # "halved the outer leaves, thinned the inner ones"
    return [part for work in works for part in setting.lexicon.works.get(work.work or "", {}).get("part_named", ())][:1]


def _in_passing(clause: Clause, lexicon: Lexicon) -> bool:
    """Whether a clause names nothing that "it" may mean: "but the bend hasn't set"."""
    named = clause.phrase is not None and (clause.phrase.parts or clause.phrase.findings)
    told = any(fact.kind == "finding" or str(fact.value) in lexicon.spoken_many for fact in clause.facts)
    return not (named or told or clause.work)


def _named_as_many(setting: Setting) -> list[str]:
    """The part of which there are many that the nearest clause before spoke of."""
    for clause in reversed(setting.before):
        not_there = all(fact.denied and fact.kind == "stage" for fact in clause.facts)
        if not_there and (clause.denied or clause.facts):
            continue  # "candles are 4 cm long, no needles yet", "needles not showing yet"
        named = clause.phrase.part if clause.phrase is not None else None
        told = (
            [named] if named else [setting.lexicon.spoken_many.get(str(fact.value)) for fact in reversed(clause.facts)]
        )
        if parts := [part for part in told if part]:
            return parts
    return []


def meant_by_it(setting: Setting, many: bool = False) -> list[str]:
    """The part that "it" means after a finding of the clause before ("wire's biting, take it off"), or after the
    statement before. many: "them" was said."""
    before = next((clause for clause in reversed(setting.before) if not _in_passing(clause, setting.lexicon)), None)
    if before is None:
        return list(setting.lent.them if many else setting.lent.it)
    facts = [f for f in before.facts if f.value in setting.lexicon.pronoun]
    named = before.phrase.part if before.phrase is not None else None
    meant = [(setting.lexicon.pronoun[str(f.value)], f.denied) for f in facts]
    left = [part for work in before.work for part in setting.lexicon.works.get(work.work or "", {}).get("leaves", ())]
    many_of = _named_as_many(setting) if many else []  # "the candles are out, shorten them"
    seen = {setting.lexicon.pronoun.get(str(f.value)) for one in setting.before for f in one.facts if not f.denied}
    told = [part for part, denied in meant if not denied or part == named or part in seen]  # "not biting, take it off"
    things = [named, *(work.spot.part for work in before.work)]  # "checked the wire, took it off"
    bare = [part for part in things if part in setting.lexicon.pronoun.values() and part not in told]
    if many_of:
        bare = []  # "two rubbing branches, wire or remove them"
    return left + many_of + told + [part for part in bare if part]


def what_is_given(setting: Setting, phrase: Phrase) -> Work | None:
    """The work of which only the thing is named: "can it take a hard prune", "does it need a bigger pot"."""
    hidden = [part for part in reversed(phrase.parts) if part.startswith(HIDDEN)]
    found = [(part, setting.lexicon.patterns.get(f"give||{part}|")) for part in [*hidden, *phrase.means]]
    part, name = next(((part, name) for part, name in found if name and not phrase.events), ("", None))
    if name is None:
        return None
    manner = setting.lexicon.kind_of.get(part, {}).get("manner")
    return Work(name, manner=(manner,) if manner else ())


def spoken_of(setting: Setting) -> str | None:
    """ "full defoliation, did it yesterday": the work that was only named before; it is told here instead."""
    before = setting.before[-1] if setting.before else None
    if before is not None and before.work and before.mood is not None and before.mood.done == LATER:
        return before.work.pop().work  # "been meaning to repot it and finally did it"
    events = [f for f in before.facts if f.kind == "event" and f.when is None] if before else []
    if before is None or not events:
        return None
    before.facts = [f for f in before.facts if f not in events]
    return str(events[-1].value)


def work_spot(setting: Setting, name: str, thing: Phrase | None, phrases: Sequence[Linked]) -> Spot:
    """Where the work is done: the thing's own place, then what "on the ...", "off the ..." add. A part comes only from
    words that place ("at the base"); a side or a level from any ("by a third at the top")."""
    named = setting.lexicon.works.get(name, {}).get("part_named", ())
    spot = Spot()
    if thing is not None:
        spot = thing.spot()
        if spot.part in named:
            spot = replace(spot, part=None)
        spot = _finding_part(setting, spot, thing, named)
    before, counts = thing, False
    for link, phrase in phrases:
        behind, before = before, phrase
        if link is not None and link.kind == "OF" and link is not SUBJECT and counts:
            continue  # "back to two pairs of leaves": how far, not where
        if link is not None and (phrase.part or "").startswith(HIDDEN) and link.value in ("into", "to"):
            continue  # "into the low shade": no place on the tree
        if phrase is thing or (link is None and not phrase.says_place_only):
            continue  # "was carved low on the left"
        part = phrase.shown_part if phrase.shown_part not in named and not (link and _no_place(link, phrase)) else None
        counts = link is not None and link.kind in ("TO", "BACKTO")  # "back to the second pair": how far
        of_thing = link is not None and link.kind == "OF" and link is not SUBJECT and behind is thing
        if of_thing and thing is not None and thing.shown_part is not None:
            part = None
        spot = Spot(
            spot.part or part,
            spot.side or phrase.side,
            spot.level or phrase.level,
            spot.ordinal or (None if counts else phrase.ordinal),
            spot.count,
        )
    return spot


def _no_place(link: Token, phrase: Phrase) -> bool:
    """Whether a linked phrase says how or how much rather than where: "over 10 cm" does, "over the roots" does not."""
    return link.kind in _NO_PLACE or (link.kind == "OVER" and bool(phrase.measures or phrase.bare))


def _finding_part(setting: Setting, spot: Spot, thing: Phrase, named: Sequence[str]) -> Spot:
    """ "the dead one": the branch that the finding names is the part that is worked on."""
    if spot.part is not None or thing.parts:
        return spot
    for token in thing.states:
        meaning = state_meaning(setting.lexicon, token.value, "branch") or ""
        if meaning.startswith("finding:") and thing.one:
            return replace(spot, part=None)
    for token in thing.findings:
        parts = setting.lexicon.names.get(token.value, ())
        if parts and parts[0] not in named:
            return replace(spot, part=parts[0])
    return spot


def found_there(fact: Fact, where: Spot) -> Fact:
    """ "take the dead branch off on the left": what is seen on it is on the left too."""
    if fact.kind != "finding":
        return fact
    spot = fact.spot
    return replace(
        fact,
        spot=replace(
            spot,
            side=spot.side or where.side,
            level=spot.level or where.level,
            ordinal=spot.ordinal or where.ordinal,
        ),
    )


def work_measures(
    setting: Setting, clause: Clause, name: str, phrases: Sequence[tuple[Token | None, Phrase]], posts: Sequence[Token]
) -> dict[str, float]:
    measures: dict[str, float] = {}
    bends = name in BENT
    for link, phrase in phrases:
        kind = link.kind if link else None
        if (
            kind in ("TO", "BACKTO")
            and (phrase.numbers or phrase.ordinal)
            and (phrase.part in setting.lexicon.amount or kind == "BACKTO" or not phrase.parts)
        ):
            measures.update(amount(setting, phrase))
            phrase.parts = []
        else:
            as_length = "length_mm" if kind in ("OVER", "TO", "BACKTO", "BY") else None
            as_length = "diameter_mm" if kind == "WITH" and not phrase.parts else as_length  # "with 3 mm aluminium"
            placed = phrase.parts or phrase.one or phrase.side or phrase.level or phrase.ordinal
            if kind in (None, "FROM") and not placed:  # "wired it 3 mm", "cut it back two inches"
                as_length = "diameter_mm" if name == "wire" else "length_mm"
            settle_bare(phrase, setting.lexicon, as_length, "angle_deg" if bends else "temperature_c")
            measures.update(phrase.measures)
        clause.series += phrase.series
    return measures


def telling_parts(phrases: Sequence[tuple[Token | None, Phrase]]) -> list[str]:
    """The parts that help to tell the work: of the object, of "a third of the roots", and helpers ("the ~shade")."""
    outright: list[str] = []
    way: Token | None = None  # "two pairs of leaves" after "back to" is how far, not what
    for link, phrase in phrases:
        of = link is not None and link.kind == "OF"
        if link is None or (of and (way is None or way.kind == "OF")):
            outright += reversed(phrase.parts)
        way = way if of else link
    if not outright:  # "took a quarter off the roots"
        outright = [p for link, phrase in phrases if link is not None and link.value == "off" for p in phrase.parts]
    if not outright:  # "go with the left leader"
        outright = [p for link, phrase in phrases if link is not None and link.kind == "WITH" for p in phrase.parts]
    if not outright:  # "took it out of its pot"
        outright = [p for link, phrase in phrases if link is not None and link.value == "out" for p in phrase.parts]
    sky = [t.value for link, phrase in phrases if link is not None and link.value == "out" for t in phrase.weather]
    return (
        outright
        + sky
        + [p for link, phrase in phrases if link is not None for p in phrase.parts if p.startswith(HIDDEN)]
    )
