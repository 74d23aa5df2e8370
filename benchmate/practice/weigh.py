"""One target weighed: which rules speak, what they amount to, and the option that comes of it."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence

from benchmate.hearing.reading import Spot
from benchmate.practice.advice import ASK, AVOID, GO, HOLD, Option, Reason, Trace
from benchmate.practice.allowance import Allowance, allowance
from benchmate.practice.book import Rule, RuleBook
from benchmate.practice.follow import follow_ups
from benchmate.practice.match import Matcher, Result
from benchmate.practice.target import DONE, LEAVE, Target
from benchmate.practice.window import closes_on, latest_opening, lifted, trait_closes
from benchmate.value import dataclass, replace


@dataclass(frozen=True, slots=True)
class Weighed:
    """A target with all that was found.

    spoke: rules that hold and are not beaten. open: blocking rules that are unknown and could be decided by asking.
    lifting: unknown rules that could silence one that blocks. by_date: the blocks, where all of them rest on a stage
    that only the date suggests and that is about to turn.
    """

    target: Target
    option: Option
    spoke: tuple[Result, ...]
    open: tuple[Result, ...]
    lifting: tuple[Result, ...]
    traces: tuple[Trace, ...]
    allowance: Allowance
    by_date: tuple[Result, ...] = ()

    @property
    def cautions(self) -> list[str]:
        """Ids in the order in which the rules speak."""
        ids = [caution for result in self.spoke for caution in result.rule.cautions]
        return list(dict.fromkeys([*ids, *self.allowance.cautions]))


def weigh(target: Target, matcher: Matcher) -> Weighed:
    """Every rule about the target's work, and what they come to."""
    results = matcher.results(target)
    results = [r for r in results if not (r.truth and lifted(r.rule, matcher.facts, matcher.almanac, matcher.book))]
    beaten = beaten_by(results)
    spoke = tuple(r for r in results if r.truth and r.rule.id not in beaten)
    unknown = [r for r in results if r.truth is None and r.rule.id not in beaten]
    asking = tuple(r for r in unknown if r.rule.blocks and r.rule.ask and askable(r, target, matcher))
    blocks = [r.rule for r in spoke if r.rule.blocks]
    blocked = {rule.id for rule in blocks}
    lifting = tuple(r for r in unknown if blocked & set(r.rule.beats) and askable(r, target, matcher))
    left = allowance(target, matcher)
    verdict = _verdict(target, blocks, asking, left)
    opens = _opens(verdict, blocks, left, matcher)
    option = Option(
        work=target.work,
        spot=Spot(part="crown") if target.rest else target.spot,
        verdict=verdict,
        opens=opens.isoformat() if opens else None,
        closes=_closes(verdict, opens, spoke, matcher),
        because=_reasons((r for r in spoke if _for(r.rule)), left.reasons if not left.verdict else ()),
        against=_reasons((r for r in spoke if _against(r.rule)), left.reasons if left.verdict else ()),
        amount=_amount(target.work, spoke, left, verdict, matcher.book),
        follow=follow_ups(spoke, matcher.almanac) if verdict in (GO, ASK) or target.how == DONE else (),
        weight=sum(r.rule.weight or (1 if r.rule.verdict == GO else 0) for r in spoke if not r.rule.blocks),
        how=target.how,
        rest=target.rest,
        manner=target.manner,
    )
    by_date = _by_date([r for r in spoke if r.rule.blocks], left, matcher)
    return Weighed(target, option, spoke, asking, lifting, _traces(results, beaten, target), left, by_date)


def not_left(one: Weighed, rows: Iterable[Weighed]) -> Weighed:
    """Leaving it alone, which nobody asked about, is no go where all that is known of it speaks against it and there is
    something better."""
    option = one.option
    if one.target.how != LEAVE or option.verdict != GO or option.because or not option.against:
        return one
    if any(other.option.verdict == GO and other.option.weight > 0 for other in rows if other is not one):
        return replace(one, option=replace(option, verdict=AVOID))
    return one


def is_held(target: Target, matcher: Matcher) -> bool:
    """Whether a rule or the season's budget stands against the work: the verdict alone, without reasons or days."""
    results = matcher.results(target)
    results = [r for r in results if not (r.truth and lifted(r.rule, matcher.facts, matcher.almanac, matcher.book))]
    beaten = beaten_by(results)
    if any(r.truth and r.rule.blocks and r.rule.id not in beaten for r in results):
        return True
    return allowance(target, matcher).verdict is not None


def _by_date(blocks: Sequence[Result], left: Allowance, matcher: Matcher) -> tuple[Result, ...]:
    if not matcher.facts.stage_turns or left.verdict:
        return ()
    resting = [r for r in blocks if any(c.kind == "stage" for clause in r.rule.condition for cs in clause for c in cs)]
    return tuple(blocks) if blocks and len(resting) == len(blocks) else ()


def beaten_by(results: Iterable[Result]) -> dict[str, str]:
    """Id of each rule that is silenced -> the rule that does so. One that is itself silenced silences nobody."""
    fired = [r.rule for r in results if r.truth]
    beaten: dict[str, str] = {}
    for _ in range(len(fired) + 1):
        now = {loser: rule.id for rule in fired if rule.id not in beaten for loser in rule.beats}
        if now == beaten:
            break
        beaten = now
    return beaten


def askable(result: Result, target: Target, matcher: Matcher) -> bool:
    """Whether asking can decide the rule: there is a question for each thing that it lacks."""
    from benchmate.practice.asks import question_for

    return bool(result.lacks) and all(question_for(kind, value, target, matcher.book) for kind, value in result.lacks)


def _verdict(target: Target, blocks: Sequence[Rule], asking: Sequence[Result], left: Allowance) -> str:
    verdicts = {rule.verdict for rule in blocks} | {left.verdict}
    if AVOID in verdicts:
        return AVOID
    if HOLD in verdicts:
        return HOLD
    return ASK if asking and target.how not in (DONE, LEAVE) else GO


def _opens(verdict: str, blocks: Sequence[Rule], left: Allowance, matcher: Matcher) -> dt.date | None:
    if verdict != HOLD:
        return None
    holds = [rule for rule in blocks if rule.verdict == HOLD]
    opening = latest_opening(holds, matcher.facts, matcher.almanac, matcher.book) if holds else left.opens
    if left.verdict == HOLD and opening and left.opens:
        return max(opening, left.opens)
    return opening


def _closes(verdict: str, opens: dt.date | None, spoke: Sequence[Result], matcher: Matcher) -> str | None:
    """The end of the window that is open, or that the hold's end opens."""
    if verdict == AVOID or (verdict == HOLD and opens is None):
        return None
    after = opens or matcher.almanac.on
    days = [closes_on(r.rule, after, matcher.facts, matcher.almanac, matcher.book) for r in spoke if r.rule.closes]
    days += [
        trait_closes(r.rule.opens, after, matcher.facts, matcher.almanac)
        for r in spoke
        if r.rule.opens and "trait" in r.rule.opens
    ]
    told = [day for day in days if day and day >= after]
    return min(told).isoformat() if told else None


def _for(rule: Rule) -> bool:
    return rule.kind == "rule" and (
        rule.verdict == GO or (rule.verdict is None and rule.weight >= 0 and bool(rule.says))
    )


def _against(rule: Rule) -> bool:
    return rule.kind == "rule" and (rule.blocks or rule.weight < 0)


def _reasons(results: Iterable[Result], more: Sequence[Reason]) -> tuple[Reason, ...]:
    """Blocks first, those of a tree's weakness before those of its year; then by weight; then in the book's order."""
    rank = {AVOID: 0, HOLD: 1}
    rows = sorted(
        results, key=lambda r: (rank.get(r.rule.verdict or "", 2), -abs(r.rule.weight), not _for_weakness(r.rule))
    )
    return (*(reason_of(r.rule, r.rests_on) for r in rows), *more)


def _for_weakness(rule: Rule) -> bool:
    """Whether the rule blocks for the tree's health: no day in the year lifts that."""
    tests = (test for clause in rule.condition for tests in clause for test in tests)
    return rule.blocks and any(test.kind == "health" and not test.denied for test in tests)


def reason_of(rule: Rule, rests_on: tuple[str, ...] = ()) -> Reason:
    return Reason(
        rule.id, rule.says, rule.source, rule.mark, rule.weight, rule.yours, rule.where, rule.disputes, rests_on
    )


def _amount(work: str, spoke: Sequence[Result], left: Allowance, verdict: str, book: RuleBook) -> dict[str, float]:
    """The tightest of what the rules and the season's budget allow. What a rule says of each candle or leaf is no share
    of the crown, and the crown's rest does not tighten it."""
    out: dict[str, float] = {}
    for result in spoke:
        for key, value in result.rule.amount.items():
            out[key] = min(out.get(key, value), value)
    of_each = "share" in out and work in book.budget.get("of_part", {}).get("works", ())
    if left.share is not None and verdict in (GO, ASK, HOLD) and not of_each:
        out["share"] = round(min(out.get("share", left.share), left.share), 3)
    return {} if verdict == AVOID else out


def _traces(results: Iterable[Result], beaten: dict[str, str], target: Target) -> tuple[Trace, ...]:
    return tuple(
        Trace(
            r.rule.id,
            r.truth,
            r.by,
            target.work,
            target.spot,
            r.rule.verdict,
            beaten.get(r.rule.id) if r.truth else None,
            tuple(dict.fromkeys(kind for kind, _ in r.lacks)),
        )
        for r in results
    )
