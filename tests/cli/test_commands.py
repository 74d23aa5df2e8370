"""The command line as a whole: contract's JSON, exit statuses, one plain line for faults, examples that run."""

import json
import os
import shlex
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from benchmate.cli import build_parser, is_here
from benchmate.talk.commands.registry import COMMANDS

ROOT = Path(__file__).resolve().parents[2]
DEMO = ROOT / "demo_trees"
ON = ("--on", "2026-06-14")


@pytest.fixture
def demo(tmp_path):
    home = tmp_path / "demo"
    shutil.copytree(DEMO, home, ignore=shutil.ignore_patterns(".benchmate"))
    return home


def run(*words, env=None, **more):
    """The program in a process of its own, with neither colour nor a garden of the person who runs the test."""
    own = {key: value for key, value in os.environ.items() if key not in ("BENCHMATE_GARDEN", "COLUMNS", "NO_COLOR")}
    own |= {"HOME": "/nonexistent", "TERM": "xterm"} | (env or {})
    return subprocess.run(
        [sys.executable, "-m", "benchmate", *words], capture_output=True, text=True, encoding="utf-8", env=own, **more
    )


def commands(found=COMMANDS, path=()):
    for command in found:
        if command.children:
            yield from commands(command.children, (*path, command.name))
        else:
            yield (*path, command.name), command


ALL = [pytest.param(command, id=" ".join(path)) for path, command in commands()]


@pytest.mark.parametrize("command", ALL)
def test_the_example_in_the_help_runs(command, tmp_path):
    words = shlex.split(command.example)
    assert words[0] == "benchmate"
    done = run(*words[1:], cwd=tmp_path, env={"TMPDIR": str(tmp_path)})
    assert done.returncode == 0, done.stderr
    assert done.stderr == ""
    assert done.stdout.strip() or command.name == "check"


@pytest.mark.parametrize("command", ALL)
def test_the_help_shows_the_example(command):
    path = next(path for path, one in commands() if one is command)
    done = run(*path, "--help")
    assert done.returncode == 0 and f"example: {command.example}" in done.stdout


def test_the_help_lists_every_command_that_can_run_here_and_no_other():
    listed = run("--help").stdout
    for command in COMMANDS:
        assert (f"\n    {command.name} " in listed) == is_here(command)


def test_a_command_whose_room_is_not_there_is_not_offered():
    from dataclasses import replace

    assert not is_here(replace(COMMANDS[0], needs=("benchmate.nowhere",)))
    assert is_here(replace(COMMANDS[0], needs=("benchmate.garden", "benchmate.garden.store")))


def test_the_parser_for_one_command_takes_what_the_whole_one_takes():
    words = ["--garden", "x", "say", "fed it", "--tree", "A", "--dry"]
    assert vars(build_parser(words).parse_args(words)) == vars(build_parser().parse_args(words))


@pytest.mark.parametrize("words", [["--tree", "Minnow", "say", "x"], ["say", "x", "--tree", "Minnow"]])
def test_arguments_may_stand_before_or_after_the_command(words):
    assert build_parser(words).parse_args(words).tree == "Minnow"


def test_the_version():
    done = run("--version")
    assert done.returncode == 0 and done.stdout.startswith("benchmate ")


@pytest.mark.parametrize("words", [["nonsense"], ["say"], ["rules"], ["due", "--days", "soon"], ["record"]])
def test_wrong_usage_is_status_2(words):
    assert run(*words).returncode == 2


# ---- say


def say(demo, words, *more):
    done = run("say", words, "--garden", str(demo), *ON, "--json", *more)
    assert done.returncode == 0, done.stderr
    return json.loads(done.stdout)


def test_an_answer_has_the_keys_of_the_contract(demo):
    answer = say(demo, "can I wire the left branch?", "--tree", "Ratchet")
    assert {"reading", "tree", "on", "options", "cautions", "asks", "figures", "logged", "told"} <= set(answer)
    assert (answer["tree"], answer["on"], answer["logged"]) == ("Ratchet", "2026-06-14", [])
    option = next(option for option in answer["options"] if option["work"] == "wire")
    assert {"work", "verdict", "from", "until", "because", "against", "amount", "follow"} <= set(option)
    assert option["verdict"] in ("go", "hold", "avoid", "ask") and option["side"] == "left"
    reason = (option["because"] + option["against"])[0]
    assert set(reason) >= {"rule", "says", "source", "mark"}
    assert any(option["work"] == "leave" for option in answer["options"])


def test_a_decision_names_the_entries_that_it_made(demo):
    answer = say(demo, "wired the left branch", "--tree", "Ratchet")
    text = (demo / "ratchet" / "journal.toml").read_text(encoding="utf-8")
    assert answer["logged"] and all(f'id = "{id}"' in text for id in answer["logged"])
    assert answer["follow"] and answer["entries"][0]["kind"] == "done"


def test_a_dry_decision_leaves_the_files_as_they_were(demo):
    before = {path: path.read_bytes() for path in demo.rglob("*.toml")}
    answer = say(demo, "wired the left branch", "--tree", "Ratchet", "--dry")
    assert answer["logged"] == [] and answer["dry"] is True
    assert {path: path.read_bytes() for path in demo.rglob("*.toml")} == before


def test_striking_works_from_one_call_to_the_next(demo):
    say(demo, "wired the left branch", "--tree", "Ratchet")
    answer = say(demo, "scratch that", "--tree", "Ratchet")
    assert answer["entries"][0]["kind"] == "struck"


def test_a_bare_species_needs_no_garden():
    done = run("say", "strong hornbeam, first flush has hardened, can I halve the leaves?", *ON, "--json")
    answer = json.loads(done.stdout)
    assert answer["tree"] is None and any(option["work"] == "leaf-cut" for option in answer["options"])


@pytest.mark.parametrize("flag", [[], ["--json"]])
def test_a_pipe_is_a_talk_one_statement_a_line(demo, flag):
    lines = "shortened the left branch to two leaves\n\nno, the right one\n"
    done = run("say", "-", "--garden", str(demo), "--tree", "Ratchet", *ON, *flag, input=lines)
    assert done.returncode == 0, done.stderr
    text = (demo / "ratchet" / "journal.toml").read_text(encoding="utf-8")
    assert text.count('kind = "struck"') == 1 and text.count("leaves = 2 }]") == 3
    if flag:
        assert [json.loads(line)["tree"] for line in done.stdout.splitlines()] == ["Ratchet", "Ratchet"]


# ---- hear


def test_hear_reads_a_file_line_by_line(tmp_path):
    path = tmp_path / "said.txt"
    path.write_text("larch is weak\n\nwire\x1b it\n", encoding="utf-8")
    done = run("hear", "--file", str(path), *ON, "--json")
    readings = [json.loads(line) for line in done.stdout.splitlines()]
    assert [reading["said"] for reading in readings] == ["larch is weak", "", "wire\x1b it"]
    assert readings[0]["facts"][0]["value"] == "Larix"


def test_hear_touches_nothing(demo):
    before = {path: path.read_bytes() for path in demo.rglob("*.toml")}
    run("hear", "unicorn dust on the beech", "--garden", str(demo))
    assert {path: path.read_bytes() for path in demo.rglob("*.toml")} == before
    assert not (demo / ".benchmate" / "missed.txt").exists()


# ---- faults: one plain line, status 1


def broken(demo):
    (demo / "garden.toml").write_text("[place\n", encoding="utf-8")
    return ["check", "--garden", str(demo)]


@pytest.mark.parametrize(
    "words",
    [
        ["say", "", "--tree", "Ratchet"],
        ["say", "   ", "--tree", "Ratchet"],
        ["say", "x" * 10_000, "--tree", "Ratchet"],
        ["say", "wire\x1b[2J it", "--tree", "Ratchet"],
        ["say", "wired it", "--tree", "Nobody"],
        ["say", "wired it", "--tree", "Ratchet", "--on", "2026-02-30"],
        ["say", "wired it", "--tree", "Ratchet", "--on", "tomorrow"],
        ["say", "what wire for a -8 mm branch?"],
        ["hear", ""],
        ["hear"],
        ["hear", "--file", "/nowhere/said.txt"],
        ["record", "Nobody"],
        ["record", "Ratchet", "--from", "soon"],
        ["due", "--days", "-1"],
        ["rules", "show", "no-such-rule"],
        ["rules", "list", "--work", "juggle"],
    ],
    ids=lambda words: " ".join(words)[:40].replace("\x1b", "ESC"),
)
def test_faults_of_input_are_one_plain_line(demo, words):
    before = {path: path.read_bytes() for path in demo.rglob("*.toml")}
    done = run(*words, "--garden", str(demo))
    assert done.returncode == 1 and done.stdout == ""
    assert len(done.stderr.splitlines()) == 1 and done.stderr.startswith("benchmate: ")
    assert "\x1b" not in done.stderr
    assert {path: path.read_bytes() for path in demo.rglob("*.toml")} == before


@pytest.mark.parametrize("place", ["/nowhere/garden", str(ROOT / "tests")])
def test_no_garden_there_is_one_plain_line(place):
    done = run("say", "fed it", "--garden", place)
    assert done.returncode == 1 and "no garden" in done.stderr and len(done.stderr.splitlines()) == 1


def test_rules_that_are_not_there_are_one_plain_line(tmp_path):
    done = run("say", "larch is weak", "--rules", str(tmp_path / "none"))
    assert done.returncode == 1 and len(done.stderr.splitlines()) == 1


@pytest.mark.skipif(os.name == "nt", reason="the folder's mode says nothing there")
def test_a_journal_that_cannot_be_written_is_told_and_left(demo):
    path = demo / "ratchet" / "journal.toml"
    before = path.read_bytes()
    path.unlink()
    path.mkdir()
    done = run("say", "wired it", "--tree", "Ratchet", "--garden", str(demo), *ON)
    assert done.returncode == 1 and "not logged" in done.stderr and len(done.stderr.splitlines()) == 1
    path.rmdir()
    path.write_bytes(before)


# ---- the other commands


def test_the_demo_garden_passes_its_check_without_a_word():
    done = run("check", "--garden", str(DEMO))
    assert (done.returncode, done.stdout, done.stderr) == (0, "", "")


def test_check_tells_file_line_and_remedy(demo):
    path = demo / "ratchet" / "tree.toml"
    path.write_text("heigth = 3\n" + path.read_text(encoding="utf-8"), encoding="utf-8")
    done = run("check", "--garden", str(demo))
    assert done.returncode == 1
    assert done.stdout.startswith(f"{path}:") and ";" in done.stdout


def test_due_as_json_holds_all_of_it_by_tree(demo):
    found = json.loads(run("due", "--garden", str(demo), *ON, "--json").stdout)
    assert found["on"] == "2026-06-14"
    items = [item for tree in found["trees"] for item in tree["items"]]
    assert items and {"work", "on", "says", "days_left", "overdue"} <= set(items[0])


def test_the_record_may_be_narrowed(demo):
    whole = json.loads(run("record", "Ratchet", "--garden", str(demo), "--json").stdout)
    fed = json.loads(run("record", "Ratchet", "--garden", str(demo), "--work", "feed", "--json").stdout)
    since = json.loads(run("record", "Ratchet", "--garden", str(demo), "--from", "2026", "--json").stdout)
    assert whole["tree"]["species"] == "Carpinus betulus"
    assert 0 < len(fed["entries"]) < len(whole["entries"])
    assert all(any(work["work"] == "feed" for work in entry["work"]) for entry in fed["entries"])
    assert all(entry["at"] >= "2026" for entry in since["entries"]) and since["entries"]


def test_the_record_is_told_newest_first_unless_asked(demo):
    newest = run("record", "Ratchet", "--garden", str(demo)).stdout
    oldest = run("record", "Ratchet", "--oldest", "--garden", str(demo)).stdout
    assert newest.index("Spring 2026") < newest.index("Spring 2023")
    assert oldest.index("Spring 2023") < oldest.index("Spring 2026")


def test_a_word_that_was_missed_is_shown_and_its_line_teaches_it(demo):
    said = ("say", "there is a gubbins on the left", "--tree", "Ratchet", "--garden", str(demo))
    run(*said)
    run(*said)
    (row,) = json.loads(run("words", "--garden", str(demo), "--json").stdout)["words"]
    assert (row["word"], row["times"], row["teach"]) == ("gubbins", 2, '"gubbins" = ["..."]')
    assert row["teach"] in run("words", "--garden", str(demo)).stdout
    home = demo / "rules" / "words"
    home.mkdir(parents=True)
    (home / "mishearings.toml").write_text("[heard]\n" + row["teach"].replace("...", "gap") + "\n", encoding="utf-8")
    answer = json.loads(run(*said, "--json", "--dry").stdout)
    assert answer["reading"]["facts"][0]["value"] == "gap" and answer["reading"]["missed"] == []
    assert json.loads(run("words", "--garden", str(demo), "--json").stdout) == {"words": []}


def test_missed_words_may_be_left_unkept(demo):
    run("say", "the gubbins are wobbly", "--tree", "Ratchet", "--garden", str(demo), env={"BENCHMATE_MISSED": "off"})
    assert json.loads(run("words", "--garden", str(demo), "--json").stdout) == {"words": []}


def test_the_calendar_reads_back_and_keeps_its_uids(demo, tmp_path):
    icalendar = pytest.importorskip("icalendar")
    first = run("calendar", "--garden", str(demo), *ON).stdout
    path = tmp_path / "due.ics"
    run("calendar", "--garden", str(demo), "--on", "2026-07-01", "--out", str(path))

    def uids(text):
        events = icalendar.Calendar.from_ical(text).walk("VEVENT")
        return {str(event["UID"]): event["DTSTART"].dt for event in events}

    assert uids(first) and uids(first) == uids(path.read_text(encoding="utf-8"))


def test_a_rule_as_json_has_its_source_and_place():
    row = json.loads(run("rules", "show", "leaf-cut-needs-strength", "--json").stdout)
    assert row["id"] == "leaf-cut-needs-strength" and row["line"] > 0 and row["examples"]


def test_rules_of_the_grower_are_counted_and_named(demo):
    own = demo / "rules"
    own.mkdir()
    (own / "mine.toml").write_text(
        '[[rule]]\nid = "my-hornbeam-rests"\nwork = ["wire"]\nwhen = "hornbeam"\nverdict = "avoid"\n'
        'says = "This hornbeam tears under wire."\nmark = "practice"\n',
        encoding="utf-8",
    )
    assert "1 of them yours" in run("rules", "check", "--garden", str(demo)).stdout
    told = run("say", "can I wire it?", "--tree", "Ratchet", "--garden", str(demo), *ON).stdout
    assert "This hornbeam tears under wire. (your rule)" in told


def test_a_day_where_words_belong_is_told_in_the_record_as_it_stands(demo):
    journal = demo / "ratchet" / "journal.toml"
    words = journal.read_text(encoding="utf-8").replace('id = "2025-01-11-0yp57r"', "id = 1979-05-27")
    journal.write_text(words, encoding="utf-8")
    done = run("record", "Ratchet", "--garden", str(demo), "--json")
    assert done.returncode == 0 and "1979-05-27" in done.stdout, done.stderr


@pytest.mark.parametrize("words", [("rules", "check"), ("hear", "larch is weak")], ids=["check", "hear"])
def test_a_file_of_words_that_does_not_read_is_named(tmp_path, words):
    rules = tmp_path / "rules"
    shutil.copytree(ROOT / "rules", rules)
    broken = rules / "words" / "filler.toml"
    broken.write_text(broken.read_text(encoding="utf-8") + "twice = 1\ntwice = 2\n", encoding="utf-8")
    done = run(*words, "--rules", str(rules))
    line = broken.read_text(encoding="utf-8").count("\n")
    assert done.returncode == 1 and not done.stdout
    assert f"{broken}:{line}: not TOML" in done.stderr and "Traceback" not in done.stderr
