"""What is weighed: the works that were spoken of, those that findings call for, each rival by its side, and leaving
it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from benchmate.hearing.reading import NOWHERE, Fact, Reading, Spot
from benchmate.practice.book import Rule, RuleBook
from benchmate.practice.budget import takes_all
from benchmate.practice.facts import SAID, Facts, Known
from benchmate.practice.match import Matcher
from benchmate.practice.places import is_local, is_placed, parts_meet, spot_of
from benchmate.practice.target import ASKED, LEAVE, OFFERED, Target, placed, target_of
from benchmate.practice.truth import CLOSED
from benchmate.value import replace

if TYPE_CHECKING:
    from benchmate.practice.weigh import Weighed

# how many works are put forward where none was asked about
MOST_OFFERED = 8
RIVAL = "select-leader"  # the work that keeps one of two
_OPEN_TOPICS = ("advice", "compare", "what-if", None)


def spoken_targets(reading: Reading, book: RuleBook) -> list[Target]:
    """The works of the statement, each at its place; what was refused is not weighed, nor what is told as done beside
    the question whether to do something else, or to do it again."""
    targets = []
    told = reading.told_beside
    for work in reading.work:
        if work.work and work.done != "not" and work not in told:
            target = target_of(work)
            if placed(target.work, book.works, book.places) and not is_placed(target.spot):
                target = _meant(target, reading, book)
            if target not in targets:
                targets.append(target)
    return targets


def _meant(target: Target, reading: Reading, book: RuleBook) -> Target:
    """ "One low branch is dead, can I remove it": work without a place is on the one thing that the statement places.

    Only work that cannot be on the whole tree (removing) is taken so without a word like "it", or with the same part
    named again ("can I take the branch off").
    """
    things = [f for f in reading.facts if f.kind == "finding" and not f.denied and _speaks_of_a_place(f, book)]
    bound = target.work in book.places.get("needs_object", ()) and target.spot.part in (None, "branch")
    if len(things) != 1 or not (reading.refers or bound):
        return target
    spot = spot_of(_known(things[0]), book.places)
    if target.spot.part and spot.part and not parts_meet(target.spot.part, spot.part, book.places):
        return target
    part = spot.part if target.spot.part in (None, "leaf", "shoot", "bud", "needle", "tip") else target.spot.part
    return target.at(Spot(part, spot.side, spot.level, spot.ordinal, target.spot.count))


def _speaks_of_a_place(fact: Fact, book: RuleBook) -> bool:
    return is_local(_known(fact), book.places) or spot_of(_known(fact), book.places).part == "branch"


def _known(fact: Fact) -> Known:
    return Known(fact.kind, fact.value, fact.spot, fact.denied)


def rival_targets(reading: Reading, facts: Facts) -> list[Target]:
    """Each of the things compared, as the one to keep: those of the statement, or where it only asks which, those that
    were told before."""
    told = [(one.spot, dict(one.measures)) for one in reading.candidates]
    if not told and reading.topic == "compare":
        newest = {one.spot: dict(one.measures) for one in sorted(facts.of("candidate"), key=lambda one: one.on or "")}
        told = [(spot, measures) for spot, measures in newest.items() if spot.side or spot.level or spot.ordinal]
    if len(told) < 2:
        return []
    leaders = any(fact.value == "competing-leaders" for fact in reading.facts)
    if not reading.candidates:
        leaders = leaders or any(one.value == "competing-leaders" and not one.denied for one in facts.of("finding"))
    if not leaders and not {spot.part for spot, _ in told} & {"leader", "apex"}:
        return []
    return [
        Target(
            RIVAL,
            Spot("leader", spot.side, spot.level, spot.ordinal),
            measures,
            how=OFFERED,
            prompted=True,
        )
        for spot, measures in told
    ]


def offered_targets(facts: Facts, matcher: Matcher) -> list[Target]:
    """Works that rules put forward on these facts: where nothing, or something to compare, was asked about."""
    book = matcher.book
    out: dict[tuple[str, Spot], list[str]] = {}
    prompted: set[tuple[str, Spot]] = set()
    for work in book.offered_works:
        object_wanted = work in book.places.get("needs_object", ())
        for rule in matcher.touched(Target(work, how=OFFERED)):
            if rule.offers:
                for spot in _spots(rule, work, facts, book):
                    if object_wanted and spot == NOWHERE:
                        continue  # "remove it" would be said of the tree
                    if _fires_at(rule, work, spot, matcher):
                        out.setdefault((work, spot), []).append(rule.id)
                        if _prompted(rule, facts):
                            prompted.add((work, spot))
    return [
        Target(work, spot, how=OFFERED, offered_by=tuple(ids), prompted=(work, spot) in prompted)
        for (work, spot), ids in out.items()
    ]


def _prompted(rule: Rule, facts: Facts) -> bool:
    """Whether the rule looks at something that the grower has just seen, or at a measure just said."""
    said = {(known.kind, known.value) for kind in CLOSED for known in facts.of(kind) if known.origin == SAID}
    seen = any((test.kind, test.value) in said for clause in rule.condition for tests in clause for test in tests)
    return seen or any(limit.quantity == "temperature_c" for limit in rule.limits)


def _fires_at(rule: Rule, work: str, spot: Spot, matcher: Matcher) -> bool:
    try:
        return (
            matcher.result(rule, Target(work, spot, manner=(rule.manner,) if rule.manner else (), how=OFFERED)).truth
            is True
        )
    except Exception:  # named as a fault when the option is weighed
        return False


def _spots(rule: Rule, work: str, facts: Facts, book: RuleBook) -> list[Spot]:
    """Where a rule's work would be done: at each finding that its condition speaks of, or at its part."""
    part = rule.part[0] if rule.part else None
    if rule.spot != "finding":
        return [Spot(part=part)]
    wanted = {test.value for clause in rule.condition for tests in clause for test in tests if test.kind == "finding"}
    spots = []
    for known in facts.of("finding"):
        if known.denied or known.value not in wanted:
            continue
        spot = spot_of(known, book.places)
        # what sits on the trunk is the part that the finding speaks of, never the trunk itself
        own = book.places.get("finding_part", {}).get(str(known.value))
        there = own if own and takes_all(work, spot, book) else spot.part
        spots.append(Spot(part or there, spot.side, spot.level, spot.ordinal))
    spots = [spot for spot in spots if not takes_all(work, spot, book)]
    placed_ones = [spot for spot in spots if is_placed(spot)]
    return list(dict.fromkeys(placed_ones or spots or [Spot(part=part)]))


def spared_places(target: Target, facts: Facts, book: RuleBook) -> list[Spot]:
    """Places inside a target that may need an option of their own: a weak branch when the whole tree is to be cut."""
    if not placed(target.work, book.works, book.places) or is_placed(target.spot):
        return []
    spots = []
    for known in facts.of("finding"):
        spot = spot_of(known, book.places)
        if known.denied or not is_local(known, book.places) or not parts_meet(spot.part, target.spot.part, book.places):
            continue
        if not is_placed(spot) and target.spot != NOWHERE:
            continue
        spots.append(spot)
    return list(dict.fromkeys(spots))


def leave_target() -> Target:
    return Target("leave", how=LEAVE)


def undone_first(targets: Sequence[Target], facts: Facts, book: RuleBook) -> list[Target]:
    """The works of a choice, those that can be undone called for where another of them is a cut."""
    cuts, shaping = set(book.group("cutting")), set(book.group("shaping"))
    if not cuts & set(facts.compared):
        return list(targets)
    return [replace(t, prompted=True) if t.work in shaping & set(facts.compared) else t for t in targets]


def chosen_between(rows: Sequence[Weighed], reading: Reading) -> list[Weighed]:
    """The options as ranked, those of a choice before all others: it is answered by one of its own."""
    if reading.topic != "compare":
        return list(rows)
    asked = [one for one in rows if one.target.how == ASKED]
    rivals = [one for one in rows if one.target.work == RIVAL]
    own = asked if len(asked) > 1 or len(rivals) < 2 else rivals
    return [*own, *(one for one in rows if one not in own)]


def wants_offers(reading: Reading, targets: Sequence[Target]) -> bool:
    """Whether works are put forward: an open question, or something seen and no work spoken of."""
    if reading.topic == "compare":
        return True
    if not targets and reading.topic == "may":
        return True  # what may be done was not understood: better what the tree calls for than leaving it alone
    return not [t for t in targets if t.work not in ("leave", "wait", "check")] and reading.topic in _OPEN_TOPICS


def wants_care(targets: Sequence[Target]) -> bool:
    """Whether it is asked if the tree may be left: then what this very statement calls for is weighed beside that."""
    return bool(targets) and all(target.work in ("leave", "wait") for target in targets)
