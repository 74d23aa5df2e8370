"""A new garden and a new tree, and what the place tells later."""

from __future__ import annotations

import os
import re
from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path
from typing import TYPE_CHECKING, Any

from benchmate.fault import UserError
from benchmate.garden.derived import make_folder
from benchmate.garden.disk import write_whole
from benchmate.garden.naming import folder_for, refuse_name, refuse_taken
from benchmate.garden.record import Place, Tree
from benchmate.garden.shapes import place_of, shown, tree_of
from benchmate.garden.toml_text import month_day, place_text, tree_text, value_text
from benchmate.value import replace

if TYPE_CHECKING:
    from benchmate.garden.store import Garden

GIT_UNION = "journal*.toml merge=union text eol=lf\n"


def new_garden(path: Path | str, place: Place | None = None) -> Garden:
    """A garden in a folder that is new or has none yet. What the place has not told stays unknown.

    Raises UserError where there is a garden already or the folder cannot be written.
    """
    from benchmate.garden.store import open_garden

    path = Path(path)
    name = shown(str(path), 300)
    place = place or Place()
    if slips := place_of(_as_table(place))[1]:
        raise UserError(f"no garden made at {name}: {slips[0].problem}; {slips[0].remedy}")
    try:
        if os.path.lexists(path / "garden.toml"):
            raise UserError(f"no garden made at {name}: there is one already; choose another folder")
        path.mkdir(parents=True, exist_ok=True)
        if not os.path.lexists(path / ".gitattributes"):
            write_whole(path / ".gitattributes", GIT_UNION.encode())
        make_folder(path)
        write_whole(path / "garden.toml", place_text(place).encode())
    except (OSError, ValueError) as fault:
        why = getattr(fault, "strerror", None) or "it is no path"
        raise UserError(f"no garden made at {name}: {why.lower()}; choose a folder that can be written to") from fault
    return open_garden(path)


def keep_git_union(garden: Path) -> None:
    """In a garden that git keeps, see that two copies of a journal merge into the union of their entries."""
    if os.path.lexists(garden / ".gitattributes"):
        return
    home = Path(os.path.realpath(garden))
    if any(os.path.lexists(folder / ".git") for folder in (home, *home.parents)):
        with suppress(OSError):
            write_whole(garden / ".gitattributes", GIT_UNION.encode())


def new_tree(garden: Garden, name: str, species: str | None = None, **told: Any) -> Tree:
    """A tree with a folder of its own, named after it. told: the other fields of Tree (origin, phase, health, since,
    pot, size), as far as they are known.

    Raises NameRefused for a name that is taken or could lead out of the garden, UserError where it cannot be written.
    """
    name = refuse_name(name)
    refuse_taken(name, garden.trees())
    tree = Tree(name, folder_for(name), species, **told)
    if slips := tree_of({key: value for key, value in _as_table(tree).items() if value}, tree.folder)[1]:
        raise UserError(f"no tree made of {shown(name)!r}: {slips[0].problem}; {slips[0].remedy}")
    try:
        tree = _make_tree(garden.path, tree)
    except OSError as fault:
        why = (fault.strerror or "it cannot be written").lower()
        where = shown(str(garden.path), 300)
        raise UserError(f"no tree made in {where}: {why}; see that it can be written to") from fault
    garden.look_for_trees()
    return tree


def _make_tree(garden: Path, tree: Tree) -> Tree:
    number = 1
    while True:
        folder = tree.folder if number == 1 else f"{tree.folder}-{number}"
        path = garden / folder
        try:
            path.mkdir()
        except FileExistsError:
            if path.is_symlink() or not path.is_dir() or any(path.iterdir()):
                number += 1
                continue
        tree = replace(tree, folder=folder)
        write_whole(path / "tree.toml", tree_text(tree).encode())
        return tree


def _as_table(value: Place | Tree) -> dict[str, Any]:
    table: dict[str, Any] = {}
    for key in type(value).__slots__:
        inner = getattr(value, key)
        if isinstance(inner, tuple):
            inner = month_day(inner)
        if inner is not None and key != "folder" and inner != "":
            table[key] = dict(inner) if isinstance(inner, Mapping) else inner
    return table


def tell_place(garden: Garden, **told: Any) -> Place:
    """Write what the place tells later into garden.toml: name, latitude, longitude, last_frost, first_frost, units.

    Frosts are (month, day). Only the lines of these keys change; comments and all else stay. Raises UserError for a
    value that cannot be, or where the file cannot be changed safely.
    """
    import tomllib

    path = garden.path / "garden.toml"
    name = shown(str(path), 300)
    told = {key: month_day(value) if isinstance(value, tuple) else value for key, value in told.items()}
    known = set(Place.__slots__)
    if strange := [key for key in told if key not in known]:
        raise UserError(f"a place has no {shown(strange[0])}; it has {', '.join(sorted(known))}")
    if slips := place_of(told)[1]:
        raise UserError(f"{slips[0].problem}; {slips[0].remedy}")
    try:
        text = path.read_text(encoding="utf-8") if path.exists() else "[place]\n"
        before = tomllib.loads(text)
        changed = _with_lines(text, {key: value_text(value) for key, value in told.items()})
        if tomllib.loads(changed) != before | {"place": before.get("place", {}) | told}:
            raise ValueError
        write_whole(path, changed.encode())
    except OSError as fault:
        why = (fault.strerror or "it cannot be written").lower()
        raise UserError(f"{name} not changed: {why}; see that it can be written to") from fault
    except (ValueError, TypeError) as fault:
        raise UserError(f"{name} not changed: its lines cannot be changed safely; change it by hand") from fault
    garden.forget_place()
    return garden.place


def _with_lines(text: str, told: Mapping[str, str]) -> str:
    """The text with a line `key = value` for each in `[place]`, in place of the old line or below the head."""
    lines = text.split("\n")
    head = next((row for row, line in enumerate(lines) if re.match(r"\s*\[\s*place\s*\]", line)), None)
    if head is None:
        lines, head = [*lines, "[place]", ""], len(lines)
    for key, value in told.items():
        stop = next((row for row in range(head + 1, len(lines)) if lines[row].lstrip().startswith("[")), len(lines))
        old = next((row for row in range(head + 1, stop) if re.match(rf"\s*{key}\s*=", lines[row])), None)
        if old is None:
            lines.insert(head + 1, f"{key} = {value}")
        else:
            comment = re.search(r"\s+#[^\"']*$", lines[old])
            lines[old] = f"{key} = {value}" + (comment.group() if comment else "")
    return "\n".join(lines)
