"""The lines of a reading lesson taken one by one, and the voice that is learnt from them."""

from __future__ import annotations

import tempfile
from pathlib import Path

from benchmate.voice.floor import with_floor
from benchmate.voice.model import TABLE, dictionary_text
from benchmate.voice.recogniser import WARPS, base_dictionary, general_sounds
from benchmate.voice.said import PAUSES, spoken_words
from benchmate.voice.shapes import Tables
from benchmate.voice.sounds import Sounds, read_dictionary

from .aligned import Aligner, WhichLine
from .soundmodel import read_sound_model
from .tally import Tally

LINES = "words/reading_aloud.toml"


def lesson_lines(tables: Tables) -> list[str]:
    """The lines as they are shown."""
    return list(tables.get(LINES, {}).get("reads", ()))


class Lesson:
    """Takes lines in one speaker's voice. folder: where that voice is kept; what was read before is added to.

    Raises UserError without the extra, or where what is kept belongs to another recogniser.
    """

    def __init__(self, tables: Tables, folder: Path) -> None:
        base = base_dictionary()  # without the extra this tells so, before anything else is looked for
        self._folder = folder
        said = tables.get(TABLE, {}).get("said", {})
        self._words = {line: " ".join(_words(line, said)) for line in lesson_lines(tables)}
        model = read_sound_model(general_sounds())
        self._tallies = {warp: Tally(model) for warp in WARPS}
        for warp, tally in self._tallies.items():
            tally.read(folder, warp)
        with tempfile.TemporaryDirectory() as made:
            dictionary = Path(made) / "lines.dict"
            words = sorted({word for words in self._words.values() for word in words.split()})
            sounds = Sounds(tables.get(TABLE, {}), read_dictionary(base))
            dictionary.write_text(dictionary_text(words, sounds), encoding="utf-8")
            self._which = WhichLine(dictionary, list(self._words.values()))
            self._aligners = {warp: Aligner(dictionary, warp) for warp in WARPS}

    @property
    def taken(self) -> int:
        """How many lines there are in what was learnt."""
        return min(tally.lines for tally in self._tallies.values())

    def which(self, sound: bytes) -> str | None:
        """The line that was read, None where it is none of them."""
        heard = self._which.of(with_floor(sound))
        return next((line for line, words in self._words.items() if words == heard), None)

    def is_this(self, line: str, sound: bytes) -> bool:
        """Whether the sound is that line rather than another one, or none."""
        return self.which(sound) == line

    def take(self, line: str, sound: bytes) -> bool:
        """Learn from a line that was read; False where it cannot be followed in the sound, and nothing was learnt.

        sound: 16-bit mono at 16 kHz.
        """
        floored = with_floor(sound)
        aligned = {warp: aligner.align(floored, self._words[line]) for warp, aligner in self._aligners.items()}
        if not all(aligned.values()):
            return False
        for warp, found in aligned.items():
            assert found is not None
            self._tallies[warp].take(found)
        return True

    def keep(self) -> None:
        """Write down what was learnt. Raises OSError where the folder cannot be written."""
        for warp, tally in self._tallies.items():
            tally.keep(self._folder, warp)

    def close(self) -> None:
        """Let go of the recogniser, and of what it wrote down of the sounds."""
        for aligner in self._aligners.values():
            aligner.close()


def _words(line: str, said: dict[str, str]) -> list[str]:
    return [word for word in spoken_words(line, said) if word not in PAUSES]
