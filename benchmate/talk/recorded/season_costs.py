"""What each growing season took from a tree, reckoned by the season's budget as practice keeps it."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Sequence

from benchmate.garden.record import Entry, Place, Tree
from benchmate.hearing.reading import Reading
from benchmate.practice import gather
from benchmate.practice.almanac import almanac_for
from benchmate.practice.book import RuleBook
from benchmate.practice.budget import Cap, cap_for, counts, foliage_taken, is_free, is_heavy, root_taken, takes
from benchmate.practice.facts import Done, Facts
from benchmate.practice.gather import said_traits
from benchmate.practice.match import Matcher
from benchmate.practice.target import Target
from benchmate.seasons import season_start
from benchmate.telling.page import SeasonSpent
from benchmate.telling.wording import work_words
from benchmate.value import replace

_NO_READING = Reading("")
_DAY = dt.timedelta(days=1)
_MOST = 60


def seasons_spent(tree: Tree, entries: Sequence[Entry], place: Place, on: dt.date, book: RuleBook) -> list[SeasonSpent]:
    """Every growing season from the first day that the record tells of to `on`, oldest first, 60 at most.

    A bound of an earlier season is what the rules gave on the days of its cuts, with the health that was seen then; the
    health of today is no witness of it.
    """
    tree = _without_double(tree, entries)
    told = gather(_NO_READING, tree, entries, place, on, book).done
    days = [entry.day for entry in entries] + [one.last for one in told if _dated(one) and not one.denied]
    if not days:
        return []
    spans = list(_spans(min(days), place, on, book))
    return [_season(tree, entries, place, book, *span) for span in reversed(spans)]


def _without_double(tree: Tree, entries: Sequence[Entry]) -> Tree:
    """The tree without its origin where the journal tells itself how it was collected: it was dug up once."""
    collected = any(work.get("work") == "collect" for entry in entries for work in entry.work)
    return replace(tree, origin=None) if collected else tree


def _spans(first: dt.date, place: Place, on: dt.date, book: RuleBook) -> Iterator[tuple[dt.date, dt.date, dt.date]]:
    """Start, last day and today of each season, the present one first."""
    last = on
    for _ in range(_MOST):
        start = season_start(last, place, book.seasons)
        yield start, last, on
        last = start - _DAY
        if last < first:
            return


def _season(
    tree: Tree, entries: Sequence[Entry], place: Place, book: RuleBook, start: dt.date, last: dt.date, on: dt.date
) -> SeasonSpent:
    now = last == on
    then = tree if now else replace(tree, health=None, phase=None)
    facts = gather(_NO_READING, then, entries, place, last, book)
    done = [one for one in facts.done if not one.denied and start <= one.last <= last]
    cuts = [one for one in done if counts(one, "foliage", book) and not is_free(one.manner, facts, book)]
    days = [last] if now else sorted({one.last for one in cuts})
    caps = [cap for day in days if (cap := _cap(then, entries, place, day, book))]
    cap = min(caps, key=lambda one: one.share, default=None)
    return SeasonSpent(
        _label(start, last, place, book),
        start,
        foliage_taken(facts, book),
        root_taken(facts, book),
        any(one.share is None for one in cuts),
        any(one.share is None and counts(one, "root", book) for one in done),
        cap.share if cap else None,
        bool(cap and cap.assumed),
        tuple(_serious(done, book)),
        tuple((_words(one), one.last) for one in done[::-1] if takes(one.work, book) == "foliage" and one not in cuts),
        not done and not any(start <= entry.day <= last for entry in entries),
        now,
    )


def _dated(done: Done) -> bool:
    """Whether it is known when it was done: within some two years."""
    return (done.last - done.first).days < 800


def _words(done: Done) -> str:
    return work_words(done.work, done.spot, done=True, manner=done.manner)


def _cap(tree: Tree, entries: Sequence[Entry], place: Place, day: dt.date, book: RuleBook) -> Cap | None:
    facts: Facts = gather(_NO_READING, tree, entries, place, day, book)
    almanac = almanac_for(day, place, facts.entry, book.seasons, said_traits(facts))
    return cap_for(Target("shorten"), Matcher(book, facts, almanac))


def _serious(done: Sequence[Done], book: RuleBook) -> Iterator[tuple[str, dt.date]]:
    """One serious work a day, as the budget counts them; the one that takes roots stands for the day."""
    days: dict[dt.date, str] = {}
    for one in sorted(done, key=lambda one: (one.last, one.work != "repot")):
        if is_heavy(one, book):
            days.setdefault(one.last, _words(one))
    for day, words in days.items():
        yield words, day


def _label(start: dt.date, last: dt.date, place: Place, book: RuleBook) -> str:
    """The year in which the season grows; where that runs over the new year, both; a rolling half year by its end."""
    if season_start(start, place, book.seasons) != start:
        return f"{start:%Y-%m} to {last:%Y-%m}"
    if place.southern:
        return f"{start.year}-{(start.year + 1) % 100:02d}"
    return str((start + dt.timedelta(days=120)).year)
