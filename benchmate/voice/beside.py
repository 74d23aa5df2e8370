"""A run of the recogniser in a process of its own, so that two runs take the time of one.

The process reads sounds on standard input, each part behind what to do with it (a letter) and its length in four bytes,
and answers the end of each sound with a line of JSON: the ways, best first. It ends when its input does.
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

WHOLE, BEGIN, MORE, END = b"w", b"b", b"m", b"e"
HEAD = 5  # bytes: what to do, and the length
_PROGRAM = "from benchmate.voice.beside import serve; serve()"


class RunBeside:
    """The same in a process of its own. What is handed over is heard there while work goes on here."""

    def __init__(self, model: VoiceModel, warp: float, means: Path | None = None) -> None:
        files = [str(model.language), str(model.dictionary), str(means or "")]
        command = [sys.executable, "-P", "-c", _PROGRAM, str(warp), *files]
        self._process = subprocess.Popen(
            command,
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,  # what Ctrl-C does to it is no news
            env={**os.environ, "PYTHONPATH": os.pathsep.join(path for path in sys.path if path)},
        )

    @property
    def number(self) -> int:
        """The number of the process."""
        return self._process.pid

    def whole(self, sound: bytes) -> None:
        """Hand a whole sound over."""
        self._hand(WHOLE, sound)

    def begin(self, sound: bytes) -> None:
        """Hand the beginning of a sound over."""
        self._hand(BEGIN, sound)

    def more(self, sound: bytes) -> None:
        """Hand over what came in since."""
        self._hand(MORE, sound)

    def end(self) -> None:
        """Let the sound end here."""
        self._hand(END)

    def _hand(self, what: bytes, sound: bytes = b"") -> None:
        """Where the process has gone, nobody hears it."""
        assert self._process.stdin is not None
        if self._process.poll() is not None:
            return
        with suppress(OSError):
            self._process.stdin.write(what + len(sound).to_bytes(HEAD - 1, "big") + sound)
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
    """Answer sounds on standard input until it ends; warp, model and a speaker's means are the program's arguments."""
    warp, language, dictionary, means = sys.argv[1:5]
    run = Run(VoiceModel(Path(language), Path(dictionary)), float(warp), Path(means) if means else None)
    while len(head := sys.stdin.buffer.read(HEAD)) == HEAD:
        sound = sys.stdin.buffer.read(int.from_bytes(head[1:], "big"))
        if head[:1] == BEGIN:
            run.begin(sound)
        elif head[:1] == MORE:
            run.more(sound)
        else:
            ways = run.end() if head[:1] == END else run.ways(sound)
            print(json.dumps([(way.score, way.words, way.pauses) for way in ways]), flush=True)
