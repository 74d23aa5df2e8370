"""Facts out of everything known: the statement, then the talk before it, then the record, then the season."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence
from typing import Any

from benchmate.garden.record import Entry, Place, Tree
from benchmate.hearing.reading import NOWHERE, Fact, Reading
from benchmate.practice.almanac import almanac_for
from benchmate.practice.book import RuleBook
from benchmate.practice.budget import takes
from benchmate.practice.facts import SAID, Done, Facts, Known
from benchmate.practice.phenology import own_spring, springs_of
from benchmate.practice.potted_in import pot_litres
from benchmate.practice.recorded import (
    came_by,
    done_in,
    from_tree,
    left_behind,
    measure_age,
    measured_in,
    seen_in,
    standing,
    told_until,
)
from benchmate.practice.stages import stage_facts
from benchmate.practice.taxa import taxon_entry
from benchmate.practice.when import span_of
from benchmate.seasons import SPRING_SHIFT
from benchmate.value import replace

_DAY = dt.timedelta(days=1)
# "two weeks ago" is told so exactly
_ABOUT = dt.timedelta(days=10)
_A_MONTH = dt.timedelta(days=31)
# a span so long is a year that was named; what of it lies after the leaves are down is so little
_A_YEAR = dt.timedelta(days=350)
_ITS_END = dt.timedelta(days=60)


def gather(
    reading: Reading,
    tree: Tree | None,
    entries: Sequence[Entry],
    place: Place,
    on: dt.date,
    book: RuleBook,
    talk_facts: Iterable[Fact] = (),
) -> Facts:
    """All facts for one statement, the strongest origin first.

    tree: the garden's tree that is meant, or None for a bare species. entries: its journal, in any order; struck
    entries and those after `on` do not count. talk_facts: what was said of the same tree earlier in this talk.
    """
    stated = [*reading.facts, *reading.candidates, *talk_facts]
    known = [_said(fact) for fact in stated if fact.kind != "event"]
    known += [Known("means", value) for value in reading.means]
    kept = standing(entries, on)
    done = done_in(kept, on, place.southern)
    if tree:
        done += came_by(tree, done, on, book.places)
    seen = seen_in(kept, done, on, book.places) + (from_tree(tree) if tree else [])
    said, done = _told_again(_said_done(reading, stated, place, on), done, on)
    done = _one_visit(said + done, book)
    done += _counted_as(done, book)
    known += seen + left_behind(done, on, book.places)
    groups: dict[str, list[Known]] = {}
    for fact in known:
        groups.setdefault(fact.kind, []).append(fact)

    facts = Facts(on, {kind: tuple(rows) for kind, rows in groups.items()})
    species = facts.first("species")
    taxon = str(species.value) if species else None
    entry = taxon_entry(taxon, book.taxa) if taxon else {}
    almanac = almanac_for(on, place, entry, book.seasons, said_traits(facts))
    springs = springs_of(kept, book.places)
    if springs and (later := own_spring(springs, almanac, book.places)):
        facts = replace(facts, own_spring=later)
        almanac = almanac_for(on, place, entry, book.seasons, said_traits(facts))
    start = almanac.season_start
    stages = stage_facts(facts, almanac)
    groups["stage"] = list(stages.stages)
    groups["flush"] = [*groups.get("flush", []), *stages.flush]
    return Facts(
        on=on,
        known={kind: tuple(rows) for kind, rows in groups.items() if rows},
        done=tuple(sorted((_settled(d, start, on) for d in _dated(done, start)), key=lambda d: d.last, reverse=True)),
        measures=_measures(reading, tree, kept, on, book),
        taxon=taxon,
        entry=entry,
        tree=tree.name if tree else None,
        since=tree.since if tree else None,
        season_start=start,
        stage_assumed=stages.assumed,
        stage_turns=stages.turns,
        meant=tuple(work for work in reading.work if work.work and work.done in (None, "now", "later")),
        loose=reading.measures,
        measured=tuple(measured_in(kept, on, book.places)),
        own_spring=facts.own_spring,
        pot_l=pot_litres(reading, tree, kept, on),
        compared=tuple(str(work.work) for work in reading.work if work.work and work.done is None)
        if reading.topic == "compare"
        else (),
    )


def said_traits(facts: Facts) -> dict[str, Any]:
    """What the grower says that the tree is by kind, as trait -> value; groups are no traits. With it goes how much
    later than usual its own springs come."""
    pairs = [str(known.value).partition(":") for known in facts.of("trait") if not known.denied]
    said: dict[str, Any] = {name: value for name, _, value in reversed(pairs) if name != "group"}
    return said | ({SPRING_SHIFT: facts.own_spring} if facts.own_spring else {})


def _said(fact: Fact) -> Known:
    return Known(fact.kind, fact.value, fact.spot, fact.denied, SAID, None, dict(fact.measures))


def _said_done(reading: Reading, facts: Iterable[Fact], place: Place, on: dt.date) -> list[Done]:
    """Work that the statement says was done: told of the past, or just now."""
    out = []
    for fact in facts:
        if fact.kind == "event":
            first, last = span_of(fact.when, on, place.southern)
            out.append(Done(str(fact.value), first, last, fact.spot, fact.measures.get("share"), (), fact.denied, SAID))
    for work in reading.work:
        if work.work and work.done == "done":
            first, last = span_of(reading.when, on, place.southern) if reading.when else (on, on)
            judged = work not in reading.told_beside
            if not judged and last - first <= _A_MONTH:
                first = last  # the day under which the record keeps it
            out.append(
                Done(work.work, first, last, work.spot, work.measures.get("share"), work.manner, False, SAID, judged)
            )
    return out


def _told_again(said: list[Done], recorded: list[Done], on: dt.date) -> tuple[list[Done], list[Done]]:
    """ "Repotted it two weeks ago" of a repot that the record holds is that one told again, not a second one; what was
    done on that day with it goes with it."""
    kept = list(said)
    for one in said:
        days = {row.first for row in recorded if _tells_work(one, on) and _is_same(one, row)}
        if days:
            kept.remove(one)
        if days and one.now:
            recorded = [replace(row, now=True) if row.first in days and not row.denied else row for row in recorded]
    return kept, recorded


def _tells_work(said: Done, on: dt.date) -> bool:
    """Whether it is told as work of a day before today."""
    return not said.denied and dt.date.min < said.first and said.last < on


def _is_same(told: Done, row: Done) -> bool:
    near = told.first - _ABOUT <= row.first and row.last <= told.last + _ABOUT
    return (
        row.work == told.work
        and not row.denied
        and near
        and (row.spot == told.spot or NOWHERE in (row.spot, told.spot))
    )


def _one_visit(done: list[Done], book: RuleBook) -> list[Done]:
    """Roots that are cut while the tree is out of its pot are cut in the one visit that the repot is."""
    roots = tuple(dict.fromkeys(one.work for one in done if one.now and takes(one.work, book) == "root"))
    return [replace(one, beside=roots) if one.now and one.work in roots else one for one in done]


def _counted_as(done: Iterable[Done], book: RuleBook) -> list[Done]:
    """Work that stands for another in all that waits for it: roots that were cut count as a repot. What is taken is
    counted once, and the work of this very statement is weighed for itself."""
    names = book.budget.get("serious", {}).get("counts_as", {})
    held = {(one.work, one.first) for one in done}
    return [
        replace(one, work=names[one.work], share=0.0, by=one.work)
        for one in done
        if one.work in names and not one.now and (names[one.work], one.first) not in held
    ]


def _dated(done: Sequence[Done], season_start: dt.date) -> list[Done]:
    """Without what is told of no day where this season's record has the day: "since the repot" is that repot."""
    known = {one.work: one.last for one in done if not one.denied and season_start <= one.first}
    return [
        one for one in done if one.denied or one.first != dt.date.min or known.get(one.work, dt.date.max) > one.last
    ]


def _settled(done: Done, season_start: dt.date, on: dt.date) -> Done:
    """ "Not repotted this year", or with no time at all, speaks of the whole season that the year's work belongs to.
    "Last year" is the growing season that the year holds, not the weeks at its end that belong to the next one."""
    if not done.denied and _A_YEAR < done.last - done.first < 2 * _A_YEAR and done.last - season_start < _ITS_END:
        return replace(done, last=max(done.first, min(done.last, season_start - _DAY)))
    if not done.denied or done.origin != SAID:
        return done
    recent = done.first == dt.date.min or done.last >= season_start
    return Done(done.work, season_start, on, done.spot, denied=True, origin=SAID) if recent else done


def _measures(
    reading: Reading, tree: Tree | None, entries: Sequence[Entry], on: dt.date, book: RuleBook
) -> dict[str, float]:
    """Measures of the tree as a whole: said, else the latest of the record, else those of tree.toml."""
    out: dict[str, float] = dict(tree.size) if tree else {}
    for entry in reversed(entries):
        age = (on - told_until(entry)).days
        out |= {
            key: float(value)
            for key, value in entry.measures.items()
            if key != "share" and age <= measure_age(key, book.places)
        }
    for fact in reading.facts:
        if fact.kind == "weather":
            out |= fact.measures
    often = {"every_days": float(reading.every)} if reading.every else {}
    return out | dict(reading.measures) | often
