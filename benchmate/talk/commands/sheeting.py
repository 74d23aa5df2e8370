"""`sheet`: one tree on one self-contained page, or as lines at the prompt."""

from __future__ import annotations

import os
import sys
from argparse import Namespace
from pathlib import Path

from benchmate.fault import UserError
from benchmate.talk.commands.keeping import garden_of
from benchmate.talk.commands.settings import house_of, print_lines, tell_unread
from benchmate.talk.dates import today_of
from benchmate.talk.screen import screen_of
from benchmate.telling.lines import ANSWER, Line, escape

FILE = "sheet.html"


def sheet_command(args: Namespace) -> int:
    """Write the page, or with `--text` print the sheet."""
    from benchmate.talk.recorded.sheet_of import sheet_of
    from benchmate.telling.page import page_text, sheet_lines

    house = house_of(args)
    garden = garden_of(house)
    tree = garden.find(args.tree)
    sheet = sheet_of(tree, house, today_of(getattr(args, "on", None)))
    tell_unread(args)
    if args.text:
        screen = screen_of(sys.stdout, plain=bool(getattr(args, "plain", False)))
        print(screen.lay(sheet_lines(sheet, screen.width, plain=screen.plain)))
        return 0
    if args.out == "-":
        sys.stdout.write(page_text(sheet))
        return 0
    target = Path(args.out).expanduser() if args.out else inside(garden.path, tree.folder)
    write_page(target, page_text(sheet))
    print_lines([Line(f"The sheet of {tree.name} is written to {target}.", ANSWER)], args)
    return 0


def inside(garden: Path, folder: str) -> Path:
    """Where a sheet goes unless another place is named: beside the tree's journal. Raises UserError where that leads
    out of the garden."""
    root, home = os.path.realpath(garden), os.path.realpath(garden / folder)
    if not home.startswith(root + os.sep):
        raise UserError(f"{escape(folder)}: the tree's folder leads out of the garden; name a file with --out")
    return garden / folder / FILE


def write_page(target: Path, text: str) -> None:
    """The page whole or not at all; a link that stands there is replaced, never followed. Raises UserError."""
    from benchmate.garden.disk import write_whole

    if target.is_dir():
        raise UserError(f"{escape(str(target))}: it is a folder; name a file with --out")
    try:
        write_whole(target, text.encode(), flush=False)
    except OSError as error:
        why = (error.strerror or "it cannot be written").lower()
        raise UserError(f"{escape(str(target))}: {why}; choose another file with --out") from error
