"""No command opens a socket or starts a program, and what is written stays in the garden.

Every example of the registry is run with an ear on the interpreter, with home and temporary folder watched.
"""

import json
import shlex
from pathlib import Path

import pytest
from holding_files import ROOT

from benchmate.talk.commands.registry import COMMANDS

WATCHED = Path(__file__).with_name("watched.py")
COMPILED = ROOT / "benchmate" / "compiled"
TALK = "second flush is out on Ratchet\nthe left branch is weak, what now\ntake the second\nscratch that\nwhat's due\n"


def examples(found=COMMANDS, path=()):
    for command in found:
        if command.children:
            yield from examples(command.children, (*path, command.name))
        else:
            yield pytest.param(command.example, id=" ".join((*path, command.name)))


def watched(program, tmp_path, words, **more):
    report = tmp_path / "report.jsonl"
    done = program(str(report), "--", *words, code=(str(WATCHED),), **more)
    told = [json.loads(line) for line in report.read_text().splitlines()] if report.exists() else []
    return done, told


def inside(path, *folders):
    return any(path == str(folder) or path.startswith(f"{folder}/") for folder in folders)


def check(told, *folders):
    assert [what for what in told if what[0] == "socket"] == []
    assert [what for what in told if what[0] == "start"] == []
    astray = sorted({path for what, path in told if what == "write" and not inside(path, COMPILED, *folders)})
    assert astray == []


@pytest.mark.parametrize("example", list(examples()))
def test_a_command_keeps_to_its_garden(example, program, tmp_path, garden):
    words = [word for word in shlex.split(example)[1:] if word != "--demo"]
    work = tmp_path / "work"
    work.mkdir()
    if words[0] == "import":
        (work / "notes.csv").write_text("Date,Notes,Plant\n2026-05-01,fed it,Ratchet\n", encoding="utf-8")
    stdin = TALK if words[0] in ("learn", "listen") else ""
    done, told = watched(program, tmp_path, [*words, "--garden", str(garden)], cwd=work, input=stdin)
    assert done.returncode == 0, done.stderr
    # learning goes on in a copy of the demo garden, which is gone when it ends
    check(told, garden, *([tmp_path / "tmp"] if words[0] == "learn" else []))
    assert list((tmp_path / "home").iterdir()) == []
    assert [path.name for path in work.iterdir()] == (["notes.csv"] if words[0] == "import" else [])
    assert list((tmp_path / "tmp").iterdir()) == []


def test_the_talk_keeps_to_its_garden(program, tmp_path, garden):
    done, told = watched(program, tmp_path, ["--garden", str(garden), "--on", "2026-06-14"], input=TALK)
    assert done.returncode == 0, done.stderr
    check(told, garden)
    assert any(what == "write" and path.endswith("journal.toml") for what, path in told)
    assert list((tmp_path / "home").iterdir()) == list((tmp_path / "tmp").iterdir()) == []


def test_the_demo_is_copied_to_the_temporary_folder_alone(program, tmp_path):
    done, told = watched(program, tmp_path, ["--demo", "say", "fed Ratchet", "--on", "2026-06-14"])
    assert done.returncode == 0, done.stderr
    [copy] = (tmp_path / "tmp").iterdir()
    assert copy.name.startswith("benchmate-demo-")
    check(told, tmp_path / "tmp")  # to find that folder Python tries it out with a file that it removes


def test_the_ear_hears_a_socket_and_a_write(tmp_path, program):
    """The watch itself, so that silence means something."""
    code = (
        f"import sys; sys.path.insert(0, {str(WATCHED.parent)!r}); import os, watched\n"
        f"report = os.open({str(tmp_path / 'report.jsonl')!r}, os.O_WRONLY | os.O_CREAT | os.O_APPEND)\n"
        "watched.listen(report, '')\n"
        "import socket, subprocess; socket.socket().close(); subprocess.run(['true'])\n"
        f"open({str(tmp_path / 'made')!r}, 'w').close()\n"
    )
    assert program(code=("-c", code)).returncode == 0
    told = [json.loads(line) for line in (tmp_path / "report.jsonl").read_text().splitlines()]
    assert {what for what, _ in told} == {"socket", "start", "write"}
