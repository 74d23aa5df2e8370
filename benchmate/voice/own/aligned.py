"""A line read aloud, laid along its words: which state of which phone each moment belongs to."""

from __future__ import annotations

import tempfile
from collections.abc import Iterator, Sequence
from contextlib import suppress
from dataclasses import dataclass
from importlib import import_module
from pathlib import Path
from typing import Any

from .cepstra import Vector, read_cepstra, streams_of

# Samples of silence put before the sound. At one offset in three the recogniser loses its own path through the states
# (42 of 120 tries), at others it does not. Of 40 lines in one voice 2 were lost at all of the first eight, none at all.
OFFSETS = (0, 40, 80, 120, 2_000, 2_040, 2_080, 3_000, 20, 60, 100, 200, 300, 400, 520, 640, 760, 1_000, 1_240, 1_480)


@dataclass(frozen=True, slots=True)
class State:
    """A stretch of a sound. phone: its name. senone: number of the state. start, length: frames of 0.01 s."""

    phone: str
    senone: int
    start: int
    length: int


@dataclass(frozen=True, slots=True)
class Aligned:
    """states: of a line, in order. frames: their three streams."""

    states: tuple[State, ...]
    frames: tuple[tuple[Vector, ...], ...]


class WhichLine:
    """Tells which of some lines a sound is. dictionary: file with their words. Raises ImportError without the extra."""

    def __init__(self, dictionary: Path, lines: Sequence[str]) -> None:
        self._decoder = _decoder(dictionary)
        choices = " | ".join(lines)
        self._decoder.add_jsgf_string("lines", f"#JSGF V1.0; grammar lines; public <line> = {choices};")
        self._decoder.activate_search("lines")

    def of(self, sound: bytes) -> str:
        """The line that the sound is nearest to; "" where it is none that can be followed to its end."""
        _decode(self._decoder, sound)
        heard = self._decoder.hyp()
        return str(heard.hypstr) if heard else ""


class Aligner:
    """Lays sounds along words, with the frequencies warped by a factor, as the run that is to be taught has them.

    dictionary: file with the words of the lines. Raises ImportError without the extra.
    """

    def __init__(self, dictionary: Path, warp: float) -> None:
        self._folder = tempfile.TemporaryDirectory()
        self._decoder = _decoder(dictionary, warp_params=str(warp), mfclogdir=self._folder.name)

    def align(self, sound: bytes, words: str) -> Aligned | None:
        """The sound laid along the words, None where they cannot be followed in it. sound: 16-bit mono at 16 kHz."""
        for offset in OFFSETS:
            shifted = bytes(2 * offset) + sound
            with suppress(RuntimeError):
                self._decoder.set_align_text(words)
                _decode(self._decoder, shifted)
                if self._decoder.hyp() is None:
                    continue
                self._decoder.set_alignment()  # the second time along its states; that has no hypothesis to ask for
                self._forget()
                _decode(self._decoder, shifted)
                frames = streams_of(read_cepstra(next(Path(self._folder.name).iterdir())))
                return Aligned(tuple(_states(self._decoder.get_alignment())), tuple(frames))
        return None

    def _forget(self) -> None:
        for path in Path(self._folder.name).iterdir():
            path.unlink()

    def close(self) -> None:
        """Remove what was written down of the sounds."""
        self._folder.cleanup()


def _decoder(dictionary: Path, **more: str) -> Any:
    sphinx: Any = import_module("pocketsphinx")
    return sphinx.Decoder(sphinx.Config(dict=str(dictionary), lm=None, cmn="batch", loglevel="FATAL", **more))


def _decode(decoder: Any, sound: bytes) -> None:
    decoder.start_utt()
    decoder.process_raw(sound, full_utt=True)
    decoder.end_utt()


def _states(alignment: Any) -> Iterator[State]:
    # what the library gives for a word is good only until the next word is asked for: no lists of them
    for word in alignment:
        for phone in word:
            for state in phone:
                yield State(phone.name, int(state.name), state.start, state.duration)
