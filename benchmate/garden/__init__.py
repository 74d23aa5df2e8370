"""The garden: plain files of a place, its trees and their journals, read and appended to.

Comes in: a folder, an entry to keep. Goes out: places, trees, entries, follow-ups, faults. It never rewrites a journal,
never loads what it was not asked for, and never lets one bad file stop the other trees.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from benchmate.garden.agenda import Due, DueTree, due
    from benchmate.garden.append import NotLogged
    from benchmate.garden.check import check_garden
    from benchmate.garden.exchange import Imported, export_csv, export_json_lines, import_csv, import_json_lines
    from benchmate.garden.follow import FollowUp, follow_ups
    from benchmate.garden.foreign import import_foreign
    from benchmate.garden.index import Glance
    from benchmate.garden.journal import standing
    from benchmate.garden.making import new_garden, new_tree, tell_place
    from benchmate.garden.naming import AmbiguousTree, NameRefused, NoSuchTree
    from benchmate.garden.record import Entry, Place, Tree
    from benchmate.garden.renaming import rename_tree, take_name_back, tell_species
    from benchmate.garden.store import Garden, NoGarden, open_garden

_FILES = {
    "append": ("NotLogged",),
    "check": ("check_garden",),
    "agenda": ("Due", "DueTree", "due"),
    "exchange": ("Imported", "export_csv", "export_json_lines", "import_csv", "import_json_lines"),
    "follow": ("FollowUp", "follow_ups"),
    "foreign": ("import_foreign",),
    "index": ("Glance",),
    "journal": ("standing",),
    "making": ("new_garden", "new_tree", "tell_place"),
    "naming": ("AmbiguousTree", "NameRefused", "NoSuchTree"),
    "record": ("Entry", "Place", "Tree"),
    "renaming": ("rename_tree", "take_name_back", "tell_species"),
    "store": ("Garden", "NoGarden", "open_garden"),
}
_WHERE = {name: file for file, names in _FILES.items() for name in names}

__all__ = [
    "AmbiguousTree",
    "Due",
    "DueTree",
    "Entry",
    "FollowUp",
    "Garden",
    "Glance",
    "Imported",
    "NameRefused",
    "NoGarden",
    "NoSuchTree",
    "NotLogged",
    "Place",
    "Tree",
    "check_garden",
    "due",
    "export_csv",
    "export_json_lines",
    "follow_ups",
    "import_csv",
    "import_foreign",
    "import_json_lines",
    "new_garden",
    "new_tree",
    "open_garden",
    "rename_tree",
    "standing",
    "take_name_back",
    "tell_place",
    "tell_species",
]


def __getattr__(name: str) -> Any:
    """Import a public name when it is first used: one statement needs a fifth of this room."""
    if name not in _WHERE:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    return getattr(import_module(f"{__name__}.{_WHERE[name]}"), name)
