"""A plan that is dropped or moved: "cancel the wiring", "swap the repot to the year after", "no wiring after all".
Nothing is done by such words: the plan is taken back, and stands anew at another time where one is named."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from benchmate.garden.record import Entry, Tree
from benchmate.hearing.done.doing import LATER, NOT
from benchmate.hearing.reading import Reading, Work
from benchmate.talk.context import Logged
from benchmate.talk.dates import first_day
from benchmate.talk.trees.which_tree import meant_tree
from benchmate.telling.story import matching
from benchmate.value import dataclass, replace

if TYPE_CHECKING:
    from benchmate.talk.bench import Bench

Replanned = tuple[Reading, Logged]
_LONGEST = 7  # words of "the wiring of the old field maple"
_LEADING = frozenset({"to", "till", "until", "til", "by"})  # lead to a time, and stand in no thing
_MONTHS = {"year": 12, "years": 12, "month": 1, "months": 1}
_DAYS = {"week": 7, "weeks": 7, "fortnight": 14, "day": 1, "days": 1}


@dataclass(frozen=True, slots=True)
class Meant:
    """What the words speak of. work: None where they only point ("put it off"). named: the tree as they name it."""

    work: str | None
    tree: Tree
    named: Reading


def replanned(bench: Bench, words: str) -> Replanned | None:
    """The statement that is meant and the plans that it takes back, or None where the words move no plan."""
    sense = bench.house.lexicon.sense["replan"]
    texts = [word for word in bench.house.lexicon.split(words) if word not in (".", "!")]
    if "?" in texts or not set(texts) & set(sense["any"]):
        return None
    start = _begins(texts, sense["leads"])
    for way in ("later", "sooner", "drop"):
        for phrase in sense[way]:
            for thing, tail in _parts(texts[start:], phrase.split()):
                if (meant := _meant(bench, thing, sense)) is None:
                    continue
                found = (_dropped if way == "drop" else _moved)(bench, words, meant, tail, -1 if way == "sooner" else 1)
                if found is not None:
                    return found
    return _after_all(bench, words, texts, sense)


def _begins(texts: Sequence[str], leads: Sequence[str]) -> int:
    """Where the words begin behind "ok, I'll", "let's"."""
    at = 0
    while at < len(texts) and texts[at] in leads:
        at += 1
    return at


def _parts(texts: Sequence[str], phrase: Sequence[str]) -> Iterator[tuple[list[str], list[str]]]:
    """The thing in the place of "~" in the phrase, and the words behind the phrase."""
    at = phrase.index("~")
    before, after = list(phrase[:at]), list(phrase[at + 1 :])
    if list(texts[:at]) != before:
        return
    for end in range(min(at + _LONGEST, len(texts)), at, -1):
        if list(texts[end : end + len(after)]) == after and not _LEADING & set(texts[at:end]):
            yield list(texts[at:end]), list(texts[end + len(after) :])


def _meant(bench: Bench, thing: Sequence[str], sense: dict[str, list[str]]) -> Meant | None:
    """The work that the words name as a thing, or that they point to; on the tree that they name or the one at hand."""
    house, words_of = bench.house, bench.house.lexicon.sense
    if {*words_of["latest"], *words_of["entries"]} & set(thing):
        return None  # "scratch the last feed" takes back what was put down
    if list(thing) in [[one] for one in sense["pointing"]]:
        here = bench.here
        return Meant(None, here, Reading("")) if here else None
    named = house.hear(" ".join(thing).replace(" 's", "'s"), bench.on)
    events = {str(fact.value) for fact in named.facts if fact.kind == "event" and not (fact.denied or fact.when)}
    kinds = [fact for fact in named.facts if fact.kind == "species" and not fact.denied]
    plain = not (named.work or named.missed or named.measures or named.when or named.several or named.guessed)
    if not plain or len(events) > 1 or len(named.facts) != len(events) + len(kinds):
        return None
    if not (events or kinds or named.tree) or set(named.acts) - {"observe", "turn", "decide"}:
        return None
    said = Reading("", facts=tuple(kinds), tree=named.tree)
    tree = meant_tree(said, house.trees(), bench.here).tree
    return Meant(next(iter(events), None), tree, said) if tree else None


def _plans(bench: Bench, meant: Meant) -> list[Entry]:
    """The plans of that work which stand, the newest last; of one work alone where the words name none."""
    entries = bench.house.entries(meant.tree)
    standing = []
    for entry in matching(entries, kinds=("plan",)):
        works = {str(table.get("work")) for table in entry.work}
        if meant.work is not None and meant.work not in works:
            continue
        if not any(matching(entries, work=work, kinds=("done",), start=entry.day) for work in works):
            standing.append(entry)
    lately = {entry.id for _, entry in bench.context.logged}
    if meant.work is None and len(standing) > 1:
        standing = [entry for entry in standing if entry.id in lately]
    return standing[-1:] if meant.work is None else standing


def _dropped(bench: Bench, words: str, meant: Meant, tail: Sequence[str], _sign: int) -> Replanned | None:
    """ "Drop the wiring": the plan is gone, and the work is left. Where nothing is planned, that is said of work to
    come only if the words would else be taken for work that was done."""
    sense = bench.house.lexicon.sense
    if set(tail) - set(sense["replan"]["behind"]):
        return None
    if meant.work is None and "strike" in bench.house.hear(words, bench.on).acts:
        return None  # "scratch that"
    plans, works = _plans(bench, meant), [meant.work] if meant.work else []
    if plans:
        works = works or [str(table["work"]) for table in plans[-1].work]
    elif not works or set(bench.house.lexicon.split(words)) & set(sense["undoes"]):
        return None  # "cancel the feed" takes back one that was put down
    else:
        heard = bench.house.hear(words, bench.on)
        if not any(one.work == meant.work and one.done != NOT for one in heard.work) and heard.acts != ("observe",):
            return None
    return _reading(words, meant, works, NOT), _pairs(meant, plans)


def _moved(bench: Bench, words: str, meant: Meant, tail: Sequence[str], sign: int) -> Replanned | None:
    """ "Put the repot off a year", "move it to March": the work is planned for that time."""
    plans = _plans(bench, meant)
    if not (plans or meant.work):
        return None
    works = [meant.work] if meant.work else [str(table["work"]) for table in plans[-1].work]
    planned = (plans[-1].when or _reminded(plans[-1])) if plans else None
    when = _time(bench, tail, planned, sign)
    if when is None and not tail and plans:
        return _reading(words, meant, works, NOT), _pairs(meant, plans)  # "put off the repot": to no day
    first = first_day(when, bench.house.place.southern) if when else None
    if when is None or first is None or first.year < bench.on.year:
        return None
    return replace(_reading(words, meant, works, LATER), when=when), _pairs(meant, plans)


def _after_all(bench: Bench, words: str, texts: Sequence[str], sense: dict[str, list[str]]) -> Replanned | None:
    """ "I won't wire it after all", "wire it in December instead": what was planned of that work goes."""
    said = f" {' '.join(texts)} "
    if not any(f" {one} " in said for one in sense["after_all"]) or bench.here is None:
        return None
    heard = bench.house.hear(words, bench.on, bench.context.lending)
    done = {work.done for work in heard.work}
    works = {work.work for work in heard.work}
    if heard.acts != ("decide",) or len(works) != 1 or None in works or heard.several:
        return None
    if done != {NOT} and not (done == {LATER} and heard.when):
        return None
    tree = meant_tree(heard, bench.house.trees(), bench.here).tree
    meant = Meant(next(iter(works)), tree, heard) if tree else None
    plans = _plans(bench, meant) if meant else []
    return (heard, _pairs(meant, plans)) if meant and plans else None


def _reading(words: str, meant: Meant, works: Sequence[str | None], done: str) -> Reading:
    work = tuple(Work(one, done=done) for one in works)
    return Reading(words, ("decide",), facts=meant.named.facts, work=work, tree=meant.named.tree)


def _pairs(meant: Meant, plans: Sequence[Entry]) -> Logged:
    return tuple((meant.tree.name, entry) for entry in plans)


def _reminded(plan: Entry) -> str | None:
    return next((str(table["on"]) for table in plan.follow if table.get("on")), None)


def _time(bench: Bench, tail: Sequence[str], planned: str | None, sign: int) -> str | None:
    """The time that the words name: so much later than was planned ("a year", "to the year after"), or one of its
    own ("till autumn")."""
    sense = bench.house.lexicon.sense["replan"]
    rest = [word for word in tail if word not in sense["around"]]
    while rest and rest[0] in sense["to"]:
        rest = rest[1:]
    while rest and rest[-1] in sense["more"]:
        rest = rest[:-1]
    numbers = bench.house.lexicon.numbers.get("number", {})
    if rest and rest[-1] in {**_MONTHS, **_DAYS} and len(rest) <= 2:
        count = rest[0] if len(rest) == 2 else "1"
        many = int(count) if count.isdecimal() else int(numbers.get(count, 1 if count in sense["one"] else 0))
        if many:
            today = bench.on.isoformat()
            today = today[:4] if not _MONTHS.get(rest[-1], 1) % 12 else today[:7] if rest[-1] in _MONTHS else today
            return _shifted(planned or today, rest[-1], sign * many, bench.house.place.southern)
    heard = bench.house.hear(f"I will repot it in {' '.join(rest)}", bench.on) if rest else None
    if heard is None or heard.missed or heard.facts or heard.measures or len(heard.work) != 1:
        heard = bench.house.hear(f"I will repot it {' '.join(rest)}", bench.on) if rest else None
    plain = heard is not None and not (heard.missed or heard.facts or heard.measures or heard.tree)
    return heard.when if heard is not None and plain and len(heard.work) == 1 and not heard.work[0].measures else None


def _shifted(when: str, unit: str, count: int, southern: bool) -> str | None:
    """A time so much later: of a season or a month by whole years and months, as it was named."""
    head, _, rest = when.partition("-")
    months = _MONTHS.get(unit, 0) * count
    if months and not months % 12:
        return f"{int(head) + months // 12}{'-' + rest if rest else ''}"
    if months and rest.isdecimal():
        month = int(head) * 12 + int(rest) - 1 + months
        return f"{month // 12}-{month % 12 + 1:02d}"
    first = first_day(when, southern)
    if first is None:
        return None
    if months:
        month = first.year * 12 + first.month - 1 + months
        return dt.date(month // 12, month % 12 + 1, min(first.day, 28)).isoformat()
    return (first + dt.timedelta(days=_DAYS.get(unit, 0) * count)).isoformat()
