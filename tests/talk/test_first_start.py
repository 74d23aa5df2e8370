"""The first start: what is typed at its questions is a folder and days, or it is asked again."""

import io

import pytest

from benchmate.fault import UserError
from benchmate.garden import open_garden
from benchmate.talk.screen import screen_of
from benchmate.talk.start.first_start import begin
from benchmate.talk.start.place_words import read_month_day


def typed(*answers):
    left = iter(answers)
    return lambda _: next(left)


@pytest.fixture
def screen(monkeypatch):
    return screen_of(io.StringIO(), plain=True)


def test_a_bare_word_is_a_folder_only_where_that_is_said_again(tmp_path, monkeypatch, screen):
    monkeypatch.chdir(tmp_path)
    made = begin(None, screen, typed("hello", "no", str(tmp_path / "mine"), "52", "28 April", "16 October"))
    assert made == tmp_path / "mine" and not (tmp_path / "hello").exists()
    assert open_garden(made).place.last_frost == (4, 28)
    made = begin(None, screen, typed("trees", "yes", "", "", ""))
    assert (tmp_path / "trees" / "garden.toml").exists() and made is not None


def test_a_sentence_is_no_day(tmp_path, screen, capsys):
    words = "an olive dug in august, 12 cm base"
    made = begin(tmp_path / "g", screen, typed("52", "no frost here", words, "none"))
    assert open_garden(made).place.first_frost is None
    assert "is no day of the year" in capsys.readouterr().out


@pytest.mark.parametrize(
    "typed_day, day",
    [("mid October", (10, 15)), ("28/4", (4, 28)), ("4/28", (4, 28)), ("early May", (5, 5)), ("end of April", (4, 28))],
)
def test_a_mean_day_may_be_rough(typed_day, day):
    assert read_month_day(typed_day) == day


@pytest.mark.parametrize("words", ["4/5", "October", "mid", "31/2", "new tree, mid October maple"])
def test_what_may_be_two_days_or_none_is_asked_again(words):
    with pytest.raises(UserError):
        read_month_day(words)


def test_a_folder_without_a_garden_is_told_with_how_to_begin(tmp_path):
    with pytest.raises(UserError, match="start benchmate in a terminal"):
        open_garden(tmp_path / "nowhere")
    (tmp_path / "garden.toml").touch()
    assert list(open_garden(tmp_path).trees()) == []
