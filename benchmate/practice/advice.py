"""The advice: options with their reasons for and against, cautions, questions. Every sentence names its rule."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from benchmate.fault import Fault
from benchmate.hearing.reading import NOWHERE, Reading, Spot
from benchmate.value import dataclass, field

GO, HOLD, AVOID, ASK = "go", "hold", "avoid", "ask"


@dataclass(frozen=True, slots=True)
class Reason:
    """One sentence and what it rests on. mark: published, practice or memory. yours: from the grower's own rules.

    where: page or table in the source. disputes: rules that say otherwise, an open question. rests_on: the facts that
    made it speak, told.
    """

    rule: str
    says: str
    source: str | None = None
    mark: str = "practice"
    weight: int = 0
    yours: bool = False
    where: str | None = None
    disputes: tuple[str, ...] = ()
    rests_on: tuple[str, ...] = ()

    def as_json(self) -> dict[str, Any]:
        out: dict[str, Any] = {"rule": self.rule, "says": self.says, "source": self.source, "mark": self.mark}
        if self.disputes:
            out["disputes"] = list(self.disputes)
        return out | ({"yours": True} if self.yours else {})


@dataclass(frozen=True, slots=True)
class Follow:
    """What to come back for. on: ISO date. weather: held back until this weather ("frost-free"), or None."""

    work: str
    on: str
    says: str
    part: str | None = None
    rule: str | None = None
    weather: str | None = None

    def as_json(self) -> dict[str, Any]:
        out: dict[str, Any] = {"work": self.work, "part": self.part, "on": self.on, "says": self.says}
        if self.rule:
            out["rule"] = self.rule
        return out | ({"weather": self.weather} if self.weather else {})


@dataclass(frozen=True, slots=True)
class Caution:
    """A warning that stands before the options. kind: tree, person or law. short: how it is told once the session has
    had it in full."""

    id: str
    kind: str
    says: str
    source: str | None = None
    mark: str = "practice"
    short: str = ""

    def as_json(self) -> dict[str, Any]:
        return {"id": self.id, "kind": self.kind, "says": self.says, "source": self.source, "mark": self.mark}


@dataclass(frozen=True, slots=True)
class Ask:
    """A question whose answer would change the advice. fact: the kind of fact or the measure that is lacking."""

    fact: str
    says: str
    rules: tuple[str, ...] = ()

    def as_json(self) -> dict[str, Any]:
        return {"fact": self.fact, "says": self.says, "rules": list(self.rules)}


@dataclass(frozen=True, slots=True)
class Option:
    """One thing that could be done. window: `opens` and `closes` are ISO dates or None.

    how: asked, decided, done, offered or leave. rest: the tree without the places that have options of their own.
    manner: as in the work that was spoken of. first: what must change before the window counts, where time alone does
    not lift the hold.
    """

    work: str
    spot: Spot = NOWHERE
    verdict: str = GO
    opens: str | None = None
    closes: str | None = None
    because: tuple[Reason, ...] = ()
    against: tuple[Reason, ...] = ()
    amount: Mapping[str, float] = field(default_factory=dict)
    follow: tuple[Follow, ...] = ()
    weight: int = 0
    how: str = "asked"
    rest: bool = False
    manner: tuple[str, ...] = ()
    first: tuple[Reason, ...] = ()

    def as_json(self) -> dict[str, Any]:
        first = {"first": [reason.as_json() for reason in self.first]} if self.first else {}
        return first | {
            "work": self.work,
            **self.spot.as_json(),
            "verdict": self.verdict,
            "from": self.opens,
            "until": self.closes,
            "because": [reason.as_json() for reason in self.because],
            "against": [reason.as_json() for reason in self.against],
            "amount": dict(self.amount),
            "follow": [follow.as_json() for follow in self.follow],
        }


@dataclass(frozen=True, slots=True)
class FigureTold:
    """A number worked out, as the contract carries it. value: a number, or an ISO date for a date.

    notes: what to say with it, cautions first. beside: further numbers of the same sum, as (name, value, unit).
    opens: yes or no with its reason, where the question can be answered so.
    """

    figure: str
    value: float | str | None
    unit: str
    low: float | str | None
    high: float | str | None
    how: str
    source: str
    mark: str = "practice"
    limits: str = ""
    notes: tuple[str, ...] = ()
    beside: tuple[tuple[str, float | str, str], ...] = ()
    opens: str = ""

    def as_json(self) -> dict[str, Any]:
        out: dict[str, Any] = {
            "figure": self.figure,
            "value": self.value,
            "unit": self.unit,
            "low": self.low,
            "high": self.high,
            "how": self.how,
            "source": self.source,
            "mark": self.mark,
            "limits": self.limits,
        }
        if self.notes:
            out["notes"] = list(self.notes)
        if self.beside:
            out["beside"] = [{"name": name, "value": value, "unit": unit} for name, value, unit in self.beside]
        return out


@dataclass(frozen=True, slots=True)
class Trace:
    """How one rule came out for one option. truth: True, False or None (unknown). by: the test that decided, in words.

    work, spot: the option it was weighed for. verdict: the rule's, if it has one. beaten: the rule that silenced it.
    lacks: the kinds of fact that would decide.
    """

    rule: str
    truth: bool | None
    by: str
    work: str = ""
    spot: Spot = NOWHERE
    verdict: str | None = None
    beaten: str | None = None
    lacks: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Advice:
    """The whole answer to one statement, before it is told or logged.

    dose_left: share of the foliage that may still go this season, or None where no cap holds. assumed: what was taken
    for want of knowing, told. facts: what the advice rests on, each with its origin, told. faults: rules that failed.
    turned: it was asked whether the work is wrong ("is it too late to"), so that yes would say the opposite.
    """

    reading: Reading
    tree: str | None
    on: str
    options: tuple[Option, ...] = ()
    cautions: tuple[Caution, ...] = ()
    asks: tuple[Ask, ...] = ()
    figures: tuple[FigureTold, ...] = ()
    dose_left: float | None = None
    assumed: tuple[str, ...] = ()
    trace: tuple[Trace, ...] = ()
    facts: tuple[str, ...] = ()
    faults: tuple[Fault, ...] = ()
    turned: bool = False
