"""Files in GARDEN/.benchmate: made from the plain files, faster to read, and free to be deleted at any time.

Plain JSON behind a line with its digest. What is damaged, of another make or not there is made again, never trusted.
What cannot be written is done without.
"""

from __future__ import annotations

import json
import os
import zlib
from contextlib import suppress
from pathlib import Path
from typing import Any

from benchmate import __version__
from benchmate.garden.disk import write_whole

FOLDER = ".benchmate"
_MAKE = f"benchmate-derived-3 {__version__}".encode()  # the number rises when what is derived changes its meaning
SETTLED_NS = 2_000_000_000  # two writes within one tick of a disk's clock look alike: a file is trusted when older


def read_derived(garden: Path, name: str) -> Any:
    """What `write_derived` kept under this name, or None."""
    try:
        head, _, body = (garden / FOLDER / name).read_bytes().partition(b"\n")
        return json.loads(body) if head == _head(body) else None
    except (OSError, ValueError, RecursionError):
        return None


def write_derived(garden: Path, name: str, value: Any) -> None:
    """Keep a value of plain lists, tables, words and numbers, where the garden lets itself be written to."""
    body = json.dumps(value, separators=(",", ":"), check_circular=False).encode()
    with suppress(OSError):
        folder = make_folder(garden)
        write_whole(folder / name, _head(body) + b"\n" + body, flush=False)


def make_folder(garden: Path) -> Path:
    """GARDEN/.benchmate, out of reach of git. Raises OSError, also where a link stands in its place."""
    folder = garden / FOLDER
    if folder.is_symlink():
        raise OSError(f"{folder} is a link")
    if not folder.is_dir():
        folder.mkdir()
    ignore = folder / ".gitignore"
    if not os.path.lexists(ignore):
        ignore.write_text("*\n", encoding="ascii", newline="\n")
    return folder


def _head(body: bytes) -> bytes:
    return b"%s %08x %d" % (_MAKE, zlib.crc32(body), len(body))
