"""The reading: what a statement was taken to say, as the contract lays it out."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from benchmate.value import dataclass, field

Span = tuple[int, int]

_NO_MEASURES: Mapping[str, float] = {}


@dataclass(frozen=True, slots=True)
class Spot:
    """Where on the tree: any of part, side, level, ordinal and count may be None."""

    part: str | None = None
    side: str | None = None
    level: str | None = None
    ordinal: int | None = None
    count: int | None = None

    def as_json(self) -> dict[str, Any]:
        values = {
            "part": self.part,
            "side": self.side,
            "level": self.level,
            "ordinal": self.ordinal,
            "count": self.count,
        }
        return {key: value for key, value in values.items() if value is not None}


NOWHERE = Spot()


@dataclass(frozen=True, slots=True)
class Fact:
    """Something stated about the tree.

    kind: species, flush, stage, health, phase, finding, event, weather or trait. value: from the vocabulary; an int
    for a flush; for a trait "name:value" (`flush:single`). when: ISO date, month, year or season, for events.
    measures: vocabulary measure -> value. denied: true where the statement says that it is not so ("not" in JSON).
    span: first and last+1 character of the words as said.
    """

    kind: str
    value: str | int
    spot: Spot = NOWHERE
    measures: Mapping[str, float] = field(default_factory=lambda: _NO_MEASURES)
    when: str | None = None
    denied: bool = False
    span: Span = (0, 0)

    def as_json(self) -> dict[str, Any]:
        out: dict[str, Any] = {"kind": self.kind, "value": self.value, **self.spot.as_json(), **self.measures}
        if self.when:
            out["when"] = self.when
        if self.denied:
            out["not"] = True
        return out | {"span": list(self.span)}


@dataclass(frozen=True, slots=True)
class Work:
    """Work that is done, meant, refused or asked about.

    work: from the vocabulary, or None where only its place is said (a correction). done: done, now, later, not; None
    inside a question. manner: how it is done where that decides advice ("hard", "bare-wood", "all"). denied: inside a
    question, that it was not or would not be done ("which have not been fed").
    """

    work: str | None
    spot: Spot = NOWHERE
    measures: Mapping[str, float] = field(default_factory=lambda: _NO_MEASURES)
    done: str | None = None
    manner: tuple[str, ...] = ()
    span: Span = (0, 0)
    denied: bool = False

    def as_json(self) -> dict[str, Any]:
        out: dict[str, Any] = {"work": self.work} if self.work else {}
        out |= self.spot.as_json() | dict(self.measures)
        if self.done:
            out["done"] = self.done
        if self.manner:
            out["manner"] = list(self.manner)
        if self.denied:
            out["not"] = True
        return out | {"span": list(self.span)}


@dataclass(frozen=True, slots=True)
class Guess:
    """A word taken for another. likeness: 0 to 1. grave: it could change the species or the work."""

    heard: str
    taken: str
    likeness: float
    span: Span
    grave: bool = False

    def as_json(self) -> dict[str, Any]:
        return {"heard": self.heard, "taken": self.taken, "likeness": round(self.likeness, 2), "span": list(self.span)}


@dataclass(frozen=True, slots=True)
class Missed:
    """Words that could not be taken in."""

    words: str
    span: Span


@dataclass(frozen=True, slots=True)
class Several:
    """Several trees in one statement. named: their names and taxa in the order said. every: all trees of the garden.
    but: names and taxa that are left out of these. shared: whether the same is said of all of them. pieces: where it is
    not, the words (first and last+1 character) that tell of one or more of them. each: these pieces, read one by one;
    empty where one of them could not be."""

    named: tuple[str, ...] = ()
    every: bool = False
    but: tuple[str, ...] = ()
    shared: bool = True
    pieces: tuple[Span, ...] = ()
    each: tuple[Reading, ...] = ()

    def as_json(self) -> dict[str, Any]:
        out: dict[str, Any] = {"named": list(self.named), "every": self.every, "but": list(self.but)}
        each = {"each": [reading.as_json() for reading in self.each]} if self.each else {}
        return out | {"shared": self.shared} | each


@dataclass(frozen=True, slots=True)
class Reading:
    """One statement, read. Keys as in the contract; lists keep the order of the words.

    candidates: things compared by place ("the left one is 9 mm"), each a Fact of kind "candidate".
    term: what a `meaning` question asks about; a new name; where a new tree comes from. note: the words to keep.
    reason: the words after "because".
    refers: words that need the talk ("one", "other", "same", "it"). means: tools, chemicals and circumstances spoken
    of (rules/words, MEANS). supposes: work that a figure question supposes ("if I halve the leaves").
    onward: since `when` and up to today, not at it. series: every measure in the order said, for figures that take
    one measure twice. either: the two figures that a question may equally ask for, the likelier first.
    ahead: up to when a question about what is due looks: an ISO date, month, year or season; else None.
    several: the trees, where the statement is about more than one; else None.
    day: the day (ISO) that is meant within a month, season or year that `when` names ("late April"); else None.
    kept: stuff named with the work that nothing else here names ("fed it seaweed"); its words stay in the record as
    said.
    foretold: what is said to come ("it will flower in May"), which is no fact; the words count as missed.
    every: days from one time to the next where the work comes again ("every fortnight"), else 0. `when` is the first.
    until: up to when it comes again (ISO date, month, year or season), or None.
    planned: when planned work is meant, where a reminder beside it names no day or another. note: with a reminder, its
    words where they name no work.
    """

    said: str
    acts: tuple[str, ...] = ()
    topic: str | None = None
    facts: tuple[Fact, ...] = ()
    work: tuple[Work, ...] = ()
    measures: Mapping[str, float] = field(default_factory=lambda: _NO_MEASURES)
    figure: str | None = None
    tree: str | None = None
    pick: int | None = None
    when: str | None = None
    missed: tuple[Missed, ...] = ()
    guessed: tuple[Guess, ...] = ()
    candidates: tuple[Fact, ...] = ()
    term: str | None = None
    note: str | None = None
    reason: str | None = None
    refers: tuple[str, ...] = ()
    means: tuple[str, ...] = ()
    series: tuple[tuple[str, float], ...] = ()
    supposes: tuple[Work, ...] = ()
    onward: bool = False
    either: tuple[str, ...] = ()
    ahead: str | None = None
    several: Several | None = None
    day: str | None = None
    every: int = 0
    until: str | None = None
    planned: str | None = None
    kept: tuple[Missed, ...] = ()
    foretold: tuple[Missed, ...] = ()

    @property
    def told_beside(self) -> tuple[Work, ...]:
        """Work told as done in a statement that asks about other work ("repotted it in March, may I feed it")."""
        asked = [work for work in self.work if work.work and work.done is None] if "ask" in self.acts else []
        told = tuple(work for work in self.work if work.work and work.done == "done") if asked else ()
        # "the summer-shortened shoots" are those that the question is about
        hyphens = {work.span[1] for work in asked if self.said[work.span[1] : work.span[1] + 1] == "-"}
        return tuple(work for work in told if work.span[0] - 1 not in hyphens)

    def as_json(self) -> dict[str, Any]:
        """The contract's object; keys beyond the contract only where they say something. What is kept as said is left
        out of the reading like what was missed, and stands among it."""
        left_out = sorted((*self.missed, *self.kept), key=lambda one: one.span)
        out: dict[str, Any] = {
            "said": self.said,
            "acts": list(self.acts),
            "topic": self.topic,
            "facts": [fact.as_json() for fact in self.facts],
            "work": [work.as_json() for work in self.work],
            "measures": dict(self.measures),
            "figure": self.figure,
            "tree": self.tree,
            "pick": self.pick,
            "when": self.when,
            "missed": [missed.words for missed in left_out],
            "guessed": [guess.as_json() for guess in self.guessed],
        }
        more: dict[str, Any] = {
            "candidates": [fact.as_json() for fact in self.candidates],
            "term": self.term,
            "note": self.note,
            "reason": self.reason,
            "refers": list(self.refers),
            "means": list(self.means),
            "supposes": [work.as_json() for work in self.supposes],
            "onward": self.onward,
            "series": [list(pair) for pair in self.series],
            "either": list(self.either),
            "ahead": self.ahead,
            "several": self.several.as_json() if self.several else None,
            "day": self.day,
            "every": self.every,
            "until": self.until,
            "planned": self.planned,
            "missed_spans": [list(missed.span) for missed in left_out],
            "kept": [kept.words for kept in self.kept],
            "foretold": [one.words for one in self.foretold],
        }
        return out | {key: value for key, value in more.items() if value}
