"""Words that were not taken in, from the garden's own list, with what would teach them."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

from benchmate.talk.house import MISSED, House

HOME = Path("rules", "words", "mishearings.toml")  # below the garden: laid over the built-in words
_WORD = re.compile(r"[^\W\d_]+(?:'[^\W\d_]+)*")


def missed_words(house: House) -> list[dict[str, Any]]:
    """Each word in GARDEN/.benchmate/missed.txt that is still unknown, the most frequent first: the word, how often it
    was said, one statement that held it, when that was, and the line that teaches it."""
    path = house.folder / ".benchmate" / MISSED if house.folder else None
    if path is None or not path.is_file():
        return []
    known = house.lexicon.known | set(house.lexicon.heard)
    found: dict[str, dict[str, Any]] = {}
    for line in path.read_text(encoding="utf-8", errors="replace").splitlines():
        day, _, rest = line.partition("\t")
        missed, _, said = rest.partition("\t")
        for word in _WORD.findall(missed.casefold()):
            if word in known:
                continue
            row = found.setdefault(word, {"word": word, "times": 0, "said": said, "last": day, "teach": ""})
            row["times"] += 1
            row["last"] = day
            row["teach"] = f'{json.dumps(word, ensure_ascii=False)} = ["..."]'
    return sorted(found.values(), key=lambda row: (-row["times"], row["word"]))
