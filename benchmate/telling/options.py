"""Options told: the number to say or press, the verdict and its window, a line a reason."""

from __future__ import annotations

import datetime as dt

from benchmate.hearing.reading import Spot
from benchmate.practice.advice import ASK, AVOID, GO, HOLD, Option, Reason
from benchmate.telling import lines as role
from benchmate.telling.dates import day_of, day_words
from benchmate.telling.lines import Line
from benchmate.telling.measures import measure_words
from benchmate.telling.wording import list_words, sentence, work_words

MOST_REASONS = 2
_VERDICT = {GO: "go", HOLD: "wait", AVOID: "no", ASK: "depends"}


def option_words(option: Option, units: str = "metric") -> str:
    """What the option is, in a few words."""
    spot = Spot(part="rest") if option.rest else option.spot
    return work_words(option.work, spot, manner=option.manner, units=units)


def option_lines(
    number: int | None, option: Option, on: dt.date, units: str, plain: bool, most: int = MOST_REASONS
) -> list[Line]:
    """One option: its number, its verdict and window, then a line a reason; against first where it is not a go.

    number: None where there is nothing to choose from.
    """
    lead = ("Option: " if plain else "") if number is None else f"Option {number}: " if plain else f"{number}  "
    ask = "more" if number is None else f"why {number}"
    lines = [Line(f"{_large(option_words(option, units))}: {verdict_words(option, on)}.", role.OPTION, lead)]
    pro, con = ("For: ", "Against: ") if plain else ("+ ", "- ")
    sides = [(con, blocks_first(option.against)), (pro, option.because)]
    for sign, reasons in sides if option.verdict != GO else sides[::-1]:
        lines += [reason_line(reason, sign) for reason in reasons[:most]]
        if len(reasons) > most:
            more = f"{len(reasons) - most} more {'for' if sign == pro else 'against'} it"
            lines.append(Line(f'({more}: say "{ask}".)', role.REASON, indent=3))
    lines += [Line(words, role.REASON, indent=3) for words in amount_words(option, units)]
    for follow in option.follow[:most]:
        when = day_of(follow.on)
        held = f", when it is {follow.weather}" if follow.weather else ""
        lines.append(
            Line(
                f"{sentence(follow.says)} ({day_words(when, on) if when else follow.on}{held})",
                role.REASON,
                "Then: ",
                3,
            )
        )
    return lines


def blocks_first(reasons: tuple[Reason, ...]) -> tuple[Reason, ...]:
    """What blocks before what only weighs."""
    return tuple(sorted(reasons, key=lambda reason: reason.weight != 0))


def reason_line(reason: Reason, sign: str) -> Line:
    """One reason in one line; the grower's own rules say so."""
    beside = " (your rule)" if reason.yours else ""
    if reason.disputes:
        beside += " (opinions differ)"
    return Line(sentence(reason.says) + beside, role.REASON, sign, 3)


def amount_words(option: Option, units: str) -> list[str]:
    """How much at most, where a rule sets it."""
    said = [
        f"{value * 100:.0f} %" if key == "share" else measure_words(key, value, units)
        for key, value in option.amount.items()
        if value
    ]
    return [f"At most {list_words(said)}."] if said else []


def verdict_words(option: Option, on: dt.date) -> str:
    """The verdict and its window: "go, until 20 August"."""
    return _VERDICT.get(option.verdict, option.verdict) + window_words(option, on)


def window_words(option: Option, on: dt.date) -> str:
    """The option's window after its verdict: ", from 1 March to 10 April"."""
    opens, closes = day_of(option.opens), day_of(option.closes)
    if opens and opens > on:
        return f", from {day_words(opens, on)}" + (f" to {day_words(closes, on)}" if closes else "")
    return f", until {day_words(closes, on)}" if closes and option.verdict == GO else ""


def _large(words: str) -> str:
    return words[:1].upper() + words[1:]
