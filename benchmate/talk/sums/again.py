"""A figure question that goes on: what it asked for is said ("8 mm"), or one thing is changed ("for copper?").

What was asked last and what is said now make one statement, which is heard like any other.
"""

from __future__ import annotations

import datetime as dt
import re
from typing import TYPE_CHECKING

from benchmate.hearing.reading import Reading
from benchmate.value import replace

if TYPE_CHECKING:
    from benchmate.talk.house import House

MOST_WORDS = 9  # more than that is a statement of its own
MOST_ANEW = 4  # words of a size said anew: "a 10 mm one"
_ACROSS = {"width_mm": "diameter_mm"}  # how wide a wound is
_OPENING = re.compile(
    r"^\W*(?:(?:and|but|or|ok|okay|so|no|sorry|then|well|hmm|what about|how about|make it|make that|if it is|if it's|"
    r"it is|it's|they are|they're|about|say|around|roughly|call it)\b[\s,]*)+",
    re.IGNORECASE,
)


def said_further(last: Reading, now: Reading, house: House, on: dt.date, *, open_ended: bool) -> Reading | None:
    """The figure question that `last` and `now` make together, or None where `now` stands for itself.

    open_ended: the question asked for something, so that a bare size answers it. A number takes the place of the only
    one of its kind that was said before; what else is said is added.
    """
    bare = now.said[0].isdigit() or _share_alone(now)  # "40 degrees over 10 cm", "half strength"
    goes_on = open_ended or bare or _OPENING.match(now.said) or _turned_round(now)
    if not goes_on or not _goes_on(now) or _asks_anew(now, house):
        return None
    whole = _with_numbers(last.said, now.said, house, on)
    if whole is None:
        return None
    reading = house.hear(whole, on)
    if reading.topic != "figure" or reading.figure != last.figure:
        return None
    tree = now.tree or last.tree
    return replace(reading, tree=tree) if tree else reading


def sized_before(last: Reading | None, now: Reading, house: House, on: dt.date) -> Reading | None:
    """ "The cut was 12 mm", then "how long till it closes": a figure question without a number, of what was just
    measured. The two as one; None where they do not make the same question, or where more was told than a size."""
    if last is None or now.topic != "figure" or now.series or now.work or now.several or last.acts != ("observe",):
        return None
    if not last.series or last.work or last.several or last.missed or (now.tree and now.tree != last.tree):
        return None
    told = {_ACROSS.get(name, name) for name in last.measures} | {
        _ACROSS.get(name, name) for one in last.candidates for name in one.measures
    }
    needs = house.lexicon.figure_words()["needs"].get(now.figure or "", ())
    if not needs or any(not set(need.split("|")) & told for need in needs):
        return None  # "the trunk is 60 mm" tells no length of wire
    reading = house.hear(f"{last.said.rstrip(' .!')}, {now.said}", on)
    same = reading.topic == "figure" and reading.figure == now.figure and reading.series
    return replace(reading, acts=("ask",), facts=now.facts) if same and not reading.missed else None


def _share_alone(now: Reading) -> bool:
    """Whether nothing but a share is said, which nobody sees of a tree: "half strength", "at a quarter"."""
    return set(now.measures) == {"share"} and not (now.facts or now.work or now.candidates or now.missed)


def _goes_on(now: Reading) -> bool:
    """Whether words may go on with a question: few, and nothing of their own in them but sizes, a tree or a species."""
    if len(now.said.split()) > MOST_WORDS or now.topic not in (None, "figure", "may"):
        return False
    if any(work.work for work in now.work) or any(fact.kind not in ("species", "weather") for fact in now.facts):
        return False
    if any(thing.spot.side or thing.spot.level or thing.spot.ordinal for thing in now.candidates):
        return False  # "the left one is 9 mm" is seen
    if now.topic == "figure":  # "how thick is it in inches" is a question of its own
        return bool(_OPENING.match(now.said))
    return not {"strike", "pick", "remind", "note", "turn", "new", "leave"} & set(now.acts)


def _asks_anew(now: Reading, house: House) -> bool:
    """ "Will it bleed", "too early?": a question without a number is one of its own, unless it goes on in words."""
    words = house.lexicon.split(now.said)
    numbered = any(word[0].isdigit() or word in house.lexicon.numbers.get("number", {}) for word in words)
    begins = bool(words) and words[0] in house.lexicon.sense["asks_anew"]
    return begins and not numbered and not _OPENING.match(now.said)


def _turned_round(now: Reading) -> bool:
    """Whether words ask for the same in another way: "in inches?", "for copper?"."""
    return now.said.rstrip().endswith("?") and not now.acts


def _with_numbers(before: str, now: str, house: House, on: dt.date) -> str | None:
    """The question before with the numbers of now in their places; None where two numbers could be meant."""
    from benchmate.hearing.amounts.dates import DateWords
    from benchmate.hearing.figures.choice import figure_words
    from benchmate.hearing.figures.numbers import said_numbers

    spotter = house.ear.spotter
    known = figure_words(spotter).numbers
    dates = DateWords(spotter.lexicon.dates, spotter.values, on, house.place.southern)
    bare = _OPENING.sub("", now).rstrip("?.! ")
    old_words, new_words = house.ear.words(before), house.ear.words(bare)
    old, new = said_numbers(old_words, known, dates), said_numbers(new_words, known, dates)
    text, added = before.rstrip("?.! "), bare
    # "40 degrees over 10 cm" says more of it; "and 12 mm?" says the one size anew
    for number in new if len(new) == 1 and len(bare.split()) <= MOST_ANEW else ():
        said = bare[new_words[number.first].start : new_words[number.end - 1].end]
        alike = [one for one in old if one.unit == number.unit or not number.unit or not one.unit]
        if len(alike) > 1:  # "5 litres" and "3 ml": "and for 8 litres" is of the first
            alike = [one for one in alike if one.word and one.word == number.word] or alike
        if len(alike) > 1:
            return None
        if alike:
            (one,) = alike
            start, end = old_words[one.first].start, old_words[one.end - 1].end
            unit = f" {one.word}" if not number.unit and one.word else ""
            text, added = f"{text[:start]}{said}{unit}{text[end:]}", ""
    return f"{text}, {added}" if added else text
