"""The loop that answers line by line: faults, slips and Ctrl-C cost one statement, not the talk."""

import datetime as dt

import pytest

from benchmate.fault import UserError
from benchmate.hearing.reading import Reading
from benchmate.talk.plain_loop import converse
from benchmate.talk.screen import Screen, screen_of
from benchmate.telling import Answer


def talk(raised):
    """Answers every statement but "bad", which raises; "bye" ends."""

    def ask(words):
        if words == "bad":
            raise raised
        return Answer(Reading(words), dt.date(2026, 6, 14), says=(f"heard {words}",), ends=words == "bye")

    return ask


def test_an_empty_line_does_nothing_and_the_end_ends(capsys):
    assert converse(talk(None), iter(["one", "", "  ", "bye", "two"]), Screen()) == 0
    assert capsys.readouterr().out == "Heard one.\n\nHeard bye.\n\n"


@pytest.mark.parametrize("raised", [UserError("a diameter below zero"), ZeroDivisionError()])
def test_a_fault_costs_one_line_and_is_told_in_the_status(capsys, raised, monkeypatch):
    monkeypatch.delenv("BENCHMATE_TRACE", raising=False)
    assert converse(talk(raised), iter(["bad", "one"]), Screen()) == 1
    told = capsys.readouterr()
    assert told.out == "Heard one.\n\n" and len(told.err.splitlines()) == 1 and told.err.startswith("benchmate: ")


def test_a_slip_names_its_place_and_can_be_seen_whole(monkeypatch):
    monkeypatch.setenv("BENCHMATE_TRACE", "1")
    with pytest.raises(ZeroDivisionError):
        converse(talk(ZeroDivisionError()), iter(["bad"]), Screen())


def test_ctrl_c_gives_up_one_statement_where_somebody_sits_there(capsys):
    assert converse(talk(KeyboardInterrupt()), iter(["bad", "one"]), Screen(), attended=True) == 0
    assert capsys.readouterr().out == "given up\nHeard one.\n\n"
    with pytest.raises(KeyboardInterrupt):
        converse(talk(KeyboardInterrupt()), iter(["bad"]), Screen())


class Out:
    def __init__(self, terminal):
        self.isatty = lambda: terminal


@pytest.mark.parametrize(
    "terminal, env, plain, screen",
    [
        (True, {"COLUMNS": "40", "TERM": "xterm"}, False, Screen(40, True, False)),
        (True, {"COLUMNS": "40", "TERM": "xterm", "NO_COLOR": ""}, False, Screen(40, False, False)),
        (True, {"COLUMNS": "40", "TERM": "dumb"}, False, Screen(40, False, False)),
        (True, {"COLUMNS": "40", "TERM": "xterm"}, True, Screen(40, False, True)),
        (True, {"COLUMNS": "400", "TERM": "xterm"}, False, Screen(120, True, False)),
        (True, {"COLUMNS": "5", "TERM": "xterm"}, False, Screen(20, True, False)),
        (False, {"COLUMNS": "60", "TERM": "xterm"}, False, Screen(60, False, False)),
        (False, {"TERM": "xterm"}, False, Screen(None, False, False)),
    ],
)
def test_the_screen_that_it_is(terminal, env, plain, screen):
    assert screen_of(Out(terminal), env, plain=plain) == screen
