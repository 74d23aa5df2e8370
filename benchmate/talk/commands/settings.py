"""What every command shares: the garden, the rules, the day, and how an answer is printed."""

from __future__ import annotations

import sys
from argparse import Namespace
from collections.abc import Iterable
from pathlib import Path
from typing import Any

from benchmate.fault import UserError
from benchmate.garden.json_text import json_text
from benchmate.talk.house import House, garden_folder
from benchmate.talk.screen import screen_of
from benchmate.talk.unread import unread_words
from benchmate.telling.lines import Line


def house_of(args: Namespace) -> House:
    """The house that the arguments ask for: garden and rules, nothing opened yet."""
    rules = getattr(args, "rules", None)
    folder = demo_copy() if getattr(args, "demo", False) else garden_folder(getattr(args, "garden", None))
    house = House(folder, Path(rules).expanduser() if rules else None)
    args.house = house  # what is told of it when the command is through
    return house


def tell_unread(args: Namespace) -> None:
    """What the command could not read in the garden's files, on standard error: what it gave lacks that."""
    house: House | None = getattr(args, "house", None)
    if house is not None and house.garden is not None:
        for words in unread_words(house.garden, set()):
            print(f"benchmate: {words}", file=sys.stderr)


def demo_folder() -> Path:
    """The demo garden as it came: inside the package, or in the checkout."""
    package = Path(__file__).resolve().parents[2]
    for folder in (package / "demo_trees", package.parent / "demo_trees"):
        if (folder / "garden.toml").is_file():
            return folder
    raise UserError("the demo garden did not come with this copy; install benchmate anew")


def demo_copy() -> Path:
    """A copy of the demo garden that may be written to, kept until the machine clears its temporary files."""
    import getpass
    import shutil
    import tempfile

    from benchmate import __version__

    home = Path(tempfile.gettempdir()) / f"benchmate-demo-{__version__}-{_own_name(getpass.getuser)}"
    if not (home / "garden.toml").is_file():
        shutil.copytree(demo_folder(), home, dirs_exist_ok=True, ignore=shutil.ignore_patterns(".benchmate"))
        for path in home.rglob("*"):
            path.chmod(0o700 if path.is_dir() else 0o600)
    return home


def _own_name(ask: Any) -> str:
    try:
        return "".join(letter for letter in str(ask()) if letter.isalnum())
    except (OSError, KeyError, ImportError):
        return "user"


def print_json(value: Any) -> None:
    """One JSON value on a line of standard output."""
    print(json_text(value))


def print_lines(lines: Iterable[Line], args: Namespace) -> None:
    """Lines on standard output, as wide and as lit as it may be."""
    print(screen_of(sys.stdout, plain=bool(getattr(args, "plain", False))).lay(lines))


def wants_json(args: Namespace) -> bool:
    """Whether `--json` was given."""
    return bool(getattr(args, "json", False))


def write_out(text: str, path: str | None) -> None:
    """The text into a file, whole or not at all, or onto standard output."""
    if not path:
        sys.stdout.write(text)
        return
    target = Path(path).expanduser()
    draft = target.with_name(f".{target.name}.new")
    try:
        draft.write_text(text, encoding="utf-8", newline="")
        draft.replace(target)
    except OSError as error:
        raise UserError(
            f"{target}: {(error.strerror or 'it cannot be written').lower()}; choose another file"
        ) from error
