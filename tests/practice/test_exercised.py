"""Every rule, caution, work, kind of tree and word for its traits is exercised by some case; what is not is named here.

The lists below hold what no case reaches and why. They may only shrink: what is listed and reached fails as well.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache

import pytest
from example_runner import DAY, answer, built, cases
from test_every_taxon import TAXA

from benchmate.hearing import hear

# genera of one trained species: the bare name is heard as that species
MEANS_ITS_SPECIES = {
    "Carmona",
    "Cryptomeria",
    "Ginkgo",
    "Liquidambar",
    "Metasequoia",
    "Murraya",
    "Nandina",
    "Nerium",
    "Parrotia",
    "Portulacaria",
    "Robinia",
    "Sageretia",
    "Sequoia",
    "Serissa",
    "Zelkova",
}
# values that growers may say of a tree, told back and kept, on which no advice turns yet
NO_RULE_ASKS = {
    "bleeding:gum",
    "bleeding:no",
    "bleeding:resin",
    "dominance:medium",
    "dominance:strong",
    "dominance:weak",
    "leaf:succulent",
    "leafing:early",
    "leafing:late",
    "leafing:middle",
    "repot:autumn",
    "thorns:no",
    "toxicity:mild",
    "toxicity:none",
}
FRAMES = ("{}", "it {}", "it is {}", "it is a {}", "is it a {}")


def same(unreached: Iterable[str], listed: set[str], what: str) -> None:
    left = set(unreached)
    assert left <= listed, f"{what} that no case exercises: {sorted(left - listed)}"
    assert listed <= left, f"{what} that some case exercises by now; take them off the list: {sorted(listed - left)}"


@lru_cache(maxsize=1)
def reached() -> dict[str, set[str]]:
    """What the examples in the rules bring forth: rules that speak, cautions that are told, works that are weighed."""
    out: dict[str, set[str]] = {"rule": set(), "held": set(), "caution": set(), "work": set()}
    for case in cases():
        told = answer(case.claim)
        out["caution"] |= {caution.id for caution in told.cautions}
        out["held"] |= {trace.rule for trace in told.trace if trace.truth}
        for option in told.options:
            out["work"].add(option.work)
            out["rule"] |= {reason.rule for reason in (*option.because, *option.against)}
    return out


def phrases() -> list[tuple[str, str]]:
    traits = built()[0].tables["words/traits.toml"]["trait"]
    return [
        (f"{trait}:{value}", phrase)
        for trait, values in traits.items()
        for value, cell in values.items()
        for phrase in cell["says"]
    ]


def test_every_rule_speaks_in_some_example():
    book = built()[2]
    same({rule.id for rule in book.rules if rule.kind == "rule"} - reached()["rule"], set(), "rules")
    conditions = {rule.id for rule in book.rules if rule.kind == "caution"}
    same(conditions - reached()["held"], set(), "conditions of cautions")
    caps = {rule.id for rule in book.rules if rule.kind in ("cap", "root_cap")}
    same(caps - reached()["rule"], set(), "caps of the season's budget")


def test_every_caution_is_told_in_some_example():
    # told in the talk alone: tests/talk/test_first_aid.py
    spoken = {id for id, table in built()[2].cautions.items() if table.get("told") or table.get("beside")}
    same(set(built()[2].cautions) - spoken - reached()["caution"], set(), "cautions")


def test_every_work_has_rules_and_is_weighed():
    book = built()[2]
    ruled = {work for rule in book.rules if rule.kind == "rule" for work in rule.work}
    same(set(book.works) - ruled, set(), "works without a rule")
    same(set(book.works) - reached()["work"], set(), "works")


def test_every_kind_of_tree_is_weighed_and_heard_by_its_name():
    _, lexicon, book = built()
    assert set(book.taxa) == set(TAXA)

    def heard(taxon: str, name: str) -> bool:
        facts = hear(f"{name}, can I feed it", lexicon, DAY).facts
        return any(fact.kind == "species" and fact.value == taxon for fact in facts)

    named = {taxon: (taxon, *book.taxa[taxon].get("names", ())) for taxon in book.taxa}
    unheard = {taxon for taxon, names in named.items() if not any(heard(taxon, name) for name in names)}
    same(unheard, MEANS_ITS_SPECIES, "kinds of tree")


@pytest.mark.parametrize(("trait", "phrase"), phrases(), ids=lambda value: value.replace(" ", "-"))
def test_every_word_for_a_trait_is_heard(trait, phrase):
    _, lexicon, _ = built()
    readings = [hear(frame.format(phrase), lexicon, DAY) for frame in FRAMES]
    said = [(fact.kind, fact.value) for reading in readings for fact in reading.facts if not fact.denied]
    assert ("trait", trait) in said, readings[0].as_json()


def test_every_trait_that_can_be_said_is_asked_by_some_rule():
    book = built()[2]
    asked = {
        str(test.value)
        for rule in book.rules
        for clause in rule.condition
        for tests in clause
        for test in tests
        if test.kind == "trait"
    }
    same({trait for trait, _ in phrases()} - asked, NO_RULE_ASKS, "trait words")


def test_every_group_of_trees_holds_more_than_its_name():
    taxa = built()[2].taxa
    grouped = {group for taxon in taxa for group in taxa[taxon]["groups"]}
    listed = set(built()[0].tables["species/groups.toml"]["group"])
    same(listed - grouped, set(), "groups without a tree")
