"""Photographs spoken of by their file's name: "photo front-bare.jpg", "new leaves, april.png"."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Sequence

from benchmate.garden.record import Entry
from benchmate.value import replace

_FILE = r"(?<![^\s(\"':])(?:[\w-]+/)*\w[\w.-]*\.(?:jpe?g|png|heic|heif|webp|gif|tiff?|avif)(?=[\s,;:.!?)\"']|$)"


def photographs(words: str) -> list[str]:
    """Names of picture files below the tree's folder, in the order in which they are said.

    >>> photographs("photo front-bare.jpg, and leaves/april.PNG")
    ['front-bare.jpg', 'leaves/april.PNG']
    """
    return re.findall(_FILE, words, re.IGNORECASE) if "." in words else []


def without_photographs(words: str) -> str:
    """The words with blanks in place of the names, as long as before, so that places in the words stay the same."""
    return re.sub(_FILE, lambda match: " " * len(match.group()), words, flags=re.IGNORECASE)


def with_photographs(entries: Sequence[Entry], words: str, on: dt.date) -> list[Entry]:
    """The entries with the photographs that are said: the first one's in the first entry, each further in a note."""
    names = photographs(words)
    if not names:
        return list(entries)
    out = list(entries) or [Entry("", on, "note", words)]
    out[0] = replace(out[0], photo=names[0])
    return out + [Entry("", on, "note", words, photo=name) for name in names[1:]]
