"""What a season's work adds up to, and what is left of it: foliage, roots, serious works."""

from __future__ import annotations

import datetime as dt
from collections.abc import Collection, Mapping
from typing import TYPE_CHECKING

from benchmate.hearing.reading import Spot
from benchmate.practice.book import Rule, RuleBook
from benchmate.practice.facts import DEFAULT, Done, Facts
from benchmate.practice.places import is_placed
from benchmate.value import dataclass

if TYPE_CHECKING:
    from benchmate.practice.match import Matcher
    from benchmate.practice.target import Target


# a leader that gave way is cut within so long of the choice, else it is a cut of its own
_SAME_CHOICE = dt.timedelta(days=60)


@dataclass(frozen=True, slots=True)
class Cap:
    """The most that may be taken. rules: those that set it (one, or several that agree). assumed: why it is a
    default."""

    share: float
    rules: tuple[Rule, ...] = ()
    assumed: str | None = None


def takes(work: str, book: RuleBook) -> str:
    """What a work takes off: "foliage", "root" or "none"."""
    return str(book.works.get(work, {}).get("takes", "none"))


def takes_all(work: str, spot: Spot, book: RuleBook) -> bool:
    """Whether a cut at this place takes the whole crown with it: the one trunk of a tree cut through."""
    whole = book.budget.get("serious", {}).get("whole", {})
    return spot.part in whole.get(work, ()) and not is_placed(spot)


def share_of(work: str, measures: Mapping[str, float], book: RuleBook) -> tuple[float | None, bool]:
    """The share that a work takes, and whether it was said; else what such work usually takes, or None."""
    if "share" in measures:
        return float(measures["share"]), True
    usual = book.works.get(work, {}).get("share")
    return (float(usual), False) if usual is not None else (None, False)


def crown_share(work: str, measures: Mapping[str, float], spot: Spot, book: RuleBook) -> tuple[float | None, bool]:
    """The share of the whole crown (or of all roots) that a work takes, and whether it was said.

    A share said of one placed branch, or of work that is itself a share of each leaf or candle, is no share of the
    crown: then what such work usually takes stands.
    """
    if takes_all(work, spot, book):
        return 1.0, False
    if is_placed(spot) or work in book.budget.get("of_part", {}).get("works", ()):
        measures = {key: value for key, value in measures.items() if key != "share"}
    return share_of(work, measures, book)


def _this_season(facts: Facts) -> list[Done]:
    """What the season has to answer for. Work of which nobody knows whether it was this year's is none of it."""
    start = facts.season_start
    done = [done for done in facts.done if not done.denied and done.origin != DEFAULT]
    return [done for done in done if start is None or done.first >= start or _mostly_since(start, done)]


def _mostly_since(start: dt.date, done: Done) -> bool:
    """Whether work between two days was more likely done since `start`; of no day at all nobody knows."""
    return done.first != dt.date.min and done.last >= start and done.first + (done.last - done.first) / 2 >= start


def foliage_taken(facts: Facts, book: RuleBook) -> float:
    """Share of the foliage taken this season: said shares as they stand, others as such work usually takes.

    A tree that was stripped makes a new set of leaves within weeks; blades that were halved stay so and count. One of
    two leaders kept and the other cut is one cut told twice: the larger of the two counts.
    """
    done = _this_season(facts)
    taken = [0.0 if is_free(one.manner, facts, book) else _taken(one, "foliage", book) for one in done]
    for choice, chosen in enumerate(done):
        if chosen.work != "select-leader":
            continue
        told = [n for n, one in enumerate(done) if taken[n] and _cuts_the_rival(one, chosen, book)]
        if told:
            other = max(told, key=taken.__getitem__)
            taken[other] = max(taken[other], taken[choice])
            taken[choice] = 0.0
    return round(sum(taken), 4)


def _cuts_the_rival(one: Done, chosen: Done, book: RuleBook) -> bool:
    """Whether a cut is that of the leader which gave way: at another place than the one kept, and of no other part."""
    if one.denied or one.work not in book.budget.get("serious", {}).get("whole", {}):
        return False
    if abs(one.first - chosen.first) > _SAME_CHOICE or one.spot.part not in (None, "leader", "apex"):
        return False
    kept, cut = chosen.spot, one.spot
    if not is_placed(kept):
        return cut.part is not None
    return is_placed(cut) and (kept.side, kept.level, kept.ordinal) != (cut.side, cut.level, cut.ordinal)


def root_taken(facts: Facts, book: RuleBook) -> float:
    """Share of the roots taken this season."""
    return round(sum(_taken(done, "root", book) for done in _this_season(facts)), 4)


def _taken(done: Done, what: str, book: RuleBook) -> float:
    if not counts(done, what, book) or done.now:
        return 0.0
    measures = {} if done.share is None else {"share": done.share}
    table = book.budget.get("apart", {})
    if done.work not in table.get("stays", ()):
        share, _ = crown_share(done.work, measures, done.spot, book)
    else:
        # a share of every blade is that share of all leaf; on one branch it is so much of what one branch bears
        share, _ = share_of(done.work, measures, book)
        if share is not None and is_placed(done.spot):
            share *= float(table.get("of_branch", 1.0))
    return 0.0 if share is None else share


def counts(done: Done, what: str, book: RuleBook) -> bool:
    """Whether work that was done is part of the season's dose. what: "foliage" or "root"."""
    if takes(done.work, book) != what:
        return False
    stays = done.work in book.budget.get("apart", {}).get("stays", ())
    return done.share is not None or stays or not counts_apart(done.work, book)


def is_free(manner: Collection[str], facts: Facts, book: RuleBook) -> bool:
    """Whether what is taken off in this manner earns nothing any more, and spends nothing."""
    if not manner:
        return False
    free = book.budget.get("free", {})
    own = set(manner) & set(free.get("manners", ()))
    leaf = facts.trait("leaf")
    return any(leaf in free.get("leaf", {}).get(one, (leaf,)) for one in own)


def counts_apart(work: str, book: RuleBook) -> bool:
    """Whether it is for rules alone to say if leaf may come off so, unless a share is said."""
    return work in book.budget.get("apart", {}).get("works", ())


def heavy_works(facts: Facts, book: RuleBook) -> int:
    """Serious works of this season; those of one day are one (roots are pruned when a tree is repotted)."""
    return len({done.first for done in _this_season(facts) if is_heavy(done, book)})


def is_heavy(done: Done, book: RuleBook) -> bool:
    """Whether work that was done was a serious one: by its kind, by how it was done, or by how much it took."""
    work = book.works.get(done.work, {})
    if takes_all(done.work, done.spot, book):
        return True
    if work.get("heavy") or set(done.manner) & set(work.get("heavy_when", ())):
        return True
    return takes(done.work, book) == "foliage" and (done.share or 0.0) >= book.budget.get("serious", {}).get(
        "share", 1.0
    )


def cap_for(target: Target, matcher: Matcher, kind: str = "cap") -> Cap | None:
    """The lowest cap that holds for the tree now; where none does because health is unknown, the usual one, told so.

    kind: "cap" for foliage, "root_cap" for roots.
    """
    fired: list[Rule] = []
    unknown = False
    for number in matcher.book.budget.get(kind, ()):
        rule = matcher.book.rules[number]
        truth = matcher.result(rule, target).truth
        if truth:
            fired.append(rule)
        unknown = unknown or truth is None
    if fired:
        share = min(rule.amount["share"] for rule in fired)
        return Cap(share, tuple(rule for rule in fired if rule.amount["share"] == share))
    if not unknown:
        return None
    usual = matcher.book.budget.get("unknown", {})
    share = usual.get("root_share" if kind == "root_cap" else "share")
    return None if share is None else Cap(float(share), (), str(usual.get("says", "")))
