"""Whether the next flush comes in time: from the cut to new leaf, from new leaf to firm leaf, against the frost."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from typing import Literal

from .bounds import day, within
from .figure import Band, Beside, Figure, percent, plain, weakest
from .frost import chance_before, days_at_risk, days_to_frost

MonthDay = tuple[int, int]
LATEST = "latest cut that is safe"


def regrowth_date(
    on: dt.date,
    releaf_days: Band,
    harden_days: Band,
    first_frost: MonthDay | Literal["unknown"] | None = "unknown",
    spread_days: Band | None = None,
    last_frost: MonthDay | None = None,
    cut_on: dt.date | None = None,
    species: str | None = None,
    single_flush: Sequence[str] = (),
    risk: float = 0.1,
    wanted: str = "out",
    second_candles: Sequence[str] = (),
) -> Figure:
    """The day, as an ISO date, on which new leaf is out after a cut; with it, when that leaf is firm and whether the
    frost leaves it time.

    cut_on: day of the cut, else `on`. releaf_days: days from cut to open leaf. harden_days: days from there to firm,
    full-coloured leaf. first_frost: (month, day), None where the place has none, "unknown" where nobody has told.
    spread_days: standard deviation of the frost date. single_flush: genera that seldom flush twice; second_candles:
    species of these that flush again where their candles were cut. risk: chance of an
    early frost to allow for. wanted: "firm" for the day on which the new leaf is firm, "latest" for the last day on
    which a cut leaves it time to be, "time" for whether there is time, yes or no before the day.
    """
    today = day("a day", on)
    cut = today if cut_on is None else day("a day of cutting", cut_on)
    within("days", abs((today - cut).days))
    out = [cut + dt.timedelta(days=round(days)) for days in (releaf_days.value, releaf_days.low, releaf_days.high)]
    whole = releaf_days.value + harden_days.value
    firm = cut + dt.timedelta(days=round(whole))
    beside = [
        Beside("new leaf is firm", firm.isoformat(), "date"),
        Beside("firm at the earliest", _later(cut, releaf_days.low + harden_days.low), "date"),
        Beside("firm at the latest", _later(cut, releaf_days.high + harden_days.high), "date"),
    ]
    notes: list[str] = []
    opens = ""
    how = (
        f"{cut.isoformat()} + {plain(releaf_days.value)} days to new leaf is {out[0].isoformat()}; firm "
        f"{plain(harden_days.value)} days later, {firm.isoformat()}"
    )
    marks = [releaf_days.mark, harden_days.mark]
    if first_frost == "unknown":
        notes.append("The first frost of this place is not known, so whether it firms in time cannot be told")
    elif first_frost is not None and spread_days is not None:
        marks.append(spread_days.mark)
        margin = days_to_frost(cut, first_frost, last_frost)
        mean = cut + dt.timedelta(days=margin)
        chance = chance_before(whole - margin, spread_days.value)
        early = mean + dt.timedelta(days=round(days_at_risk(risk, spread_days.value)))
        safe = early - dt.timedelta(days=round(whole))
        enough = "there is time" if firm <= early else "it is tight" if firm <= mean else "there is not time"
        notes.append(
            f"For another flush {enough}: mean first frost {mean.isoformat()}, {percent(chance)} chance of it "
            "before the new leaf is firm"
        )
        if wanted == "time":
            answer = {"there is time": "Yes", "it is tight": "Only just"}.get(enough, "No")
            opens = f"{answer}: firm about {firm.day} {firm:%B}, and the mean first frost is {mean.day} {mean:%B}"
        beside += [
            Beside("mean first frost", mean.isoformat(), "date"),
            Beside("days to spare before the mean frost", float((mean - firm).days), "days"),
            Beside("chance of frost before it is firm", chance, ""),
            Beside(LATEST, safe.isoformat(), "date"),
        ]
    else:
        notes.append("No frost is expected here, so only warmth and light bound it")
        opens = "Yes: no frost is expected here" if wanted == "time" else ""
    genus = (species or "").split(" ")[0]
    if any((species or "").startswith(kind) for kind in second_candles):
        notes.insert(
            0, f"{species} flushes again where the whole candles of a strong tree were cut, from a ring of buds"
        )
        notes.insert(1, "Once the second candles stand, two of like strength stay at each cut")
    elif genus in single_flush:
        notes.insert(0, f"{genus} seldom flushes twice in a year: do not count on new leaf this season")
        opens = f"Hardly: {notes[0]}" if wanted == "time" else opens
    told = [when.isoformat() for when in out]
    if wanted == "firm":
        told = [str(one.value) for one in beside[:3]]
        beside.append(Beside("new leaf is out", out[0].isoformat(), "date"))
    latest = next((str(one.value) for one in beside if one.name == LATEST), None)
    if wanted == "latest" and latest:
        told = [latest] * 3
        how = f"{plain(whole)} days from a cut to firm leaf, before the frost may come: cut by {latest}"
    return Figure(
        "regrowth-date",
        told[0],
        "date",
        told[1],
        told[2],
        how,
        f"days to leaf: {releaf_days.source}; days to firm: {harden_days.source}",
        weakest(*marks),
        "A strong tree in active growth; late, weak, dry or shaded trees take longer or do not flush again.",
        tuple(notes),
        tuple(beside),
        opens=opens,
    )


def _later(when: dt.date, days: float) -> str:
    return (when + dt.timedelta(days=round(days))).isoformat()
