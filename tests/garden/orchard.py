"""Makes an invented garden of any size, the same for the same seed: `python tests/garden/orchard.py DIR 1000 200`."""

from __future__ import annotations

import datetime as dt
import random
import sys
from pathlib import Path
from typing import Any

from benchmate.garden.making import GIT_UNION
from benchmate.garden.record import Entry, Place, Tree
from benchmate.garden.toml_text import entry_text, place_text, tree_text

TAXA = ("Acer campestre", "Acer palmatum", "Carpinus betulus", "Fagus sylvatica", "Larix decidua", "Pinus sylvestris")
NAMES = ("Anvil", "Barrow", "Cinder", "Dovecote", "Ember", "Flint", "Gatepost", "Hurdle", "Kiln", "Lantern")
WORKS: tuple[tuple[str, str, dict[str, Any], tuple[str, str | None, int] | None], ...] = (
    ("done", "shortened the shoots to two leaves", {"work": "shorten", "leaves": 2.0}, None),
    ("done", "wired the left branch", {"work": "wire", "part": "branch", "side": "left"}, ("check", "wire", 21)),
    ("done", "repotted, took a third of the roots", {"work": "repot"}, ("water", None, 3)),
    ("done", "checked the wire, nothing bites", {"work": "check", "part": "wire"}, None),
    ("left", "won't defoliate it this year", {"work": "defoliate", "done": "not"}, None),
    ("plan", "feed it when the leaves are out", {"work": "feed", "done": "later"}, ("feed", None, 40)),
    ("done", "fed it with a weak mix", {"work": "feed"}, None),
    ("done", "watered it well", {"work": "water"}, None),
)
DOES = {row[2]["work"]: row for row in WORKS if row[0] == "done"}
SEEN = (
    ("two competing leaders at the top", {"kind": "finding", "value": "competing-leaders", "count": 2}),
    ("it looks weak since the frost", {"kind": "health", "value": "weak"}),
    ("growing strongly, the first flush has hardened", {"kind": "health", "value": "strong"}),
)


def entries_of(seed: str, count: int, first: dt.date = dt.date(2016, 3, 1)) -> list[Entry]:
    """An invented journal: `count` entries, some days apart, with ids of its own."""
    chance = random.Random(seed)
    day = first
    entries: list[Entry] = []
    waiting: list[str] = []  # works that a follow-up asks for: mostly done next, as in a garden that is kept up
    for number in range(count):
        day += dt.timedelta(chance.randint(1, 30))
        own = f"{day}-{chance.getrandbits(30):06x}{number:03d}"
        if chance.random() < 0.25:
            said, fact = chance.choice(SEEN)
            entries.append(Entry(own, day, "seen", said, facts=(fact,)))
            continue
        asked = waiting.pop(0) if waiting and chance.random() < 0.97 else None
        kind, said, work, follow = chance.choice(WORKS) if asked is None else DOES[asked]
        waiting += [follow[0]] if follow else []
        tables: tuple[dict[str, object], ...] = ()
        if follow:
            on = day + dt.timedelta(follow[2])
            part = {"part": follow[1]} if follow[1] else {}
            tables = ({"work": follow[0], **part, "on": on, "says": "Look whether it still needs it."},)
        entries.append(
            Entry(own, day, kind, said, work=(work,), follow=tables, reason="it grows too strongly at the top")
        )
    return entries


def plant(garden: Path, trees: int, entries: int, seed: str = "orchard") -> None:
    """A garden in a new folder. Written straight to the files, without the safety that costs a flush an entry."""
    garden.mkdir(parents=True)
    (garden / "garden.toml").write_text(place_text(Place("Orchard", 52.1, -1.9, (4, 28), (10, 18))), encoding="utf-8")
    (garden / ".gitattributes").write_text(GIT_UNION, encoding="utf-8")
    for number in range(trees):
        name = f"{NAMES[number % len(NAMES)]} {number // len(NAMES) + 1}"
        tree = Tree(name, name.lower().replace(" ", "-"), TAXA[number % len(TAXA)], phase="structure", health="healthy")
        folder = garden / tree.folder
        folder.mkdir()
        (folder / "tree.toml").write_text(tree_text(tree), encoding="utf-8")
        text = "\n".join(map(entry_text, entries_of(f"{seed} {number}", entries)))
        (folder / "journal.toml").write_text(text, encoding="utf-8")


if __name__ == "__main__":
    plant(Path(sys.argv[1]), int(sys.argv[2]), int(sys.argv[3]))
