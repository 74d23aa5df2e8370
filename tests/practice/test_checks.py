"""Every check of the rule base finds the fault it is for, and nothing in a sound one."""

from __future__ import annotations

import copy
import tomllib

import pytest
from conftest import small_tables
from practice_ear import hear_by_hand

from benchmate.practice.bounds import Bounds
from benchmate.practice.check import CHECKS
from benchmate.practice.check_windows import windows_that_never_open
from benchmate.practice.compile import compile_book
from benchmate.practice.cover import cover


def faults_of(extra: str, *names: str) -> list[tuple[str, str]]:
    tables = copy.deepcopy(small_tables())
    tables["practice/more.toml"] = tomllib.loads(extra)
    book = compile_book(tables, None, hear=hear_by_hand)
    found = list(book.faults)
    for check in CHECKS:
        if not names or check.__name__ in names:
            found += check(book, Bounds(book), lambda name, id, key="": (name, 0))
    return [(fault.id, fault.problem) for fault in found if fault.path == "practice/more.toml"]


RULE = '[[rule]]\nid = "{id}"\nwork = {work}\nsays = "S."\nmark = "practice"\n'

BAD = {
    "two values of one kind": ("when = 'weak tree, strong tree'\nverdict = 'hold'", "never hold"),
    "said and denied": ("when = 'dry, no dry'\nverdict = 'hold'", "never hold"),
    "stages apart": ("when = 'dormant, leafing out'\nverdict = 'hold'", "never hold"),
    "no such tree": ("when = 'conifer, broadleaf'\nverdict = 'hold'", "never hold"),
    "taxon without the trait": ("when = 'maple, deadly tree'\nverdict = 'hold'", "never hold"),
    "empty span of a number": ("limits = {share_over = 0.4, share_under = 0.3}\nverdict = 'hold'", "never hold"),
    "share above all": ("limits = {share_over = 1.0}\nverdict = 'hold'", "never hold"),
    "within and not within": ("within = {repot = 30}\nnot_within = {repot = 60}\nverdict = 'hold'", "never hold"),
    "unknown quantity": ("limits = {frost_day_under = 30}\nverdict = 'hold'", "'frost_day' is no quantity"),
    "unknown work in a quantity": ("limits = {days_since_repott_under = 30}\nverdict = 'hold'", "'repott' is no work"),
    "limit without an end": ("limits = {frost_days = 30}\nverdict = 'hold'", "must end in _over or _under"),
    "words nobody knows": ("when = 'purple tree'\nverdict = 'hold'", "does not read whole"),
}


@pytest.mark.parametrize("name", BAD)
def test_a_rule_that_cannot_work_is_named(name):
    text, problem = BAD[name]
    found = faults_of(RULE.format(id="bad", work='"feed"') + text)
    assert [id for id, _ in found] == ["bad"]
    assert problem in found[0][1]


SOUND = [
    "when = 'weak or strong tree, not a declining tree'\nverdict = 'hold'",
    "when = 'hardened, not dormant'\nverdict = 'hold'",
    "limits = {share_over = 0.3, share_under = 0.4}\nverdict = 'hold'",
    "limits = {temperature_c_under = -5}\nverdict = 'hold'",
    "within = {repot = 60}\nnot_within = {repot = 30}\nverdict = 'hold'",
    "when = 'conifer or broadleaf, beech or yew'\nverdict = 'hold'",
]


@pytest.mark.parametrize("text", SOUND)
def test_a_sound_rule_is_left_alone(text):
    assert faults_of(RULE.format(id="good", work='"feed"') + text) == []


def pair(one: str, other: str) -> str:
    return RULE.format(id="one", work='"wire"') + one + "\n" + RULE.format(id="other", work='"wire"') + other


@pytest.mark.parametrize(
    ("go", "block"),
    [
        ("when = 'maple'", "when = 'maple'"),
        ("when = 'maple, strong tree'", "when = 'maple'"),
        ("when = 'maple'", "when = 'broadleaf'"),
        ("limits = {diameter_mm_over = 30}", "limits = {diameter_mm_over = 20}"),
        ("when = 'strong tree'", "when = 'not a weak tree'"),
        ("within = {repot = 30}", "within = {repot = 60}"),
    ],
)
def test_a_go_that_a_block_covers_is_a_contradiction(go, block):
    found = faults_of(pair(f"{go}\nverdict = 'go'", f"{block}\nverdict = 'avoid'"), "contradictions")
    assert [id for id, _ in found] == ["one"]
    beats = faults_of(pair(f"{go}\nverdict = 'go'\nbeats = ['other']", f"{block}\nverdict = 'avoid'"), "contradictions")
    assert beats == []


@pytest.mark.parametrize(
    ("go", "block"),
    [
        ("when = 'maple'", "when = 'maple, weak tree'"),
        ("when = 'strong tree'", "when = 'weak tree'"),
        ("when = 'maple'", "when = 'conifer'"),
        ("within = {repot = 60}", "within = {repot = 30}"),
        ("", "manner = 'hard'"),
    ],
)
def test_an_exception_or_another_case_is_no_contradiction(go, block):
    assert faults_of(pair(f"{go}\nverdict = 'go'", f"{block}\nverdict = 'avoid'"), "contradictions") == []


def test_weights_that_pull_apart_on_one_condition_are_a_dispute_to_be_named():
    told = pair("when = 'maple'\nweight = 2", "when = 'maple'\nweight = -2")
    assert [id for id, _ in faults_of(told, "contradictions")] == ["one"]
    named = pair("when = 'maple'\nweight = 2\ndisputes = ['other']", "when = 'maple'\nweight = -2\ndisputes = ['one']")
    assert faults_of(named, "contradictions") == []


def test_a_rule_that_is_always_beaten_never_speaks():
    text = pair("when = 'maple, strong tree'\nverdict = 'hold'", "when = 'maple'\nverdict = 'go'\nbeats = ['one']")
    assert faults_of(text, "rules_that_never_speak") == [("one", "never speaks: 'other' beats it whenever it holds")]


def test_a_window_that_never_opens_is_named_with_the_trees():
    text = RULE.format(id="shut", work='"wire"') + "when = 'maple'\nverdict = 'hold'\nopens = {stage = 'candles'}"
    [(id, problem)] = faults_of(text, windows_that_never_open.__name__)
    assert id == "shut"
    assert "never lets go in the north and the south" in problem and "Acer" in problem
    open = text.replace("candles", "hardened")
    assert faults_of(open, windows_that_never_open.__name__) == []


def test_the_small_rule_base_covers_its_taxa_by_kind_and_by_default(book):
    table = cover(book)
    assert table["Taxus"]["shorten"] == "rule"
    assert table["Pinus"]["shorten"] == "kind"
    assert table["Acer campestre"]["feed"] == "default"
    assert table["Acer campestre"]["check"] == "none"


def test_the_rules_that_ship_pass_every_check():
    from example_runner import built

    from benchmate.practice.check import check_rules

    tables, _, book = built()
    faults = check_rules(tables, book)
    assert not faults, "\n".join(map(str, faults))
