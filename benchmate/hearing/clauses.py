"""A clause and what every step of assembling needs: the setting, the chain of a tree, dates."""

from __future__ import annotations

import datetime as dt
from typing import Any

from benchmate.value import dataclass, field

from .automaton import Node
from .date_spans import first_time
from .dates import FIRST_FROST, When
from .doing import Mood
from .lending import NOTHING_LENT, Lent
from .lexicon import Lexicon
from .phrases import Phrase
from .reading import Fact, Work
from .spotting import Token

TRUNKS = ("trunk", "base")


@dataclass
class Clause:
    """What one clause gives. kind: the head of its tree. joined: the separators before it. idle: tokens that turned out
    to say nothing where they stand; they count as missed. since: the small words and the verb phrase of what happened
    before ("since I repotted it"). verbless: work told without a verb ("wire off"). onward: since `when`, not at it.
    day: the day meant within `when` ("late April"). every: days from one time to the next ("every fortnight").
    ahead: up to when a question about what is due looks.
    dated: the date that it begins with.
    aside: something was said of it that no rule asks for ("the left one is thicker"). by_grower: somebody is named who
    does the work ("I", "we"). refused: it only says what was not meant. passing: it
    turns to a tree only to say more of it ("looking at the elm, ..."). leaving: it tells how much a cut leaves
    ("..., leaving two leaves")."""

    kind: str
    joined: tuple[str, ...] = ()
    acts: list[str] = field(default_factory=list)
    topic: str | None = None
    facts: list[Fact] = field(default_factory=list)
    work: list[Work] = field(default_factory=list)
    measures: dict[str, float] = field(default_factory=dict)
    series: list[tuple[str, float]] = field(default_factory=list)
    when: str | None = None
    figure: str | None = None
    tree: str | None = None
    pick: int | None = None
    term: str | None = None
    note: str | None = None
    candidates: list[Fact] = field(default_factory=list)
    refers: list[str] = field(default_factory=list)
    means: list[str] = field(default_factory=list)
    idle: list[Token] = field(default_factory=list)
    phrase: Phrase | None = None
    mood: Mood | None = None
    denied: bool = False
    asked: bool = False
    vague: bool = False
    because_at: int | None = None
    supposes: list[Work] = field(default_factory=list)
    since: tuple[list[str], Node] | None = None
    verbless: bool = False
    onward: bool = False
    day: str | None = None
    every: int = 0
    ahead: str | None = None
    dated: Token | None = None
    aside: bool = False
    by_grower: bool = False
    refused: bool = False
    passing: bool = False
    leaving: bool = False
    span: tuple[int, int] = (0, 0)
    taken: bool = False

    @property
    def idle_whole(self) -> bool:
        """Nothing came of this clause, and no other one took it in."""
        gave = (
            self.acts,
            self.facts,
            self.work,
            self.measures,
            self.means,
            self.tree,
            self.candidates,
            self.when,
            self.taken,
        )
        return not any(gave)


@dataclass
class Setting:
    """What the words are read against. on: today as ISO text, for dates that only say "now". first_frost: ISO date or
    None. before: the clauses of this statement that are assembled already. size: how many words the statement has.
    lent: the parts that "it" and "them" may mean from what was said last."""

    lexicon: Lexicon
    on: str
    first_frost: str | None = None
    size: int = 0
    before: list[Clause] = field(default_factory=list)
    lent: Lent = NOTHING_LENT


def take_date(setting: Setting, clause: Clause, token: Token, past: bool, drop_now: bool = False) -> None:
    when: When = token.value
    if when.deadline and clause.topic in ("may", "why", "compare"):
        return  # "can I prune before winter?" asks about now, not about winter
    clause.every = when.every or clause.every
    past = (past or _tells_size(clause)) and not _reminded_too(setting, clause)
    text = when.past if past else when.future
    if when.every and text is None and clause.kind == "remind":
        text = first_time(when.every, setting.on)
    if text == FIRST_FROST:
        text = setting.first_frost
    if text is None or (drop_now and len(text) in (4, 7) and setting.on.startswith(text)):
        return
    clause.when, clause.onward = text, when.onward
    clause.day = when.past_day if past else when.future_day


def _tells_size(clause: Clause) -> bool:
    """ "the trunk was 40 mm in March": a size that is told was measured; the weather may be forecast."""
    sized = {name for name in clause.measures if name.endswith("_mm")} or clause.candidates
    return clause.kind == "observe" and bool(sized)


def _reminded_too(setting: Setting, clause: Clause) -> bool:
    """ "remind me to check the pine and the juniper on 1 April": to come back to the juniper too."""
    before = setting.before[-1] if setting.before else None
    kinds = clause.kind == "observe" and all(fact.kind == "species" for fact in clause.facts)
    return kinds and before is not None and before.kind == "remind" and before.when is None


NEAR = 60  # days back within which a day without a year is rather past than nearly a year ahead


def is_just_past(setting: Setting, token: Token) -> bool:
    """Whether a day without a year lies a few weeks back rather than most of a year ahead."""
    when: When = token.value
    texts = (when.past or "", when.future or "", setting.on)
    if when.past == when.future or any(len(text) != 10 or not text[0].isdigit() for text in texts):
        return False
    past, future, on = (dt.date.fromisoformat(text) for text in texts)
    return (on - past).days <= min(NEAR, (future - on).days)


def chain(node: Any, whole: str = "") -> list[tuple[str, Any]]:
    """A left-branching chain, flat: ("np", node), ("aux", [values]), ("link", token). whole: a kind of node kept so."""
    out: list[tuple[str, Any]] = []
    if isinstance(node, Token):
        return [("link", node)]
    if node.name == "np":
        return [("np", node)]
    if node.name == "auxs":
        return [("aux", [token.value for token in node.children])]
    for child in node.children:
        out += [(whole, child)] if isinstance(child, Node) and child.name == whole else chain(child, whole)
    return out
