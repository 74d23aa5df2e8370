"""Another name for a tree: a table more at the end of its tree.toml. What stands there already is never touched, so the
old names stay and the tree is found by them."""

from __future__ import annotations

import datetime as dt
import os
import tomllib
from pathlib import Path
from typing import TYPE_CHECKING, Any

from benchmate.fault import UserError
from benchmate.garden.disk import write_all, write_whole
from benchmate.garden.lock import held
from benchmate.garden.naming import refuse_name, refuse_taken
from benchmate.garden.record import Tree
from benchmate.garden.shapes import shown
from benchmate.garden.toml_text import value_text

if TYPE_CHECKING:
    from benchmate.garden.store import Garden


def rename_tree(garden: Garden, tree: Tree, name: str, on: dt.date) -> Tree:
    """The tree under its new name. A name that it went by before may come back.

    Raises NameRefused for a name that another tree goes or went by or that no tree may have, UserError where it is
    called so already or its file cannot be added to.
    """
    name = refuse_name(name)
    if name == tree.name:
        raise UserError(f"the tree is called {shown(name)} already")
    refuse_taken(name, (other for other in garden.trees() if other.folder != tree.folder))
    return _added(garden, tree, {"name": name, "at": on})


def take_name_back(garden: Garden, tree: Tree, on: dt.date) -> Tree:
    """The tree under the name that it had before its last one. Raises UserError as `rename_tree` does."""
    return _added(garden, tree, {"back": True, "at": on})


def _added(garden: Garden, tree: Tree, row: dict[str, Any]) -> Tree:
    path = garden.path / tree.folder / "tree.toml"
    table = "[[renamed]]\n" + "".join(f"{key} = {value_text(value)}\n" for key, value in row.items())
    try:
        _append(path, table, row)
    except OSError as fault:
        why = (fault.strerror or "it cannot be written").lower()
        raise UserError(f"{shown(str(path), 300)} not changed: {why}; see that it can be written to") from fault
    except ValueError as fault:  # what stands there is no TOML, or would be none
        raise UserError(f"{shown(str(path), 300)} not changed: it cannot be read; mend it first") from fault
    garden.look_for_trees()
    return next(one for one in garden.trees() if one.folder == tree.folder)


def _append(path: Path, table: str, row: dict[str, Any]) -> None:
    """The table behind what stands in the file, and on the disk. Raises ValueError where the two would not be one."""
    with held(path, os.O_RDWR | os.O_APPEND) as descriptor:
        size = os.fstat(descriptor).st_size
        os.lseek(descriptor, 0, os.SEEK_SET)
        text = b"".join(iter(lambda: os.read(descriptor, 1 << 16), b"")).decode("utf-8")
        more = ("\n" if text and not text.endswith("\n") else "") + "\n" + table
        before, after = tomllib.loads(text), tomllib.loads(text + more)
        if after != before | {"renamed": [*before.get("renamed", []), row]}:
            raise ValueError
        try:
            write_all(descriptor, more.encode())
            os.fsync(descriptor)
        except OSError:
            os.ftruncate(descriptor, size)  # half a table would make the whole file unreadable
            raise


def tell_species(garden: Garden, tree: Tree, species: str) -> Tree:
    """The tree with its species, where its file tells none: a line more ahead of what stands there.

    Raises UserError where the file cannot be read or written.
    """
    path = garden.path / tree.folder / "tree.toml"
    line = f"species = {value_text(species)}\n"
    try:
        with held(path, os.O_RDWR):
            text = path.read_text(encoding="utf-8")
            if tomllib.loads(line + text) != tomllib.loads(text) | {"species": species}:
                raise ValueError
            write_whole(path, (line + text).encode())
    except OSError as fault:
        why = (fault.strerror or "it cannot be written").lower()
        raise UserError(f"{shown(str(path), 300)} not changed: {why}; see that it can be written to") from fault
    except ValueError as fault:  # it tells one already, or is no TOML
        raise UserError(f"{shown(str(path), 300)} not changed: it cannot be read; mend it first") from fault
    garden.look_for_trees()
    return next(one for one in garden.trees() if one.folder == tree.folder)
