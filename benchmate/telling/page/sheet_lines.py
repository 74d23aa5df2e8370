"""The sheet at the prompt: the same sections as the page, as lines that fit 40 columns and read aloud."""

from __future__ import annotations

from benchmate.telling import lines as role
from benchmate.telling.dates import day_words
from benchmate.telling.lines import Line
from benchmate.telling.page.decisions import Decision, decisions
from benchmate.telling.page.growth_lines import growth_lines
from benchmate.telling.page.minding import NO_SPECIES, caution_rows
from benchmate.telling.page.sheet import Sheet
from benchmate.telling.page.spent_lines import spent_lines
from benchmate.telling.page.waiting import waiting_words
from benchmate.telling.page.who import name_words, who_rows
from benchmate.telling.page.years import year_rows
from benchmate.telling.wording import sentence


def sheet_lines(sheet: Sheet, width: int | None = None, *, plain: bool = False) -> list[Line]:
    """The whole sheet. width: columns of the screen, None for lines of any length. plain: words in place of bars."""
    lines = [Line(f"{name_words(sheet)}, as of {day_words(sheet.on)}.", role.ANSWER)]
    lines += [Line(_ended(said), role.REASON, f"{term}: ", 2) for term, said in who_rows(sheet)]
    lines += [Line("To come back for", role.OPTION), *_waiting(sheet, plain)]
    lines += [Line("Last decisions", role.OPTION), *_decided(sheet)]
    lines += [Line("Its line of years", role.OPTION), *_years(sheet)]
    lines += [Line("Growth", role.OPTION), *growth_lines(sheet.entries, sheet.units, width=width, plain=plain)]
    lines += [Line("What the seasons cost", role.OPTION), *spent_lines(sheet.seasons, width=width, plain=plain)]
    if sheet.lessons:
        lines.append(Line("What it has taught", role.OPTION))
        lines += [Line(sentence(one), role.REASON, indent=2) for one in sheet.lessons]
    return [*lines, Line("To mind with its kind", role.OPTION), *_minding(sheet, plain)]


def _ended(words: str) -> str:
    return words if words[-1:] in ".!?" else f"{words}."


def _waiting(sheet: Sheet, plain: bool) -> list[Line]:
    told, remarks = waiting_words(sheet)
    lines = [Line(words, role.REASON, "" if plain else "- ", 2) for words in told]
    return lines + [Line(words, role.ASIDE, indent=2) for words in remarks]


def _decided(sheet: Sheet) -> list[Line]:
    told, before = decisions(sheet)
    if not told:
        return [Line("None in the record yet.", role.REASON, indent=2)]
    lines = [line for one in told for line in _decision(one)]
    return [*lines, Line(f"{before} earlier stand in the record.", role.ASIDE, indent=2)] if before else lines


def _decision(one: Decision) -> list[Line]:
    lines = [Line(one.what, role.REASON, f"{one.day}: ", 2)]
    rows = (("Said: ", one.said), ("Reason: ", one.reason), ("Not taken: ", "; ".join(one.refused)))
    return lines + [Line(_ended(words), role.REASON, lead, 4) for lead, words in rows if words]


def _years(sheet: Sheet) -> list[Line]:
    rows = year_rows(sheet)
    if not rows:
        return [Line("Nothing is in its record yet.", role.REASON, indent=2)]
    return [Line(sentence(row.told), role.REASON, f"{row.label}: ", 2) for row in rows]


def _minding(sheet: Sheet, plain: bool) -> list[Line]:
    if not sheet.tree.species:
        return [Line(NO_SPECIES, role.REASON, indent=2)]
    rows = caution_rows(sheet)
    if not rows:
        return [Line("No caution special to its kind is in the rules.", role.REASON, indent=2)]
    lead = "Caution: " if plain else "! "
    return [Line(f"{said} ({rests})", role.CAUTION, lead, 2) for said, rests in rows]
