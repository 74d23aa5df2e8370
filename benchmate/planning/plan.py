"""The plan's values: works over coming seasons, each with its window, its reasons, what it needs and what it moves."""

from __future__ import annotations

from typing import Any

from benchmate.hearing.reading import NOWHERE, Spot
from benchmate.planning.outlook import Outlook
from benchmate.practice.advice import Ask, Caution, Reason
from benchmate.value import dataclass


@dataclass(frozen=True, slots=True)
class Move:
    """What becomes of one item where another is skipped. id: the item that moves. opens, closes: its new window as ISO
    dates, None where it falls out of the plan. says: the same in words, without dates."""

    id: str
    work: str
    opens: str | None
    closes: str | None
    says: str

    def as_json(self) -> dict[str, Any]:
        return {"id": self.id, "work": self.work, "from": self.opens, "until": self.closes, "says": self.says}


@dataclass(frozen=True, slots=True)
class Item:
    """One work of a plan.

    id: stable for the same tree, rules and day. opens, closes: first and last day, ISO; on any day between them no rule
    stands against it. stage: the growth stage or season that the window stands for. aim: what it is for. why: reasons
    for it and for its time; not_sooner: what stands against the chance before. needs: ids of items that must be done
    before it. moves: what shifts if it is skipped. heavy: a serious work. weight: how much the plan makes of it, 1 to
    100. share: of the foliage or the roots, where it takes any. taken: what is taken to be so by then, as (kind,
    value). asks: what to look at first.
    """

    id: str
    wish: str
    work: str
    opens: str
    closes: str
    stage: str
    aim: str
    spot: Spot = NOWHERE
    why: tuple[Reason, ...] = ()
    not_sooner: tuple[Reason, ...] = ()
    needs: tuple[str, ...] = ()
    moves: tuple[Move, ...] = ()
    heavy: bool = False
    weight: int = 0
    share: float | None = None
    manner: tuple[str, ...] = ()
    taken: tuple[tuple[str, str], ...] = ()
    cautions: tuple[Caution, ...] = ()
    asks: tuple[Ask, ...] = ()

    def as_json(self) -> dict[str, Any]:
        out: dict[str, Any] = {
            "id": self.id,
            "work": self.work,
            **self.spot.as_json(),
            "from": self.opens,
            "until": self.closes,
            "stage": self.stage,
            "aim": self.aim,
            "why": [reason.as_json() for reason in self.why],
            "not_sooner": [reason.as_json() for reason in self.not_sooner],
            "needs": list(self.needs),
            "moves": [move.as_json() for move in self.moves],
            "heavy": self.heavy,
            "weight": self.weight,
        }
        more: dict[str, Any] = {
            "share": self.share,
            "manner": list(self.manner),
            "taken": dict(self.taken),
            "cautions": [caution.as_json() for caution in self.cautions],
            "asks": [ask.as_json() for ask in self.asks],
        }
        return out | {key: value for key, value in more.items() if value}


@dataclass(frozen=True, slots=True)
class LeftOut:
    """A work that the phase asks for and the plan does not hold, with the reasons."""

    wish: str
    work: str
    aim: str
    why: tuple[Reason, ...] = ()
    spot: Spot = NOWHERE

    def as_json(self) -> dict[str, Any]:
        return {"work": self.work, **self.spot.as_json(), "aim": self.aim, "why": [r.as_json() for r in self.why]}


@dataclass(frozen=True, slots=True)
class Plan:
    """Works laid over the coming seasons, soonest first.

    on, until: first and last day of the span, ISO. phase: of development, None where it is not known. toward: what the
    works lead to, in words. assumed: what was taken for want of knowing, in words. asks: what would change the plan.
    worth: the sum that was made as large as the rules let it. exact: no plan of more worth exists; False where there
    were too many to look at.
    """

    tree: str
    species: str | None
    on: str
    until: str
    years: int
    phase: str | None = None
    toward: str = ""
    items: tuple[Item, ...] = ()
    left_out: tuple[LeftOut, ...] = ()
    assumed: tuple[str, ...] = ()
    asks: tuple[Ask, ...] = ()
    outlook: tuple[Outlook, ...] = ()
    worth: int = 0
    exact: bool = True

    def as_json(self) -> dict[str, Any]:
        return {
            "tree": self.tree,
            "species": self.species,
            "on": self.on,
            "until": self.until,
            "years": self.years,
            "phase": self.phase,
            "toward": self.toward,
            "items": [item.as_json() for item in self.items],
            "left_out": [row.as_json() for row in self.left_out],
            "assumed": list(self.assumed),
            "asks": [ask.as_json() for ask in self.asks],
            "forecast": [row.as_json() for row in self.outlook],
            "worth": self.worth,
            "exact": self.exact,
        }
