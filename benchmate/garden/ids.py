"""Ids of entries: the day and a random part, so that two devices that never met do not choose the same."""

from __future__ import annotations

import datetime as dt
import os
from collections.abc import Callable

_SIGNS = "0123456789abcdefghjkmnpqrstvwxyz"  # no i, l, o, u: not to be taken for a digit, and no words
_LENGTH = 6


def new_id(day: dt.date, taken: Callable[[str], bool]) -> str:
    """Such as "2026-06-14-k3f9x2": 30 random bits beside the day. taken: tells an id that is in use.

    The clock has no part in it, so that one that jumps back cannot give an id twice.
    """
    while True:
        own = f"{day:%Y-%m-%d}-" + "".join(_SIGNS[byte & 31] for byte in os.urandom(_LENGTH))
        if not taken(own):
            return own
