"""Looking back on the last work: "should I have waited", "did I go too far", "what now" after a mistake. What stood
against it, and what its after-care is."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from benchmate.garden.record import Entry
from benchmate.hearing.reading import Reading, Work
from benchmate.practice.advice import ASK, AVOID, GO, HOLD, Advice, Option
from benchmate.talk.corrected.when_undone import when_undone
from benchmate.talk.decide import LEFT_WORKS
from benchmate.telling.dates import day_of, day_words
from benchmate.telling.options import blocks_first
from benchmate.telling.story import spot_of
from benchmate.telling.wording import list_words, sentence, small, work_words
from benchmate.value import replace

if TYPE_CHECKING:
    from benchmate.talk.turns import Turn

_LATELY_DAYS = 14
_PLACE = frozenset({"work", "part", "side", "level", "ordinal", "count", "manner"})
# the three questions, as [sense.after] of rules/words/filler.toml names them
_WAITED, _OVERDONE, _FINE = "waited", "overdone", "fine"


def asks_alone(reading: Reading) -> bool:
    """Whether nothing but "what now" is asked: nothing is named that could be put right."""
    named = reading.work or reading.facts or reading.measures or reading.tree or reading.several or reading.when
    return "ask" in reading.acts and reading.topic == "advice" and not named


def looks_back(turn: Turn) -> bool:
    """Answer a question back on the last work done on the tree, or on from work that is only asked about; True where it
    was one."""
    if when_undone(turn):
        return True
    if _told_and_asked(turn):
        return False
    asked = _asked(turn, turn.reading)
    if asked is None and not (asks_alone(turn.reading) and (turn.before.made or _asked(turn, turn.before.amends))):
        return False
    entry = _last_done(turn)
    if turn.tree is None or entry is None:
        return False
    advice = _weighed_then(turn, entry)
    works = {str(table.get("work")) for table in entry.work}
    options = [option for option in advice.options if option.work in works]
    against = next((one for verdict in (AVOID, HOLD) for one in options if one.verdict == verdict), None)
    too_much = next((words for option in options if (words := _too_much(option, entry))), "")
    if asked is None:
        if against is None:
            return False  # nothing went wrong: what now is weighed as ever
        turn.says.append(_blame(turn, against, "It was against advice"))
    elif against or (too_much and asked == _OVERDONE):
        lead = "Yes, it had better have waited" if asked == _WAITED else "No" if asked == _FINE else "Yes"
        turn.says.append(f"{lead}: {too_much}" if too_much and asked == _OVERDONE else _blame(turn, against, lead))
    elif any(option.verdict == ASK for option in options):
        turn.says.append("That hangs on what is not known of the tree")
        turn.asks += advice.asks
    else:
        turn.says.append(
            f"{'Yes' if asked == _FINE else 'No'}: nothing known stood against it on {day_words(entry.day, turn.on)}"
        )
    turn.says += _after_care(turn, entry)
    if asked:
        turn.reading = replace(turn.reading, missed=())  # the question was taken in as a whole
    cautions = tuple(one for one in advice.cautions if one.kind == "tree")
    turn.advice = Advice(turn.reading, turn.tree.name, turn.on.isoformat(), cautions=cautions)
    return True


def _asked(turn: Turn, reading: Reading | None) -> str | None:
    """Which of the questions it is, or None. One after waiting names no work beside it."""
    sense = turn.house.lexicon.sense.get("after", {})
    if reading is None or {"decide", "remind", "new", "note"} & set(reading.acts):
        return None
    texts = turn.house.lexicon.split(reading.said)
    said = f" {' '.join(texts)} "
    alone = " ".join(text for text in texts if text.isalpha() and text not in turn.house.lexicon.sense["openers"])
    done_before = any(entry.kind == "done" for _, entry in turn.before.logged)
    if done_before and any(f" {words} " in said for words in sense.get(_FINE, ())):
        return _FINE
    for way in (_WAITED, _OVERDONE) if done_before else ():
        if alone in sense.get(f"{way}_alone", ()):
            return way
    works = {work.work for work in reading.work if work.work}
    if works and works <= set(LEFT_WORKS) and any(f" {words} " in said for words in sense.get(_WAITED, ())):
        return _WAITED
    return _OVERDONE if any(f" {words} " in said for words in sense.get(_OVERDONE, ())) else None


def _told_and_asked(turn: Turn) -> bool:
    """ "Fed it, was that right?": how sound it was is told of work as it is put down; the question asks no more."""
    reading = turn.reading
    said = f" {' '.join(turn.house.lexicon.split(reading.said))} "
    asks = any(f" {words} " in said for words in turn.house.lexicon.sense.get("after", {}).get(_FINE, ()))
    if "decide" not in reading.acts or not asks or not any(work.done == "done" for work in reading.work):
        return False
    phrases = turn.house.lexicon.sense["after"][_FINE]
    missed = tuple(one for one in reading.missed if not any(one.words.casefold() in words for words in phrases))
    acts = tuple(act for act in reading.acts if act != "ask")
    turn.reading = replace(reading, acts=acts, topic=None, missed=missed)
    return True


def _last_done(turn: Turn) -> Entry | None:
    """The newest work of this talk or of the last days on the tree."""
    entries = [one for one in turn.house.lately_standing(turn.tree) if one.kind == "done" and one.day <= turn.on]
    entry = max(entries, key=lambda one: (one.id in turn.bench.written, one.day), default=None)
    lately = entry and (entry.id in turn.bench.written or (turn.on - entry.day).days <= _LATELY_DAYS)
    return entry if lately else None


def _weighed_then(turn: Turn, entry: Entry) -> Advice:
    """The work weighed for the day on which it was done, by all that was known without it."""
    from benchmate.practice import advise, gather

    works = tuple(
        Work(str(table["work"]), spot_of(table), _measures(table), "done", tuple(table.get("manner", ())))
        for table in entry.work
        if table.get("work")
    )
    weather = tuple(fact for fact in turn.reading.facts if fact.kind == "weather")  # "was that ok in this heat"
    reading = Reading(entry.said, ("decide",), facts=weather, work=works)
    house = turn.house
    entries = [one for one in house.entries(turn.tree) if one.id != entry.id]
    facts = gather(reading, turn.tree, entries, house.place, entry.day, house.book, ())
    return advise(reading, facts, house.book, house.place, entry.day)


def _measures(table: Mapping[str, Any]) -> dict[str, float]:
    return {key: float(value) for key, value in table.items() if key not in _PLACE and isinstance(value, int | float)}


def _too_much(option: Option, entry: Entry) -> str:
    """How much more was taken than may go at once, or "" where it was not."""
    taken = max((float(table.get("share", 0)) for table in entry.work if table.get("work") == option.work), default=0)
    most = option.amount.get("share", 0)
    if not most or taken <= most:
        return ""
    return f"{taken * 100:.0f} % is more than the {most * 100:.0f} % that may go at once"


def _blame(turn: Turn, option: Option | None, lead: str) -> str:
    if option is None or not option.against:
        return lead
    words = f"{lead}: {small(blocks_first(option.against)[0].says).rstrip('.')}"
    opens = day_of(option.opens)
    return f"{words}. Its day would have been {day_words(opens, turn.on)}" if opens and opens > turn.on else words


def _after_care(turn: Turn, entry: Entry) -> list[str]:
    """What is to be done now: what the work asks to come back for, and what speaks for leaving the tree alone."""
    from benchmate.practice import advise
    from benchmate.talk.asked.questions import facts_of

    told = []
    for table in entry.follow:
        day = day_of(table.get("on"))
        when = f" ({day_words(day, turn.on)})" if day else ""
        told.append(f"{sentence(str(table.get('says') or table.get('work')))}{when}")
    plain = Reading(turn.reading.said, ("ask",), "advice")
    now = advise(plain, facts_of(turn, plain, turn.tree), turn.house.book, turn.house.place, turn.on)
    rest = next((one for one in now.options if one.work in LEFT_WORKS and one.verdict == GO and one.because), None)
    if rest:
        why = list_words([small(reason.says).rstrip(".") for reason in rest.because[:1]])
        told.insert(0, sentence(f"now {work_words(rest.work, rest.spot)}: {why}"))
    return told
