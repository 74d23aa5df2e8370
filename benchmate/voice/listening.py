"""Sound to reading in one step: the model of these rules, the recogniser, and the doubt about what it heard."""

from __future__ import annotations

import datetime as dt
import tempfile
from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from benchmate.fault import UserError
from benchmate.hearing import Ear, Reading

from .doubt import heard_words
from .model import voice_model, wake_words
from .recogniser import WARPS, Recogniser, Speech, base_dictionary, general_sounds
from .shapes import ANY_DAY, Tables
from .taught import means_of
from .wave_file import read_wave

MISTIMED = 12.0  # what it costs the ear where a verb's form does not go with the day, as much as a few words missed


@dataclass(frozen=True, slots=True)
class Occasion:
    """What a reading hangs on beside the words: as for `Ear.hear`."""

    on: dt.date
    southern: bool = False
    names: tuple[str, ...] = ()
    first_frost: str | None = None


class Listener:
    """Hears statements. Making one takes a second, and some fifteen more whenever rules or names have changed.

    tables: the parsed rule files. names, species: of the garden's trees. folder: where the voice's model is kept, or
    None for the machine's temporary folder. taught: of a speaker's own voice. Raises UserError without the extra.
    """

    def __init__(
        self,
        tables: Tables,
        ear: Ear,
        names: Sequence[str] = (),
        folder: Path | None = None,
        species: Sequence[str] = (),
        taught: Path | None = None,
    ) -> None:
        base = base_dictionary()
        self.ear = ear
        self.wake = wake_words(tables)
        kept = folder or Path(tempfile.gettempdir()) / "benchmate-voice"
        try:
            self.model = replace(voice_model(tables, ear, names, kept, base, species), taught=taught)
        except OSError as error:
            raise UserError(f"{kept}: the voice's model cannot be kept there ({error.strerror}); free it") from error
        self._names = tuple(names)
        self.recogniser = Recogniser(self.model, self._effort, _times(ear))

    @property
    def knows_speaker(self) -> bool:
        """Whether it goes by a voice that was taught."""
        return means_of(self.model.taught, WARPS[0], general_sounds()) is not None

    def _effort(self, text: str) -> float:
        """What it costs the ear to take the words in: much where it has to miss some or to guess, or where a work is
        told as done on a day to come, or as to be done on a day that is past."""
        words = self.ear.words(text)
        if not words:
            return 0.0
        found = self.ear.find(text, words, ANY_DAY, names=self._names)
        if not any(token.kind == "DATE" for token in found.tokens):
            return found.cost
        return found.cost + MISTIMED * mistimed(self.ear.hear(text, ANY_DAY, names=self._names), ANY_DAY)

    def reading(self, speech: Speech, at: Occasion) -> Reading:
        """The reading of what was recognised, unsure words as guesses."""
        return heard_words(speech.words, self.ear, at.on, at.southern, at.names, at.first_frost, speech.rivals)

    def hear(self, sound: bytes, at: Occasion) -> Reading:
        """The reading of a sound: 16-bit mono at 16 kHz."""
        return self.reading(self.recogniser.hear(sound), at)

    def hear_wave(self, path: Path, at: Occasion) -> Reading:
        """The reading of a wave file. Raises UserError for what is no such file."""
        return self.hear(read_wave(path), at)


def _times(ear: Ear) -> frozenset[str]:
    """Words of time and order: months, seasons, days of the week, first and second."""
    dates, numbers = ear.lexicon.dates, ear.lexicon.numbers
    of_time = (dates.get(key, ()) for key in ("month", "season", "weekday"))
    return frozenset().union(*of_time, numbers.get("ordinal", ()))


def mistimed(reading: Reading, on: dt.date) -> bool:
    """Whether the form of the verb does not go with the day: "wire it yesterday", "wired it next week"."""
    if not reading.when or not reading.when[:1].isdigit():
        return False
    day = reading.when if reading.when[5:6].isdigit() else reading.when[:4]  # of a season the year
    today = on.isoformat()[: len(day)]
    return any((work.done == "now" and day < today) or (work.done == "done" and day > today) for work in reading.work)
