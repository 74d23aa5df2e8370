"""One year as a strip of twelve months, a row a kind of work, drawn with signs that print in little ink."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from benchmate.telling.dates import MONTHS
from benchmate.telling.page.drawing import FAINT, SOFT, decoration, drawing, label, rule, sign
from benchmate.telling.page.markup import Html, el
from benchmate.telling.page.years import LANES, YearRow

_MONTH, _LANE = 18.0, 9.0
_WIDTH = 12 * _MONTH


def lanes_of(rows: Iterable[YearRow]) -> list[str]:
    """The kinds of work that any of the years has, in the order in which they are drawn."""
    used = {lane for row in rows for lane, _ in row.marks}
    return [lane for lane in LANES if lane in used]


def year_strip(row: YearRow, lanes: Sequence[str]) -> Html:
    """The strip of one year. lanes: the same for all years of the page."""
    height = len(lanes) * _LANE + 6
    grid = [rule(month * _MONTH, 0, month * _MONTH, height, FAINT, 0.6 if month % 3 else 1.2) for month in range(13)]
    signs = [sign(lane, (month - 0.5) * _MONTH, 3 + (lanes.index(lane) + 0.5) * _LANE) for lane, month in row.marks]
    told = "; ".join(_lane_words(row, lane) for lane in lanes if any(lane == one for one, _ in row.marks))
    return drawing(f"year-{row.first}", f"{row.label}, month by month", f"{told}.", _WIDTH, height, [*grid, *signs])


def _lane_words(row: YearRow, lane: str) -> str:
    months = [MONTHS[month - 1] for one, month in row.marks if one == lane]
    return f"{LANES[lane]}: {', '.join(months)}"


def month_heads() -> Html:
    """The letters of the months, to stand above the strips."""
    letters = [label((number + 0.5) * _MONTH, 11, name[0], "middle", SOFT) for number, name in enumerate(MONTHS)]
    return decoration(_WIDTH, 15, letters)


def legend(lanes: Sequence[str]) -> Html:
    """Each sign with its meaning."""
    rows = [el("li", decoration(12, 12, [sign(lane, 6, 6)]), " ", LANES[lane]) for lane in lanes]
    return el("ul", *rows, class_="legend")
