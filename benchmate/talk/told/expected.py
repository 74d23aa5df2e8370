"""What the grower says will come ("the wire will bite by July"): kept in the tree's record as his expectation, in his
own words. It is no fact: no rule goes by it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchmate.garden.record import Entry
from benchmate.value import replace

if TYPE_CHECKING:
    from benchmate.talk.turns import Turn


def keeps_expected(turn: Turn) -> bool:
    """Keep what the statement foretells of its tree; True where it tells and asks nothing else."""
    reading = turn.reading
    if (
        not reading.foretold
        or "note" in reading.acts
        or reading.figure
        or reading.several
        or turn.house.garden is None
        or turn.confirm
    ):
        return False
    alone = not (set(turn.acts) - {"observe"} or reading.topic or reading.measures or reading.means)
    alone = alone and all(fact.kind == "species" for fact in reading.facts) and not reading.candidates
    if turn.tree is None:
        if alone and turn.meant.ask:
            turn.says += [turn.meant.aside] if turn.meant.aside else []
            turn.asks.append(turn.meant.ask)
        return alone and bool(turn.asks)
    spans = [one.span for one in reading.foretold]
    missed = tuple(
        one for one in reading.missed if not any(start <= one.span[0] and one.span[1] <= end for start, end in spans)
    )
    turn.reading = replace(reading, missed=missed)
    for one in reading.foretold:
        turn.to_log.append((turn.tree, (Entry("", turn.on, "note", reading.said, expects=one.words),)))
    if turn.meant.aside and alone:
        turn.aside.append(turn.meant.aside)
    return alone
