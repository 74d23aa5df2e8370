"""Where a speaker's own voice is kept: for each warp a tally of what was read aloud, and the means made from it."""

from __future__ import annotations

import shutil
from collections.abc import Iterable
from pathlib import Path

HEAD = 8  # bytes of a tally that tell how many lines are in it
_CHECK_SUM = len(b"chksum0 yes\n") + 4  # bytes that the general means may have and the speaker's have not


def tally_path(folder: Path, warp: float) -> Path:
    return folder / f"taught-{warp}.tally"


def means_path(folder: Path, warp: float) -> Path:
    return folder / f"taught-{warp}.means"


def means_of(folder: Path | None, warp: float, general: Path) -> Path | None:
    """The speaker's means, None where nothing was taught or the recogniser has another sound model now.

    general: the folder of that.
    """
    path = means_path(folder, warp) if folder else None
    if path is None or not path.is_file():
        return None
    return path if (general / "means").stat().st_size - path.stat().st_size in (0, _CHECK_SUM) else None


def lines_taught(folder: Path, warps: Iterable[float]) -> int:
    """How many lines were read so far: of the warps, the fewest."""
    return min((_lines_kept(folder, warp) for warp in warps), default=0)


def _lines_kept(folder: Path, warp: float) -> int:
    path = tally_path(folder, warp)
    if not path.is_file():
        return 0
    with path.open("rb") as file:
        return int.from_bytes(file.read(HEAD), "little")


def forget(folder: Path) -> None:
    """Remove everything that was taught."""
    if folder.is_dir():
        shutil.rmtree(folder)
