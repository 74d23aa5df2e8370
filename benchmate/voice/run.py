"""One run of the recogniser over a sound: which words may have been said, best first."""

from __future__ import annotations

import tempfile
from importlib import import_module
from pathlib import Path
from typing import Any

from .lattice import Way, best_ways, read_lattice
from .model import VoiceModel

# Wide beams: the vocabulary is small, so a narrow search would save little and lose words.
SEARCH = {
    "beam": 1e-80,
    "wbeam": 1e-50,
    "pbeam": 1e-80,
    "pl_window": 0,  # no phone is left out for how the next moments sound: it cost one true way of twenty
    "fwdflatbeam": 1e-90,
    "fwdflatwbeam": 1e-50,
    "lw": 9.0,
    "wip": 0.5,
    "bestpath": False,  # the lattice is searched here, with a model of its own weight
    "cmn": "batch",
    "loglevel": "FATAL",
}


class Run:
    """One decoder with the frequencies warped by a factor (1: as they are). Raises ImportError without the extra.

    means: file of the means of one speaker's own voice, in place of the general ones.
    A sound is heard whole (`ways`), or while it comes in: `begin` with its beginning, `more` for each part, `end`.
    """

    def __init__(self, model: VoiceModel, warp: float, means: Path | None = None) -> None:
        sphinx: Any = import_module("pocketsphinx")
        files = {"lm": str(model.language), "dict": str(model.dictionary)} | ({"mean": str(means)} if means else {})
        self._decoder = sphinx.Decoder(sphinx.Config(**files, **SEARCH, warp_params=str(warp)))
        self._language = self._decoder.get_lm(self._decoder.current_search())
        self._nats = self._decoder.logmath
        self._known: dict[tuple[str, str, str], float] = {}
        self._begun = False

    def ways(self, sound: bytes) -> list[Way]:
        """What may have been said, best first. sound: 16-bit mono samples at 16 kHz."""
        self._start()
        self._decoder.process_raw(sound, full_utt=True)
        return self.end()

    def begin(self, sound: bytes) -> None:
        """Hear the beginning of a sound; room and microphone are taken out of the whole sound by its mean spectrum."""
        self._start()
        self._decoder.process_raw(sound, no_search=True, full_utt=True)
        mean = self._decoder.get_cmn(False)
        self._start()
        self._decoder.set_cmn(mean)
        self.more(sound)

    def _start(self) -> None:
        """Begin anew; a sound that was not heard to its end is dropped."""
        if self._begun:
            self._decoder.end_utt()
        self._decoder.start_utt()
        self._begun = True

    def more(self, sound: bytes) -> None:
        """Hear what came in since."""
        self._decoder.process_raw(sound)

    def end(self) -> list[Way]:
        """What may have been said in the sound that ends here, best first."""
        decoder = self._decoder
        decoder.end_utt()
        self._begun = False
        if decoder.hyp() is None or (lattice := decoder.get_lattice()) is None:
            return []
        with tempfile.TemporaryDirectory() as folder:
            path = Path(folder) / "lattice"
            lattice.write(str(path))
            return best_ways(read_lattice(path.read_text(encoding="utf-8")), self.probability)

    def probability(self, word: str, before: str, earlier: str) -> float:
        """Natural logarithm of a word's probability behind two others, "" where nothing stands."""
        key = (word, before, earlier)
        found = self._known.get(key)
        if found is None:
            found = self._known[key] = self._nats.log_to_ln(self._language.prob([part for part in key if part]))
        return found
