"""Journals read: entries in order, as a union by id over all of a tree's journal files, with the faults found.

Any number of files `journal*.toml` may stand in a tree's folder, one a device or one that a synchroniser left behind
after a conflict: all count, an entry that stands in several counts once.
"""

from __future__ import annotations

import datetime as dt
import operator
import zlib
from collections.abc import Iterable, Sequence
from typing import NamedTuple

from benchmate.fault import Fault
from benchmate.garden.pieces import Held, Piece, read_piece, read_together, split, without_markers
from benchmate.garden.record import Entry
from benchmate.garden.shapes import ENTRY_KEYS, Slip, entry_of, shown, unknown_keys
from benchmate.garden.toml_fault import told

_by_day = operator.attrgetter("day")


class Journal(NamedTuple):
    """entries: as they stand in the file. lines: the line at which each begins."""

    entries: tuple[Entry, ...] = ()
    faults: tuple[Fault, ...] = ()
    lines: tuple[int, ...] = ()
    cut: bool = False


def decoded(data: bytes) -> str:
    """The text with plain line ends; letters that are no UTF-8 become a sign for such."""
    text = data.decode("utf-8", "replace").removeprefix("\ufeff")
    return text.replace("\r\n", "\n") if "\r" in text else text


def wrong_letters(data: bytes, path: str) -> tuple[Fault, ...]:
    """The fault of the first letter that is no UTF-8, if there is one."""
    try:
        data.decode()
    except UnicodeDecodeError as fault:
        line = data.count(b"\n", 0, fault.start) + 1
        problem = "letters that are not UTF-8, shown as \ufffd"
        return (Fault(path, line, "", problem, "mend them and save the file as UTF-8"),)
    return ()


def read_journal(data: bytes, path: str, strict: bool = False) -> Journal:
    """One journal file. strict: tell also what does no harm, such as unknown keys. Never raises for what data holds."""
    text, marked = without_markers(decoded(data))
    pieces = list(split(text))
    helds = list(map(read_piece, pieces)) if strict else read_together(pieces, text)
    read = list(zip(pieces, helds, strict=True))
    if any(held.broken for _, held in read) and ('"""' in text or "'''" in text):
        whole = reads_as_a_whole(text)  # an [[entry]] line may stand inside words over many lines
        read = [whole] if whole else read
    entries: list[Entry] = []
    faults = list(wrong_letters(data, path)) if "\ufffd" in text else []
    lines: list[int] = []
    seen_at, line = 0, 1
    for number, (piece, held) in enumerate(read, 1):
        line += text.count("\n", seen_at, piece.start)
        seen_at = piece.start
        last = number == len(read)
        unsure = held.cut and not held.words_from
        for count, table in enumerate(held.tables if not (unsure and last) else ()):
            entry, slips = entry_of(table, lambda table=table: made_up_id(table))  # type: ignore[misc]
            if strict:
                own = str(table.get("id", ""))
                slips += [Slip(slip.key, slip.problem, slip.remedy, own) for slip in unknown_keys(table, ENTRY_KEYS)]
                slips += _mismatched(table)
            if entry:
                entries.append(entry)
                lines.append(line if count == 0 else 0)
            faults += [_fault(slip, piece, path, line) for slip in slips]
        if held.broken:
            faults.append(_broken(piece, held, path, line, last))
        for key in held.rest if strict else ():
            remedy = "move it below an [[entry]] line or delete it"
            faults.append(Fault(path, line, shown(key), "a key outside of any entry", remedy))
    if marked >= 0:
        problem = "marks of an unfinished merge; the entries of both sides are counted"
        remedy = "delete the lines that begin with <<<<<<<, ======= and >>>>>>>"
        faults.append(Fault(path, text.count("\n", 0, marked) + 1, "", problem, remedy))
    return Journal(tuple(entries), tuple(faults), tuple(lines), read[-1][1].cut if read else False)


def reads_as_a_whole(text: str) -> tuple[Piece, Held] | None:
    """The text taken as one piece, where that can be read."""
    piece = Piece(0, f"\n{text}")  # the blank line keeps it from being taken for a single entry
    held = read_piece(piece)
    return None if held.broken else (piece, held)


def made_up_id(table: dict[str, object]) -> str:
    """An id for an entry without one, the same as long as the entry says the same."""
    day = str(table.get("at", "undated"))[:10]
    return f"{shown(day, 10)}-{zlib.crc32(repr(sorted(table.items(), key=str)).encode('utf-8', 'replace')):08x}"


def _mismatched(table: dict[str, object]) -> list[Slip]:
    own, end = table.get("id"), table.get("end")
    if end is None or end == own:
        return []
    problem = f"the entry closes as {shown(end)}: two entries may have run into each other in a merge"
    return [Slip("end", problem, "compare with the other copy, then make id and end the same", shown(own))]


def _fault(slip: Slip, piece: Piece, path: str, line: int) -> Fault:
    rows = piece.text.split("\n")
    at = next((row for row, words in enumerate(rows) if words.lstrip().startswith(slip.key)), 0)
    return Fault(path, line + at, shown(slip.id), slip.problem, slip.remedy)


def _broken(piece: Piece, held: Held, path: str, line: int, last: bool) -> Fault:
    words = piece.text[held.words_from :]
    if held.cut:
        line += piece.text.count("\n", 0, held.words_from)
        problem = f"an entry that was cut off while it was written; its words: {shown(' '.join(words.split()), 200)}"
        remedy = "say it again if it is missing; the next entry sets these words aside"
        if not last:
            whole = bool(held.tables) and not held.words_from
            end = f'end = "{piece.own_id}"' if whole else ""
            remedy = f"it counts as it stands; close it with {end}" if whole else "say it again and delete these lines"
        return Fault(path, line, piece.own_id or "", problem, remedy)
    row, problem, remedy = told(held.broken, piece.text)
    return Fault(path, line + row, "", problem, remedy)


def union(journals: Sequence[tuple[str, Journal]]) -> tuple[tuple[Entry, ...], tuple[Fault, ...]]:
    """All entries, oldest first; the same entry in several files once; unlike entries of one id both, with a fault.

    Within a day entries stay as they were written; over several files the time of day decides where all have one.
    """
    known: dict[str, list[Entry]] = {}
    entries: list[Entry] = []
    faults: list[Fault] = []
    for path, journal in journals:
        for entry, line in zip(journal.entries, journal.lines, strict=True):
            alike = known.setdefault(entry.id, [])
            if not alike:
                alike.append(entry)
                entries.append(entry)
            elif entry not in alike:
                alike.append(entry)
                entries.append(entry)
                problem = "two unlike entries have this id, as after a merge; both count, and a strike takes back both"
                remedy = "give one of them another id, in all copies of the garden"
                faults.append(Fault(path, line, shown(entry.id), problem, remedy))
    return in_order(entries, len(journals) > 1), tuple(faults)


def in_order(entries: Sequence[Entry], by_time: bool) -> tuple[Entry, ...]:
    days = [entry.day for entry in entries]
    if any(map(operator.lt, days[1:], days)):
        entries = sorted(entries, key=_by_day)
    if not by_time:
        return tuple(entries)
    groups: dict[dt.date, list[Entry]] = {}
    for entry in entries:
        groups.setdefault(entry.day, []).append(entry)
    return tuple(entry for group in groups.values() for entry in _by_time_of_day(group))


def _by_time_of_day(entries: list[Entry]) -> list[Entry]:
    if all(isinstance(entry.at, dt.datetime) for entry in entries):
        return sorted(entries, key=lambda entry: str(entry.at)[:26])
    return entries


def standing(entries: Iterable[Entry]) -> tuple[Entry, ...]:
    """The entries that count: without those taken back, and without the strikes themselves.

    A strike may itself be struck; what it took back then counts again. Strikes that go round in a ring do nothing.
    """
    entries = tuple(entries)
    aims = {entry.id: entry.strikes for entry in entries if entry.kind == "struck" and entry.strikes}
    if not aims:
        return tuple(entry for entry in entries if entry.kind != "struck")
    waiting = dict.fromkeys(aims, 0)
    for aim in aims.values():
        if aim in waiting:
            waiting[aim] += 1
    struck: set[str] = set()
    ready = [own for own, strikers in waiting.items() if not strikers]
    while ready:
        own = ready.pop()
        aim = aims[own]
        if own not in struck:
            struck.add(aim)
        if aim in waiting:
            waiting[aim] -= 1
            if not waiting[aim]:
                ready.append(aim)
    return tuple(entry for entry in entries if entry.kind != "struck" and entry.id not in struck)
