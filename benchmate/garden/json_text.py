"""JSON for people's screens as much as for programs."""

from __future__ import annotations

import datetime as dt
import json
from typing import Any

# json.dumps leaves these as they are, and a terminal may obey them: controls of the upper half, marks of direction
_OBEYED = {sign: f"\\u{sign:04x}" for sign in (*range(0x7F, 0xA0), *range(0x202A, 0x202F), *range(0x2066, 0x206A))}


def json_text(value: Any) -> str:
    """The value as JSON on one line, letters as they are, and nothing in it that a terminal would obey.

    Days and times of day, which a journal written by hand may hold anywhere, are told in ISO 8601.

    >>> json_text({"said": "Ahorn \\x9b31m"})
    '{"said": "Ahorn \\\\u009b31m"}'
    """
    return json.dumps(value, ensure_ascii=False, default=_day_or_time).translate(_OBEYED)


def _day_or_time(value: object) -> str:
    if isinstance(value, dt.date | dt.time):
        return value.isoformat()
    raise TypeError(f"a {type(value).__name__} cannot be told as JSON")
