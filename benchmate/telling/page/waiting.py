"""What the record asks to come back for, in words: late things first, then by day, then what has no day."""

from __future__ import annotations

from benchmate.hearing.reading import Spot
from benchmate.telling.due import LONG_PAST_DAYS, item_words, without_long_past
from benchmate.telling.page.sheet import Sheet
from benchmate.telling.wording import sentence, work_words

MOST = 12


def waiting_words(sheet: Sheet) -> tuple[list[str], list[str]]:
    """A sentence for each thing that waits, and remarks on those that are not told, or that there are none."""
    told: list[str] = []
    remarks: list[str] = []
    if sheet.due and sheet.due.items:
        groups, past = without_long_past([sheet.due])
        items = [item for group in groups for item in group.items]
        told = [sentence(item_words(item, sheet.on)) for item in items[:MOST]]
        if len(items) > MOST:
            remarks.append(f"{len(items) - MOST} more wait for later days.")
        if past:
            what = f"{past} more" if told else "1 thing" if past == 1 else f"{past} things"
            verb = "is" if past == 1 else "are"
            remarks.append(f"{what} {verb} over {LONG_PAST_DAYS} days late: see benchmate due --all.")
    for follow in sheet.undated[:MOST]:
        spot = Spot(follow.part, follow.side, follow.level)
        words = f"{work_words(follow.work, spot)} (no day was told)"
        told.append(sentence(f"{words}: {follow.says.rstrip('.')}" if follow.says else words))
    return told, remarks if told or remarks else ["Nothing waits."]
