"""A run of the recogniser in a process of its own, so that two runs take the time of one.

The process reads sounds on standard input, each behind its length in four bytes, and answers each with a line of JSON:
the ways, best first. It ends when its input does.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
from contextlib import suppress
from pathlib import Path

from .lattice import Way
from .model import VoiceModel
from .run import Run

LENGTH = 4  # bytes
_PROGRAM = "from benchmate.voice.beside import serve; serve()"


class RunBeside:
    """The same in a process of its own."""

    def __init__(self, model: VoiceModel, warp: float) -> None:
        command = [sys.executable, "-P", "-c", _PROGRAM, str(model.language), str(model.dictionary), str(warp)]
        self._process = subprocess.Popen(
            command,
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,  # what Ctrl-C does to it is no news
            env={**os.environ, "PYTHONPATH": os.pathsep.join(path for path in sys.path if path)},
        )

    def begin(self, sound: bytes) -> None:
        """Hand a sound over; where the process has gone, nobody hears it."""
        assert self._process.stdin is not None
        if self._process.poll() is not None:
            return
        with suppress(OSError):
            self._process.stdin.write(len(sound).to_bytes(LENGTH, "big") + sound)
            self._process.stdin.flush()

    def ways(self) -> list[Way]:
        """What it heard in the sound handed over last; nothing where the process has gone."""
        assert self._process.stdout is not None
        line = b"" if self._process.stdout.closed else self._process.stdout.readline()
        return [Way(score, tuple(words), tuple(pauses)) for score, words, pauses in json.loads(line or "[]")]

    def close(self) -> None:
        """End the process."""
        if self._process.poll() is None:
            self._process.kill()
        self._process.communicate()


def serve() -> None:
    """Answer sounds on standard input until it ends; model and warp are the program's arguments."""
    language, dictionary, warp = sys.argv[1:4]
    run = Run(VoiceModel(Path(language), Path(dictionary)), float(warp))
    while len(head := sys.stdin.buffer.read(LENGTH)) == LENGTH:
        ways = run.ways(sys.stdin.buffer.read(int.from_bytes(head, "big")))
        print(json.dumps([(way.score, way.words, way.pauses) for way in ways]), flush=True)
