"""What the rules know of each taxon and work: by a rule that picks it out, by default, or not at all."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from benchmate.practice.book import Rule, RuleBook
from benchmate.practice.bounds import Bounds

RULE, KIND, DEFAULT, NONE = "rule", "kind", "default", "none"


def cover(book: RuleBook, works: Iterable[str] = ()) -> Mapping[str, Mapping[str, str]]:
    """taxon -> work -> "rule" (one names the taxon), "kind" (one picks out its group or trait), "default" (only what
    holds for every tree) or "none"."""
    bounds = Bounds(book)
    named = list(works) or list(book.works)
    table: dict[str, dict[str, str]] = {taxon: dict.fromkeys(named, NONE) for taxon in book.taxa}
    for rule in book.rules:
        if rule.kind != "rule":
            continue
        how = _how(rule)
        taxa = bounds.rule_taxa(rule)
        for taxon in taxa:
            for work in rule.work:
                if work in table[taxon] and _order(how) < _order(table[taxon][work]):
                    table[taxon][work] = how
    return table


def _how(rule: Rule) -> str:
    kinds = {test.kind for clause in rule.condition for tests in clause for test in tests if not test.denied}
    return RULE if "species" in kinds else KIND if "trait" in kinds else DEFAULT


def _order(how: str) -> int:
    return (RULE, KIND, DEFAULT, NONE).index(how)
