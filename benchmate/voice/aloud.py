"""Answers said aloud by espeak-ng, where it is installed: cautions first, then the answer, in short sentences."""

from __future__ import annotations

import re
import shutil
import subprocess
from collections.abc import Sequence

PROGRAM = "espeak-ng"
WORDS_A_MINUTE = 150
GET_IT = "espeak-ng is not installed, so nothing can be said aloud; install it (Debian: apt install espeak-ng)"
NO_SOUND = (
    "no sound can be made here, so answers stand on the screen alone; connect a loudspeaker, or leave --speak out"
)
MOST = 6  # sentences; the screen has the rest
_SENTENCE = re.compile(r"(?<=[.!?;])\s+")
_SIGNS = str.maketrans({"·": ",", "•": ",", "–": "-", "—": "-", "[": "", "]": "", "|": ",", "*": ""})


def can_speak() -> bool:
    """Whether espeak-ng is there."""
    return shutil.which(PROGRAM) is not None


def sentences_aloud(cautions: Sequence[str], answer: Sequence[str], most: int = MOST) -> list[str]:
    """What is said, in order: every caution, then as much of the answer as fits into `most` sentences.

    >>> sentences_aloud(["Sap is an irritant."], ["Wait until autumn; the tree is weak.", "More on the screen."], 3)
    ['Sap is an irritant.', 'Wait until autumn;', 'the tree is weak.']
    """
    first = [sentence for text in cautions for sentence in _sentences(text)]
    rest = [sentence for text in answer for sentence in _sentences(text)]
    return [*first, *rest[: max(1, most - len(first))]]


def _sentences(text: str) -> list[str]:
    plain = " ".join(text.translate(_SIGNS).split())
    return [sentence for sentence in _SENTENCE.split(plain) if any(letter.isalnum() for letter in sentence)]


def say_aloud(sentences: Sequence[str], voice: str = "en") -> bool:
    """Say the sentences and wait until they are said. False where espeak-ng is missing or fails; nothing is raised.

    Without a sound card espeak-ng ends as if all were well and says so in its last line alone.

    The words go in on standard input, so that none of them can be taken for an option or a command.
    """
    program = shutil.which(PROGRAM)
    if program is None or not sentences:
        return False
    try:
        done = subprocess.run(
            [program, "-v", voice, "-s", str(WORDS_A_MINUTE), "--stdin"],
            input="\n".join(sentences).encode(),
            stdout=subprocess.DEVNULL,
            stderr=subprocess.PIPE,
            timeout=60,
            check=False,
        )
    except (OSError, subprocess.TimeoutExpired):
        return False
    told = done.stderr.decode(errors="replace").splitlines()
    return done.returncode == 0 and not (told and told[-1].lower().startswith("error"))
