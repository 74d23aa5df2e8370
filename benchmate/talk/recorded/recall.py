"""What the record says: when last, how often, what was done then. Entries in, plain lines out."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence

from benchmate.garden.record import Entry
from benchmate.hearing.reading import Reading
from benchmate.talk.dates import span_asked
from benchmate.telling.dates import day_words, span_words, when_words, within_words
from benchmate.telling.story import entry_words, matching
from benchmate.telling.wording import list_words, work_words

MOST, FEW = 12, 3  # entries told, and where words of the question were not taken in


def recall(
    reading: Reading,
    journals: Mapping[str, Sequence[Entry]],
    on: dt.date,
    *,
    southern: bool = False,
    units: str = "metric",
    counts: Mapping[str, int] | None = None,
    several: bool | None = None,
    about: str | None = None,
) -> tuple[str, ...]:
    """The answer to "when did I last", "how often", "did I", "what did I do", the answer itself first.

    journals: tree name -> its entries; one tree where the question is about one. Only what stood by `on` counts.
    counts: how many entries there are in all, by work, where the journals hold the newest alone. several: whether more
    trees than one were asked about, where the journals do not tell. about: the part that was searched for.
    """
    start, end = span_asked(reading, on, southern) or (None, on)
    within = ""
    if reading.when:
        within = f" since {when_words(reading.when, on)}" if reading.onward else f" {within_words(reading.when, on)}"
    works = [work.work for work in reading.work if work.work]
    counts, several = counts or {}, len(journals) > 1 if several is None else several
    if not works:
        within = f" about the {about.replace('-', ' ')}{within}" if about else within
        most = FEW if reading.missed and not reading.when else MOST
        return _everything(journals, start, end, within, on, units, counts.get(""), several, most)
    lines: list[str] = []
    for work in works:
        lines += _one_work(work, journals, start, end, within, on, units, counts.get(work), several)
    return tuple(lines)


def _one_work(
    work: str,
    journals: Mapping[str, Sequence[Entry]],
    start: dt.date | None,
    end: dt.date,
    within: str,
    on: dt.date,
    units: str,
    count: int | None,
    several: bool,
) -> list[str]:
    found = [
        (name, entry)
        for name, entries in journals.items()
        for entry in matching(
            entries, work=work, kinds=("done", "left") if work in ("leave", "wait") else ("done",), start=start, end=end
        )
    ]
    found.sort(key=lambda pair: pair[1].day, reverse=True)
    done = work_words(work, done=True)
    if not found:
        if within and (earlier := _last_before(work, journals, start)):
            name, entry = earlier
            of = f" ({name})" if several else ""
            return [f"No{within}: the last time was {day_words(entry.day)}{of}"]
        return [f"The record holds no day when you {done}{within}"]
    name, last = found[0]
    of = f" ({name})" if several else ""
    count = count or len(found)
    times = {1: "once", 2: "twice"}.get(count, f"{count} times")
    head = f"You {done} {times}{within}; last on {day_words(last.day)}{of}, {span_words((last.day - on).days)}"
    if count == 1:
        head = f"You {done} on {day_words(last.day)}{of}, {span_words((last.day - on).days)}"
    return [head, *(_entry_line(name, entry, several, units) for name, entry in found[:MOST])]


def _last_before(work: str, journals: Mapping[str, Sequence[Entry]], start: dt.date | None) -> tuple[str, Entry] | None:
    earlier = [
        (name, entry)
        for name, entries in journals.items()
        for entry in matching(entries, work=work, kinds=("done",), end=start)
    ]
    return max(earlier, key=lambda pair: pair[1].day, default=None)


def _everything(
    journals: Mapping[str, Sequence[Entry]],
    start: dt.date | None,
    end: dt.date,
    within: str,
    on: dt.date,
    units: str,
    count: int | None,
    several: bool,
    most: int,
) -> tuple[str, ...]:
    found = [(name, entry) for name, entries in journals.items() for entry in matching(entries, start=start, end=end)]
    found.sort(key=lambda pair: pair[1].day, reverse=True)
    whose = "" if several else f" for {next(iter(journals))}" if journals else ""
    if not found:
        return (f"The record holds nothing{whose}{within}",)
    count = count or len(found)
    entries = "1 entry" if count == 1 else f"{count} entries"
    head = f"The record holds {entries}{whose}{within}, newest first"
    lines = [_entry_line(name, entry, several, units) for name, entry in found[:most]]
    if count > most:
        names = list(dict.fromkeys(name for name, _ in found))
        stand = "1 more stands" if count - most == 1 else f"{count - most} more stand"
        lines.append(f"{stand} in the record of {list_words(names[:6])}")
    return (head, *lines)


def _entry_line(name: str, entry: Entry, several: bool, units: str) -> str:
    return f"{day_words(entry.day)}{f', {name}' if several else ''}: {entry_words(entry, entry.day, units)}"
