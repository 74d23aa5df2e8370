"""The kind of a tree that was begun without one: "Spike is a ficus", "it is a ficus". Its file tells it then."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchmate.garden.record import Entry
from benchmate.hearing.reading import NOWHERE
from benchmate.talk.trees.which_tree import species_said
from benchmate.value import replace

if TYPE_CHECKING:
    from benchmate.talk.turns import Turn


def tells_kind(turn: Turn) -> bool:
    """Put down the kind that is told of a tree whose file has none, after a yes; False where nothing of it is told."""
    reading, here = turn.reading, turn.bench.here
    kind = species_said(reading)
    if kind is None or turn.house.garden is None or not set(reading.acts) <= {"observe"} or reading.several:
        return False
    more = len(reading.facts) > 1 or reading.work or reading.missed or reading.measures or reading.candidates
    if more or reading.facts[0].spot != NOWHERE or "?" in reading.said:
        return False
    tree = turn.tree if reading.tree else here if "it" in reading.refers else None
    if tree is None or tree.species:
        return False
    turn.tree = tree
    turn.reading = replace(reading, tree=tree.name)
    if not turn.confirmed:
        turn.confirm = f"Put down {kind} as the kind of {tree.name}? Say yes or no."
        return True
    if not turn.bench.dry:
        from benchmate.garden import tell_species

        turn.tree = tell_species(turn.house.garden, tree, kind)
    turn.reading = replace(turn.reading, acts=("note",))
    turn.to_log.append((turn.tree, (Entry("", turn.on, "note", reading.said),)))
    turn.says.append(f"{tree.name} is {kind} from now on")
    turn.aside.append(f"a slip is mended in {tree.folder}/tree.toml, which tells the kind")
    return True
