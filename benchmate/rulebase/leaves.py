"""Large plain values kept as lines of JSON, each read when it is first looked at.

One statement needs thirty of three thousand beginnings of terms and thirty of six hundred rules; reading all of them
was a tenth of a start.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping, Sequence
from typing import Any, overload

Plain = dict[str, Any]
APART = 16_000  # characters of JSON from which on a table or a list is kept apart


class Leaves(Mapping[str, Any]):
    """A table whose values are still JSON."""

    def __init__(self, lines: dict[str, str]) -> None:
        self._lines = lines
        self._made: Plain = {}

    def get(self, key: str, default: Any = None) -> Any:
        made = self._made.get(key)
        if made is None:
            line = self._lines.get(key)
            if line is None:
                return default
            made = self._made[key] = json.loads(line)
        return made

    def __getitem__(self, key: str) -> Any:
        if key not in self._lines:
            raise KeyError(key)
        return self.get(key)

    def __contains__(self, key: object) -> bool:
        return key in self._lines

    def __iter__(self) -> Iterator[str]:
        return iter(self._lines)

    def __len__(self) -> int:
        return len(self._lines)


class Sheets(Sequence[Any]):
    """A list whose values are still JSON."""

    def __init__(self, lines: list[str]) -> None:
        self._lines = lines
        self._made: dict[int, Any] = {}

    @overload
    def __getitem__(self, number: int) -> Any: ...
    @overload
    def __getitem__(self, number: slice) -> list[Any]: ...
    def __getitem__(self, number: int | slice) -> Any:
        if isinstance(number, slice):
            return [self[one] for one in range(*number.indices(len(self)))]
        if number not in self._made:
            self._made[number] = json.loads(self._lines[number])
        return self._made[number]

    def __len__(self) -> int:
        return len(self._lines)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Sequence) and list(self) == list(other)

    __hash__ = None  # type: ignore[assignment]


def to_lines(value: Plain) -> str:
    """The value as JSON, a line for what is small and one for each member of what is kept apart."""
    plain: Plain = {}
    apart: list[tuple[str, list[str] | int]] = []
    lines: list[str] = []
    for name, held in value.items():
        members = list(held.values() if isinstance(held, dict) else held if isinstance(held, list) else ())
        if members and isinstance(members[0], dict | list) and len(_text(held)) >= APART:
            apart.append((name, list(held) if isinstance(held, dict) else len(held)))
            lines += map(_text, members)
        else:
            plain[name] = held
    return "\n".join([_text({"plain": plain, "apart": apart}), *lines])


def from_lines(text: str) -> Plain | None:
    """What `to_lines` was given, or None where the text is none of its making."""
    lines = text.split("\n")
    try:
        head = json.loads(lines[0])
        value: Plain = head["plain"]
        at = 1
        for name, members in head["apart"]:
            end = at + (members if isinstance(members, int) else len(members))
            own = lines[at:end]
            value[name] = Sheets(own) if isinstance(members, int) else Leaves(dict(zip(members, own, strict=True)))
            at = end
    except (ValueError, TypeError, KeyError):
        return None
    return value if at == len(lines) else None


def _text(value: Any) -> str:
    return json.dumps(value, ensure_ascii=False, separators=(",", ":"))
