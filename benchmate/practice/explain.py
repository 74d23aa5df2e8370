"""Why, and why not: the chain from the words that were said over the facts and the rules to the verdict.

Reads the trace that the advice carries; nothing is weighed a second time.
"""

from __future__ import annotations

from collections.abc import Iterable

from benchmate.hearing.reading import Spot
from benchmate.practice.advice import AVOID, GO, HOLD, Advice, Option, Reason, Trace
from benchmate.practice.places import is_placed
from benchmate.value import dataclass

FOR, AGAINST, SILENCED, OPEN, SHUT = "for", "against", "silenced", "open", "shut"


@dataclass(frozen=True, slots=True)
class Link:
    """One rule in the chain. side: for, against, silenced (an exception speaks in its stead), open (a fact is lacking)
    or shut (a block that does not hold). by: the test that decided, in words. reason: what it says, where it spoke."""

    side: str
    rule: str
    by: str
    reason: Reason | None = None
    silenced_by: str | None = None


@dataclass(frozen=True, slots=True)
class Explanation:
    """option: what is explained, or None where the advice holds no such work. facts: what the advice rests on, told
    with
    where each comes from. links: the rules, those that decided the verdict first. lifts: what would change it."""

    option: Option | None
    facts: tuple[str, ...] = ()
    links: tuple[Link, ...] = ()
    lifts: tuple[str, ...] = ()


def explain(advice: Advice, work: str | None = None, deny: bool = False, spot: Spot | None = None) -> Explanation:
    """Why an option has its verdict, or with `deny` why it is not a plain yes.

    work: the option's work; left out, the best option (with `deny` the first that is not "go"). spot: which of several.
    """
    option = _option(advice, work, deny, spot)
    if option is None:
        return Explanation(None, advice.facts)
    traces = [t for t in advice.trace if t.work == option.work and _same_place(t, option)]
    spoke = {reason.rule: (FOR, reason) for reason in option.because} | {r.rule: (AGAINST, r) for r in option.against}
    links = [*_spoken(spoke, traces), *_unspoken(spoke, traces)]
    order = [AGAINST, SILENCED, OPEN, FOR, SHUT]
    if not deny and option.verdict == GO:
        order = [FOR, AGAINST, SILENCED, OPEN, SHUT]
    links.sort(key=lambda link: order.index(link.side))
    return Explanation(option, advice.facts, tuple(links), _lifts(option, traces))


def _option(advice: Advice, work: str | None, deny: bool, spot: Spot | None) -> Option | None:
    found = [o for o in advice.options if work is None or o.work == work]
    if spot is not None:
        found = [o for o in found if o.spot == spot] or found
    if deny:
        found = [o for o in found if o.verdict != GO] or found
    if work is None:
        found = [o for o in found if o.how != "leave"] or found
    return found[0] if found else None


def _same_place(trace: Trace, option: Option) -> bool:
    # the rest of a tree carries the part "crown" in the answer and was weighed without a place
    return trace.spot == option.spot or (option.rest and not is_placed(trace.spot))


def _spoken(spoke: dict[str, tuple[str, Reason]], traces: Iterable[Trace]) -> list[Link]:
    by = {trace.rule: trace.by for trace in traces}
    return [Link(side, rule, by.get(rule, "the season's budget"), reason) for rule, (side, reason) in spoke.items()]


def _unspoken(spoke: dict[str, tuple[str, Reason]], traces: Iterable[Trace]) -> list[Link]:
    out: dict[str, Link] = {}
    for trace in traces:
        if trace.rule in spoke or trace.rule.startswith("caution:"):
            continue
        if trace.beaten:
            out[trace.rule] = Link(SILENCED, trace.rule, trace.by, silenced_by=trace.beaten)
        elif trace.verdict in (AVOID, HOLD) and trace.truth is None:
            out[trace.rule] = Link(OPEN, trace.rule, trace.by)
        elif trace.verdict in (AVOID, HOLD) and trace.truth is False:
            out[trace.rule] = Link(SHUT, trace.rule, trace.by)
    return list(out.values())


def _lifts(option: Option, traces: Iterable[Trace]) -> tuple[str, ...]:
    """What would have to be otherwise for the work to go ahead."""
    if option.verdict == GO:
        return ()
    out = [f"from {option.opens} on"] if option.opens else []
    for trace in traces:
        if trace.truth and trace.verdict in (AVOID, HOLD) and not trace.beaten:
            out.append(f"{trace.rule}: while {trace.by}")
        elif trace.truth is None and trace.verdict in (AVOID, HOLD) and trace.lacks:
            out.append(f"{trace.rule}: once {' and '.join(lack.replace('_', ' ') for lack in trace.lacks)} is known")
    return tuple(dict.fromkeys(out))
