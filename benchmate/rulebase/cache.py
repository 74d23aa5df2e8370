"""The compiled rules as plain JSON, named by content and checked by digest. Never trusted, always rebuilt when in
doubt."""

from __future__ import annotations

import hashlib
import os
from collections.abc import Callable, Iterable, Iterator, Mapping
from pathlib import Path
from typing import Any

from benchmate.rulebase.fingerprint import Looks, content_mark, looks
from benchmate.rulebase.leaves import from_lines, to_lines
from benchmate.rulebase.where import RuleFolders
from benchmate.value import dataclass

Plain = dict[str, Any]

_PACKAGE = Path(__file__).resolve().parent.parent
# the code that gives compiled rules their shape: a change there makes them stale, as a change of the rules does
_COMPILERS = tuple(_PACKAGE / room for room in ("hearing", "practice", "rulebase", "planning"))
_CODE = (".py", ".lark")
_CODE_ROOMS = tuple((room, _CODE) for room in _COMPILERS)
_CODE_AT_START: dict[str, str] = {}
# The stamp that an installed copy came with: times differ wherever it is installed, names and sizes do not. It lies
# deep because a wheel is packed and unpacked with what lies deep last, and no other file may be younger.
SHIPPED = "stamp/last/shipped.json"


@dataclass(frozen=True, slots=True)
class CompiledStore:
    """The places where compiled rules may stand, the best first. Read from any of them, written to the first that may
    be written to; where none may, everything is built anew at each start."""

    places: tuple[Path, ...]

    @classmethod
    def beside(cls, garden: Path | None = None) -> CompiledStore:
        """The store beside the package, then that of the garden."""
        return cls((_PACKAGE / "compiled", *([garden / ".benchmate"] if garden else [])))

    def read(self, name: str, mark: str) -> Plain | None:
        """The first value of that name that is whole and bears the mark: a damaged file hides no good one."""
        return next(filter(None, (_unseal(raw, name, mark) for raw in self._found(name))), None)

    def _found(self, name: str) -> Iterator[bytes]:
        for place in self.places:
            try:
                yield (place / name).read_bytes()
            except OSError:
                continue

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

    Sizes and times are compared with those of the last start; only where they differ are the files read. A process
    whose code was replaced on disk while it ran (an upgrade under an open talk) goes on under names of its own: what it
    compiles has the old shape.
    """
    code = looks(_CODE_ROOMS).mark
    if _CODE_AT_START.setdefault("mark", code) != code:
        old = hashlib.blake2b(_CODE_AT_START["mark"].encode(), digest_size=4).hexdigest()
        return content_mark(folders.all, ".toml") + old
    seen = _looks(folders)
    places = hashlib.blake2b("\n".join(os.path.abspath(f) for f in folders.all).encode(), digest_size=6).hexdigest()
    stamp = f"stamp-{places}.json"
    known = store.read(stamp, seen.mark) or _as_shipped(folders, store, seen)
    if known is not None and isinstance(known.get("content"), str):
        return str(known["content"])
    content = _content(folders)
    store.write(stamp, _seal({"content": content}, stamp, seen.mark))
    return content


def shipped_stamp(folders: RuleFolders) -> tuple[str, bytes]:
    """(content, stamp) for a copy that is to be installed elsewhere, with its rules inside the package."""
    content = _content(folders)
    return content, _seal({"content": content}, SHIPPED, _looks(folders).sizes)


def compiled(
    name: str, folders: RuleFolders, store: CompiledStore, build: Callable[[], Mapping[str, Any]], mark: str = ""
) -> Plain:
    """The plain value called `name` for these folders: from the store where it is fresh and whole, else built and kept.

    build: gives a JSON-able value; it is not called on a warm start. mark: the fingerprint, where it is known. What
    comes back has been through JSON either way, so that a cold start and a warm one cannot differ.
    """
    mark = mark or fingerprint(folders, store)
    file = f"{name}-{mark}.json"
    kept = store.read(file, mark)
    if kept is not None:
        return kept
    body = _seal(dict(build()), file, mark)
    # rules that were edited while a talk went on must not be kept under the name of what they were
    if fingerprint(folders, store) == mark:
        store.write(file, body)
        _sweep(store, name, mark)
    value = _unseal(body, file, mark)
    assert value is not None
    return value


def _looks(folders: RuleFolders) -> Looks:
    return looks([*((folder, ".toml") for folder in folders.all), *_CODE_ROOMS])


def _content(folders: RuleFolders) -> str:
    return content_mark(folders.all, ".toml") + content_mark(_COMPILERS, _CODE)[:8]


def _as_shipped(folders: RuleFolders, store: CompiledStore, seen: Looks) -> Plain | None:
    """The stamp of an installed copy that nobody has touched: all names and sizes are as they were shipped, and no file
    changed after the stamp itself was installed, which comes last."""
    place = _PACKAGE / "compiled"
    if folders.all != (_PACKAGE / "rules",) or place not in store.places:
        return None
    try:
        told = (place / SHIPPED).stat()
    except OSError:
        return None
    if seen.newest_ns > max(told.st_mtime_ns, told.st_ctime_ns):
        return None
    return CompiledStore((place,)).read(SHIPPED, seen.sizes)


def _seal(value: Plain, name: str, mark: str) -> bytes:
    body = to_lines(value).encode()
    return f"benchmate {name} {mark} {hashlib.sha256(body).hexdigest()}\n".encode() + body


def _unseal(raw: bytes, name: str, mark: str) -> Plain | None:
    """The value inside, or None where the file is foreign, stale, cut short, altered or under another's name."""
    head, _, body = raw.partition(b"\n")
    if head != f"benchmate {name} {mark} {hashlib.sha256(body).hexdigest()}".encode():
        return None
    try:
        return from_lines(body.decode())
    except UnicodeDecodeError:
        return None


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
