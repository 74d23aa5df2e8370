"""Clauses of qualifiers alone: the place, size or share of what stands before or behind them."""

from __future__ import annotations

from collections.abc import Mapping

from benchmate.value import replace

from ..asked.either_of import one_or_other
from ..clauses import TRUNKS, Clause
from ..done.doing import NOT, NOW
from ..reading import Fact, Spot, Work
from ..seen.phrases import Phrase
from ..seen.placing import also, elsewhere, merged, with_part
from ..vocabulary.lexicon import Lexicon


def same_unit(before: Clause, clause: Clause) -> None:
    """ "the left one is 9 mm, the right one 7", "the right is 7": a bare number beside a size is a size of the same
    kind."""
    phrase = clause.phrase
    if not before.candidates or phrase is None or clause.candidates or clause.facts:
        return
    numbers, spot = phrase.numbers, phrase.spot(count=False)
    if not numbers and phrase.ordinal and (phrase.side or phrase.level) and not (phrase.one or phrase.parts):
        numbers, spot = [float(phrase.ordinal)], replace(spot, ordinal=None)  # "the right 7"
    measure = next(iter(before.candidates[-1].measures), None)
    if measure and clause.kind == "observe" and len(numbers) == 1:
        clause.candidates = [Fact("candidate", phrase.part or "one", spot, {measure: numbers[0]})]
        clause.series += [(measure, numbers[0])]
        clause.acts = ["observe"]


def bare_place(clause: Clause, alone: bool) -> None:
    """ "and the back one?": a place and a word that refers; the talk tells what is meant."""
    phrase = clause.phrase
    if not alone or clause.kind != "observe" or clause.facts or clause.work or clause.measures or phrase is None:
        return
    if phrase.one and phrase.ordinal and phrase.spot() == Spot(ordinal=phrase.ordinal) and not phrase.states:
        clause.acts, clause.pick = ["pick"], phrase.ordinal  # "the second one"
        return
    if (phrase.one or phrase.other) and not phrase.states:
        clause.work = [Work(None, phrase.spot(count=False), done=None if clause.asked else NOW)]
        clause.acts, clause.topic = (["ask"], "may") if clause.asked else (["decide"], None)
        clause.refers.append("one")


def fronted(before: Clause, clause: Clause, lexicon: Lexicon) -> None:
    """ "3/8 inch branch, bend it": the thing named first is what is worked on."""
    phrase = before.phrase
    if before.kind != "observe" or before.facts or before.work or phrase is None or not phrase.parts or before.denied:
        return
    said_of_it = "it" in clause.refers or (clause.phrase is not None and clause.phrase.pronoun == "it")
    if clause.work and clause.work[0].spot.part is None and said_of_it:
        work = clause.work[0]
        measures = {
            **before.measures,
            **{k: v for c in before.candidates for k, v in c.measures.items()},
            **work.measures,
        }
        spot = merged(work.spot, phrase)
        if phrase.at is not None and phrase.part in lexicon.works.get(work.work or "", {}).get("part_named", ()):
            spot = phrase.at  # "the wound at the base, I've sealed it"
        clause.work[0] = replace(work, spot=spot, measures=measures)
        before.acts, before.measures, before.candidates, before.taken = [], {}, [], True


def place_first(before: Clause, clause: Clause) -> None:
    """ "back branch, the guy's still on": the place named first is where it is seen."""
    phrase = before.phrase
    named = before.kind == "observe" and phrase is not None and phrase.says_place_only and phrase.shown_part
    if not named or phrase is None or before.measures or before.candidates or before.aside or before.refers:
        return
    if before.facts or before.work or before.denied:
        return
    findings = [fact for fact in clause.facts if fact.kind == "finding"]
    nothing_else = clause.kind == "observe" or (clause.kind == "decide" and not clause.work)
    if not nothing_else or not findings or any(replace(fact.spot, count=None) != Spot() for fact in findings):
        return
    if clause.phrase is not None and (clause.phrase.pronoun or clause.phrase.species):
        return  # "the pot is blue and the smoke bush is leggy"
    spot = phrase.spot(count=False)
    clause.facts = [
        replace(fact, spot=replace(spot, count=fact.spot.count)) if fact.kind == "finding" else fact
        for fact in clause.facts
    ]
    before.taken = True


def belongs(before: Clause, clause: Clause, lexicon: Lexicon) -> bool:
    """A clause of qualifiers alone ("a third off", "20 mm wide", "low left branch") belongs to what was said before."""
    phrase = clause.phrase
    if (
        clause.kind == "decide"
        and clause.vague
        and _only_share(clause)
        and before.work
        and before.work[-1].work in _SHARED
        and before.work[-1].done != NOT  # "don't remove it, shorten it by a third"
    ):
        share = clause.work[0].measures["share"]
        before.work[-1] = replace(before.work[-1], measures={**before.work[-1].measures, "share": share})
        return True
    if clause.verbless and before.work and clause.work and before.work[-1].work == clause.work[0].work:
        last = before.work[-1]  # "dead heading it, all the flowers off"
        before.work[-1] = replace(last, measures={**last.measures, **clause.work[0].measures})
        before.facts += [fact for fact in clause.facts if fact.kind == "species"]
        return True
    if _of_the_part(before, clause):
        return True
    if clause.kind != "observe" or clause.facts or phrase is None or clause.work or clause.denied:
        return False
    if one_or_other(before, clause):
        return False
    if before.topic == "figure" and clause.measures:
        before.measures.update(clause.measures)
        before.series += clause.series
        return True
    place = (
        phrase.side
        or phrase.level
        or phrase.shown_part
        or (phrase.ordinal and (phrase.one or phrase.span[1] - phrase.span[0] > 1))
    )
    if not (place or clause.measures or clause.candidates or (phrase.numbers and before.kind == "observe")):
        return False
    measures = {**clause.measures, **{k: v for c in clause.candidates for k, v in c.measures.items()}}
    if "temperature_c" in measures or "age_years" in measures or (clause.measures and phrase.part in TRUNKS):
        return False  # of the air, of the tree
    if set(measures) == {"height_mm"} and before.work and before.topic != "figure":
        cell = lexicon.works.get(before.work[-1].work or "", {})
        if cell.get("group") != "cutting":
            return False  # "fed it, it is 60 cm tall"
    if clause.tells and phrase.shown_part and not measures:  # "wire the beech, buds are long and sharp"
        return "because" in clause.joined  # the words of a reason are kept with the decision
    if before.work and before.kind in ("decide", "may", "remind") and not clause.candidates:
        work = before.work[-1]
        before.when = before.when or clause.when
        if "and" in clause.joined and (beside := _work_beside(before, phrase, lexicon)):
            before.work.append(beside)
            return True
        if elsewhere(work.spot, clause, phrase, anew=bool(measures.keys() & work.measures.keys())):
            before.work[-1] = replace(work, spot=with_part(work.spot, phrase))
            before.work.append(replace(work, spot=also(work.spot, phrase), measures={**work.measures, **measures}))
            return True
        spot = merged(work.spot, phrase)
        if work.spot.part is None and spot.part in lexicon.works.get(work.work or "", {}).get("part_named", ()):
            spot = replace(spot, part=None)
        before.work[-1] = replace(work, spot=spot, measures={**work.measures, **measures})
        return True
    if clause.aside and not measures:  # "two leaders, the left one is thicker" does not say where the two are
        return False
    if _length_of_stage(before, measures, lexicon):
        return True
    findings = [n for n, f in enumerate(before.facts) if f.kind == "finding"]
    if findings and before.kind == "observe" and not clause.candidates:
        fact = before.facts[findings[-1]]
        if elsewhere(fact.spot, clause, phrase):
            before.facts.append(replace(fact, spot=also(fact.spot, phrase), measures={**fact.measures, **measures}))
            return True
        before.facts[findings[-1]] = replace(
            fact, spot=merged(fact.spot, phrase), measures={**fact.measures, **measures}
        )
        return True
    return False


def _work_beside(before: Clause, phrase: Phrase, lexicon: Lexicon) -> Work | None:
    """ "Cut off the flowers | and the fruit": what the same verb does to a part beside the one that its work names."""
    work, part = before.work[-1], phrase.shown_part
    named = lexicon.works.get(work.work or "", {}).get("part_named", ())
    if part is None or not named or part in named or work.spot.part is not None:
        return None
    name = next(
        (lexicon.patterns[f"{way}|{part}|"] for way in before.verb if f"{way}|{part}|" in lexicon.patterns), None
    )
    if name is None or name == work.work:
        return None
    own = part in lexicon.works.get(name, {}).get("part_named", ())
    return Work(name, replace(phrase.spot(), part=None if own else part), done=work.done, span=work.span)


def _of_the_part(before: Clause, clause: Clause) -> bool:
    """ "canker halfway up | the trunk of the apple", without a pause: the part, and whose it is."""
    phrase = clause.phrase
    if phrase is None or set(clause.joined) != {"pause"} or not clause.facts or not phrase.shown_part:
        return False
    if any(fact.kind != "species" for fact in clause.facts) or clause.kind != "observe" or clause.measures:
        return False
    last = before.facts[-1] if before.facts else None
    if last is None or last.kind != "finding" or last.spot.part or not last.spot.level:
        return False
    before.facts[-1] = replace(last, spot=merged(last.spot, phrase))
    before.facts += clause.facts
    return True


def _length_of_stage(before: Clause, measures: Mapping[str, float], lexicon: Lexicon) -> bool:
    """ "the candles are pushing, two inches long": the length tells how far the stage that was named has come."""
    told = lexicon.measured.get((before.phrase.part if before.phrase else None) or "", "")
    size = measures.get("length_mm", measures.get("diameter_mm"))
    at = next((n for n, fact in enumerate(before.facts) if f"{fact.kind}:{fact.value}" == told), None)
    if before.kind != "observe" or at is None or size is None or len(measures) > 1:
        return False
    before.facts[at] = replace(before.facts[at], measures={"length_mm": size})
    return True


_SHARED = frozenset(
    {"root-prune", "repot", "thin-leaves", "shorten", "leaf-cut", "remove", "candle-shorten", "thin-needles", "collect"}
)


def _only_share(clause: Clause) -> bool:
    return len(clause.work) == 1 and set(clause.work[0].measures) == {"share"} and clause.work[0].spot == Spot()
