"""What could not be read in the garden's files, told where the answer rests on them: a record with a hole says so."""

from __future__ import annotations

from typing import TYPE_CHECKING

from benchmate.telling.lines import escape

if TYPE_CHECKING:
    from benchmate.garden import Garden

_MOST = 2  # faults that are told one by one


def unread_words(garden: Garden | None, told: set[str]) -> list[str]:
    """What is wrong in the files read so far and was not told before. told: what was; grows by what is told now."""
    if garden is None:
        return []
    new = [words for words in dict.fromkeys(map(str, garden.faults)) if words not in told]
    told.update(new)
    words = [f"not read, and lacking here: {escape(one)}" for one in new[:_MOST]]
    if (more := len(new) - _MOST) > 0:
        words.append(f"{more} more cannot be read: benchmate check tells {'it' if more == 1 else 'them'}")
    return words
