"""The last decisions: what was done, planned or left alone, why, and what was not taken."""

from __future__ import annotations

import re
from collections.abc import Iterable

from benchmate.garden.record import Entry
from benchmate.telling.dates import day_words, when_words
from benchmate.telling.lines import cut_short
from benchmate.telling.measures import measure_words
from benchmate.telling.page.sheet import Sheet
from benchmate.telling.page.years import fact_told, worked
from benchmate.telling.wording import list_words, sentence, work_words
from benchmate.value import dataclass

MOST = 6
_SHAPES = ("roots", "cutting", "shaping")
_WORD = re.compile(r"\w+")
_MORE_WORDS = 3
_WORK_NAME = re.compile(r"[a-z]+(-[a-z]+)*")


@dataclass(frozen=True, slots=True)
class Decision:
    """day, what: in words. said: the grower's own words, where they say more. reason: in words or "". refused: what was
    offered and not taken, in words."""

    day: str
    what: str
    said: str = ""
    reason: str = ""
    refused: tuple[str, ...] = ()


def decisions(sheet: Sheet, most: int = MOST) -> tuple[list[Decision], int]:
    """The last ones, newest first, and how many there are before them. Watering, feeding and looking are no decisions
    unless a reason was given."""
    kept = [entry for entry in sheet.entries if _decides(entry, sheet)]
    told = [_told(entry, sheet) for entry in reversed(kept[-most:])]
    return told, max(0, len(kept) - most)


def _decides(entry: Entry, sheet: Sheet) -> bool:
    if entry.kind not in ("done", "plan", "left"):
        return False
    if entry.kind != "done" or entry.reason or entry.refused:
        return True
    return any(sheet.groups.get(str(work.get("work"))) in _SHAPES for work in entry.work)


def _told(entry: Entry, sheet: Sheet) -> Decision:
    what = sentence(_what(entry, sheet))
    said = cut_short(entry.said, 300)
    reason = sentence(cut_short(entry.reason or "", 300))
    kept = said if _says_more(said, what) else ""
    return Decision(day_words(entry.day), what, kept, reason, tuple(_refused(entry.refused)))


def _what(entry: Entry, sheet: Sheet) -> str:
    phrases = [told[1] for work in entry.work if (told := worked(entry, work, sheet.groups, sheet.units))]
    seen = [fact_told(fact, entry, sheet.units) for fact in entry.facts]
    seen += [measure_words(key, value, sheet.units) for key, value in entry.measures.items()]
    words = list_words(phrases) or {"plan": "planned", "left": "left as it was"}.get(entry.kind, "done")
    if entry.when:
        words += f", {when_words(entry.when)}"
    return "; ".join([words, *seen])


def _says_more(said: str, what: str) -> bool:
    """Whether the grower's words hold more than the record made of them."""
    known = set(_WORD.findall(what.casefold()))
    return len(set(_WORD.findall(said.casefold())) - known) >= _MORE_WORDS


def _refused(refused: Iterable[str]) -> Iterable[str]:
    for one in refused:
        words = cut_short(one, 120)
        if words:
            yield work_words(words) if _WORK_NAME.fullmatch(words) else words
