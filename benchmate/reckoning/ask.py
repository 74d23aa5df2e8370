"""What each figure needs: the table by which another room gathers the values, asks for what lacks and works it out.

Nothing here reads a file. `tables` are the parsed rows of rules/figures, gathered by kind (`gather`). Subject files are
imported when a figure of theirs is worked out, since most statements ask for none.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from importlib import import_module
from typing import Any, cast

from .figure import Band, Figure, FigureError, exactly

Row = Mapping[str, Any]
Tables = Mapping[str, Sequence[Row]]


@dataclass(frozen=True, slots=True)
class Need:
    """One argument of a figure.

    name: vocabulary measure or a name of the record (`latitude_deg`, `on`, `species`). unit: of its value. required:
    without it the figure cannot be worked out. default: what stands where nothing is known. question: what to ask the
    grower, "" for what is never asked. rules: id of the band, list or kind of rows in rules/figures that fills it. by:
    known names whose values pick among bands of that id, first match first. row: "module:Class" of such rows. unless:
    names any one of which makes this one not required. where: names without any of which it is not. also: other names
    under which it may be known. none_says: a known None is a value (a place without frost), not something lacking.
    asks: the measure of the vocabulary that is asked for, where it has another name than the argument.
    """

    name: str
    unit: str = ""
    required: bool = False
    default: Any = None
    question: str = ""
    rules: str = ""
    by: tuple[str, ...] = ()
    row: str = ""
    unless: tuple[str, ...] = ()
    where: tuple[str, ...] = ()
    also: tuple[str, ...] = ()
    none_says: bool = False
    asks: str = ""

    @property
    def is_band(self) -> bool:
        """Whether the argument is a Band; a plain number known for it is wrapped."""
        return bool(self.rules) and not self.row


@dataclass(frozen=True, slots=True)
class FigureSpec:
    """A figure of the vocabulary: what it is called in words, what it needs, and the function that works it out."""

    figure: str
    needs: tuple[Need, ...]
    work_out: Callable[..., Figure]
    says: str = ""


@dataclass(frozen=True, slots=True)
class Bound:
    """Arguments gathered for a figure. lacks: required needs still open, in the order to ask. assumed: names filled
    from defaults or rules rather than from what is known."""

    values: Mapping[str, Any]
    lacks: tuple[Need, ...] = ()
    assumed: tuple[str, ...] = ()


def gather(parsed: Iterable[Mapping[str, Any]]) -> dict[str, list[Row]]:
    """Rows of several parsed files, by kind (`band`, `list`, `step`, `wood`, `metal`, ...).

    Give it the files of rules/figures and rules/sources.toml; without the sources, a figure cites by their ids.
    """
    kinds: dict[str, list[Row]] = {}
    for file in parsed:
        for kind, rows in file.items():
            if isinstance(rows, list):
                kinds.setdefault(kind, []).extend(rows)
            elif kind == "source":
                kinds.setdefault(kind, []).extend(
                    {"id": id} | {key: source[key] for key in ("by", "year", "title") if key in source}
                    for id, source in rows.items()
                )
    return kinds


def bind(spec: FigureSpec, known: Mapping[str, Any], tables: Tables) -> Bound:
    """Fill a figure's needs from what is known, then from the rules, then from defaults.

    A None in `known` is unknown, but for needs that say otherwise (a frost-free place has `first_frost` None). Names
    that the figure does not need are passed over.
    """
    values: dict[str, Any] = {}
    lacks: list[Need] = []
    assumed: list[str] = []
    for need in spec.needs:
        said = next(
            (
                name
                for name in (need.name, *need.also)
                if known.get(name) is not None or (need.none_says and name in known)
            ),
            None,
        )
        if said is not None:
            values[need.name] = _as_band(known[said], need) if need.is_band else known[said]
            continue
        found = _from_rules(need, known, tables) if need.rules else None
        if found is None:
            found = need.default
        if found is not None:
            values[need.name] = found
            assumed.append(need.name)
        elif need.required and _wanting(need, known):
            lacks.append(need)
    return Bound(values, tuple(lacks), tuple(assumed))


def _wanting(need: Need, known: Mapping[str, Any]) -> bool:
    """Whether a figure cannot do without a need, by what else is known."""
    if any(known.get(name) is not None for name in need.unless):
        return False
    return not need.where or any(known.get(name) is not None for name in need.where)


def answer(figure: str, known: Mapping[str, Any], tables: Tables) -> Figure:
    """The figure from what is known. Raises FigureError where it is impossible, unknown, or something lacks."""
    from .table import FIGURES

    if figure not in FIGURES:
        raise FigureError(f"no figure is called {figure!r}; {', '.join(FIGURES)} would do")
    bound = bind(FIGURES[figure], known, tables)
    if bound.lacks:
        need = bound.lacks[0]
        raise FigureError(f"{figure} needs {need.name} ({need.unit or 'no unit'}), which is not known; {need.question}")
    return FIGURES[figure].work_out(**bound.values)


def late(module: str, name: str) -> Callable[..., Figure]:
    """A figure's function, imported when it is first called."""

    def work_out(**values: Any) -> Figure:
        return cast(Figure, getattr(import_module(f"{__package__}.{module}"), name)(**values))

    work_out.__name__ = name
    work_out.__module__ = f"{__package__}.{module}"
    return work_out


def band(id: str, keys: Sequence[str], tables: Tables) -> Band | None:
    """The band of an id for the first key that has one ("Acer palmatum", then "Acer"), else the general one."""
    rows = [row for row in tables.get("band", ()) if row["id"] == id]
    for key in (*_with_genus(keys), ""):
        for row in rows:
            if str(row.get("key", "")).lower() == key.lower():
                value = float(row["value"])
                low, high = float(row.get("low", value)), float(row.get("high", value))
                return Band(
                    value,
                    low,
                    high,
                    str(row.get("unit", "1")),
                    cite(row, tables),
                    str(row.get("mark", "practice")),
                    str(row.get("says", "")),
                )
    return None


def cite(row: Row, tables: Tables) -> str:
    """A row's source in words: the listed source that it names and the place in it, else what it says."""
    named = str(row.get("source", ""))
    for source in tables.get("source", ()):
        if named and source["id"] == named:
            by = " ".join(str(source[key]) for key in ("by", "year") if source.get(key))
            return ", ".join(part for part in (by, str(source.get("title", "")), str(row.get("where", ""))) if part)
    return named or {"practice": "practice of the trade", "memory": "from memory"}.get(str(row.get("mark")), "")


def _from_rules(need: Need, known: Mapping[str, Any], tables: Tables) -> Any:
    keys = [str(known[name]) for name in need.by if known.get(name)]
    if need.row:
        return _rows(need, keys, tables)
    for row in tables.get("list", ()):
        if row["id"] == need.rules:
            return tuple(tuple(item) if isinstance(item, list) else item for item in row["values"])
    many = [row for row in tables.get("step", ()) if row["id"] == need.rules]
    if many:
        return tuple(
            Band(
                float(row["value"]),
                float(row["low"]),
                float(row["high"]),
                str(row.get("unit", "1")),
                cite(row, tables),
                str(row["mark"]),
                str(row["says"]),
            )
            for row in many
        )
    return band(need.rules, keys, tables)


def _rows(need: Need, keys: Sequence[str], tables: Tables) -> Any:
    """All rows of a kind as values of their class; with `by`, the one whose key is known, or None."""
    module, name = need.row.split(":")
    kind = getattr(import_module(f"{__package__}.{module}"), name)
    fields = kind.__dataclass_fields__
    made = []
    for row in tables.get(need.rules, ()):
        if need.by and str(row.get("key", "")).lower() not in [key.lower() for key in keys]:
            continue
        filled = {
            name: tuple(value) if isinstance(value, list) else value for name, value in row.items() if name in fields
        }
        made.append(kind(**(filled | {"source": cite(row, tables)})))
    if need.by:
        return made[0] if made else None
    return tuple(made) or None


def _with_genus(keys: Sequence[str]) -> list[str]:
    out = []
    for key in keys:
        out.append(key)
        if " " in key:
            out.append(key.split(" ")[0])
    return out


def _as_band(value: Any, need: Need) -> Any:
    return exactly(float(value), need.unit) if isinstance(value, int | float) and not isinstance(value, bool) else value
