"""Latitudes and days of the year as they are typed."""

import pytest

from benchmate.fault import UserError
from benchmate.talk.start.place_words import read_latitude, read_month_day


@pytest.mark.parametrize(
    "words, degrees",
    [
        ("52.1", 52.1),
        ("52,1 N", 52.1),
        ("33.9 S", -33.9),
        ("-33.9", -33.9),
        ("33 30' south", -33.5),
        ("0", 0.0),
        ("", None),
        ("later", None),
    ],
)
def test_latitudes(words, degrees):
    assert read_latitude(words) == (None if degrees is None else pytest.approx(degrees))


@pytest.mark.parametrize("words", ["91", "north", "52 N 3 W", "-120"])
def test_what_is_no_latitude(words):
    with pytest.raises(UserError):
        read_latitude(words)


@pytest.mark.parametrize(
    "words, day",
    [
        ("28 April", (4, 28)),
        ("April 28th", (4, 28)),
        ("16 oct", (10, 16)),
        ("10-16", (10, 16)),
        ("none", None),
        ("", None),
        ("29 February", (2, 29)),
        ("about the 28th of April", (4, 28)),
        ("no frost here", None),
        ("there is no frost", None),
        ("it never freezes here", None),
    ],
)
def test_days(words, day):
    assert read_month_day(words) == day


@pytest.mark.parametrize(
    "words", ["31 April", "13-40", "soon", "April", "30 Feb", "an olive dug in august, 12 cm base", "12 trees"]
)
def test_what_is_no_day(words):
    with pytest.raises(UserError):
        read_month_day(words)
