"""What a rule's condition can be true of, and which conditions say the same: the ground of the rule checks.

A condition is spread out into cases (one alternative of each clause). A case can be true if its tests agree with one
another and some taxon fits them. All of it works on the rules as they stand; no example is needed.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Mapping
from typing import Any

from benchmate.practice.book import Limit, Rule, RuleBook
from benchmate.practice.condition import SINGLE, Claim
from benchmate.practice.taxa import lineage_of
from benchmate.seasons import stage_truth
from benchmate.value import dataclass, field

Case = tuple[Claim, ...]
# more cases than this are not looked at one by one: such a rule is taken to be able to hold
MOST_CASES = 400


@dataclass(slots=True)
class Bounds:
    """Looks conditions up against the taxa and the stages of one book."""

    book: RuleBook
    _taxa: dict[Claim, frozenset[str]] = field(default_factory=dict)

    def cases(self, rule: Rule) -> list[Case]:
        """Every way in which the condition can be met, the impossible ones too; [()] for a rule without a condition."""
        spread = itertools.product(*rule.condition)
        return [tuple(itertools.chain(*parts)) for parts in itertools.islice(spread, MOST_CASES)]

    def can_hold(self, rule: Rule) -> bool:
        return any(self.agrees(case) for case in self.cases(rule)) and not _limits_shut(rule) and not _within_shut(rule)

    def agrees(self, case: Case) -> bool:
        """Whether the tests of a case can all be true of one tree at one time."""
        for kind in SINGLE:
            values = {test.value for test in case if test.kind == kind and not test.denied}
            denied = {test.value for test in case if test.kind == kind and test.denied}
            if len(values) > 1 or values & denied:
                return False
        for one, other in itertools.combinations(case, 2):
            if (one.kind, one.value, one.spot) == (other.kind, other.value, other.spot) and one.denied != other.denied:
                return False
        return self._stages_agree(case) and bool(self.taxa_of(case) or not self._about_taxa(case))

    def _stages_agree(self, case: Case) -> bool:
        held = [str(test.value) for test in case if test.kind == "stage" and not test.denied]
        denied = [str(test.value) for test in case if test.kind == "stage" and test.denied]
        tables = self.book.seasons
        if any(
            stage_truth(a, b, tables) is False and stage_truth(b, a, tables) is False
            for a, b in itertools.combinations(held, 2)
        ):
            return False
        return not any(stage_truth(a, b, tables) for a in held for b in denied)

    @staticmethod
    def _about_taxa(case: Case) -> bool:
        return any(test.kind in ("species", "trait") for test in case)

    def taxa_of(self, case: Iterable[Claim]) -> frozenset[str]:
        """The taxa of which the tests on species and traits are true, or may be."""
        sets = [self._fitting(test) for test in case if test.kind in ("species", "trait")]
        return frozenset(self.book.taxa) if not sets else frozenset.intersection(*sets)

    def rule_taxa(self, rule: Rule) -> frozenset[str]:
        """The taxa that a rule can be about."""
        return frozenset().union(*(self.taxa_of(case) for case in self.cases(rule) if self.agrees(case)))

    def _fitting(self, test: Claim) -> frozenset[str]:
        if test not in self._taxa:
            wanted = not test.denied
            self._taxa[test] = frozenset(
                taxon for taxon, entry in self.book.taxa.items() if _taxon_truth(test, taxon, entry) in (wanted, None)
            )
        return self._taxa[test]

    def implies(self, narrow: Rule, wide: Rule) -> bool:
        """Whether `wide` holds whenever `narrow` does. May say no where it is so, never yes where it is not."""
        if wide.manner not in (None, narrow.manner):
            return False
        if wide.part and not (narrow.part and set(narrow.part) <= set(wide.part)):
            return False
        if wide.between and narrow.between != wide.between:
            return False
        if not _limits_imply(narrow.limits, wide.limits) or not _within_implies(narrow, wide):
            return False
        cases = [case for case in self.cases(narrow) if self.agrees(case)]
        return bool(cases) and all(self._case_implies(case, wide) for case in cases)

    def _case_implies(self, case: Case, wide: Rule) -> bool:
        return all(
            any(all(self._test_implied(test, case) for test in tests) for tests in clause) for clause in wide.condition
        )

    def _test_implied(self, test: Claim, case: Case) -> bool:
        if test in case:
            return True
        if test.kind in ("species", "trait"):
            taxa = self.taxa_of(case) if self._about_taxa(case) else frozenset(self.book.taxa)
            return bool(taxa) and all(_taxon_truth(test, t, self.book.taxa[t]) is (not test.denied) for t in taxa)
        held = [one for one in case if one.kind == test.kind and not one.denied]
        if test.kind in SINGLE and test.denied:
            return any(one.value != test.value for one in held)
        if test.kind == "stage":
            wanted = not test.denied
            return any(stage_truth(str(one.value), str(test.value), self.book.seasons) is wanted for one in held)
        return False


def _taxon_truth(test: Claim, taxon: str, entry: Mapping[str, Any]) -> bool | None:
    """A test on species or trait for one taxon; None where its cell is not filled or only some species fit."""
    value = str(test.value)
    if test.kind == "species":
        lineage = lineage_of(taxon)
        return True if value in lineage else None if value.startswith(taxon + " ") else False
    name, _, wanted = value.partition(":")
    if name == "group":
        return None if wanted in entry.get("some", ()) else wanted in entry.get("groups", ())
    cell = entry.get("traits", {}).get(name)
    if not cell:
        return None
    held = cell["is"]
    if isinstance(held, bool):
        return held == (wanted in ("yes", "true"))
    return wanted in held if isinstance(held, list) else str(held) == wanted


def _limits_shut(rule: Rule) -> bool:
    """Over and under the same quantity that leave no room between them, or beyond what the quantity can be."""
    for name in {limit.quantity for limit in rule.limits}:
        own = [limit for limit in rule.limits if limit.quantity == name]
        low = max((limit.value for limit in own if limit.above), default=float("-inf"))
        high = min((limit.value for limit in own if not limit.above), default=float("inf"))
        if low >= high or (name.endswith("share") and low >= 1) or (high <= 0 and name not in _BELOW_ZERO):
            return True
    return False


_BELOW_ZERO = ("temperature_c", "kept_at_c", "frost_days", "spring_frost_days")


def _within_shut(rule: Rule) -> bool:
    """Done within the last 30 days, and not within the last 60."""
    barred = dict(rule.not_within)
    return any(
        work in barred and (barred[work] == days or (_is_days(days, barred[work]) and int(days) <= int(barred[work])))
        for work, days in rule.within
    )


def _is_days(*values: int | str) -> bool:
    return all(isinstance(value, int) for value in values)


def _limits_imply(narrow: Iterable[Limit], wide: Iterable[Limit]) -> bool:
    rows = list(narrow)
    return all(
        any(
            n.quantity == w.quantity and n.above == w.above and (n.value >= w.value if w.above else n.value <= w.value)
            for n in rows
        )
        for w in wide
    )


def _within_implies(narrow: Rule, wide: Rule) -> bool:
    own, barred = dict(narrow.within), dict(narrow.not_within)
    for work, days in wide.within:
        held = own.get(work)
        if held is None or not (held == days or (_is_days(days, held) and int(held) <= int(days))):
            return False
    for work, days in wide.not_within:
        held = barred.get(work)
        if held is None or not (held == days or (_is_days(days, held) and int(held) >= int(days))):
            return False
    return True
