"""The compiled rules as plain JSON, named by content and checked by digest. Never trusted, always rebuilt when in
doubt."""

from __future__ import annotations

import hashlib
import json
import os
from collections.abc import Callable, Iterable, Mapping
from pathlib import Path
from typing import Any

from benchmate.rulebase.fingerprint import content_mark, stat_mark
from benchmate.rulebase.where import RuleFolders
from benchmate.value import dataclass

Plain = dict[str, Any]

_PACKAGE = Path(__file__).resolve().parent.parent
# the code that gives compiled rules their shape: a change there makes them stale, as a change of the rules does
_COMPILERS = tuple(_PACKAGE / room for room in ("hearing", "practice", "rulebase"))


@dataclass(frozen=True, slots=True)
class CompiledStore:
    """The places where compiled rules may stand, the best first. Read from any of them, written to the first that may
    be written to; where none may, everything is built anew at each start."""

    places: tuple[Path, ...]

    @classmethod
    def beside(cls, garden: Path | None = None) -> CompiledStore:
        """The store beside the package, then that of the garden."""
        return cls((_PACKAGE / "compiled", *([garden / ".benchmate"] if garden else [])))

    def read(self, name: str) -> bytes | None:
        for place in self.places:
            try:
                return (place / name).read_bytes()
            except OSError:
                continue
        return None

    def write(self, name: str, body: bytes) -> None:
        """Whole or not at all: a reader never sees half a file, and a failure costs only the next start's time."""
        for place in self.places:
            # a folder beside the package may be made; a garden's folder is made only where the garden is
            if not place.parent.is_dir():
                continue
            draft = place / f".{name}.{os.getpid()}"
            try:
                place.mkdir(exist_ok=True)
                draft.write_bytes(body)
                os.replace(draft, place / name)
                return
            except OSError:
                _drop(draft)


def fingerprint(folders: RuleFolders, store: CompiledStore) -> str:
    """The name of what stands in the rule folders and of the code that compiles them.

    Sizes and times are compared with those of the last start; only where they differ are the files read.
    """
    stats = stat_mark(folders.all, ".toml") + stat_mark(_COMPILERS, ".py")
    places = hashlib.blake2b("\n".join(os.path.abspath(f) for f in folders.all).encode(), digest_size=6).hexdigest()
    stamp = f"stamp-{places}.json"
    known = _unseal(store.read(stamp), stats)
    if known is not None and isinstance(known.get("content"), str):
        return str(known["content"])
    content = content_mark(folders.all, ".toml") + content_mark(_COMPILERS, ".py")[:8]
    store.write(stamp, _seal({"content": content}, stats))
    return content


def compiled(name: str, folders: RuleFolders, store: CompiledStore, build: Callable[[], Mapping[str, Any]]) -> Plain:
    """The plain value called `name` for these folders: from the store where it is fresh and whole, else built and kept.

    build: gives a JSON-able value; it is not called on a warm start. What comes back has been through JSON either way,
    so that a cold start and a warm one cannot differ.
    """
    mark = fingerprint(folders, store)
    kept = _unseal(store.read(f"{name}-{mark}.json"), mark)
    if kept is not None:
        return kept
    body = _seal(dict(build()), mark)
    store.write(f"{name}-{mark}.json", body)
    _sweep(store, name, mark)
    value = _unseal(body, mark)
    assert value is not None
    return value


def _seal(value: Plain, mark: str) -> bytes:
    body = json.dumps(value, ensure_ascii=False, separators=(",", ":")).encode()
    return f"benchmate {mark} {hashlib.sha256(body).hexdigest()}\n".encode() + body


def _unseal(raw: bytes | None, mark: str) -> Plain | None:
    """The value inside, or None where the file is missing, foreign, stale, cut short or altered."""
    if raw is None:
        return None
    head, _, body = raw.partition(b"\n")
    if head != f"benchmate {mark} {hashlib.sha256(body).hexdigest()}".encode():
        return None
    try:
        value = json.loads(body)
    except ValueError:
        return None
    return value if isinstance(value, dict) else None


def _sweep(store: CompiledStore, name: str, mark: str, keep: int = 6) -> None:
    """Old forms go, the newest few stay: several gardens with rules of their own share one store."""
    for place in store.places:
        for old in _newest_first(place.glob(f"{name}-*.json"))[keep:]:
            if old.name != f"{name}-{mark}.json":
                _drop(old)


def _newest_first(paths: Iterable[Path]) -> list[Path]:
    def age(path: Path) -> float:
        try:
            return -path.stat().st_mtime
        except OSError:
            return 0.0

    return sorted(paths, key=age)


def _drop(path: Path) -> None:
    try:
        path.unlink()
    except OSError:
        return
