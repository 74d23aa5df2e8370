"""Statements said by espeak-ng, and a listener over the rules of this checkout."""

from __future__ import annotations

import hashlib
import io
import json
import shutil
import subprocess
import tempfile
import tomllib
import wave
from collections.abc import Sequence
from importlib.util import find_spec
from pathlib import Path
from typing import Any

from benchmate.hearing import Ear, build_lexicon, grammar_data
from benchmate.voice import Listener, read_wave
from benchmate.voice.own import Lesson, lesson_lines

HERE = Path(__file__).parent
RULES = HERE.parents[1] / "rules"
OWN = HERE.parents[1] / "benchmate" / "voice" / "own"
# Voice of espeak-ng and words a minute: American and British, deep and high.
VOICES = [
    ("en-us+klatt4", 130),
    ("en-us+edward", 140),
    ("en-us+f5", 130),
    ("en-us+f2", 150),
    ("en-gb-x-rp+edward", 130),
    ("en-gb-x-rp+klatt4", 120),
]
# Voices that the recogniser's American sound model takes badly: told, not held to a floor.
HARD = [("en-us", 150), ("en-gb", 150), ("en-gb-scotland", 140), ("en-us+m7", 130)]


def can_test() -> str:
    """Why spoken tests cannot run here, or nothing."""
    if find_spec("pocketsphinx") is None:
        return "pocketsphinx is not installed: pip install 'benchmate[voice]'"
    if shutil.which("espeak-ng") is None:
        return "espeak-ng is not installed: apt install espeak-ng"
    return ""


def statements(name: str = "statements") -> list[str]:
    """The statements of one list of this folder: `statements`, or `statements_fresh`, which nothing is chosen by."""
    return list(tomllib.loads((HERE / f"{name}.toml").read_text(encoding="utf-8"))["say"])


def rule_tables() -> dict[str, Any]:
    return {
        path.relative_to(RULES).as_posix(): tomllib.loads(path.read_text(encoding="utf-8"))
        for path in sorted(RULES.rglob("*.toml"))
    }


def listener(folder: Path, taught: Path | None = None) -> Listener:
    tables = rule_tables()
    return Listener(tables, Ear(build_lexicon(tables), grammar_data()), (), folder, taught=taught)


def taught_by(voice: str, speed: int, lines: int) -> Path:
    """The folder of what that voice taught by reading so many lines aloud. Kept, so that it is learnt once."""
    tables = rule_tables()
    read = lesson_lines(tables)[:lines]
    of = [read, tables["words/sounds.toml"], *(path.read_text("utf-8") for path in sorted(OWN.glob("*.py")))]
    digest = hashlib.sha256(json.dumps([voice, speed, of], sort_keys=True).encode()).hexdigest()[:20]
    folder = Path(tempfile.gettempdir()) / "benchmate-voice-tests" / f"taught-{digest}"
    if not folder.is_dir():
        lesson = Lesson(tables, folder)
        for line in read:
            lesson.take(line, said_by(line, voice, speed))
        lesson.keep()
        lesson.close()
    return folder


def said_by(statement: str, voice: str, speed: int) -> bytes:
    """The statement as 16-bit mono at 16 kHz, with a little silence around it. Kept, so that it is made once."""
    name = hashlib.sha256(f"{statement}|{voice}|{speed}".encode()).hexdigest()[:20]
    folder = Path(tempfile.gettempdir()) / "benchmate-voice-tests"
    folder.mkdir(exist_ok=True)
    path = folder / f"{name}.wav"
    if not path.is_file():
        command = ["espeak-ng", "-v", voice, "-s", str(speed), "-a", "70", "--stdin", "--stdout"]
        made = subprocess.run(command, input=statement.encode(), stdout=subprocess.PIPE, check=True).stdout
        path.write_bytes(made)
    quiet = bytes(2 * 4_000)
    return quiet + read_wave(_sized(path)) + quiet


def _sized(path: Path) -> Path:
    """espeak-ng does not know how long its output will be and writes a length that is too large: put it right."""
    data = path.read_bytes()
    with wave.open(io.BytesIO(data)) as file:
        rate = file.getframerate()
    if int.from_bytes(data[40:44], "little") != len(data) - 44:
        with wave.open(str(path), "wb") as out:
            out.setnchannels(1)
            out.setsampwidth(2)
            out.setframerate(rate)
            out.writeframes(data[44:])
    return path


def word_errors(said: Sequence[str], heard: Sequence[str]) -> int:
    """Words wrong, lacking or too much, by the cheapest account."""
    row = list(range(len(heard) + 1))
    for at, word in enumerate(said, 1):
        before, row = row, [at]
        for place, other in enumerate(heard, 1):
            row.append(min(before[place] + 1, row[-1] + 1, before[place - 1] + (word != other)))
    return row[-1]
