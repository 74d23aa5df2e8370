"""How much may go at once, told ahead of the options on which it was weighed."""

from __future__ import annotations

import datetime as dt

from benchmate.practice.advice import AVOID, GO, HOLD, Advice
from benchmate.telling.dates import day_of, day_words
from benchmate.telling.options import blocks_first


def most_lines(advice: Advice | None, work: str, of: str, on: dt.date) -> list[str]:
    """The most that may be taken by the work, and what stands against it today. of: "of the foliage"."""
    option = next((one for one in advice.options if one.work == work), None) if advice else None
    if option is None:
        return []
    share = option.amount.get("share")
    most = f"at most about {share * 100:.0f} % {of}" if share else None
    if option.verdict == AVOID:
        return [f"None: {option.against[0].says}" if option.against else "None, not on this tree"]
    if option.verdict == HOLD:
        opens = day_of(option.opens)
        when = f"from {day_words(opens, on)}" if opens and opens > on else "once nothing stands against it"
        why = blocks_first(option.against)[0].says if option.against else ""
        return [f"None now; {when} {most or 'as much as its weeks allow'}", *([why] if why else [])]
    if not most:
        return []
    return [f"{most[0].upper()}{most[1:]}" + (" this season" if option.verdict == GO else "")]
