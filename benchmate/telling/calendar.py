"""Follow-ups as iCalendar (RFC 5545): one all-day event each, its UID the same at every export."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Iterator, Sequence
from typing import TYPE_CHECKING

from benchmate.garden.record import Tree
from benchmate.telling.lines import escape
from benchmate.telling.wording import part_words, work_words

if TYPE_CHECKING:
    from benchmate.garden import FollowUp

_LONGEST = 75  # octets in a line, RFC 5545 section 3.1
_HEAD = ("BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//benchmate//follow-ups//EN", "CALSCALE:GREGORIAN")


def calendar_text(rows: Iterable[tuple[Tree, Sequence[FollowUp]]], on: dt.date) -> str:
    """A calendar of all open follow-ups that have a day. on: today, for the stamp.

    A second export updates the events of the first: their UIDs are made of the entry that asks for them.
    """
    lines = list(_HEAD)
    for tree, found in rows:
        for follow in found:
            if follow.on:
                lines += _event(tree, follow, on)
    lines.append("END:VCALENDAR")
    return "".join(f"{folded}\r\n" for line in lines for folded in _fold(line))


def _event(tree: Tree, follow: FollowUp, on: dt.date) -> Iterator[str]:
    assert follow.on is not None
    part = f" the {part_words(follow.part)}" if follow.part and follow.work == "check" else ""
    work = f"check{part}" if part else work_words(follow.work)
    told = [follow.says, f"Only when it is {follow.weather}." if follow.weather else "", follow.slips or ""]
    yield "BEGIN:VEVENT"
    yield f"UID:{follow.uid}@{tree.folder}.benchmate"
    yield f"DTSTAMP:{on:%Y%m%d}T000000Z"
    yield f"DTSTART;VALUE=DATE:{follow.on:%Y%m%d}"
    yield f"DTEND;VALUE=DATE:{follow.on + dt.timedelta(days=1):%Y%m%d}"
    yield f"SUMMARY:{_text(f'{tree.name}: {work}')}"
    yield f"DESCRIPTION:{_text(' '.join(filter(None, told)))}"
    yield "TRANSP:TRANSPARENT"
    yield "END:VEVENT"


def _text(words: str) -> str:
    """Words as a TEXT value: RFC 5545 section 3.3.11."""
    rows = [escape(row) for row in words.splitlines()]
    for sign in ("\\", ";", ","):
        rows = [row.replace(sign, f"\\{sign}") for row in rows]
    return "\\n".join(rows)


def _fold(line: str) -> Iterator[str]:
    """The line in pieces of 75 octets at most, the further ones led by a space; no letter is cut."""
    piece = ""
    for letter in line:
        if len((piece + letter).encode()) > _LONGEST:
            yield piece
            piece = " "
        piece += letter
    yield piece
