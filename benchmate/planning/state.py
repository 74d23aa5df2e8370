"""Constraints from how the tree is: it mends, it was dug up, it is under wire."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from benchmate.planning.breaks import Break, Constraint, done_by
from benchmate.planning.candidate import Candidate

if TYPE_CHECKING:
    from benchmate.planning.judge import Judge


def _mending(judge: Judge, item: Candidate, before: Sequence[Candidate]) -> Iterator[Break]:
    """A tree that mends is not worked on."""
    table = judge.world.planning.bounds["mending"]
    works = {work for name in table["works"] for work in judge.world.book.group(str(name))}
    health = judge.world.step(item.opens).health
    if health in table["health"] and item.wish.work in works and not item.wish.gentle:
        yield Break("mending", judge.own("mending"))


def _mended(judge: Judge, item: Candidate, before: Sequence[Candidate]) -> Iterator[Break]:
    """What rests on the tree having mended waits until somebody has looked."""
    if item.hoped and not item.wish.gentle and not item.wish.looks:
        since = judge.world.step(item.opens).since - dt.timedelta(days=int(judge.world.planning.bounds["look_days"]))
        if not any(one.wish.looks and one.opens >= since for one in before):
            yield Break("mended", judge.own("mended"))


def _untouched(judge: Judge, item: Candidate, before: Sequence[Candidate]) -> Iterator[Break]:
    """A tree that was dug up is left alone for so long."""
    bounds = judge.world.planning.bounds["untouched"]
    works = {work for name in bounds["works"] for work in judge.world.book.group(str(name))}
    if item.wish.gentle or item.wish.work not in works:
        return
    days = [done.last for done in judge.world.today.done if done.work == "collect" and not done.denied]
    if any((item.opens - day).days < int(bounds["days"]) for day in days):
        yield Break("untouched", judge.own("untouched"))


def _under_wire(judge: Judge, item: Candidate, before: Sequence[Candidate]) -> Iterator[Break]:
    """No new wire while the last is on."""
    if item.wish.work != "wire":
        return
    for one in before:
        if one.wish.work == "wire" and any(then.work == "unwire" and then.closes >= item.opens for then in one.later):
            yield Break("under-wire", judge.own("under-wire"), one)
    on = [
        known
        for known in judge.world.facts(item.opens, done_by(before, True)).of("finding")
        if known.value == "wire-on" and not known.denied
    ]
    off = [one for one in before if one.wish.work == "unwire"]
    if on and not off and not any(one.wish.work == "wire" for one in before):
        yield Break("under-wire", judge.own("under-wire"))


STATE: tuple[Constraint, ...] = (_mending, _mended, _untouched, _under_wire)
