"""Which trees need shelter, asked or told by a cold night alone: answered for every tree, grouped by where to."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Mapping, Sequence
from typing import TYPE_CHECKING, Any

from benchmate.hearing.reading import Fact, Reading, Several, Work
from benchmate.practice.advice import GO, Advice, Reason
from benchmate.telling.dates import day_of, day_words
from benchmate.telling.heard import fact_words
from benchmate.telling.measures import measure_words
from benchmate.telling.wording import list_words, sentence
from benchmate.value import replace

if TYPE_CHECKING:
    from benchmate.hearing.vocabulary.words import Word
    from benchmate.practice.book import Rule, RuleBook
    from benchmate.talk.bench import Bench
    from benchmate.talk.turns import Turn

_WORK = "shelter"
_CALLS = 2  # a reason of this weight calls for it though its rule names no place
_NEAR_DAYS = 7  # a night so near is weighed by what is known today
_STOPS = frozenset({",", ".", ";", ":", "?", "!", "-"})
_DEGREE = "temperature_c"


def asks_shelter(bench: Bench, words: str, heard: Reading) -> Reading | None:
    """The question which trees need shelter, with the weather told beside it; None where it is no such question."""
    house = bench.house
    classes = house.lexicon.sense["sheltering"]
    spoken = house.ear.words(words)
    texts = [word.text for word in spoken]
    named = heard.tree or heard.several or any(fact.kind == "species" for fact in heard.facts)
    if named or len(house.trees()) < 2:
        return None
    place = _question(texts, classes)
    if place is None:
        cold = bench.here is None and _tells_cold(heard, classes)
        return _of_every_tree(words, heard, heard.missed) if cold else None
    rest = [clause for part in (spoken[: place[0]], spoken[place[1] :]) for clause in _clauses(part)]
    told = [_heard_apart(bench, words, clause[0].start, clause[-1].end) for clause in rest]
    if any(one.work or one.tree or one.candidates for one in told):
        return None
    behind = spoken[place[1]] if place[1] < len(spoken) else None
    at_once = [one for one, clause in zip(told, rest, strict=True) if clause[0] is behind]
    if any(miss.words.casefold() not in classes["idle"] for one in at_once for miss in one.missed):
        return None  # "what do I cover the pot with"
    facts = tuple(fact for one in told for fact in one.facts if fact.kind == "weather")
    degrees = [one.measures[_DEGREE] for one in told if _DEGREE in one.measures]
    when = next((one.when for one in told if one.when), None)
    missed = tuple(miss for one in told for miss in one.missed if miss.words.casefold() not in classes["idle"])
    asked = replace(heard, facts=facts, measures={_DEGREE: min(degrees)} if degrees else {}, when=when, work=())
    last = bench.context.reading
    if not (facts or degrees) and last and not last.tree and (_DEGREE in last.measures or _weather(last)):
        asked = replace(asked, facts=_weather(last), measures=_degree(last))  # "minus 8 tonight" / "which need cover?"
    return _of_every_tree(words, asked, missed)


def shelter_words(turn: Turn, parts: Sequence[Turn]) -> list[str]:
    """The answer over all trees: where each goes that needs shelter, and why; then those that stay where they are."""
    house = turn.house
    places: Mapping[str, str] = house.lexicon.sense["sheltering"]["places"]
    groups: dict[tuple[str, str], list[str]] = {}
    stay: dict[str, list[str]] = {}
    for part in parts:
        if (called := _called(part.advice, house.book, list(places))) is not None:
            groups.setdefault(called, []).append(part.label)
        else:
            stay.setdefault(_kept_out(part.advice, house.book), []).append(part.label)
    if not parts:
        return ["There are no trees here"]
    weather = list_words([fact_words(fact, turn.on) for fact in turn.reading.facts if fact.kind == "weather"])
    degrees = [measure_words(_DEGREE, turn.reading.measures[_DEGREE])] if _DEGREE in turn.reading.measures else []
    at = f" ({', '.join(filter(None, [weather, *degrees]))})" if weather or degrees else ""
    in_need = {name for names in groups.values() for name in names}
    needing = [part.label for part in parts if part.label in in_need]
    if not needing:
        head = f"No tree here needs shelter now{at}"
    elif len(needing) == len(parts):
        head = f"All {len(parts)} trees need shelter{at}"
    else:
        head = (
            f"{len(needing)} of {len(parts)} trees need{'s' * (len(needing) == 1)} shelter{at}: {list_words(needing)}"
        )
    order = sorted(groups, key=lambda key: list(places).index(key[0]))
    told = [f"{sentence(places[key[0]]).rstrip('.')}: {list_words(groups[key])}. {sentence(key[1])}" for key in order]
    for reason, names in stay.items():
        whose = list_words(names) if needing or len(stay) > 1 else ""
        lead = f"Left where {'it stands' if len(names) == 1 else 'they stand'}: {whose}. " if whose else ""
        told += [f"{lead}{sentence(reason)}".strip()] if lead or reason else []
    return [head, *told, *_watched(turn, bool(stay), at)]


def is_shelter_question(reading: Reading) -> bool:
    """Whether it is asked of all trees alike, and of nothing else, whether they want shelter."""
    several = reading.several
    plain = not any(work.manner or work.spot.part for work in reading.work)
    asks = "ask" in reading.acts and reading.topic == "may" and {work.work for work in reading.work} == {_WORK}
    return asks and plain and several is not None and several.every and not several.each


def _of_every_tree(words: str, reading: Reading, missed: tuple[Any, ...]) -> Reading:
    facts = tuple(replace(fact, span=(0, 0)) for fact in reading.facts)
    return Reading(
        words,
        ("ask",),
        "may",
        facts=facts,
        work=(Work(_WORK),),
        measures=dict(reading.measures),
        when=reading.when,
        missed=missed,
        several=Several(every=True),
    )


def _question(texts: Sequence[str], classes: Mapping[str, Any]) -> tuple[int, int] | None:
    """(first, end) of the words that ask which trees need cover, or None: a head, links alone, and words of cover.
    Where the head names no trees the words of cover do ("should I bring anything in")."""
    for heads, covers in (("heads", "covers"), ("plain_heads", "covers_of_many")):
        for at in range(len(texts)):
            end, asked = _phrase(texts, at, classes[heads]), None
            while end is not None and end < len(texts):
                if (cover := _phrase(texts, end, classes[covers])) is not None:
                    end = asked = cover
                else:
                    end = _phrase(texts, end, classes["links"])
            if asked is not None:
                more = _question(texts[asked + 1 :], classes) if texts[asked : asked + 1] in (["and"], ["or"]) else None
                return at, asked + 1 + more[1] if more and not more[0] else asked  # "and which can stay out"
    return None


def _phrase(texts: Sequence[str], at: int, phrases: Sequence[str]) -> int | None:
    """The end of the longest of the phrases that stands at a word."""
    ends = [at + len(split) for one in phrases if list(texts[at : at + len(split := one.split())]) == split]
    return max(ends, default=None)


def _clauses(words: Sequence[Word]) -> Iterator[list[Word]]:
    """The words between two marks. A dash before anything else is a minus."""
    clause: list[Word] = []
    for word in words:
        if word.text not in _STOPS or (word.text == "-" and not clause):
            clause.append(word)
        elif clause:
            yield clause
            clause = []
    if clause:
        yield clause


def _heard_apart(bench: Bench, words: str, start: int, end: int) -> Reading:
    """The reading of a piece of the statement, what it misses at its place in the whole."""
    one = bench.house.hear(words[start:end], bench.on)
    missed = tuple(replace(miss, span=(miss.span[0] + start, miss.span[1] + start)) for miss in one.missed)
    return replace(one, missed=missed)


def _tells_cold(heard: Reading, classes: Mapping[str, Any]) -> bool:
    """A cold night or a frost told of no tree, with nothing else in it but "what now"."""
    other = heard.work or heard.candidates or heard.figure or heard.missed or heard.guessed or heard.supposes
    if other or not set(heard.acts) <= {"observe", "ask"} or heard.topic not in (None, "advice"):
        return False
    if any(fact.kind != "weather" or fact.denied or fact.value not in classes["cold"] for fact in heard.facts):
        return False
    if set(heard.measures) - {_DEGREE}:
        return False
    return bool(heard.facts) or heard.measures.get(_DEGREE, classes["cold_c"]) < classes["cold_c"]


def _weather(reading: Reading) -> tuple[Fact, ...]:
    return tuple(fact for fact in reading.facts if fact.kind == "weather")


def _degree(reading: Reading) -> dict[str, float]:
    return {_DEGREE: reading.measures[_DEGREE]} if _DEGREE in reading.measures else {}


def _called(advice: Advice | None, book: RuleBook, places: Sequence[str]) -> tuple[str, str] | None:
    """(place, reason) where something calls for shelter now, the warmest place that is called for; else None."""
    option = next((one for one in advice.options if one.work == _WORK), None) if advice else None
    if option is None or option.verdict != GO:
        return None
    calls: list[tuple[int, bool, int, str]] = []
    for reason in option.because:
        rule = book.rule(reason.rule)
        if rule and (rule.bring or reason.weight >= _CALLS):
            calls.append((places.index(rule.bring or "cover"), not _by_degree(rule), -reason.weight, reason.says))
    if not calls:
        return None
    first = min(calls)
    return places[first[0]], first[-1]


def _kept_out(advice: Advice | None, book: RuleBook) -> str:
    """Why a tree is left where it stands, as far as the weather or the season tells it."""
    options = advice.options if advice else ()
    against = [reason for one in options if one.work == _WORK for reason in one.against]
    leave = [reason for one in options if one.work == "leave" for reason in one.because if _of_weather(reason, book)]
    return next((reason.says for reason in (*leave, *against)), "")


def _of_weather(reason: Reason, book: RuleBook) -> bool:
    rule = book.rule(reason.rule)
    return rule is not None and (_by_degree(rule) or "frost" in rule.when.split(",")[0].split())


def _by_degree(rule: Rule) -> bool:
    return any(limit.quantity == _DEGREE for limit in rule.limits)


def _watched(turn: Turn, some_stay: bool, at: str) -> list[str]:
    """What else is to be known: from which degree on more trees want cover, or when the first frost is due."""
    from benchmate import seasons

    if at or not some_stay:
        return []
    house = turn.house
    days = seasons.spring_frost_days(turn.on, house.place, house.book.seasons)
    if days is not None and days >= 0:
        return [str(house.lexicon.sense["sheltering"]["by_degree"])]
    first = day_of(house.first_frost(turn.on))
    return [sentence(f"The mean first frost here is {day_words(first, turn.on)}")] if first else []


def near(reading: Reading, on: dt.date) -> Reading:
    """The question without its day where that is a night close by."""
    day = day_of(reading.when)
    return replace(reading, when=None) if day and abs((day - on).days) <= _NEAR_DAYS else reading
