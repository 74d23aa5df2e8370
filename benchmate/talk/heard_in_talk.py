"""The reading of a statement in a talk: where it goes on with what was said last, that of the two together."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchmate.hearing.reading import Fact, Reading
from benchmate.talk.trees.near_names import with_near_name

if TYPE_CHECKING:
    from benchmate.talk.bench import Bench


def heard_in_talk(bench: Bench, words: str) -> Reading:
    """The reading of a statement; where it goes on with what was said last, that of the two together."""
    from benchmate.talk.asked.now_or_later import now_or_later
    from benchmate.talk.asked.two_parts import first_part
    from benchmate.talk.trees.of_another import of_another

    reading = with_near_name(bench.house.hear(words, bench.on, bench.context.lending), bench.house)
    if (sheltered := _sheltered(bench, words, reading)) is not None:
        return sheltered
    if (cause := _cause(bench, words, reading)) is not None:
        return cause
    reading = now_or_later(first_part(reading, bench.house, bench.on), bench.house.lexicon)
    if words[:2].casefold() in ("ho", "wh"):
        from benchmate.talk.recorded.as_recorded import as_recorded

        if (recorded := as_recorded(reading, bench.house.lexicon)) is not None:
            return recorded
    if (asked := bench.context.amends or bench.context.reading) is not None:
        from benchmate.talk.asked.of_another_day import of_another_day

        further = of_another_day(asked, words, lambda one: bench.house.hear(one, bench.on), bench.house.lexicon)
        if further is not None:
            return further
    if (amends := _amended(bench, words, reading)) is not None:
        return amends
    if not reading.acts and (place := _place_alone(bench, words, reading)) is not None:
        return place
    opens = tuple(bench.house.lexicon.sense["asks_all"])
    asking = words.casefold().startswith(opens) or ", wh" in words.casefold()
    if asking and (asked := _of_all(bench, reading)) is not None:
        return asked
    from benchmate.talk.sums.again import said_further, sized_before

    if (sized := sized_before(bench.context.amends, reading, bench.house, bench.on)) is not None:
        return sized
    if bench.context.figure is None:
        latest = bench.context.amends
        return of_another(bench.context.reading, reading, bench.house.lexicon, latest) or reading
    asked = bench.context.figure
    return said_further(asked, reading, bench.house, bench.on, open_ended=bench.context.figure_asks) or reading


def _amended(bench: Bench, words: str, reading: Reading) -> Reading | None:
    """What short words mean behind what was said last ("a quarter, not a third"), or None."""
    house, talk = bench.house, bench.context
    if talk.reading is None and talk.amends is None:
        first, sense = house.lexicon.split(words)[:3], house.lexicon.sense
        ways = (*sense["undoes"], *sense["unsays"], *sense["opens_amends"])
        if not any(way.split()[0] in first for way in ways):
            return None
    from benchmate.talk.corrected.amended import Short, amended

    def hear(others: str) -> Reading:
        return house.hear(others, bench.on, talk.reading)

    return amended(Short(words, reading, house.ear.words(words), hear, house.lexicon, bench.on.isoformat()), talk)


def _sheltered(bench: Bench, words: str, reading: Reading) -> Reading | None:
    """The question which trees need shelter, asked outright or by a cold night told of no tree."""
    if bench.house.garden is None:
        return None
    from benchmate.talk.trees.sheltering import asks_shelter, near

    asked = asks_shelter(bench, words, reading)
    return near(asked, bench.on) if asked else None


def _place_alone(bench: Bench, words: str, reading: Reading) -> Reading | None:
    """ "Low right branch": nothing but the branch that is spoken of next ("it's 7 mm thick"); else None."""
    if len(reading.missed) != 1 or reading.facts or reading.tree or reading.several or "?" in words:
        return None
    fix = bench.house.hear(f"{bench.house.lexicon.sense['refusals'][0]}, {words}", bench.on)
    if fix.acts != ("correct",) or fix.missed or fix.facts or fix.when or len(fix.work) != 1 or fix.work[0].measures:
        return None
    work = fix.work[0]
    placed = work.spot.part and (work.spot.side or work.spot.level or work.spot.ordinal)
    if work.work or not placed:
        return None
    one = Fact("candidate", "one", work.spot, span=(0, len(words)))
    return Reading(words, ("ask",), "advice", candidates=(one,))


def _cause(bench: Bench, words: str, reading: Reading) -> Reading | None:
    """The question whether a work is behind what is seen, or None."""
    if not (reading.work or reading.facts) or not {"ask", "decide", "observe"} & set(reading.acts):
        return None
    from benchmate.talk.asked.cause_asked import cause_asked

    return cause_asked(reading, bench.house.ear.words(words), bench.house.lexicon)


def _of_all(bench: Bench, reading: Reading) -> Reading | None:
    """The question which trees need a work now, asked of each of them."""
    from benchmate.talk.trees.of_all import of_all

    return of_all(reading, lambda words: bench.house.hear(words, bench.on), bench.house.lexicon)
