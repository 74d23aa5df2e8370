"""Sizes that are told: of a thing, of a finding, of what is compared, and how far a cut goes back."""

from __future__ import annotations

from collections.abc import Sequence

from benchmate.value import replace

from ..amounts.values import of_air
from ..clauses import TRUNKS, Clause, Setting
from ..done.doing import BENT
from ..lattice.spotting import Token
from ..reading import Fact, Spot
from .phrases import HIDDEN, Phrase, settle_bare


def measured(setting: Setting, clause: Clause, phrase: Phrase, subject: Phrase | None = None) -> dict[str, float]:
    if subject is None and not phrase.pronoun and setting.before and setting.before[-1].kind == "observe":
        subject = setting.before[-1].phrase  # "a branch, 15 mm": the size of what was just named
    borrowed = subject is not None and not phrase.parts
    if borrowed and subject is not None:
        parts = subject.parts or ["branch"] * bool(subject.one or subject.side or subject.level or subject.findings)
        phrase.parts = [*parts]
    righted = bool(setting.before) and setting.before[-1].kind == "correct"
    bent = bool(setting.before) and any(work.work in BENT for work in setting.before[-1].work)
    bent = bent or any(token.value in BENT for token in phrase.events)
    degree_as = "angle_deg" if bent or righted else "temperature_c"  # "bending the leader now, 30 degrees"
    length_as = "diameter_mm" if righted else None
    if setting.before and setting.before[-1].figure:  # "what wire, 8 mm": as the question takes its sizes
        asked = setting.lexicon.figures.get(setting.before[-1].figure, {})
        length_as, degree_as = asked.get("bare", length_as), asked.get("degree", degree_as)
    elif degree_as == "temperature_c":  # "it was 95 degrees"; a question that was asked is left to its figure
        told = [of_air(one.number, setting.lexicon.numbers) for one in phrase.bare]
        phrase.bare = [
            replace(one, number=to) if one.bare == "degree" else one for one, to in zip(phrase.bare, told, strict=True)
        ]
    length_as = length_as or _of_the_work(setting, phrase, subject)
    if clause.at_base and not (phrase.parts or phrase.one or phrase.side or phrase.level or phrase.ordinal):
        length_as = length_as or "diameter_mm"  # "it is 8 cm at the base"
    settle_bare(phrase, setting.lexicon, length_as, degree_as)
    if borrowed:
        phrase.parts = []
    amount = setting.lexicon.amount.get(phrase.part or "")
    measured = dict(phrase.measures)
    if amount and phrase.numbers:
        measured[amount] = phrase.numbers[0]
        phrase.series.append((amount, phrase.numbers[0]))
        phrase.numbers, phrase.parts = [], []
    clause.series += phrase.series
    if phrase.share is not None:
        measured["share"] = phrase.share
    return measured


def _of_the_work(setting: Setting, phrase: Phrase, subject: Phrase | None) -> str | None:
    """What a bare length behind work measures ("wired the right branch, 2.5 mm"), or None where it is the tree's."""
    before = setting.before[-1] if setting.before else None
    if before is None or not before.work or before.figure or phrase.shown_part or phrase.species or phrase.name:
        return None
    table, work = setting.lexicon.numbers.get("bare_after", {}), before.work[-1].work
    subject = None if subject is before.phrase else subject
    said_of_it = subject is not None and bool(subject.pronoun)
    spot = before.work[-1].spot
    placed = bool(spot.side or spot.level or spot.ordinal)  # "wired the left one, it's 9 mm"
    if (subject is not None and not said_of_it) or (said_of_it and not (placed or work in table.get("it", ()))):
        return None
    sizes = [one.number for one in phrase.bare if one.bare not in ("degree", "across")]
    if work in table.get("long", ()) or (
        work in table.get("thick", ()) and max(sizes, default=0) > table["thick_most_mm"]
    ):
        return "length_mm"
    return "diameter_mm" if work in table.get("thick", ()) else None


def loose(setting: Setting, clause: Clause, measured: dict[str, float], holder: Phrase) -> None:
    """A size with no finding: of one branch it is a thing to compare, of trunk or tree a measure of the tree."""
    part, sense = holder.part or "", setting.lexicon.sense
    if part in sense["sizes_lost"]:  # "internodes 1 cm": no size of the tree, and nothing keeps it
        clause.idle.append(Token("PART", part, *holder.span, 0.0))
        return
    placed = holder.side or holder.level or holder.ordinal or (part and part not in TRUNKS and holder.one)
    if sized_alone(setting, measured, holder):
        placed = True
    if "temperature_c" in measured:
        placed = False  # "the low was minus ten": of the air
    if placed:
        clause.candidates.append(Fact("candidate", holder.part or "one", holder.spot(count=False), measured))
    clause.measures.update({} if placed else measured)


def sized_alone(setting: Setting, measured: dict[str, float], holder: Phrase | None) -> bool:
    """ "the sacrifice branch is 25 mm now": the length of a part that is none of the tree's own sizes."""
    part = (holder.part if holder is not None else None) or HIDDEN
    lengths = bool(measured) and all(name.endswith("_mm") for name in measured)
    return lengths and not part.startswith(HIDDEN) and part not in setting.lexicon.sense["sizes_of_tree"]


def holder_of(
    setting: Setting, measured: dict[str, float], phrase: Phrase, subject: Phrase | None, aux: Sequence[str]
) -> Phrase:
    """What a size is of: "the maple has a 25 mm branch" tells it of the branch, "the left one is 9 mm" of the left."""
    if subject is None or not sized_alone(setting, measured, phrase):
        return subject or phrase
    named = subject.parts or subject.side or subject.level or subject.ordinal
    return phrase if "have" in aux or not named else subject


def stands_there(clause: Clause, phrase: Phrase) -> None:
    """ "a 20 mm branch at the back": where the thing that was just sized is."""
    if clause.candidates and not phrase.parts and not phrase.one:
        last = clause.candidates[-1]
        side, level = last.spot.side or phrase.side, last.spot.level or phrase.level
        clause.candidates[-1] = replace(last, spot=replace(last.spot, side=side, level=level))


def sized(clause: Clause, measures: dict[str, float]) -> bool:
    """Give a size to the finding that the clause told last, if there is one."""
    lengths = all(name.endswith("_mm") for name in measures)
    if not clause.facts or clause.facts[-1].kind != "finding" or not lengths or clause.denied:
        return False
    clause.facts[-1] = replace(clause.facts[-1], measures={**clause.facts[-1].measures, **measures})
    return True


def size_of_finding(setting: Setting, clause: Clause, measures: dict[str, float], holder: Phrase) -> bool:
    """ "candles two inches long": a part whose length tells how far the tree is."""
    kind, _, value = setting.lexicon.measured.get(holder.part or "", "").partition(":")
    size = measures.get("length_mm", measures.get("diameter_mm"))
    if not kind or size is None or len(measures) > 1:
        return False
    clause.facts.append(Fact(kind, value, holder.spot() if kind == "finding" else Spot(), {"length_mm": size}))
    return True


def amount(setting: Setting, phrase: Phrase) -> dict[str, float]:
    settle_bare(phrase, setting.lexicon, "length_mm")
    if phrase.ordinal and not phrase.numbers and phrase.part in setting.lexicon.amount:
        phrase.numbers, phrase.ordinal = [phrase.ordinal], None  # "back to the first pair"
    if phrase.numbers:
        return {setting.lexicon.amount.get(phrase.part or "", "leaves"): phrase.numbers[0], **phrase.measures}
    return dict(phrase.measures)
