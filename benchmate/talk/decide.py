"""What a statement puts into the record: a reading and its advice in, entries out. It writes nothing."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Collection, Iterable, Mapping, Sequence
from typing import Any

from benchmate.garden.record import Entry
from benchmate.hearing.reading import Fact, Reading, Spot, Work
from benchmate.practice.advice import Advice, Option
from benchmate.talk.dates import first_day, last_day
from benchmate.talk.told.following import Endings, follow_tables, placed_table
from benchmate.talk.told.photographs import with_photographs
from benchmate.telling.wording import list_words, sentence, work_words
from benchmate.value import replace

NO_ENDINGS: Endings = {}
_AHEAD = 14  # days before planned work on which what it needs is told, where no day was said
MOST_TIMES = 40  # that work is kept for, one after the other
_WORD = re.compile(r"[a-z]+")
LEFT_WORKS = ("leave", "wait")
_KINDS = {"done": "done", "now": "done", "later": "plan", "not": "left"}


def entries_of(
    reading: Reading,
    advice: Advice | None,
    on: dt.date,
    *,
    southern: bool = False,
    refused: Iterable[str] = (),
    endings: Endings = NO_ENDINGS,
    forecast: Sequence[str] = (),
    circumstances: Collection[str] = (),
) -> tuple[Entry, ...]:
    """The entries that the statement makes, oldest first, their ids still empty.

    on: today. southern: seasons follow the southern year. refused: works that were offered and not taken.
    endings: work -> the works that undo it, which close its follow-ups. forecast: words that tell of weather to come,
    which is kept as a note: nobody has seen it yet. circumstances: what is seen and no finding names,
    kept in a note too.
    Work done, or being done, is `done`; work meant for later is `plan`, due when it was said; work refused, and
    leaving or waiting, is `left`. What was only seen is `seen`; words to keep are `note`. What is said in one statement
    stands in one entry a kind, the facts in the first.
    """
    facts, ahead = _ahead(_stated(reading), on, southern)
    groups: dict[str, list[Work]] = {}
    for work in reading.work:
        if work.work and work.done and "decide" in reading.acts:
            groups.setdefault("left" if work.work in LEFT_WORKS else _KINDS[work.done], []).append(work)
    reminded = "remind" in reading.acts
    days = again_and_again(reading, on, southern)
    entries = [
        _decided(
            kind, works, reading, advice, on, southern, reminded, tuple(refused) if kind == "done" else (), endings
        )
        for kind, works in groups.items()
    ]
    entries += [
        Entry("", on, "plan", reading.said, work=({"work": str(fact.value)},), reason=reading.reason, when=fact.when)
        for fact in ahead
    ]
    if "note" in reading.acts and not entries:
        # words beside the note that nothing else holds are kept with it
        words = reading.said if reading.missed else reading.note or reading.said
        entries.append(Entry("", on, "note", words.lstrip(" :,-")))
    if (facts or _measured(reading)) and not entries:
        if _is_forecast(reading, facts, on, southern, forecast):
            entries.append(Entry("", on, "note", reading.said, reason=reading.reason, when=reading.when))
        else:
            entries.append(Entry("", _day_seen(reading, on, southern), "seen", reading.said, reason=reading.reason))
    beside = [one for one in reading.means if one in circumstances] if "observe" in reading.acts else []
    if beside and not entries:
        entries.append(Entry("", on, "note", reading.said))  # "it sprang back": no finding holds it
    if reminded:
        entries = _remind(entries, reading, on, southern, days)
    elif days:
        entries = [_repeated(entry, days) if entry.kind == "plan" else entry for entry in entries]
    if entries and (facts or _measured(reading)):
        first = entries[0]
        entries[0] = _with(first, facts=tuple(map(fact_table, facts)), measures=dict(_measured(reading)))
    if entries and beside:
        told = tuple({"kind": "means", "value": one} for one in beside)
        entries[0] = _with(entries[0], facts=(*entries[0].facts, *told))
    return tuple(with_photographs(entries, reading.said, on))


def done_ahead(reading: Reading, on: dt.date, southern: bool = False) -> bool:
    """Whether all the work of the statement is told as done on a day that is still to come."""
    works = [work for work in reading.work if work.work]
    first = first_day(reading.when, southern) if reading.when else None
    told = "decide" in reading.acts and not {"remind", "ask"} & set(reading.acts) and works
    return bool(told) and first is not None and first > on and all(work.done == "done" for work in works)


def picked_entry(
    option: Option, said: str, on: dt.date, *, refused: Iterable[str] = (), endings: Endings = NO_ENDINGS
) -> Entry:
    """The entry for an option that was taken. An option that has to wait becomes a plan for the day it opens."""
    reasons = option.because or option.against
    kind, when = "done", None
    follow = tuple(placed_table(one, option.work, option.spot, endings) for one in option.follow)
    if option.work in LEFT_WORKS:
        kind = "left"
    elif option.verdict == "hold" and option.opens and dt.date.fromisoformat(option.opens) > on:
        kind, follow, when = "plan", (), option.opens
    work = _table(option.work, option.spot, {}, option.manner)
    reason = reasons[0].says if reasons else None
    return Entry("", on, kind, said, work=(work,), reason=reason, refused=tuple(refused), follow=follow, when=when)


def fact_table(fact: Fact) -> dict[str, Any]:
    """A fact as the journal keeps it: the reading's own keys, without the span."""
    return {key: value for key, value in fact.as_json().items() if key != "span"}


def work_table(work: Work) -> dict[str, Any]:
    """A work as the journal keeps it: the entry's kind says whether it was done."""
    return _table(work.work or "", work.spot, work.measures, work.manner)


def _table(work: str, spot: Spot, measures: Mapping[str, float], manner: tuple[str, ...]) -> dict[str, Any]:
    out: dict[str, Any] = {"work": work, **spot.as_json(), **measures}
    return out | ({"manner": list(manner)} if manner else {})


def _decided(
    kind: str,
    works: list[Work],
    reading: Reading,
    advice: Advice | None,
    on: dt.date,
    southern: bool,
    reminded: bool,
    refused: tuple[str, ...],
    endings: Endings,
) -> Entry:
    tables = _each_once([work_table(work) for work in works])
    when = reading.planned if reminded else reading.when
    at: dt.date = on
    follow: tuple[dict[str, Any], ...] = ()
    if kind == "plan" and when and (day := last_day(when, southern)) and day < on:
        when = None  # what is still to be done was not meant for a day that is over
    if kind == "done":
        if when and (first := first_day(when, southern)) and first > on:
            when = None  # the time to come is that of another work: nothing was done then
        if reading.onward and any("every_days" in work.measures for work in works):
            when = None  # "fed it every fortnight since July": the last time was of late, not in July
        if when and (day := last_day(when, southern)):
            at = min(day, on)
        follow = follow_tables(works, advice.options if advice else (), endings, (at - on).days)
    return Entry(
        "",
        at,
        kind,
        reading.said,
        work=tuple(tables),
        reason=reading.reason,
        follow=follow,
        refused=tuple(one for one in refused if one not in {work.work for work in works}),
        when=when,
    )


def again_and_again(reading: Reading, on: dt.date, southern: bool) -> tuple[dt.date, ...]:
    """The days of work that comes again up to a time that was said ("feed it every two weeks till August"), from today
    or the day that it begins on; none where there is no end, or where they are too many to keep."""
    last = first_day(reading.until, southern) if reading.until else None
    if not reading.every or last is None:
        return ()
    begins = first_day(reading.when, southern) if reading.when and not reading.onward else None
    first = begins if begins and begins > on + dt.timedelta(days=reading.every) else on
    count = (last - first).days // reading.every + 1
    return tuple(first + dt.timedelta(days=reading.every * n) for n in range(count)) if count <= MOST_TIMES else ()


def _repeated(entry: Entry, days: Sequence[dt.date]) -> Entry:
    """A plan that is due again and again."""
    follow = tuple(_reminder(work, day, ()) for day in days for work in entry.work)
    return _with(entry, when=days[0].isoformat(), follow=follow)


def _remind(
    entries: list[Entry], reading: Reading, on: dt.date, southern: bool, days: Sequence[dt.date] = ()
) -> list[Entry]:
    named = reading.day or reading.when  # "late April": the day that is meant in it, not the first
    day = first_day(named, southern) if named else None
    if day is None and not days:
        return entries
    meant = [work_table(work) for work in reading.work if work.work and not work.done] or [{"work": "check"}]
    seen = [str(fact.value).replace("-", " ") for fact in reading.facts if fact.kind == "finding" and not fact.denied]
    if day and reading.note and reading.planned == reading.when:
        day = max(on, day - dt.timedelta(days=_AHEAD))  # what is wanted for planned work is wanted before it
    tables = tuple(_reminder(work, one, seen, reading.note) for one in (days or filter(None, [day])) for work in meant)
    if entries and entries[0].kind in ("done", "left", "plan"):
        return [_with(entries[0], follow=(*entries[0].follow, *tables)), *entries[1:]]
    return [*entries, Entry("", on, "plan", reading.said, work=tuple(meant), reason=reading.reason, follow=tables)]


def _reminder(work: Mapping[str, Any], day: dt.date, seen: Sequence[str], note: str | None = None) -> dict[str, Any]:
    """seen: findings that were named with it ("check it for scale"). note: its own words, where they name no work."""
    spot = Spot(*(work.get(key) for key in ("part", "side", "level", "ordinal", "count")))
    words = work_words(str(work["work"]), spot)
    says = sentence(f"{words} for {list_words(list(seen))}" if seen and work["work"] == "check" else words)
    says = sentence(note) if note and work["work"] == "check" else says
    out = {key: work.get(key) for key in ("work", "part", "side", "level")}
    out |= {"on": day.isoformat(), "says": says}
    return {key: value for key, value in out.items() if value is not None}


def _each_once(tables: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """ "Root-pruned it, took a third of the roots off" is one work, told twice: what says more stands."""
    kept: list[dict[str, Any]] = []
    for table in tables:
        if any(table.items() <= other.items() for other in kept):
            continue
        kept = [other for other in kept if not other.items() <= table.items()]
        kept.append(table)
    return kept


def _ahead(facts: list[Fact], on: dt.date, southern: bool) -> tuple[list[Fact], list[Fact]]:
    """Facts, and works named for a day to come ("wire check in four weeks"): these are plans, not sights."""
    ahead = [
        fact
        for fact in facts
        if fact.kind == "event" and not fact.denied and fact.when and (first_day(fact.when, southern) or on) > on
    ]
    return [fact for fact in facts if fact not in ahead], ahead


def _stated(reading: Reading) -> list[Fact]:
    """What the statement says is so. Facts in a question of its own ("which ones are weak") are not stated."""
    if not {"observe", "decide", "new", "note"} & set(reading.acts):
        return []
    if reading.topic in ("what-if", "list", "due") or (reading.topic == "recall" and "observe" not in reading.acts):
        return []
    return [fact for fact in (*reading.facts, *reading.candidates) if fact.kind not in ("species", "trait")]


def _measured(reading: Reading) -> Mapping[str, float]:
    if "observe" not in reading.acts or reading.figure or set(reading.measures) == {"share"}:
        return {}  # "a third then" tells of nothing that was seen
    return reading.measures


def _is_forecast(reading: Reading, facts: Sequence[Fact], on: dt.date, southern: bool, words: Sequence[str]) -> bool:
    """Whether nothing is told but the weather, and that of a time to come ("minus 3 tonight", "frost on Friday")."""
    if any(fact.kind != "weather" for fact in facts) or set(_measured(reading)) - {"temperature_c"}:
        return False
    said = f" {' '.join(_WORD.findall(reading.said.lower()))} "
    later = bool(reading.when) and (last_day(reading.when or "", southern) or on) > on
    return later or any(f" {word} " in said for word in words)


def _day_seen(reading: Reading, on: dt.date, southern: bool) -> dt.date:
    """Today, or the past day that was named where the statement does nothing but tell of it. What has been so since
    then is so today."""
    if (
        reading.when
        and not reading.onward
        and not {"ask", "remind"} & set(reading.acts)
        and (day := last_day(reading.when, southern))
    ):
        return min(day, on)
    return on


def _with(entry: Entry, **changes: Any) -> Entry:
    return replace(entry, **changes)
