"""Days, spans and what comes again, by today and the hemisphere; the day that is meant within a month or a season."""

from __future__ import annotations

import datetime as dt

import pytest

from benchmate.hearing import Ear
from benchmate.hearing.amounts.date_days import easter, nth_weekday, weekday_from
from benchmate.hearing.amounts.dates import DateWords, spot_dates

ON = dt.date(2026, 6, 14)  # a Sunday


def longest(ear: Ear, said: str, southern: bool = False, on: dt.date = ON):
    """The longest time that begins with the first of the words said."""
    words = [word.text for word in ear.words(said)]
    dates = DateWords(ear.lexicon.dates, ear.spotter.values, on, southern)
    return max(spot_dates(dates, words, 0), key=lambda when: when.end, default=None)


@pytest.mark.parametrize(
    "said, past, future",
    [
        ("Tuesday week", None, "2026-06-23"),
        ("a week on Tuesday", None, "2026-06-23"),
        ("a week from Tuesday", None, "2026-06-23"),
        ("a week Tuesday", None, "2026-06-23"),
        ("a fortnight tomorrow", None, "2026-06-29"),
        ("tomorrow week", None, "2026-06-22"),
        ("a week last Monday", "2026-06-01", "2026-06-01"),
        ("a week ago yesterday", "2026-06-06", "2026-06-06"),
        ("next Friday but one", "2026-06-26", "2026-06-26"),
        ("the Friday after next", "2026-06-26", "2026-06-26"),
        ("the weekend before last", "2026-06-06", "2026-06-06"),
        ("the month after next", "2026-08", "2026-08"),
        ("last month but one", "2026-04", "2026-04"),
        ("this time next year", "2027-06-14", "2027-06-14"),
        ("the same time last week", "2026-06-07", "2026-06-07"),
        ("a week before Christmas", "2025-12-18", "2026-12-18"),
        ("the week after Easter", "2026-04-12", "2027-04-04"),
        ("a year ago today", "2025-06-14", "2025-06-14"),
        ("a year and a half ago", "2024-12", "2024-12"),
        ("a month and a half ago", "2026-04-29", "2026-04-29"),
        ("a few days ago", "2026-06-11", "2026-06-11"),
        ("two springs ago", "2024-spring", "2024-spring"),
        ("in half a year", "2026-12-14", "2026-12-14"),
        ("in the last two weeks", "2026-05-31", "2026-05-31"),
        ("the second Sunday in May", "2026-05-10", "2027-05-09"),
        ("the last weekend of next month", "2026-07-25", "2026-07-25"),
        ("the first of the month", "2026-06-01", "2026-07-01"),
        ("the 30th of last month", "2026-05-30", "2026-05-30"),
        ("the end of the month", "2026-06-30", "2026-06-30"),
        ("the end of the year", "2026-12-31", "2026-12-31"),
        ("by the end of next week", "2026-06-21", "2026-06-21"),
        ("May '24", "2024-05", "2024-05"),
        ("spring 24", "2024-spring", "2024-spring"),
        ("the spring of twenty nineteen", "2019-spring", "2019-spring"),
        ("March two thousand and five", "2005-03", "2005-03"),
        ("May or June", "2026-05", "2026-06"),
        ("between October and December", "2025-10", "2026-10"),
        ("Good Friday", "2026-04-03", "2027-03-26"),
        ("two Saturdays ago", "2026-06-06", "2026-06-06"),
        ("three Mondays from now", "2026-06-29", "2026-06-29"),
        ("over the past month", "2026-05-14", "2026-05-14"),
        ("the 3rd to the 10th of May", "2026-05-03", "2027-05-03"),
        ("the August bank holiday", "2025-08-25", "2026-08-31"),
        ("Thanksgiving", "2025-11-27", "2026-11-26"),
        ("Christmas last year", "2025-12-25", "2025-12-25"),
        ("New Year's Eve", "2025-12-31", "2026-12-31"),
    ],
)
def test_a_time_is_found_from_today(ear: Ear, said: str, past: str | None, future: str) -> None:
    when = longest(ear, said)
    assert when is not None and when.end == len(ear.words(said))
    assert when.future == future
    assert past is None or when.past == past


@pytest.mark.parametrize(
    "said, when, day",
    [
        ("early July", "2026-07", "2026-07-05"),
        ("mid July", "2026-07", "2026-07-15"),
        ("the middle of July", "2026-07", "2026-07-15"),
        ("late July", "2026-07", "2026-07-25"),
        ("the second half of July", "2026-07", "2026-07-16"),
        ("early June", "2027-06", "2027-06-05"),  # this year's is over
        ("late June", "2026-06", "2026-06-25"),
        ("early next month", "2026-07", "2026-07-05"),
        ("the first week of July", "2026-07", "2026-07-01"),
        ("the second week in July", "2026-07", "2026-07-08"),
        ("the last week of February", "2027-02", "2027-02-22"),
        ("early spring", "2027-spring", "2027-03-15"),
        ("late next winter", "2026-winter", "2027-02-14"),
        ("midwinter", "2026-winter", "2027-01-15"),
        ("the end of summer", "2026-summer", "2026-08-31"),
        ("late next year", "2027", "2027-11-15"),
        ("July", "2026-07", None),
    ],
)
def test_a_part_of_a_span_has_its_day(ear: Ear, said: str, when: str, day: str | None) -> None:
    found = longest(ear, said)
    assert found is not None and (found.future, found.future_day) == (when, day)


@pytest.mark.parametrize(
    "said, north, south",
    [
        ("the longest day", "2026-06-21", "2026-12-21"),
        ("Midsummer Day", "2026-06-24", "2026-12-24"),
        ("the autumn equinox", "2026-09-22", "2027-03-22"),
        ("Anzac Day", "2027-04-25", "2027-04-25"),
        ("next spring", "2027-spring", "2026-spring"),
        ("two winters ago", "2024-winter", "2024-winter"),
    ],
)
def test_the_sun_turns_in_the_south_and_feasts_do_not(ear: Ear, said: str, north: str, south: str) -> None:
    found = [longest(ear, said, southern) for southern in (False, True)]
    assert [when.future if when else None for when in found] == [north, south]


@pytest.mark.parametrize(
    "said, days",
    [
        ("every fortnight", 14),
        ("every two weeks", 14),
        ("every other day", 2),
        ("every third day", 3),
        ("every single day", 1),
        ("each month", 30),
        ("every few weeks", 21),
        ("every couple of weeks", 14),
        ("once a month", 30),
        ("twice a week", 3),
        ("three times a week", 2),
        ("once every two weeks", 14),
        ("weekly", 7),
        ("mornings", 1),
        ("every other spring", 730),
        ("on Fridays", 7),
    ],
)
def test_what_comes_again_is_told_in_days(ear: Ear, said: str, days: int) -> None:
    when = longest(ear, said)
    assert when is not None and (when.end, when.every) == (len(ear.words(said)), days)


@pytest.mark.parametrize(
    "said, acts, done, when",
    [
        ("feed it every fortnight", ("decide",), "later", "2026-06-28"),
        ("I repot it every two years", ("decide",), "later", "2028-06-13"),
        ("remind me to feed it every fortnight", ("remind",), None, "2026-06-28"),
        ("remind me every Friday to feed it", ("remind",), None, "2026-06-19"),
        ("check the wire every month", ("remind",), None, "2026-07-14"),
        ("fed it every week", ("decide",), "done", None),
        ("don't feed it every week", ("decide",), "not", None),
        ("can I feed it every week", ("ask",), None, None),
    ],
)
def test_of_what_comes_again_the_first_is_kept(
    ear: Ear, said: str, acts: tuple[str, ...], done: str | None, when: str | None
) -> None:
    reading = ear.hear(said, ON)
    assert (reading.acts, reading.work[0].done, reading.when) == (acts, done, when)
    assert reading.every > 0 and not reading.missed


@pytest.mark.parametrize(
    "said, done, when",
    [
        ("feed the pine and the juniper on 1 July", "later", "2026-07-01"),
        ("feed the pine, the elm and the juniper on Monday", "later", "2026-06-15"),
        ("fed the pine and the juniper on 1 June", "done", "2026-06-01"),
        ("cut the pine and the juniper back on 1 June", "done", "2026-06-01"),
        ("remind me to check the pine and the juniper on 1 April", None, "2027-04-01"),
        ("check the pine and the juniper on 1 July", None, "2026-07-01"),
    ],
)
def test_a_day_behind_several_trees_is_that_of_the_work(ear: Ear, said: str, done: str | None, when: str) -> None:
    reading = ear.hear(said, ON)
    assert (reading.work[0].done, reading.when) == (done, when)


@pytest.mark.parametrize("said", ["wire it, 20 July", "wire it, next week", "repot it, spring", "feed it, tomorrow"])
def test_a_day_ahead_behind_a_comma_is_later(ear: Ear, said: str) -> None:
    reading = ear.hear(said, ON)
    assert reading.acts == ("decide",) and [work.done for work in reading.work] == ["later"]


def test_a_size_is_told_of_a_day_that_was(ear: Ear) -> None:
    assert ear.hear("the trunk was 40 mm in March", ON).when == "2026-03"


@pytest.mark.parametrize("said", ["remind me to repot it in late April", "repot it mid next April"])
def test_the_reading_carries_the_day_within_a_month(ear: Ear, said: str) -> None:
    reading = ear.hear(said, ON)
    assert reading.when == "2027-04" and reading.day in ("2027-04-25", "2027-04-15")


@pytest.mark.parametrize(
    "said, past, future",
    [
        ("20/5", "2026-05-20", "2027-05-20"),
        ("5/20", "2026-05-20", "2027-05-20"),
        ("20/5/24", "2024-05-20", "2024-05-20"),
    ],
)
def test_a_day_in_figures_is_read_where_it_has_one_meaning(ear: Ear, said: str, past: str, future: str) -> None:
    words = ["on", *(word.text for word in ear.words(said))]
    dates = DateWords(ear.lexicon.dates, ear.spotter.values, ON, False)
    when = max(spot_dates(dates, words, 1), key=lambda one: one.end)
    assert (when.past, when.future) == (past, future)


def test_of_two_days_of_a_month_the_first_is_kept(ear: Ear) -> None:
    assert ear.hear("fed it on the 1st and the 15th of May", ON).when == "2026-05-01"


def test_a_day_in_figures_with_two_meanings_is_missed(ear: Ear) -> None:
    assert ear.hear("fed it on 6/5", ON).missed


@pytest.mark.parametrize(
    "year, day", [(2024, "2024-03-31"), (2025, "2025-04-20"), (2026, "2026-04-05"), (2038, "2038-04-25")]
)
def test_easter(year: int, day: str) -> None:
    assert easter(year).isoformat() == day


def test_weekdays_are_counted_from_today() -> None:
    assert weekday_from(ON, 6, 0) == ON
    assert weekday_from(ON, 6, 1) == dt.date(2026, 6, 21)
    assert weekday_from(ON, 6, -1) == dt.date(2026, 6, 7)
    assert weekday_from(ON, 4, 2) == dt.date(2026, 6, 26)
    assert nth_weekday(2026, 2, 0, 5) is None


@pytest.mark.parametrize(
    "said",
    [
        "it shaded the one below and looked heavy",
        "the new year shoots are long",
        "every other branch is dead",
        "the middle of the tree is weak",
        "bring it in before Christmas",
        "once the wire is off feed it",
    ],
)
def test_words_of_time_keep_their_other_senses(ear: Ear, said: str) -> None:
    reading = ear.hear(said, ON)
    assert reading.when in (None, "2026-12-25") and not reading.every
    assert not any("temperature_c" in work.measures for work in reading.work)


@pytest.mark.parametrize("year", [1, 2000, 2001, 2026, 2099, 9999])
def test_no_time_ends_beyond_the_words(ear: Ear, year: int) -> None:
    dates = DateWords(ear.lexicon.dates, ear.spotter.values, dt.date(year, 2, 28), True)
    for said in (
        "leaf fall",
        "in spring",
        "every",
        "the first week of",
        "a week before",
        "late",
        "the end of",
        "between May",
    ):
        words = [word.text for word in ear.words(said)]
        for at in range(len(words)):
            assert all(at < when.end <= len(words) for when in spot_dates(dates, words, at))
