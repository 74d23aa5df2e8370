"""The real prompt in a pseudo-terminal: typing, completion, history, widths, Ctrl-C, Ctrl-D, a terminal that dies."""

import datetime as dt
import os
import re
import shutil
import signal
import sys
import time
import tomllib
from pathlib import Path

import pytest
from emulator import Emulator

from benchmate.talk.bench import Bench
from benchmate.talk.house import House
from benchmate.telling import lay, tell

pexpect = pytest.importorskip("pexpect")
DEMO = Path(__file__).resolve().parents[2] / "demo_trees"
pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="there are no pseudo-terminals there")


@pytest.fixture
def demo(tmp_path):
    home = tmp_path / "demo"
    shutil.copytree(DEMO, home, ignore=shutil.ignore_patterns(".benchmate"))
    return home


class Terminal:
    """One talk in a pseudo-terminal, with a screen that shows it."""

    def __init__(self, *words, columns=80, home="/nonexistent", **env):
        own = {
            key: value for key, value in os.environ.items() if key not in ("BENCHMATE_GARDEN", "COLUMNS", "NO_COLOR")
        }
        own |= {"TERM": "xterm", "HOME": str(home)} | env
        self.child = pexpect.spawn(
            sys.executable, ["-m", "benchmate", *words], env=own, dimensions=(40, columns), encoding="utf-8", timeout=60
        )
        self.screen = Emulator(columns, 40)
        self.raw = ""
        self.since = 0

    def _read(self, timeout=0.2):
        """Draw what comes within the time; False where the program has ended."""
        try:
            words = self.child.read_nonblocking(4096, timeout)
        except pexpect.TIMEOUT:
            return True
        except pexpect.EOF:
            return False
        self.raw += words
        self.screen.feed(words)
        for reply in self.screen.replies:
            self.child.send(reply)
        self.screen.replies.clear()
        return True

    def seen(self):
        """The rows since the last statement was sent."""
        return self.screen.text(self.since)

    def wait(self, words, seconds=60):
        """Wait until the words stand on the screen below the last statement; gives the rows."""
        wanted, end = " ".join(words.split()), time.monotonic() + seconds
        while wanted not in " ".join(" ".join(self.seen()).split()):
            if not self._read() or time.monotonic() > end:
                raise AssertionError(f"{words!r} never stood on the screen:\n" + "\n".join(self.seen()))
        return self.seen()

    def say(self, words):
        self.since = self.screen.row
        self.key(words + "\r")

    def key(self, key):
        self.child.send(key)

    def end(self):
        """Wait for the program's end; gives its status and all that was shown."""
        end = time.monotonic() + 60
        while self._read() and time.monotonic() < end:
            pass
        self.child.close()
        return self.child.exitstatus, "\n".join(self.screen.text())


def entries(demo, folder):
    return tomllib.loads((demo / folder / "journal.toml").read_text(encoding="utf-8"))["entry"]


@pytest.fixture
def bench(demo):
    terminal = Terminal("--garden", str(demo), "--tree", "Ratchet", "--on", "2026-06-14")
    terminal.wait("At the bench: Lanthorn Vale.")
    terminal.wait("Ratchet | 14 June 2026")
    yield terminal
    terminal.child.close(force=True)


def test_a_statement_is_answered_and_logged(bench, demo):
    bench.say("wired the left branch")
    bench.wait("Logged for Ratchet: done: wired the left branch.")
    bench.say("goodbye")
    status, _ = bench.end()
    assert status == 0 and entries(demo, "ratchet")[-1]["work"] == [{"work": "wire", "part": "branch", "side": "left"}]


def test_enter_alone_logs_nothing(bench, demo):
    before = len(entries(demo, "ratchet"))
    bench.say("can I shorten the shoots?")
    bench.wait("Leave it alone")
    for _ in range(3):
        bench.say("")
    bench.say("where am I")
    bench.wait("from the record")
    assert len(entries(demo, "ratchet")) == before


def test_a_number_shows_what_it_logs_before_it_is_entered(bench, demo):
    bench.say("can I shorten the shoots?")
    bench.wait("Shorten the shoots: go")
    bench.key("1")
    bench.wait("Enter logs: shorten the shoots")
    bench.key("\r")
    bench.wait("Logged for Ratchet: done: shortened the shoots")
    assert entries(demo, "ratchet")[-1]["kind"] == "done"


def test_one_key_takes_an_option(bench, demo):
    bench.say("can I shorten the shoots?")
    bench.wait("Shorten the shoots: go")
    bench.key("\x1bOP")  # F1
    bench.wait("Logged for Ratchet: done: shortened the shoots")


def test_names_complete_as_they_are_typed(bench):
    bench.key("let's do Gatep")
    bench.wait("Gatepost")
    bench.key("\t\r")
    bench.wait("Gatepost: Acer campestre")


def test_words_of_the_bench_complete(bench):
    bench.key("the horn")
    bench.wait("hornbeam")


def test_the_history_outlives_the_talk(bench, demo):
    bench.say("checked the wire")
    bench.wait("Logged for Ratchet")
    bench.key("\x04")
    assert bench.end()[0] == 0
    again = Terminal("--garden", str(demo), "--tree", "Ratchet", "--on", "2026-06-15")
    again.wait("Ratchet | 15 June")
    again.key("\x1b[A")
    again.wait("checked the wire")
    again.child.close(force=True)


@pytest.mark.parametrize("typed", ["", "wired the le"])
def test_ctrl_c_gives_up_the_line_and_no_more(bench, demo, typed):
    before = len(entries(demo, "ratchet"))
    bench.key(typed)
    bench.key("\x03")
    bench.say("fed it")
    bench.wait("Logged for Ratchet: done: fed it.")
    assert len(entries(demo, "ratchet")) == before + 1


def test_ctrl_d_ends_on_an_empty_line(bench):
    bench.key("\x04")
    assert bench.end()[0] == 0


def test_ctrl_d_on_a_line_with_words_does_not_end(bench):
    bench.key("fed it")
    bench.key("\x04")
    bench.key("\r")
    bench.wait("Logged for Ratchet: done: fed it.")


def test_the_screen_follows_its_width(bench, demo):
    bench.child.setwinsize(40, 40)
    bench.screen.columns = 40
    bench.say("can I shorten the shoots?")
    rows = bench.wait("to spend this season.")
    answer = rows[next(number for number, row in enumerate(rows) if row.startswith("Yes:")) :]
    talk = Bench(House(demo), dt.date(2026, 6, 14), tree="Ratchet", dry=True)
    whole = lay(tell(talk.answer("can I shorten the shoots?"))).split()
    shown = " ".join(answer).split()
    assert all(len(row) <= 40 for row in answer)
    assert shown[: shown.index("season.")] == whole[: whole.index("season.")], "a word was broken or a row was lost"


def test_a_killed_talk_has_lost_nothing_that_was_logged(bench, demo):
    bench.say("wired the left branch")
    bench.wait("Logged for Ratchet")
    bench.key("and then I cut the ri")
    bench.wait("and then I cut the ri")
    os.kill(bench.child.pid, signal.SIGKILL)
    bench.end()
    assert entries(demo, "ratchet")[-1]["work"][0]["work"] == "wire"


@pytest.mark.parametrize("death", [signal.SIGHUP, signal.SIGTERM])
def test_what_was_half_typed_is_found_again_after_the_terminal_died(bench, demo, death):
    bench.key("and then I cut the ri")
    bench.wait("and then I cut the ri")
    os.kill(bench.child.pid, death)
    bench.end()
    again = Terminal("--garden", str(demo), "--on", "2026-06-15")
    again.wait("no tree yet | 15 June")
    again.key("\x1b[A")
    again.wait("and then I cut the ri")
    again.child.close(force=True)


def test_a_fault_is_told_and_the_talk_goes_on(bench):
    bench.say("what wire for a -8 mm branch?")
    bench.wait("below zero")
    bench.say("goodbye")
    assert bench.end()[0] == 0


@pytest.mark.parametrize("env, plain", [({"TERM": "dumb"}, []), ({}, ["--plain"])])
def test_a_plain_talk_has_no_escape_sequence_at_all(demo, env, plain):
    terminal = Terminal("--garden", str(demo), "--tree", "Ratchet", "--on", "2026-06-14", *plain, **env)
    terminal.wait("Ratchet>")
    terminal.say("can I shorten the shoots?")
    terminal.wait("Option 1:" if plain else "1 Shorten the shoots")
    terminal.wait("Ratchet>")
    terminal.key("\x04")
    assert terminal.end()[0] == 0 and "\x1b" not in terminal.raw


def test_ctrl_c_in_a_plain_talk_gives_up_the_line(demo):
    terminal = Terminal("--garden", str(demo), "--tree", "Ratchet", "--plain", "--on", "2026-06-14")
    terminal.wait("Ratchet>")
    terminal.key("wired the le")
    terminal.wait("wired the le")
    terminal.key("\x03")
    terminal.say("where am I")
    terminal.wait("Ratchet | 14 June 2026")
    terminal.key("\x04")
    assert terminal.end()[0] == 0


def test_no_colour_where_none_is_wanted(demo):
    terminal = Terminal("say", "can I wire it?", "--tree", "Ratchet", "--garden", str(demo), "--dry", NO_COLOR="1")
    assert terminal.end()[0] == 0 and "\x1b" not in terminal.raw


def test_weight_but_no_colour_on_a_terminal(demo):
    terminal = Terminal("say", "can I wire it?", "--tree", "Ratchet", "--garden", str(demo), "--dry")
    terminal.end()
    codes = set(re.findall(r"\x1b\[([0-9;]*)m", terminal.raw))
    assert codes and codes <= {"0", "1", "1;7"}


# ---- the first start


def first(tmp_path):
    terminal = Terminal("--on", "2026-06-14", home=tmp_path)
    terminal.wait("There is no garden yet.")
    return terminal


def test_the_first_start_makes_a_garden_from_four_answers(tmp_path):
    terminal = first(tmp_path)
    terminal.wait("Folder to keep it in")
    terminal.say("")
    terminal.wait("Latitude")
    terminal.say("fifty")
    terminal.wait("is no latitude")
    terminal.say("52.1")
    terminal.wait("last spring frost")
    terminal.say("28 April")
    terminal.wait("first autumn frost")
    terminal.say("16 Oct")
    terminal.wait("At the bench")
    terminal.wait("no tree yet")
    terminal.say("new tree, field maple, call it Gatepost")
    terminal.wait("The record of Gatepost is begun")
    terminal.key("\x04")
    assert terminal.end()[0] == 0
    place = tomllib.loads((tmp_path / "benchmate-garden" / "garden.toml").read_text(encoding="utf-8"))["place"]
    assert (place["latitude"], place["last_frost"], place["first_frost"]) == (52.1, "04-28", "10-16")


def test_every_question_of_the_first_start_may_be_skipped(tmp_path):
    terminal = first(tmp_path)
    for question in ("Folder to keep it in", "Latitude", "last spring frost", "first autumn frost"):
        terminal.wait(question)
        terminal.say("")
    terminal.wait("At the bench")
    terminal.child.close(force=True)
    place = tomllib.loads((tmp_path / "benchmate-garden" / "garden.toml").read_text(encoding="utf-8"))["place"]
    assert "latitude" not in place and "last_frost" not in place


@pytest.mark.parametrize("answered", range(4))
@pytest.mark.parametrize("key", ["\x03", "\x04"])
def test_the_first_start_may_be_left_at_every_question(tmp_path, answered, key):
    terminal = first(tmp_path)
    questions = ("Folder to keep it in", "Latitude", "last spring frost", "first autumn frost")
    for question in questions[:answered]:
        terminal.wait(question)
        terminal.say("")
    terminal.wait(questions[answered])
    time.sleep(0.2)
    terminal.key(key)
    status, shown = terminal.end()
    assert status == 1 and "no garden was made" in shown and "Traceback" not in shown
    assert not (tmp_path / "benchmate-garden").exists()


def test_a_talk_without_a_garden_answers_and_logs_nothing(tmp_path):
    terminal = first(tmp_path)
    terminal.wait("Folder to keep it in")
    terminal.say("no")
    terminal.wait("no tree yet")
    terminal.say("hornbeam, wired the left branch")
    terminal.wait("no garden is open")
    terminal.key("\x04")
    assert terminal.end()[0] == 0 and not (tmp_path / "benchmate-garden").exists()


def test_the_status_line_is_whole_at_forty_columns(demo):
    terminal = Terminal("--garden", str(demo), "--on", "2026-06-14", "--tree", "Gatepost", columns=40)
    rows = terminal.wait("Gatepost 14 Jun")
    line = next(row for row in rows if row.startswith("Gatepost 14 Jun")).rstrip()
    assert line.endswith(" %") and len(line) <= 40
    terminal.say("can I shorten the shoots?")
    terminal.wait("to spend this season.")
    terminal.key("1")
    rows = terminal.wait("Enter logs: shorten the shoots")
    terminal.key("\x7f")
    terminal.key("\x04")
    assert terminal.end()[0] == 0
