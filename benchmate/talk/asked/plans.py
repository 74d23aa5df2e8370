"""Plans for a talk or a command: rules, journals and place out of the house, into the planning room."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any
from weakref import WeakKeyDictionary

from benchmate.fault import UserError
from benchmate.rulebase import compiled
from benchmate.value import dataclass

if TYPE_CHECKING:
    from benchmate.garden.record import Entry, Tree
    from benchmate.hearing.reading import Reading
    from benchmate.planning import Lesson, Plan, PlanBook
    from benchmate.talk.house import House

USUAL_YEARS = 3


Days = tuple[tuple[dt.date, dt.date], ...]


@dataclass(frozen=True, slots=True)
class Planned:
    """A plan with the lessons that it used."""

    plan: Plan
    lessons: tuple[Lesson, ...]

    def as_json(self) -> dict[str, Any]:
        return self.plan.as_json() | {"lessons": [lesson.as_json() for lesson in self.lessons]}


class _Worked:
    """What was worked out for a house: what planning knows, and the days of works with what they were reckoned from."""

    def __init__(self, book: PlanBook) -> None:
        self.book = book
        self.days: dict[tuple[object, ...], tuple[Sequence[Entry], tuple[Lesson, ...], Days]] = {}


_OF_HOUSE: WeakKeyDictionary[House, _Worked] = WeakKeyDictionary()


def _worked(house: House) -> _Worked:
    if house not in _OF_HOUSE:
        _OF_HOUSE[house] = _Worked(_compiled_book(house))
    return _OF_HOUSE[house]


def plan_book(house: House) -> PlanBook:
    """What planning knows, compiled from the rules of this house; kept like everything that is compiled of them."""
    return _worked(house).book


def _compiled_book(house: House) -> PlanBook:
    from benchmate.planning import compile_plan_book, plan_book_as_plain, plan_book_from_plain

    def build() -> Mapping[str, Any]:
        from benchmate.hearing import hear
        from benchmate.practice.condition import READ_ON

        lexicon = house.lexicon
        return plan_book_as_plain(compile_plan_book(house.tables.tables, lambda words: hear(words, lexicon, READ_ON)))

    return plan_book_from_plain(compiled("planning", house.rule_folders, house.store, build))


def lessons_for(house: House, tree: Tree, on: dt.date, book: PlanBook) -> tuple[Lesson, ...]:
    """What the tree and the others of its kind in this garden taught."""
    from benchmate.planning import taught

    kin = [one for one in house.trees() if one.folder == tree.folder or (tree.species and one.species == tree.species)]
    journals = [(one, house.entries(one)) for one in kin]
    return taught(tree, journals, on, house.place, house.book, book.lesson)


def plan_for(house: House, tree: Tree, on: dt.date, years: int, told: Sequence[Entry] = ()) -> Planned:
    """The plan of a tree for so many years. told: what is not in its record yet. Raises UserError for a span that
    cannot be planned."""
    from benchmate.planning import MOST_YEARS, lay_plan

    if not 1 <= years <= MOST_YEARS:
        raise UserError(f"--years {years} cannot be planned; give 1 to {MOST_YEARS}")
    book = plan_book(house)
    lessons = lessons_for(house, tree, on, book)
    entries = (*house.entries(tree), *told)
    return Planned(lay_plan(tree, entries, house.place, on, years, house.book, book, lessons), lessons)


def days_for(works: Sequence[str], house: House, tree: Tree, on: dt.date, years: int) -> Days:
    """First and last day of each item of these works in the plan of a tree, soonest first; reckoned once for a record
    as it stands."""
    from benchmate.planning import next_days

    worked, entries = _worked(house), house.entries(tree)
    lessons = lessons_for(house, tree, on, worked.book)
    key = (*works, tree.folder, on, years)
    kept = worked.days.get(key)
    if kept is None or kept[0] != entries or kept[1] != lessons:
        days = next_days(works, tree, entries, house.place, on, years, house.book, worked.book, lessons)
        kept = worked.days[key] = (entries, lessons, days)
    return kept[2]


def years_said(series: tuple[tuple[str, float], ...]) -> int:
    """The years that "the next three years" asks for, 1 to 10; three where nothing was said."""
    from benchmate.planning import MOST_YEARS

    days = next((value for name, value in series if name == "days"), None)
    return USUAL_YEARS if days is None else max(1, min(MOST_YEARS, round(days / 365)))


def years_asked(reading: Reading, house: House, on: dt.date) -> int:
    """The years that a plan is asked for, by its own words where the question took them in as no span: "plan the beech
    for two seasons", "what would you do over the next two years"."""
    from benchmate.hearing.amounts.dates import DateWords
    from benchmate.hearing.figures.choice import figure_words
    from benchmate.hearing.figures.numbers import said_numbers

    if any(name == "days" for name, _ in reading.series):
        return years_said(reading.series)
    ear = house.ear
    dates = DateWords(ear.lexicon.dates, ear.spotter.values, on, house.place.southern)
    numbers = said_numbers(ear.words(reading.said), figure_words(ear.spotter).numbers, dates)
    years = next((one.value for one in numbers if one.unit == "years" and "ago" not in one.tags), None)
    return years_said(() if years is None else (("days", years * 365),))
