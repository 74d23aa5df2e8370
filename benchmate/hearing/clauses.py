"""A clause and what every step of assembling needs: the setting, the chain of a tree, dates."""

from __future__ import annotations

import datetime as dt
from typing import Any

from benchmate.value import dataclass, field, replace

from .amounts.date_spans import first_time
from .amounts.dates import FIRST_FROST, When
from .done.doing import AT_ONCE, DONE, LATER, NOW, Mood
from .lattice.automaton import Node
from .lattice.spotting import Token
from .lending import NOTHING_LENT, Lent
from .reading import Fact, Work
from .seen.phrases import Phrase
from .vocabulary.lexicon import Lexicon

SATURDAY = 5  # of a week that begins on Monday
TRUNKS = ("trunk", "base")
_LISTED = frozenset({"and", ",", "pause"})  # what may part trees that are named one behind the other


@dataclass
class Clause:
    """What one clause gives. kind: the head of its tree. joined: the separators before it. idle: tokens that turned out
    to say nothing where they stand; they count as missed. since: the small words and the verb phrase of what happened
    before ("since I repotted it"). verbless: work told without a verb ("wire off"). verb: the verb of its work, with
    each of its particles ("cut|off"). onward: since `when`, not at it.
    day: the day meant within `when` ("late April"). every: days from one time to the next ("every fortnight").
    ahead: up to when a question about what is due looks.
    dated: the date that it begins with.
    led: it begins with who does the work ("if I cut it").
    aside: something was said of it that no rule asks for ("the left one is thicker"). by_grower: somebody is named who
    does the work ("I", "we"). refused: it only says what was not meant. passing: it
    turns to a tree only to say more of it ("looking at the elm, ..."). leaving: it tells how much a cut leaves
    ("..., leaving two leaves"). others: somebody else did it ("a friend repotted his maple"). tells: it says what a
    part is ("the buds are long"). at_base: it says "at the base" of something. until: up to
    when work comes again and again. deadline: `when` is a time up to which, not at which. passive: what was done as
    work, beside the event that stands for it ("the roots were cut by a third"). harmed: it tells what went wrong with a
    part."""

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
    verb: tuple[str, ...] = ()
    onward: bool = False
    day: str | None = None
    every: int = 0
    ahead: str | None = None
    dated: Token | None = None
    aside: bool = False
    by_grower: bool = False
    led: bool = False
    refused: bool = False
    passing: bool = False
    leaving: bool = False
    others: bool = False
    tells: bool = False
    at_base: bool = False
    until: str | None = None
    deadline: bool = False
    passive: list[tuple[Work, Fact]] = field(default_factory=list)
    harmed: bool = False
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
    whole = _named_with(setting, clause)
    if whole is not None and not _still_to_come(setting, whole, when):
        _take_for_all(setting, whole, token)
        return
    if when.deadline and clause.every and not past and when.future:
        clause.until = when.future  # "feed it every two weeks till August"
        return
    clause.every = when.every or clause.every
    if when.every and clause.deadline and clause.when:  # "till August feed it every two weeks"
        clause.until, clause.when = clause.when, None
    clause.deadline = when.deadline
    past = past or _tells_size(clause)
    text = when.past if past else when.future
    if past and text is not None and len(text) == len(setting.on) and text > setting.on:
        text = _this_weekend(text, setting.on)  # "repotted it this weekend", on a Sunday
    ahead = clause.kind == "remind" or (clause.kind == "decide" and clause.mood and clause.mood.done in (NOW, LATER))
    if when.every and text is None and ahead:
        text = first_time(when.every, setting.on)  # "feed it every fortnight" is no feed that was given today
    if text == FIRST_FROST:
        text = setting.first_frost
    asks_month = clause.topic in ("may", "why") and text is not None and len(text) == 7  # "can I repot it this month?"
    if text is None or (drop_now and not asks_month and len(text) in (4, 7) and setting.on.startswith(text)):
        return
    clause.when, clause.onward = text, when.onward
    clause.day = when.past_day if past else when.future_day


def _this_weekend(text: str, on: str) -> str:
    """The Saturday before, where today is Sunday and the next one would be meant."""
    day, yesterday = dt.date.fromisoformat(text), dt.date.fromisoformat(on) - dt.timedelta(days=1)
    meant = yesterday.weekday() == SATURDAY and day - yesterday == dt.timedelta(days=7)
    return yesterday.isoformat() if meant else text


def undone_since(setting: Setting, clause: Clause) -> None:
    """ "Which haven't been repotted in three years": the time that is named lies before today."""
    when, on = clause.when, setting.on
    if when is None or when <= on[: len(when)] or not any(work.denied or work.done == "not" for work in clause.work):
        return
    if len(when) == len(on):
        today = dt.date.fromisoformat(on)
        clause.when = (today - (dt.date.fromisoformat(when) - today)).isoformat()
    elif len(when) == len("2026"):
        clause.when = str(2 * int(on[:4]) - int(when))
    clause.onward = True


def _tells_size(clause: Clause) -> bool:
    """ "the trunk was 40 mm in March": a size that is told was measured; the weather may be forecast."""
    sized = {name for name in clause.measures if name.endswith("_mm")} or clause.candidates
    return clause.kind == "observe" and bool(sized)


def _named_with(setting: Setting, clause: Clause) -> Clause | None:
    """The clause of which this one only names a further tree: "feed the pine and the juniper on Monday"."""
    if not _names_only(clause) or not set(clause.joined) <= _LISTED:
        return None
    for before in reversed(setting.before):
        if before.work or before.kind == "remind":
            return before if before.when is None else None
        if not _names_only(before):
            return None
    return None


def _still_to_come(setting: Setting, whole: Clause, when: When) -> bool:
    """ "Repotted the maple, the beech next week": a day that is no day of what was done."""
    done = whole.mood is not None and whole.mood.done == DONE and whole.topic is None and not whole.mood.open
    past = when.past or ""
    return done and (when.deadline or (past[:4].isdigit() and past > setting.on[: len(past)]))


def _names_only(clause: Clause) -> bool:
    named = clause.tree or clause.facts
    return clause.kind == "observe" and bool(named) and all(fact.kind == "species" for fact in clause.facts)


def _take_for_all(setting: Setting, whole: Clause, token: Token) -> None:
    """The day behind the last of several trees, for the work that is told of all of them."""
    mood = whole.mood or Mood(NOW)
    done = whole.topic is None and whole.kind != "remind" and (mood.done == DONE or mood.event)
    done = done or (mood.open and whole.topic is None and is_just_past(setting, token))
    take_date(setting, whole, token, past=done or whole.topic == "recall", drop_now=mood.done != DONE)
    if whole.topic is None and whole.kind != "remind" and whole.when:
        _put_in_time(setting, whole, mood)


def _put_in_time(setting: Setting, whole: Clause, mood: Mood) -> None:
    """The works of a clause again, done, now or later, once its day is known."""
    asks_back = [bool(setting.lexicon.works.get(work.work or "", {}).get("remind")) for work in whole.work]
    tensed = [tense(setting, whole, work.work or "", mood) if work.done else None for work in whole.work]
    whole.work = [replace(work, done=to) for work, to in zip(whole.work, tensed, strict=True)]
    if any(asks and to == LATER for asks, to in zip(asks_back, tensed, strict=True)):
        whole.acts, whole.work = ["remind"], [replace(work, done=None) for work in whole.work]


def day_alone(setting: Setting, clause: Clause) -> None:
    """ "wire it, 20 July": a day ahead that stands alone is when the work before it is meant."""
    before = setting.before[-1] if setting.before else None
    alone = clause.kind == "observe" and not (clause.facts or clause.work or clause.measures or clause.candidates)
    alone = alone and not (clause.tree or clause.refers or clause.phrase or clause.idle or clause.means)
    if before is None or not alone or not clause.when or clause.when <= setting.on[: len(clause.when)]:
        return
    bare = before.kind == "decide" and before.topic is None and before.when is None and before.mood is not None
    if bare and before.mood and before.mood.done == NOW and set(clause.joined) <= _LISTED | {"."}:
        before.when, before.day, before.onward = clause.when, clause.day, clause.onward
        clause.when, clause.day, clause.taken = None, None, True
        _put_in_time(setting, before, before.mood)


def tense(setting: Setting, clause: Clause, name: str, mood: Mood) -> str:
    """Whether work is done, now or later, by the mood of its verb and the day that its clause names."""
    done = mood.done
    ahead = clause.when is not None and clause.when > setting.on[: len(clause.when)]
    if name in AT_ONCE and done in (LATER, NOW):
        return NOW
    if (done == NOW or (done == DONE and mood.open)) and ahead and not setting.on.startswith(clause.when or "-"):
        return LATER
    if done == NOW and mood.open and clause.when and clause.when < setting.on[: len(clause.when)]:
        return DONE
    return done


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
