"""Which unknown facts would change the advice, the most telling first, two at most."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from benchmate.hearing.reading import Reading
from benchmate.practice.advice import ASK, AVOID, GO, HOLD, Ask
from benchmate.practice.book import RuleBook
from benchmate.practice.facts import Facts
from benchmate.practice.match import Result
from benchmate.practice.target import ASKED, DECIDED, DONE, LEAVE, Target
from benchmate.practice.weigh import Weighed
from benchmate.value import replace

MOST = 2
_FORCE = {"avoid": 3.0, "hold": 2.0}
# among equals: what is known once for ever, then what decides most works
_FIRST = ("species", "health", "stage", "event", "flush", "phase")


def question_for(kind: str, value: str, target: Target, book: RuleBook) -> str | None:
    """The question that would fill what is lacking, or None where asking is of no use.

    A question may be kept to some works (`works`), and an event's question is kept by the work it asks about.
    """
    table: Mapping[str, Any] = book.questions.get(kind, {})
    for other in book.questions.values() if not table else ():
        if kind in other.get("answers", ()):
            table = other
    works = table.get("works")
    if works is not None and not any(target.work in book.group(work) for work in works):
        return None
    # of events and findings, only what a grower may well have done, or can look at, unasked is worth a question
    return table.get(value) if kind in ("event", "finding") else table.get("says")


def fact_asked(kind: str, book: RuleBook) -> str:
    """The fact that the answer carries for a lack: a ratio is asked for by the diameter that makes it."""
    if kind in book.questions:
        return kind
    return next((name for name, table in book.questions.items() if kind in table.get("answers", ())), kind)


def choose_asks(weighed: Iterable[Weighed], book: RuleBook) -> tuple[Ask, ...]:
    """Questions for the options that matter: those asked about, or else the best one."""
    scores: dict[str, float] = {}
    says: dict[str, tuple[float, str]] = {}
    rules: dict[str, list[str]] = {}
    for one in weighed:
        if one.target.how in (DONE, LEAVE):
            continue
        for result, force in telling(one):
            for kind, value in result.lacks:
                fact = fact_asked(kind, book)
                question = question_for(kind, value, one.target, book)
                if question is None:
                    continue
                worth = force / len(result.lacks)
                scores[fact] = scores.get(fact, 0.0) + worth
                if fact not in says or worth > says[fact][0]:
                    says[fact] = worth, question
                if result.rule.id not in rules.setdefault(fact, []):
                    rules[fact].append(result.rule.id)
    ranked = sorted(
        scores, key=lambda fact: (-scores[fact], _FIRST.index(fact) if fact in _FIRST else len(_FIRST), fact)
    )
    if "species" in ranked:
        # nothing can be judged before it is known what the tree is
        ranked = ["species", *(fact for fact in ranked if fact != "species")]
    return tuple(Ask(fact, says[fact][1], tuple(rules[fact])) for fact in ranked[:MOST])


def telling(one: Weighed) -> list[tuple[Result, float]]:
    """Unknown rules that would change the option's verdict, with the force of the change."""
    verdict = one.option.verdict
    if verdict == HOLD and one.by_date:
        # a hold that rests on the date alone, days from the turn of the stage: one look at the tree decides
        return [(replace(result, lacks=(("stage", ""),)), 2.0) for result in one.by_date]
    lifting = [(result, 2.0) for result in one.lifting]
    if verdict == AVOID:
        return lifting
    worse = {HOLD: ("avoid",), GO: ("avoid", "hold"), ASK: ("avoid", "hold")}[verdict]
    return lifting + [(r, _FORCE[r.rule.verdict or "hold"]) for r in one.open if r.rule.verdict in worse]


def no_tree(facts: Facts, spoken: Sequence[Target], reading: Reading, book: RuleBook) -> Ask | None:
    """What tree it is, where nothing at all tells: no cut and no root work can be judged before."""
    says = book.questions.get("species", {}).get("says")
    if facts.taxon or facts.tree or facts.of("trait") or not says:
        return None
    touching = {work for group in ("cutting", "shaping", "roots") for work in book.group(group)}
    asked = any(one.work in touching and one.how in (ASKED, DECIDED) for one in spoken)
    return Ask("species", says) if asked or (not spoken and reading.topic == "advice") else None


def nothing_compared(reading: Reading, facts: Facts, book: RuleBook) -> Ask | None:
    """What tells two things apart, where it is asked which of them to keep and nothing is known of either."""
    says = book.questions.get("compare", {}).get("says")
    told = any(fact.kind == "finding" and (fact.spot.side or fact.spot.level) for fact in reading.facts)
    if reading.topic != "compare" or told or len(reading.candidates) > 1 or not says or len(set(facts.compared)) > 1:
        return None  # between two works the choice is weighed: only two things are told apart by their thickness
    if any(work.work and work.work not in {*book.group("cutting"), *book.group("shaping")} for work in reading.work):
        return None  # "repot it this year or next"
    if facts.compared and not set(facts.compared) & set(book.group("cutting")):
        return None  # two ways of one work that cuts nothing: "spray or squash the aphids"
    return None if facts.of("candidate") else Ask("diameter_mm", says)


def unjudged(one: Weighed) -> Weighed:
    """Nothing about an unknown tree is a plain yes, but leaving it alone."""
    if one.option.verdict != GO or one.target.how not in (ASKED, DECIDED):
        return one
    return replace(one, option=replace(one.option, verdict=ASK))
