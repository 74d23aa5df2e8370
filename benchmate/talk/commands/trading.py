"""`export` and `import`: journals out to files of other programs, and in again."""

from __future__ import annotations

import io
import sys
from argparse import Namespace
from pathlib import Path
from typing import TYPE_CHECKING

from benchmate.fault import UserError
from benchmate.talk.commands.keeping import garden_of
from benchmate.talk.commands.settings import house_of, print_lines, tell_unread, write_out
from benchmate.talk.commands.waiting import Waiting
from benchmate.telling.lines import ANSWER, ASIDE, Line, escape

if TYPE_CHECKING:
    from benchmate.garden import Garden, Imported

_OWN = {"tree", "at", "kind"}  # columns by which a CSV of our own is known
_MAP = 'say what its columns mean, as in --map "day is Date, said is Notes, tree is Plant"'
MOST_FAULTS = 20


def export_command(args: Namespace) -> int:
    """Every entry of a tree, or of the garden, as CSV or JSON Lines."""
    from benchmate.garden import export_csv, export_json_lines

    garden = garden_of(house_of(args))
    trees = [garden.find(args.tree)] if args.tree else None
    leave = export_csv if _form_out(args) == "csv" else export_json_lines
    out = io.StringIO(newline="")
    count = leave(garden, out, trees)
    write_out(out.getvalue(), args.out)
    tell_unread(args)
    if args.out:
        print_lines([Line(f"{_entries(count)} {_are(count)} written to {args.out}.", ANSWER)], args)
    return 0


def _form_out(args: Namespace) -> str:
    if args.form:
        return str(args.form)
    return "csv" if args.out and args.out.casefold().endswith(".csv") else "jsonl"


def import_command(args: Namespace) -> int:
    """Entries out of a file into the garden; those that it has already are passed over."""
    garden = garden_of(house_of(args))
    name, text = _text_of(args.file, garden)
    plain = bool(getattr(args, "plain", False))
    with Waiting("taken in", plain=plain) as progress:
        try:
            taken = _take_in(garden, name, text, args, progress)
        except KeyboardInterrupt:
            done = progress.done
            told = f"stopped: {_entries(done)} {_are(done)} taken in, whole; run it again for the rest"
            raise UserError(told) from None
    for fault in taken.faults[:MOST_FAULTS]:
        print(escape(str(fault)), file=sys.stderr)
    if (more := len(taken.faults) - MOST_FAULTS) > 0:
        print(f"{more} more lines were not taken in", file=sys.stderr)
    would = "would be" if args.dry else _are(taken.added)
    lines = [Line(f"{_entries(taken.added)} {would} taken in from {name}.", ANSWER)]
    if taken.known:
        lines.append(Line(f"{_entries(taken.known)} {_are(taken.known)} in the garden already.", ASIDE))
    print_lines(lines, args)
    return 1 if taken.faults else 0


def _take_in(garden: Garden, name: str, text: str, args: Namespace, progress: Waiting) -> Imported:
    from benchmate.garden import import_csv, import_foreign, import_json_lines

    source = io.StringIO(text, newline="")
    if args.map:
        return import_foreign(garden, source, args.map, args.new_trees, name, dry=args.dry, progress=progress)
    if text.lstrip()[:1] == "{":
        return import_json_lines(garden, source, args.new_trees, name, dry=args.dry, progress=progress)
    if not set(columns := _columns(text)) >= _OWN:
        has = f"its columns are {escape(', '.join(columns))}" if columns else "it is empty"
        raise UserError(f"{name}: it was not written by export: {has}; {_MAP}")
    return import_csv(garden, source, args.new_trees, name, dry=args.dry, progress=progress)


def _columns(text: str) -> list[str]:
    """The names in the first line that says anything."""
    import csv

    return next((row for row in csv.reader(io.StringIO(text, newline="")) if any(row)), [])


def _text_of(file: str, garden: Garden) -> tuple[str, str]:
    """Name and text of the file: as named from here, else in the garden's folder; - is standard input."""
    try:
        if file == "-":
            return file, sys.stdin.buffer.read().decode("utf-8-sig")
        path = Path(file).expanduser()
        if not path.exists() and (beside := garden.path / path).exists():
            path = beside
        return file, path.read_bytes().decode("utf-8-sig")
    except UnicodeDecodeError:
        raise UserError(f"{escape(file)}: it is no UTF-8; save it as UTF-8 and import it again") from None
    except OSError as error:
        why = (error.strerror or "it cannot be read").lower()
        raise UserError(f"{escape(file)}: {why}; name a file of CSV or JSON Lines") from error


def _entries(count: int) -> str:
    return "1 entry" if count == 1 else f"{count:,} entries"


def _are(count: int) -> str:
    return "is" if count == 1 else "are"
