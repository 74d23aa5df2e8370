"""More on an answer: every reason with what it rests on, and how each rule came out."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

from benchmate.practice.advice import AVOID, Advice, Option, Reason, Trace
from benchmate.telling import lines as role
from benchmate.telling.dates import day_of, day_words
from benchmate.telling.lines import Line
from benchmate.telling.measures import lack_words
from benchmate.telling.options import amount_words, option_words, verdict_words
from benchmate.telling.wording import list_words, sentence

if TYPE_CHECKING:
    from benchmate.practice.explain import Explanation

_MARK = {
    "published": "published",
    "practice": "a fact of the trade, no source",
    "memory": "from memory, not looked up",
}
_TRUTH = {True: "holds", False: "does not hold", None: "not known"}
_MOST_LINKS = 8
_BOUND = re.compile(r" (?:over|under) \d")  # a bound of a rule: what it says stands with the rule already
Sources = Mapping[str, Mapping[str, Any]]


def source_words(source: str | None, mark: str, sources: Sources) -> str:
    """What a sentence rests on: "published: Klein, Vitasse & Hoch 2016", or its mark."""
    table = sources.get(source or "")
    if source and table:
        by = " ".join(str(table[key]) for key in ("by", "year") if table.get(key))
        return f"{mark}: {by or source}"
    return f"{mark}: {source}" if source else _MARK.get(mark, mark)


def depth_lines(
    advice: Advice,
    on: dt.date,
    sources: Sources,
    *,
    numbers: Sequence[int] = (),
    units: str = "metric",
    plain: bool = False,
) -> list[Line]:
    """Options in full. numbers: which of them, from 1; none given means all."""
    lines: list[Line] = []
    for number, option in enumerate(advice.options, 1):
        if not numbers or number in numbers:
            lines += _whole_option(number, option, on, sources, units, plain)
    for caution in advice.cautions if not numbers else ():
        lines.append(Line(sentence(caution.says), role.CAUTION, "Caution: " if plain else "! "))
        lines.append(Line(f"{sentence(source_words(caution.source, caution.mark, sources))}", role.REASON, indent=5))
    return lines


def _whole_option(number: int, option: Option, on: dt.date, sources: Sources, units: str, plain: bool) -> list[Line]:
    lead = f"Option {number}: " if plain else f"{number}  "
    words = option_words(option, units)
    lines = [Line(f"{words[:1].upper()}{words[1:]}: {verdict_words(option, on)}.", role.OPTION, lead)]
    for sign, said, reasons in (("+ ", "For: ", option.because), ("- ", "Against: ", option.against)):
        for reason in reasons:
            lines += _whole_reason(reason, said if plain else sign, sources)
    if not option.because and not option.against:
        lines.append(Line("No rule speaks for it or against it.", role.REASON, indent=3))
    lines += [Line(amount, role.REASON, indent=3) for amount in amount_words(option, units)]
    for follow in option.follow:
        when = day_of(follow.on)
        lines.append(
            Line(f"{sentence(follow.says)} ({day_words(when, on) if when else follow.on})", role.REASON, "Then: ", 3)
        )
    return lines


def _whole_reason(reason: Reason, sign: str, sources: Sources) -> list[Line]:
    rests = source_words(reason.source, reason.mark, sources) + (f", {reason.where}" if reason.where else "")
    yours = "your rule, " if reason.yours else "rule "
    return [
        Line(sentence(reason.says), role.REASON, sign, 3),
        Line(sentence(f"{yours}{reason.rule}; {rests}"), role.REASON, indent=5),
        *(
            Line(f"{words}.", role.REASON, lead, 5)
            for lead, words in (
                ("Rests on: ", ", ".join(reason.rests_on)),
                ("Disputed by: ", ", ".join(reason.disputes)),
            )
            if words
        ),
    ]


def explanation_lines(explained: Explanation, on: dt.date, sources: Sources, units: str = "metric") -> list[Line]:
    """Why an option has its verdict: the rules that spoke, those silenced, what is not known, what would lift it."""
    option = explained.option
    if option is None:
        return [Line("Nothing of that kind was weighed.", role.ANSWER)]
    words = option_words(option, units)
    lines = [Line(f"{words[:1].upper()}{words[1:]}: {verdict_words(option, on)}.", role.ANSWER)]
    for link in explained.links[:_MOST_LINKS]:
        if link.reason:
            sign = {"for": "+ ", "against": "- "}.get(link.side, "  ")
            lines += _whole_reason(link.reason, sign, sources)
        elif link.side == "silenced":
            lines.append(Line(f"silenced by {link.silenced_by}.", role.REASON, f"{link.rule}: ", 3))
    if facts := _once(explained.facts):
        lines.append(Line(f"{'; '.join(facts)}.", role.ASIDE, "Known: "))
    if lacking := _lacking(explained):
        lines.append(Line(f"{list_words(lacking)}; what is so may change the answer.", role.ASIDE, "Not known: "))
    lines += _lift_lines(explained.lifts)
    return lines


def _once(facts: Sequence[str]) -> list[str]:
    """Facts as they are told, each once: the first that tells it is the strongest."""
    seen: dict[str, str] = {}
    for fact in facts:
        seen.setdefault(fact.partition(" (")[0], fact)
    return list(seen.values())


def _lacking(explained: Explanation) -> list[str]:
    """What is not known and would matter, in plain words, each once. Where the answer is no, another block adds
    nothing."""
    if explained.option is None or explained.option.verdict == AVOID:
        return []
    names = [name for link in explained.links if link.side == "open" for name in link.by.partition(": ")[2].split(", ")]
    return list(dict.fromkeys(lack_words(name) for name in names if name))


def _lift_lines(lifts: Sequence[str]) -> list[Line]:
    """Until when, and while what is so, the answer stands; what is not known has been told."""
    lines = []
    for lift in lifts:
        words = lift.partition(": ")[2]
        if words.startswith("while ") and not _BOUND.search(words):
            lines.append(Line(f"{words}.", role.ASIDE, "It stands "))
        elif not words:
            day = day_of(lift.removeprefix("from ").partition(" ")[0])
            lines.append(Line(f"from {day_words(day)} on." if day else f"{lift}.", role.ASIDE, "It would change: "))
    return lines[:3]


def _open_words(by: str) -> str:
    """What a rule waits for, in plain words: "not known: the temperature"."""
    head, colon, names = by.partition(": ")
    return f"{head}: {', '.join(lack_words(name) for name in names.split(', '))}" if colon else by


def trace_lines(trace: Sequence[Trace], *, most: int = 8) -> list[Line]:
    """How each rule came out, and the test that decided: rules that held first, then those that wait for a fact."""
    order = {True: 0, None: 1, False: 2}
    told = sorted(trace, key=lambda one: order[one.truth])
    lines = [
        Line(
            _open_words(one.by) if one.truth is None else f"{_TRUTH[one.truth]}: {one.by}",
            role.REASON,
            f"{one.rule}: ",
            2,
        )
        for one in told[:most]
    ]
    if len(told) > most:
        lines.append(Line(f"{len(told) - most} more rules were looked at.", role.ASIDE, indent=2))
    return lines
