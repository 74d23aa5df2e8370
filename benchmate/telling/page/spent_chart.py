"""Bars of what a season took, all seasons to one scale; a mark stands where the season's bound was."""

from __future__ import annotations

from benchmate.telling.page.drawing import INK, bar, decoration, drawing, label, rule
from benchmate.telling.page.markup import Html, el
from benchmate.telling.page.sheet import SeasonSpent
from benchmate.telling.page.spent import spent_words

_WIDTH, _EDGE, _BAR = 216.0, 8.0, 10.0


def _x(share: float, top: float) -> float:
    return round(_EDGE + min(share, top) / top * (_WIDTH - 2 * _EDGE), 1)


def scale_head(top: float) -> Html:
    """The scale, to stand above the bars: from 0 to its top in quarters."""
    shares = [quarter * 0.25 for quarter in range(int(top / 0.25) + 1)]
    marks = [label(_x(share, top), 11, _number(share, top), _anchor(share, top)) for share in shares]
    return decoration(_WIDTH, 15, marks)


def _number(share: float, top: float) -> str:
    return f"{share * 100:.0f}{' %' if share == top else ''}"


def _anchor(share: float, top: float) -> str:
    return "start" if share == 0 else "end" if share == top else "middle"


def spent_bars(season: SeasonSpent, top: float, number: int) -> Html:
    """One season's bars: leaf pale, roots hatched. number: which season of the page it is."""
    rows = [(season.foliage, False)] if season.foliage or not season.roots else []
    rows += [(season.roots, True)] if season.roots else []
    height = len(rows) * (_BAR + 4) + 4
    parts = [rule(_x(n * 0.25, top), 0, _x(n * 0.25, top), height) for n in range(int(top / 0.25) + 1)]
    parts.append(rule(_x(0, top), 0, _x(0, top), height, INK))
    for row, (share, hatched) in enumerate(rows):
        if share > 0:
            parts.append(bar(_EDGE, 4 + row * (_BAR + 4), _x(share, top) - _EDGE, _BAR, hatched))
    if season.most is not None and (season.foliage or season.now):
        parts.append(_bound(_x(season.most, top), 1, _BAR + 6))
    return drawing(f"season-{number}", f"Season {season.label}", f"{spent_words(season)}.", _WIDTH, height, parts)


def _bound(x: float, y: float, height: float) -> Html:
    """The mark of a bound: an upright with a foot at each end."""
    return el("path", d=f"M{x:g} {y:g}v{height:g}m-3 0h6m-6 -{height:g}h6", stroke=INK, stroke_width=1.6, fill="none")


def spent_legend() -> Html:
    """What the bars and the mark mean."""
    rows = [
        el("li", decoration(20, 12, [bar(1, 1, 18, 10, False)]), " leaf"),
        el("li", decoration(20, 12, [bar(1, 1, 18, 10, True)]), " roots"),
        el("li", decoration(12, 12, [_bound(6, 1, 10)]), " most leaf that the season bears"),
    ]
    return el("ul", *rows, class_="legend")
