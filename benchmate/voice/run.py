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
    "fwdflatbeam": 1e-90,
    "fwdflatwbeam": 1e-50,
    "lw": 9.0,
    "wip": 0.5,
    "cmn": "batch",
    "loglevel": "FATAL",
}


class Run:
    """One decoder with the frequencies warped by a factor (1: as they are). Raises ImportError without the extra."""

    def __init__(self, model: VoiceModel, warp: float) -> None:
        sphinx: Any = import_module("pocketsphinx")
        files = {"lm": str(model.language), "dict": str(model.dictionary)}
        self._decoder = sphinx.Decoder(sphinx.Config(**files, **SEARCH, warp_params=str(warp)))
        self._language = self._decoder.get_lm(self._decoder.current_search())
        self._nats = self._decoder.logmath
        self._known: dict[tuple[str, str, str], float] = {}

    def ways(self, sound: bytes) -> list[Way]:
        """What may have been said, best first. sound: 16-bit mono samples at 16 kHz."""
        decoder = self._decoder
        decoder.start_utt()
        decoder.process_raw(sound, full_utt=True)
        decoder.end_utt()
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
