"""What a kind of tree takes, told from its traits and the rules, each with what it rests on."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Iterator, Mapping
from typing import TYPE_CHECKING, Any

from benchmate.practice.kinds import cell_of, cells_below, known_of, rules_of_kind
from benchmate.talk.trees.which_tree import species_said, which
from benchmate.telling.dates import day_words
from benchmate.telling.depth import source_words
from benchmate.telling.measures import measure_words
from benchmate.telling.wording import list_words

if TYPE_CHECKING:
    from benchmate.garden.record import Place
    from benchmate.practice.book import Rule, RuleBook
    from benchmate.talk.turns import Turn

_NUMBER, _ZONE, _TENDER = "number", "hardiness-zone", "tender"
_MOST_NAMED = 4  # species of a genus that differ from it, told by name
_A_YEAR = 2001  # month-days are told as days of a year without a leap day
Plain = Mapping[str, Any]


def tell_kind(turn: Turn) -> None:
    """Answer what the kind that is meant takes; without one, ask which tree it is."""
    kind = _kind_meant(turn)
    if kind is None:
        turn.asks.append(turn.meant.ask or which(turn.house.trees()))
        return
    told = _Kind(kind, turn.house.book, turn.house.place)
    turn.says += told.lines(turn.reading.term or "")
    turn.aside = [*turn.aside, *([turn.meant.aside] if turn.tree and turn.meant.aside else [])]


def kind_lines(kind: str, terms: Iterable[str], book: RuleBook, place: Place) -> list[str]:
    """What is known of a kind in a line each, beside the answer to another question. terms: of what ("cold", "sun")."""
    return [line for term in terms for line in _Kind(kind, book, place).lines(term)[:1]]


def _kind_meant(turn: Turn) -> str | None:
    """The kind of the tree that is meant, else the one that is named."""
    own = str(turn.tree.species) if turn.tree and turn.tree.species else None
    return own or species_said(turn.reading)


class _Kind:
    """One kind, and where to look for what is known of it."""

    def __init__(self, kind: str, book: RuleBook, place: Place) -> None:
        self.kind, self.book, self.place = kind, book, place
        self.table: Plain = book.places["kinds"]

    def lines(self, term: str) -> list[str]:
        """The answer first, then what bears on a tree in a pot, figures behind it, and what is not known last."""
        asked = self.table["asked"][term]
        traits = [list(self._trait(trait)) for trait in asked["trait"]]
        known = [*(traits[0] if traits else []), *self._rows(asked)]
        known += [line for lines in traits[1:] for line in lines]
        tender = cell_of(self.kind, _TENDER, self.book)
        known += self._frosts() if tender and tender["is"] in asked.get("frost_dates", ()) else []
        lacks = [trait["lacking"] for trait, lines in zip(asked["trait"], traits, strict=True) if not lines]
        head = f"{self.kind}, {asked['about']}: "
        if not any(traits):
            return [head + asked["lacking"].format(kind=self.kind), *known]
        return [head + known[0], *known[1:], *lacks]

    def _rows(self, asked: Plain) -> list[str]:
        """What growers of the kind should know, and the rules that hold for it."""
        rows = [*known_of(self.kind, asked["of_works"], self.book)]
        rows += [_cell(rule) for rule in rules_of_kind(asked["rules"], self.kind, self.book)]
        rows += [self.book.cautions[id] for id in asked.get("cautions", ())]
        return [self._resting(row["says"], row) for row in rows]

    def _trait(self, trait: Plain) -> Iterator[str]:
        """A trait in words, and how the species of a genus differ in it."""
        name, says = trait["name"], trait["says"]
        cell = cell_of(self.kind, name, self.book)
        below = cells_below(self.kind, name, self.book)
        if cell:
            yield self._resting(self._value(name, says, cell["is"]), cell)
        if cell and name == _ZONE:
            yield self._zone(cell["is"])
        values = {one["is"] for one in below.values()} - {cell["is"] if cell else None}
        if not values:
            return
        if _NUMBER in says:
            low, high = min(values), max(values)
            span = f"{low:g} to {high:g}" if low < high else f"{low:g}"
            yield f"By the species: {name.replace('-', ' ')} {span}; say which one it is"
            return
        differ = [f"{taxon} ({says.get(one['is'], one['is'])})" for taxon, one in below.items() if one["is"] in values]
        more = f" and {len(differ) - _MOST_NAMED} more" if len(differ) > _MOST_NAMED else ""
        yield f"Otherwise: {', '.join(differ[:_MOST_NAMED])}{more}"

    def _value(self, name: str, says: Plain, value: Any) -> str:
        if _NUMBER not in says:
            return str(says.get(value, value))
        shown = f"{value:g}" if name == _ZONE else self._degrees(value)
        return str(says[_NUMBER].format(value=shown))

    def _zone(self, value: float) -> str:
        """What a zone comes to in degrees."""
        zone = self.table["zone"]
        low = zone["coldest_c"] + (value - 1) * zone["step_c"]
        high = low + zone["step_c"] * (1 if value == int(value) else 0.5)
        return self._resting(zone["says"].format(low=self._degrees(low), high=self._degrees(high)), zone)

    def _degrees(self, celsius: float) -> str:
        whole = celsius if self.place.units == "imperial" else round(celsius)  # told without a fraction in either
        return measure_words("temperature_c", whole, self.place.units)

    def _resting(self, words: str, row: Plain) -> str:
        """The words, and what they rest on."""
        source = row.get("source")
        mark = row.get("mark") or "published"
        where = f", {row['where']}" if row.get("where") else ""
        return f"{words.rstrip('.')} ({source_words(source, mark, self.book.sources)}{where})"

    def _frosts(self) -> list[str]:
        """The mean frosts of the place, where they are known."""
        of = [("first", self.place.first_frost), ("last", self.place.last_frost)]
        told = [
            f"the {name} frost is about {day_words(dt.date(_A_YEAR, *day), dt.date(_A_YEAR, *day))}"
            for name, day in of
            if day
        ]
        return [f"At {self.place.name or 'your place'} {list_words(told)}"] if told else []


def _cell(rule: Rule) -> Plain:
    return {"says": rule.says, "source": rule.source, "mark": rule.mark, "where": rule.where}
