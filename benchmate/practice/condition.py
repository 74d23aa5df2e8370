"""A rule's condition: plain words, read by the same ear as the grower's, into tests on facts.

Commas join clauses that must all hold; " or " parts what may stand for one another inside a clause; what one piece of
words states together ("full second flush") holds together. So a condition is a list of clauses, a clause a list of
alternatives, an alternative a list of tests.
"""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Callable, Mapping, Sequence
from typing import Any

from benchmate.hearing.reading import NOWHERE, Fact, Reading, Spot
from benchmate.value import dataclass, replace

# Conditions name no day, so they are read on a day of their own: its year means "this season", the year before "last".
READ_ON = dt.date(2001, 6, 15)
# one value at a time is true of these, so a known value answers every test
SINGLE = ("health", "phase", "flush")
UNSEEN = "unseen"

Hear = Callable[[str], Reading]
Names = Mapping[str, tuple[str, str]]
_NO_NAMES: Names = {}
_DENIALS = ("no ", "not ", "without ")


@dataclass(frozen=True, slots=True)
class Claim:
    """One test on the facts. kind and value as in a Fact. ever: for events, "season", "last-season" or "ever"; for a
    finding UNSEEN where silence leaves it unknown, and it is asked."""

    kind: str
    value: str | int
    spot: Spot = NOWHERE
    denied: bool = False
    ever: str = "ever"

    def as_plain(self) -> list[Any]:
        spot = self.spot.as_json()
        row = [self.kind, self.value, spot or 0, int(self.denied), self.ever]
        while len(row) > 2 and row[-1] in (0, "ever"):
            row.pop()
        return row

    @classmethod
    def from_plain(cls, row: list[Any]) -> Claim:
        row = row + [0, 0, "ever"][len(row) - 2 :]
        return cls(row[0], row[1], Spot(**row[2]) if row[2] else NOWHERE, bool(row[3]), row[4])

    @property
    def words(self) -> str:
        """The test as it is told: "not weak", "repotted this season"."""
        value = str(self.value)
        if self.kind == "trait":
            name, _, value = value.partition(":")
            value = value if name in ("group", "leaf") else f"{name} {value}"
        elif self.kind == "flush":
            value = f"flush {value}"
        elif self.kind == "event":
            value += {"season": " this season", "last-season": " last season"}.get(self.ever, "")
        where = " ".join(str(w) for w in (self.spot.level, self.spot.side, self.spot.part) if w)
        return ("not " if self.denied else "") + (f"{where} " if where else "") + value.replace("-", " ")


Clause = tuple[tuple[Claim, ...], ...]
Condition = tuple[Clause, ...]


def read_condition(words: str, hear: Hear, names: Names = _NO_NAMES) -> tuple[Condition, list[str]]:
    """The tests of a condition, and what is wrong with it in words. With any fault the condition must not be used.

    names: the vocabulary's own names ("wire biting" -> finding, wire-biting). They may always stand for themselves,
    also where a statement of these words alone would be no sentence.
    """
    clauses: list[Clause] = []
    wrong: list[str] = []
    for piece in re.split(r"[,;]\s*", words.strip()):
        if not piece:
            wrong.append("an empty clause")
            continue
        parts = re.split(r"\s+or\s+", piece)
        read = [_named(part, names) or _read_alternative(part, hear) for part in parts]
        for number, (tests, problem) in enumerate(read):
            if problem and len(parts) > 1:
                read[number] = _with_shared_words(parts, number, hear) or (tests, problem)
        wrong += [problem for _, problem in read if problem]
        clauses.append(tuple(tests for tests, _ in read))
    return tuple(clauses), wrong


def left_open(condition: Condition, findings: Sequence[str]) -> Condition:
    """The condition with these findings unknown, and not absent, where nobody spoke of them."""

    def opened(test: Claim) -> Claim:
        return replace(test, ever=UNSEEN) if test.kind == "finding" and test.value in findings else test

    return tuple(tuple(tuple(opened(test) for test in tests) for tests in clause) for clause in condition)


def _named(words: str, names: Names) -> tuple[tuple[Claim, ...], str] | None:
    """A clause that is a name of the vocabulary, said or denied."""
    bare = words.strip()
    for head in ("not a ", "not an ", "not ", "no "):
        if bare.startswith(head) and bare.removeprefix(head) in names:
            kind, value = names[bare.removeprefix(head)]
            return (Claim(kind, value, denied=True),), ""
    if bare in names:
        kind, value = names[bare]
        return (Claim(kind, value),), ""
    return None


def _read_alternative(words: str, hear: Hear) -> tuple[tuple[Claim, ...], str]:
    reading = hear(words)
    if reading.missed:
        lost = ", ".join(f"'{missed.words}'" for missed in reading.missed)
        return (), f"'{words}': {lost} cannot be read"
    if reading.guessed:
        guess = reading.guessed[0]
        return (), f"'{words}': '{guess.heard}' is not a known word; did you mean '{guess.taken}'?"
    read = [_test_of(fact) for fact in reading.facts]
    for work in reading.work:
        # "repotted this season" without a subject reads as work done
        if work.work and work.done in ("done", "not"):
            read.append(_test_of(Fact("event", work.work, work.spot, when=reading.when, denied=work.done == "not")))
        else:
            return (), f"'{words}' reads as work to be done, not as something that is so"
    if None in read:
        return (), f"'{words}': only 'this season', 'last season' or no time can stand here; days go into `within`"
    tests = [test for test in read if test]
    denied = words.strip().startswith(_DENIALS)
    tests += [Claim("means", value, denied=denied) for value in reading.means]
    if denied and tests and not any(test.denied for test in tests) and _same_without_denial(words, reading, hear):
        # a denial that the ear let fall would turn the rule into its opposite
        tests[0] = replace(tests[0], denied=True)
    if not tests:
        return (), f"'{words}' states nothing"
    if reading.measures or any(fact.measures for fact in reading.facts):
        return (), f"'{words}': measures go into `limits`"
    return tuple(tests), ""


def _same_without_denial(words: str, reading: Reading, hear: Hear) -> bool:
    """Whether "not" made no difference to the ear ("no leaf removal" is a name, and what follows it means another)."""
    bare = hear(words.strip().split(" ", 1)[1])
    return [(f.kind, f.value) for f in bare.facts] == [(f.kind, f.value) for f in reading.facts]


def _test_of(fact: Fact) -> Claim | None:
    spot = Spot(fact.spot.part, fact.spot.side, fact.spot.level, fact.spot.ordinal)
    if fact.kind != "event":
        return Claim(fact.kind, fact.value, spot, fact.denied)
    ever = "ever"
    if fact.when:
        ever = {"2001": "season", "2000": "last-season"}.get(fact.when[:4], "")
        if not ever or (len(fact.when) > 4 and fact.when[4:] not in ("-season",)):
            return None
    return Claim("event", fact.value, spot, fact.denied, ever)


def _with_shared_words(parts: list[str], number: int, hear: Hear) -> tuple[tuple[Claim, ...], str] | None:
    """ "low or inner weak branch": an alternative may lean on the last words of the last one, or the first of the
    first."""
    last, first = parts[-1].split(), parts[0].split()
    tries = [f"{parts[number]} {' '.join(last[-n:])}" for n in range(1, len(last)) if number < len(parts) - 1]
    tries += [f"{' '.join(first[:n])} {parts[number]}" for n in range(1, len(first)) if number]
    for words in tries:
        tests, problem = _read_alternative(words, hear)
        if not problem:
            return tests, ""
    return None
