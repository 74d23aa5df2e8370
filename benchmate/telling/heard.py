"""What was understood, guessed and missed, told back."""

from __future__ import annotations

import datetime as dt

from benchmate.hearing.reading import Fact, Reading, Several, Work
from benchmate.telling.dates import when_words
from benchmate.telling.lines import ASIDE, Line, cut_short
from benchmate.telling.measures import measure_words, often_words
from benchmate.telling.wording import list_words, ordinal_words, place_words, spot_words, work_words

_STAGE = {"leaves-full": "leaves full", "buds-swelling": "buds swelling", "candles": "candles lengthening"}
_TOPIC = {
    "recorded": "what is on record",
    "advice": "what now",
    "when": "when",
    "why": "why",
    "compare": "which of them",
    "what-if": "what if",
    "recall": "what was done",
    "due": "what is due",
    "plan": "a plan",
    "list": "which trees",
    "known": "what is known of it",
}


def fact_words(fact: Fact, near: dt.date | None = None, units: str = "metric") -> str:
    """One fact in words: "second flush", "2 competing leaders", "not weak", "repot in March 2026"."""
    value = str(fact.value).replace("-", " ")
    spot = fact.spot
    match fact.kind:
        case "species":
            words = str(fact.value)
        case "flush":
            words = f"{ordinal_words(int(fact.value))} flush"
        case "stage":
            words = _STAGE.get(str(fact.value), value)
        case "event":
            words = value + (
                f" in {when_words(fact.when, near)}"
                if fact.when and fact.when.count("-") < 2
                else f" on {when_words(fact.when, near)}"
                if fact.when
                else ""
            )
        case "trait":
            words = value.replace(":", " ")
        case "phase":
            words = f"{value} phase"
        case "candidate" if spot.part:  # the thing itself, and nothing on it
            words = spot_words(spot)
        case _:
            words = f"{spot.count} {value}" if (spot.count or 1) > 1 else value
    placed = fact.kind not in ("species", "flush", "trait", "event", "phase")
    if placed and not (fact.kind == "candidate" and spot.part):
        words = f"{words} {place_words(type(spot)(spot.part, spot.side, spot.level, spot.ordinal))}".strip()
    if fact.measures:
        words += " (" + ", ".join(measure_words(key, value, units) for key, value in fact.measures.items()) + ")"
    return f"not {words}" if fact.denied else words


def said_work_words(work: Work, units: str = "metric", done: bool = False) -> str:
    """A work of a reading in words, as something to do (or done)."""
    return work_words(work.work or "do", work.spot, work.measures, done=done, manner=work.manner, units=units)


def understood(reading: Reading, on: dt.date, units: str = "metric") -> str:
    """The whole reading in one line, or "" where nothing was understood."""
    if reading.several and reading.several.each:
        return ". ".join(_of_its_tree(piece, on, units) for piece in reading.several.each)
    facts = [fact for fact in (*reading.facts, *reading.candidates) if not (reading.several and fact.kind == "species")]
    bits = [_several_words(reading.several)] if reading.several else []
    bits += [fact_words(fact, on, units) for fact in facts]
    bits += [measure_words(key, value, units) for key, value in reading.measures.items()]
    asked = [work for work in reading.work if work.work and not (reading.topic and work.done)]
    works = [("not " if work.denied else "") + said_work_words(work, units) for work in asked]
    bits += [_told_work_words(work, units) for work in reading.work if work.work and work not in asked]
    if reading.topic == "may":
        bits.append("may I " + list_words(works, "or") if works else "may I")
    elif reading.topic == "figure":
        bits.append((reading.figure or "a figure").replace("-", " "))
    elif reading.topic == "meaning":
        bits.append(f"what {reading.term or 'that'} means")
    elif reading.topic == "kind":
        bits.append(f"what {reading.term} it takes")
    elif reading.topic:
        bits.append(": ".join(filter(None, [_TOPIC.get(reading.topic, reading.topic), list_words(works, "or")])))
    else:
        bits += [_told_work_words(work, units) for work in asked]
    if reading.every and reading.until:
        bits.append(f"{often_words(reading.every)} until {when_words(reading.until, on)}")
    elif reading.when:
        bits.append(f"{'since ' if reading.onward else ''}{when_words(reading.when, on)}")
    return "; ".join(bits)


def _of_its_tree(piece: Reading, on: dt.date, units: str) -> str:
    """What was said of one of several trees, its name first: "Gatepost: wired it"."""
    if piece.several is None and piece.tree:
        return f"{piece.tree}: {understood(piece, on, units)}"
    head, _, rest = understood(piece, on, units).partition("; ")
    return f"{head}: {rest}" if rest else head


def _told_work_words(work: Work, units: str) -> str:
    """Work that was done, is meant or is refused, in words."""
    said = ("not " if work.denied else "") + said_work_words(work, units, done=work.done == "done")
    return said + {"not": ", not done", "later": ", later"}.get(work.done or "", "")


def _several_words(several: Several) -> str:
    """Which trees: "Fagus and Ulmus", "all trees but Juniperus"."""
    if not several.every:
        return list_words(list(several.named))
    return f"all trees but {list_words(list(several.but))}" if several.but else "all trees"


def heard_lines(reading: Reading, on: dt.date, units: str = "metric", *, kept_again: bool = False) -> list[Line]:
    """What was heard, guessed and not taken in: a line each, and none for what there is none of. kept_again: work that
    comes again stands in the record with all its days."""
    lines = []
    said = (
        reading.several
        or reading.facts
        or reading.candidates
        or reading.work
        or reading.measures
        or reading.when
        or reading.figure
    )
    if said and (words := understood(reading, on, units)):
        lines.append(Line(f"{words}.", ASIDE, "Heard: "))
    for guess in reading.guessed:
        lines.append(Line(f'"{cut_short(guess.heard, 40)}" as "{cut_short(guess.taken, 40)}".', ASIDE, "Took "))
    kept_again = kept_again or any("every_days" in work.measures for work in reading.work)
    if reading.every and {"decide", "remind"} & set(reading.acts) and not kept_again:
        lines.append(Line(f"that it comes again {often_words(reading.every)}.", ASIDE, "Not kept: "))
    if reading.kept:
        kept = ", ".join(f'"{cut_short(one.words, 40)}"' for one in reading.kept)
        lines.append(Line(f"{kept}.", ASIDE, "Kept as said: "))
    if reading.missed:
        missed = ", ".join(f'"{cut_short(missed.words, 60)}"' for missed in reading.missed)
        lines.append(Line(f"{missed}.", ASIDE, "Not taken in: "))
    return lines
