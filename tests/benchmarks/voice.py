"""How well spoken statements are read: `python tests/benchmarks/voice.py [--every N] [--hard] [--open] [--raise]`.

Each statement of tests/voice/statements.toml is said by espeak-ng in one of several voices and speeds, garden noise is
mixed in, and the sound goes the whole way to the reading, delivered as a microphone delivers it. Told for each level of
noise: word error; exact readings (the reading of the words themselves); silent misreads (wrong without a guess or a
missed word); exact readings that are read back all the same; and the time to the reading, below which 95 of 100 lie:
after_speech_s from the last sound of the statement on, after_end_s from where it is known to have ended, work_s the
processor time spent from then on. These hold for two idle cores (tests/voice/delivery.py tells how they are reckoned).

A statement ends with a press of Enter a quarter of a second behind the sound that espeak-ng makes, which itself ends in
silence, so that after_speech_s holds some 0.8 s till the press; with `--open` the microphone stays open, and half a
second of silence ends it (`never`: statements whose end was not found). `--levels clean,20` leaves out
others. `--raise` lifts the floors in tests/voice/floors.toml to what was reached, never lowers them; with `--every 6`
those of the sample that the tests say, a statement below what was reached, since the model follows every word of the
lexicon. Each statement is said once, in its own voice. `--hard`: voices that the recogniser takes badly. `--fresh`,
`--held` and `--spare`: the lists that nothing was chosen by; `--unseen`, `--seen`: lists that were such a list once.
`--taught N`: each voice has read the first N lines of rules/words/reading_aloud.toml aloud before.
"""

from __future__ import annotations

import datetime as dt
import math
import sys
import tempfile
import tomllib
from collections.abc import Sequence
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).parent.parent / "hearing"))
sys.path.insert(0, str(Path(__file__).parent.parent / "voice"))

from delivery import Bench, left_open, pressed, speech_ends
from garden_noise import mixed
from scoring import judge
from spoken import HARD, VOICES, can_test, listener, said_by, statements, taught_by, word_errors

from benchmate.voice import Occasion
from benchmate.voice.said import PAUSES, spoken_words

LEVELS: dict[str, float | None] = {"clean": None, "20 dB": 20.0, "10 dB": 10.0}
FLOORS = Path(__file__).parent.parent / "voice" / "floors.toml"
FALLING = ("silent_share", "word_error")
SAMPLE = 6
SAMPLED = ("clean", "20 dB")  # levels that the tests say; at 10 dB it is told alone
TIMES = ("after_speech_s", "after_end_s", "work_s")
STAYS_OPEN = 2 * 24_000  # bytes: a second and a half of silence behind the statement
AT = Occasion(dt.date(2026, 6, 14))


def measure(
    voices: list[tuple[str, int]],
    every: int = 1,
    told: bool = True,
    corpus: str = "statements",
    levels: Sequence[str] = tuple(LEVELS),
    opened: bool = False,
    taught: int = 0,
) -> dict[str, dict[str, float]]:
    """Level of noise -> what was reached, as shares and seconds. corpus: a list of tests/voice. opened: with the
    microphone left open. taught: lines that each voice has read aloud before, in quiet."""
    missing = can_test()
    if missing:
        raise SystemExit(missing)
    folder = Path(tempfile.gettempdir()) / "benchmate-voice-tests"
    rows: dict[str, list[dict[str, Any]]] = {level: [] for level in levels}
    last = None
    for which, number, statement in in_order(statements(corpus), len(voices), every, taught > 0):
        voice, speed = voices[which]
        if last is None or (taught and which != last):
            last, hearer = which, listener(folder, taught_by(voice, speed, taught) if taught else None)
            bench = Bench(hearer)
        speech = said_by(statement, voice, speed) + (bytes(STAYS_OPEN) if opened else b"")
        want = hearer.ear.hear(" ".join(spoken_words(statement, {})), AT.on).as_json()
        words = [word for word in spoken_words(statement, {}) if word not in PAUSES]
        spoken_s = speech_ends(speech)
        for level in levels:
            sound = mixed(speech, LEVELS[level], number)
            found = bench.hear(left_open(sound) if opened else pressed(sound), AT)
            verdict = judge(want, found.reading.as_json()) if found else None
            exact, silent = bool(verdict and verdict.exact), bool(verdict and verdict.silent)
            heard = found.speech.text if found else ""
            rows[level].append(
                {
                    "errors": word_errors(words, heard.split()),
                    "words": len(words),
                    "exact": exact,
                    "silent": silent,
                    "asked": verdict is not None and exact and not verdict.unsaid,
                    "after_speech_s": found.stands_s - spoken_s if found else math.inf,
                    "after_end_s": found.stands_s - found.ended_s if found else math.inf,
                    "work_s": found.work_s if found else math.inf,
                }
            )
            if told and not exact:
                print(f"{level:<6} {voice:<20} {'SILENT' if silent else 'told':<6} {statement} | {heard}", flush=True)
    return {level: _summed(found) for level, found in rows.items()}


def in_order(said: Sequence[str], voices: int, every: int, by_voice: bool) -> list[tuple[int, int, str]]:
    """(number of the voice, number of the statement, statement), those of one voice together where that is asked."""
    chosen = list(enumerate(said))[::every]
    rows = [((number * 5 + number // voices) % voices, number, statement) for number, statement in chosen]
    return sorted(rows, key=lambda row: row[0]) if by_voice else rows


def _summed(rows: list[dict[str, Any]]) -> dict[str, float]:
    exact = sum(row["exact"] for row in rows)
    return {
        "statements": len(rows),
        "word_error": sum(row["errors"] for row in rows) / sum(row["words"] for row in rows),
        "exact_share": exact / len(rows),
        "silent_share": sum(row["silent"] for row in rows) / len(rows),
        "read_back_share": sum(row["asked"] for row in rows) / max(1, exact),
        "never": sum(math.isinf(row["work_s"]) for row in rows),
    } | {key: sorted(row[key] for row in rows)[len(rows) * 95 // 100] for key in TIMES}


def pooled(reached: dict[str, dict[str, float]]) -> dict[str, float]:
    """All levels of a sample taken together: at one of them a single statement of seventeen moves a share by 0.06."""
    total = sum(found["statements"] for found in reached.values())
    shares = ("exact_share", *FALLING)
    return {"statements": total} | {
        key: sum(found[key] * found["statements"] for found in reached.values()) / total for key in shares
    }


def lift_floors(reached: dict[str, dict[str, float]], corpus: str) -> None:
    """Write the better of the old floors and what was reached. corpus: "all", or "sample" for every sixth statement,
    whose floor lies one statement below."""
    floors = tomllib.loads(FLOORS.read_text(encoding="utf-8")) if FLOORS.is_file() else {}
    for level, found in reached.items():
        was = floors.setdefault(corpus, {}).get(level, {})
        play = 1 / found["statements"] if corpus == "sample" else 0.0
        best = {key: min(was.get(key, 1.0), math.ceil((found[key] + play) * 1000) / 1000) for key in FALLING}
        exact = max(was.get("exact_share", 0.0), math.floor((found["exact_share"] - play) * 1000) / 1000)
        floors[corpus][level] = {"exact_share": exact, **best}
    lines = ["# What spoken statements reach. exact_share may only rise, silent_share and word_error only fall."]
    for name, levels in floors.items():
        for level, values in levels.items():
            lines += ["", f'[{name}."{level}"]', *(f"{key} = {value}" for key, value in values.items())]
    FLOORS.write_text("\n".join(lines) + "\n", encoding="utf-8")


def main(words: list[str]) -> None:
    every = int(words[words.index("--every") + 1]) if "--every" in words else 1
    lists = {
        "--fresh": "statements_fresh",
        "--unseen": "statements_unseen",
        "--seen": "statements_seen",
        "--held": "statements_held",
        "--spare": "statements_spare",
    }
    corpus = next((name for asked, name in lists.items() if asked in words), "statements")
    asked = words[words.index("--levels") + 1].split(",") if "--levels" in words else [""]
    levels = [level for level in LEVELS if level.startswith(tuple(asked))]
    voices = HARD if "--hard" in words else VOICES
    taught = int(words[words.index("--taught") + 1]) if "--taught" in words else 0
    reached = measure(voices, every, "--quiet" not in words, corpus, levels, "--open" in words, taught)
    for level, found in reached.items():
        shown = "  ".join(f"{key} {value:.3f}" for key, value in found.items())
        print(f"{level:<6} {shown}")
    whole = voices is VOICES and corpus == "statements" and "--open" not in words and not taught
    if "--raise" in words and every in (1, SAMPLE) and whole:
        kept = {level: found for level, found in reached.items() if every == 1 or level in SAMPLED}
        lift_floors(kept if every == 1 else {"both": pooled(kept)}, "all" if every == 1 else "sample")


if __name__ == "__main__":
    main(sys.argv[1:])
