"""What the talk keeps from one statement to the next. Nothing of it outlives the talk: the garden's files do that."""

from __future__ import annotations

from benchmate.garden.record import Entry
from benchmate.hearing.reading import NOWHERE, Fact, Reading, Spot, Work
from benchmate.practice.advice import Advice
from benchmate.value import dataclass, field, replace

# acts whose statements go into the record
LOGGING = frozenset({"observe", "decide", "note", "remind", "new"})
Logged = tuple[tuple[str, Entry], ...]  # entries, each with the name of its tree


@dataclass(frozen=True, slots=True)
class Pending:
    """Something that waits for the grower's word. reading: the words as taken. wants: "yes", or a "tree" by name.
    takes_back: what is struck with it, where the words correct what stands in the record. tree: name of the tree that
    was at hand. then: what was waiting before it, and waits again once this is answered. offer: it is only offered, and
    lapses where something else is said. lapses: what it would log lapses too, for it may have been a thought."""

    reading: Reading
    wants: str = "yes"
    takes_back: Logged = ()
    tree: str | None = None
    then: Pending | None = None
    offer: bool = False
    lapses: bool = False

    @property
    def lasts(self) -> bool:
        """Whether it goes on waiting where something else is said in between: what would go into the record does; what
        would be taken out of it or put on every tree by a late yes, and what only lacks a tree, does not."""
        acts, several = set(self.reading.acts), self.reading.several
        every = several is not None and several.every
        fleeting = self.offer or self.lapses or every
        return self.wants == "yes" and not fleeting and "strike" not in acts and bool(LOGGING & acts)


@dataclass(frozen=True, slots=True)
class Context:
    """What the talk knows.

    tree: name of the tree at hand, None where the talk is of a species or of nothing yet. reading: the last statement
    with something in it. advice: the options last offered. facts: what was said of this tree or species in this talk,
    newest first. logged: entries of the last statement that logged any. told: hazards that were told in full. pending:
    what waits for a yes or a name. weighed: the advice told last, for "why", though an option of it was taken.
    amends: the statement that a correction bears on, be it a question. made: what that very statement logged: nothing
    else goes with a correction. taken_from: the advice of which that statement took an option.
    figure: the figure question of the last statement, if it was one. figure_asks: whether that asked for more.
    unnamed: what was told of a tree that has no record yet, oldest first: "call it Ditch" begins it with that.
    those: names of the trees that the last statement was about, where it was about several: "them" means these, and
    where it told something of some of the garden none is at hand. earlier, earlier_made: the statement before the one
    that `amends` holds, and what it logged. due: what the last statement asked for as due, with its trees,
    in the order told.
    """

    tree: str | None = None
    reading: Reading | None = None
    advice: Advice | None = None
    facts: tuple[Fact, ...] = ()
    logged: Logged = ()
    told: frozenset[str] = field(default_factory=frozenset)
    pending: Pending | None = None
    weighed: Advice | None = None
    amends: Reading | None = None
    made: Logged = ()
    taken_from: Advice | None = None
    figure: Reading | None = None
    figure_asks: bool = False
    unnamed: tuple[Reading, ...] = ()
    those: tuple[str, ...] = ()
    earlier: Reading | None = None
    earlier_made: Logged = ()
    due: tuple[tuple[str, Work], ...] = ()

    @property
    def species(self) -> str | None:
        """The species that the talk is of, where it is of no tree of the garden."""
        if self.tree:
            return None
        return next((str(fact.value) for fact in self.facts if fact.kind == "species" and not fact.denied), None)

    @property
    def lending(self) -> Reading | None:
        """What "it" and "them" may speak of: the last statement with something in it, and the things that a question
        for a figure named after it ("what wire is on it")."""
        last, asked = self.reading, self.figure
        if last is None or asked is None or asked is last:
            return last or asked
        return replace(last, said=f"{last.said}; {asked.said}")


def spots_of(reading: Reading | None) -> list[Spot]:
    """The places that a statement speaks of, in the order of its words, each once."""
    if reading is None:
        return []
    spots = [fact.spot for fact in (*reading.candidates, *reading.facts)] + [work.spot for work in reading.work]
    return list(dict.fromkeys(spot for spot in spots if _placed(spot)))


def _placed(spot: Spot) -> bool:
    return spot != NOWHERE and any((spot.part, spot.side, spot.level, spot.ordinal))
