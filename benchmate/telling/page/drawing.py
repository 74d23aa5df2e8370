"""Drawings of the page: each has a title and a description, and says nothing by colour alone."""

from __future__ import annotations

from collections.abc import Iterable

from benchmate.telling.page.markup import Html, el, joined

INK, SOFT, FAINT = "#1a1a1a", "#595959", "#cccccc"
FONT_PX = 12


def drawing(name: str, title: str, told: str, width: float, height: float, parts: Iterable[Html]) -> Html:
    """A drawing with its title and what it shows in words. name: unique on the page. width, height: CSS pixels."""
    head = [el("title", title, id=f"{name}-title"), el("desc", told, id=f"{name}-desc")]
    marks = {"aria-labelledby": f"{name}-title", "aria-describedby": f"{name}-desc"}
    marks["viewBox"] = f"0 0 {width:g} {height:g}"
    return el("svg", *head, *parts, role="img", width=width, height=height, **marks)


def decoration(width: float, height: float, parts: Iterable[Html]) -> Html:
    """A small sign beside words that say the same."""
    marks = {"aria-hidden": "true", "viewBox": f"0 0 {width:g} {height:g}"}
    return el("svg", *parts, width=width, height=height, **marks)


def rule(x1: float, y1: float, x2: float, y2: float, stroke: str = FAINT, width: float = 1) -> Html:
    """A straight line."""
    return el("line", x1=x1, y1=y1, x2=x2, y2=y2, stroke=stroke, stroke_width=width)


def label(x: float, y: float, said: str, anchor: str = "start", fill: str = SOFT) -> Html:
    """A short text."""
    return el("text", said, x=x, y=y, text_anchor=anchor, fill=fill, font_size=FONT_PX)


def sign(lane: str, x: float, y: float) -> Html:
    """The sign of a kind of work, 7 pixels wide, with its middle at x and y."""
    match lane:
        case "roots":
            return el("path", d=f"M{x - 3.5:g} {y - 3:g}h7l-3.5 6.5z", fill=INK)
        case "cutting":
            return el("path", d=f"M{x - 3:g} {y - 3:g}l6 6m0 -6l-6 6", stroke=INK, stroke_width=1.4, fill="none")
        case "shaping":
            return el("circle", cx=x, cy=y, r=3, stroke=INK, stroke_width=1.2, fill="none")
        case "care":
            return el("circle", cx=x, cy=y, r=1.8, fill=INK)
        case "left":
            return el("path", d=f"M{x - 3.5:g} {y:g}h7", stroke=INK, stroke_width=1.4)
        case _:
            return el("path", d=f"M{x:g} {y - 3:g}v6", stroke=INK, stroke_width=1.2)


def bar(x: float, y: float, length: float, height: float, hatched: bool) -> Html:
    """A bar in outline: pale within, or hatched."""
    fill = "#ffffff" if hatched else "#e6e6e6"
    box = el("rect", x=x, y=y, width=length, height=height, fill=fill, stroke=INK, stroke_width=0.8)
    if not hatched:
        return box
    strokes = "".join(f"M{x + at:g} {y:g}v{height:g}" for at in range(4, int(length), 4))
    return joined([box, el("path", d=strokes, stroke=INK, stroke_width=0.6)]) if strokes else box
