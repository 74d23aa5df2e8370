"""Trees, journals and places for property tests, of every shape that a garden may hold."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from hypothesis import strategies as st

from benchmate.garden.record import Entry, Place, Tree

TAXA = (
    "Acer palmatum", "Acer buergerianum", "Ulmus parvifolia", "Fagus sylvatica", "Carpinus betulus", "Betula pendula",
    "Pinus thunbergii", "Pinus sylvestris", "Pinus parviflora", "Juniperus chinensis", "Larix decidua", "Picea abies",
    "Taxus baccata", "Cryptomeria japonica", "Metasequoia glyptostroboides", "Ficus microcarpa", "Serissa japonica",
    "Bougainvillea", "Portulacaria afra", "Rhododendron indicum", "Prunus mume", "Malus", "Quercus suber",
    "Olea europaea", "Buxus sempervirens", "Crataegus monogyna", "Wisteria sinensis", "Camellia japonica", None,
)  # fmt: skip
WORKS = (
    "repot", "root-prune", "slip-pot", "shorten", "pinch", "remove", "leaf-cut", "defoliate", "candle-cut", "wire",
    "unwire", "bend", "guy", "air-layer", "graft", "let-grow", "feed", "collect",
)  # fmt: skip
FINDINGS = (
    "competing-leaders", "crossing", "dead-branch", "weak-branch", "wire-on", "dieback", "root-rot", "waterlogged",
    "too-thin", "roots-circling", "mites", "flower-buds", "scorch",
)  # fmt: skip
_PHASES = ("recovery", "trunk", "structure", "ramification", "refinement", "show", None)
_HEALTH = ("strong", "healthy", "recovering", "weak", "declining", None)
_FROSTS = (((4, 25), (10, 20)), ((5, 20), (9, 25)), ((3, 1), (12, 1)), ((4, 25), None), (None, None))


@dataclass(frozen=True)
class Garden:
    """One tree with all that a plan looks at."""

    tree: Tree
    entries: tuple[Entry, ...]
    place: Place
    on: dt.date
    years: int


@st.composite
def places(draw: st.DrawFn) -> Place:
    latitude = draw(st.sampled_from((51.5, 60.0, 38.0, 30.0, -35.3, -45.0, 1.35, -12.0, None)))
    if latitude is not None and abs(latitude) < 20:
        return Place("drawn", latitude, 0.0)
    last, first = draw(st.sampled_from(_FROSTS))
    if latitude is not None and latitude < 0:
        last, first = (day and ((day[0] + 5) % 12 + 1, day[1]) for day in (last, first))
    return Place("drawn", latitude, 0.0, last, first)


@st.composite
def journals(draw: st.DrawFn, on: dt.date) -> tuple[Entry, ...]:
    out = []
    for number in range(draw(st.integers(0, 6))):
        day = on - dt.timedelta(days=draw(st.integers(0, 1300)))
        spot = {"part": "branch", "side": draw(st.sampled_from(("left", "right")))} if draw(st.booleans()) else {}
        if draw(st.integers(0, 3)):
            work = {"work": draw(st.sampled_from(WORKS)), **spot}
            if draw(st.booleans()):
                work["share"] = draw(st.sampled_from((0.1, 0.2, 0.3)))
            out.append(Entry(f"{day}-{number}", day, "done", work=(work,)))
        else:
            fact = {"kind": "finding", "value": draw(st.sampled_from(FINDINGS)), **spot}
            out.append(Entry(f"{day}-{number}", day, "seen", facts=(fact,)))
    return tuple(out)


@st.composite
def gardens(draw: st.DrawFn, most_years: int = 3) -> Garden:
    on = dt.date(2026, 1, 1) + dt.timedelta(days=draw(st.integers(0, 364)))
    since = on - dt.timedelta(days=draw(st.integers(0, 1500))) if draw(st.booleans()) else None
    tree = Tree(
        "Drawn",
        "drawn",
        draw(st.sampled_from(TAXA)),
        draw(st.sampled_from((None, "nursery", "hedge-collected"))),
        draw(st.sampled_from(_PHASES)),
        draw(st.sampled_from(_HEALTH)),
        since,
    )
    return Garden(tree, draw(journals(on)), draw(places()), on, draw(st.integers(1, most_years)))
